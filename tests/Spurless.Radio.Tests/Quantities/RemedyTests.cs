using System.Globalization;
using Spurless.Radio.Quantities;

namespace Spurless.Radio.Tests.Quantities;

/// <summary>
/// What a refusal says to write instead can be written: every remedy, every bound that it names and every unit that it lists is tried on
/// the reader that said it. And every unit of a quantity is the same quantity by the prefixes of the SI (SI Brochure, table 7).
/// </summary>
public sealed class RemedyTests
{
    private delegate bool Reader<T>(string text, out T value, out string problem);

    private sealed record Kind(Func<string, string?> Problem, Func<string, double> Si, string[] Units, SenseRange? Range = null);

    private static readonly Dictionary<string, Kind> Kinds = new()
    {
        ["Frequency"] = Of<Frequency>(Frequency.TryParse, static f => f.Hertz, ["Hz", "kHz", "MHz", "GHz"]),
        ["Frequency above 0"] = Of<Frequency>(Frequency.TryParsePositive, static f => f.Hertz, ["Hz", "kHz", "MHz", "GHz"]),
        ["Level"] = Of<Level>(
            Level.TryParse, static l => l.Dbm, ["dBm", "dBW", "dBuV pd", "dBuV emf", "uV pd", "uV emf", "mV pd"], Level.Range),
        ["Sensitivity"] = Of<Sensitivity>(Sensitivity.TryParse, static s => s.Level.Dbm, ["dBm", "uV pd", "uV emf", "dBuV pd"]),
        ["Power"] = Of<Power>(Power.TryParse, static p => p.Watts, ["mW", "W", "kW", "MW"], Power.Range),
        ["Voltage"] = Of<Voltage>(Voltage.TryParse, static v => v.Volts, ["uV", "mV", "V", "kV"], Voltage.Range),
        ["Current"] = Of<Current>(Current.TryParse, static c => c.Amperes, ["pA", "nA", "uA", "mA", "A", "kA"], Current.Range),
        ["Decibels"] = Of<Decibels>(Decibels.TryParse, static d => d.Value, ["dB"], Decibels.Range),
        ["CarrierRatio"] = Of<CarrierRatio>(CarrierRatio.TryParse, static c => c.Dbc, ["dBc"], CarrierRatio.Range),
        ["NoiseFigure"] = Of<NoiseFigure>(NoiseFigure.TryParse, static n => n.Decibels, ["dB"], NoiseFigure.Range),
        ["NoiseDensity"] = Of<NoiseDensity>(NoiseDensity.TryParse, static n => n.DbcPerHertz, ["dBc/Hz"], NoiseDensity.Range),
        ["AntennaGain"] = Of<AntennaGain>(AntennaGain.TryParse, static g => g.Dbi, ["dBi", "dBd"], AntennaGain.Range),
        ["Length"] = Of<Length>(Length.TryParse, static l => l.Metres, ["nm", "mm", "cm", "m", "km", "ft", "in"], Length.Range),
        ["Length above 0"] = Of<Length>(Length.TryParsePositive, static l => l.Metres, ["mm", "m", "km"]),
        ["Duration"] = Of<Duration>(Duration.TryParse, static d => d.Seconds, ["ps", "ns", "us", "ms", "s"], Duration.Range),
        ["Angle"] = Of<Angle>(Angle.TryParse, static a => a.Degrees, ["deg"]),
        ["Fraction"] = Of<Fraction>(Fraction.TryParse, static f => f.Value, ["%"], Fraction.Range),
        ["Inductance"] = Of<Inductance>(Inductance.TryParse, static l => l.Henries, ["fH", "pH", "nH", "uH", "mH", "H"], Inductance.Range),
        ["Capacitance"] = Of<Capacitance>(Capacitance.TryParse, static c => c.Farads, ["fF", "pF", "nF", "uF"], Capacitance.Range),
        ["Resistance"] = Of<Resistance>(
            Resistance.TryParse, static r => r.Ohms, ["nohm", "uohm", "mohm", "ohm", "kohm", "Mohm", "Gohm", "Tohm"], Resistance.Range),
        ["LossPerLength"] = Of<LossPerLength>(
            LossPerLength.TryParse, static l => l.DbPerMetre, ["dB/m", "dB/km", "dB/100m"], LossPerLength.Range),
    };

    public static TheoryData<string> Names => [.. Kinds.Keys];

    /// <summary>Both ends of the range that a refusal names are taken, and just beyond them nothing is.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Range_as_it_is_said_can_be_written(string name)
    {
        if (Kinds[name].Range is not { } range)
        {
            return;
        }

        string[] ends = range.Words["from ".Length..].Split(" to ");
        Assert.Equal(2, ends.Length);
        Assert.All(ends, end => Assert.Null(Kinds[name].Problem(end)));
        Assert.True(range.Least < range.Greatest);
    }

    /// <summary>A bare number is refused with a unit behind it that is then taken.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Remedy_of_a_missing_unit_is_taken(string name)
    {
        foreach (string number in (string[])["5", "0.5", "12.75", "1e1"])
        {
            if (Kinds[name].Problem(number) is not { } problem)
            {
                Assert.Equal("Angle", name); // degrees may stand bare
                continue;
            }

            Assert.StartsWith($"'{number}' has no unit; write ", problem, StringComparison.Ordinal);
            string remedy = problem[(problem.IndexOf("write ", StringComparison.Ordinal) + 6)..];
            string first = remedy.Split([" (", " or "], StringSplitOptions.None)[0];
            Assert.True(Kinds[name].Problem(first) is null, $"{name}: '{first}' of '{problem}' is refused too");
        }
    }

    /// <summary>A decimal comma is refused with a point in its place, where it cannot be a thousand's.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Remedy_of_a_decimal_comma_is_taken(string name)
    {
        foreach (string unit in (string[])[.. Kinds[name].Units.Where(static u => u != "Hz"), "furlong", "ppm"])
        {
            string problem = Kinds[name].Problem($"3,5 {unit}")!;
            int like = problem.IndexOf(" like ", StringComparison.Ordinal);
            string remedy = problem[(like < 0 ? problem.IndexOf("write ", StringComparison.Ordinal) + 6 : like + 6)..];
            Assert.True(Kinds[name].Problem(remedy) is null, $"{name}: '{problem}'");
        }
    }

    /// <summary>The wrong case of a unit is put right, or, where case tells units apart, never silently taken for another.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Remedy_of_a_unit_in_the_wrong_case_is_taken(string name)
    {
        foreach (string unit in Kinds[name].Units)
        {
            string turned = new([.. unit.Select(static c => char.IsUpper(c) ? char.ToLowerInvariant(c) : char.ToUpperInvariant(c))]);
            string text = $"5 {turned}";
            if (turned == unit || Kinds[name].Problem(text) is not { } problem)
            {
                continue;
            }

            Assert.Contains("; ", problem, StringComparison.Ordinal);
            int at = problem.IndexOf("not known; write ", StringComparison.Ordinal);
            if (at >= 0)
            {
                string remedy = problem[(at + "not known; write ".Length)..];
                Assert.True(Kinds[name].Problem(remedy) is null, $"{name}: '{remedy}' of '{problem}' is refused too");
            }
        }
    }

    /// <summary>Of a unit of another kind every unit that is listed is taken, and so is the example.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Units_that_are_listed_are_taken(string name)
    {
        string problem = Kinds[name].Problem("5 furlong")!;
        int list = problem.IndexOf("(units: ", StringComparison.Ordinal);
        string example = problem[(problem.IndexOf(" like ", StringComparison.Ordinal) + 6)..(list < 0 ? problem.Length : list)].Trim();
        Assert.True(Kinds[name].Problem(example) is null, $"{name}: '{example}' of '{problem}'");
        if (list >= 0)
        {
            foreach (string unit in problem[(list + 8)..].TrimEnd(')').Split(", "))
            {
                // A voltage without pd or emf and a gain in plain dB stand in the list to be asked about; five of the largest may be
                // too many.
                string? said = Kinds[name].Problem($"5 {unit}");
                Assert.True(said is null || said.Contains("does not say where the voltage stands", StringComparison.Ordinal)
                    || said.Contains("does not say over what", StringComparison.Ordinal)
                    || said.Contains("beyond all sense", StringComparison.Ordinal)
                    || said.Contains("is too high", StringComparison.Ordinal), $"{name}: {said}");
            }
        }
    }

    /// <summary>One quantity in every unit: so many of the smaller as the prefixes say.</summary>
    [Theory]
    [InlineData("Frequency", "Hz", "Hz")]
    [InlineData("Power", "W", "W")]
    [InlineData("Voltage", "V", "V")]
    [InlineData("Current", "A", "A")]
    [InlineData("Duration", "s", "s")]
    [InlineData("Inductance", "H", "H")]
    [InlineData("Capacitance", "F", "F")]
    [InlineData("Resistance", "ohm", "ohm")]
    public void Prefixes_are_those_of_the_SI(string name, string unit, string bare)
    {
        Dictionary<string, int> prefixes = new()
        {
            ["f"] = -15,
            ["p"] = -12,
            ["n"] = -9,
            ["u"] = -6,
            ["m"] = -3,
            [""] = 0,
            ["k"] = 3,
            ["M"] = 6,
            ["G"] = 9,
            ["T"] = 12,
        };
        int tried = 0;
        foreach ((string prefix, int power) in prefixes)
        {
            foreach (decimal number in (decimal[])[1m, 2.5m, 470m, 0.125m])
            {
                string text = string.Create(CultureInfo.InvariantCulture, $"{number} {prefix}{unit}");
                if (Kinds[name].Problem(text) is null)
                {
                    double expected = (double)number * Math.Pow(10, power);
                    Assert.Equal(expected, Kinds[name].Si(text), Math.Abs(expected) * 1e-15);
                    string plain = string.Create(CultureInfo.InvariantCulture, $"{number}e{power} {bare}");
                    Assert.Equal(Kinds[name].Si(plain), Kinds[name].Si(text));
                    tried++;
                }
            }
        }

        Assert.True(tried >= 12, $"{name}: {tried} texts were taken");
    }

    private static Kind Of<T>(Reader<T> reader, Func<T, double> si, string[] units, SenseRange? range = null) => new(
        text => reader(text, out _, out string problem) ? null : problem,
        text => reader(text, out T value, out string problem) ? si(value) : throw new FormatException(problem),
        units,
        range);
}
