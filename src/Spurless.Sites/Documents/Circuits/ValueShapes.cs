using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.Json.Nodes;
using Spurless.Circuits.Parts;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents.Circuits;

/// <summary>One physical kind of value: how it is written, and its number in SI units.</summary>
internal sealed class ValueKind
{
    private ValueKind(string example, string noun, TextParser<double> parser, Func<JsonObject>? number = null)
    {
        Example = example;
        Known = Shapes.Value($"{noun} such as {example}", parser);
        KnownOrUnknown = Shapes.Value<double?>(
            $"{noun} such as {example}, or unknown",
            (string text, out double? value, out string problem) =>
            {
                value = null;
                problem = "";
                if (text == "unknown")
                {
                    return true;
                }

                bool read = parser(text, out double number, out problem);
                value = read ? number : null;
                return read;
            });
        if (number is not null)
        {
            Known = new DescribedShape<double>(Known, number);
            KnownOrUnknown = new DescribedShape<double?>(
                KnownOrUnknown, () => new JsonObject { ["anyOf"] = new JsonArray(number(), new JsonObject { ["const"] = "unknown" }) });
        }
    }

    public static ValueKind Inductance { get; } = Of<Inductance>(
        "24 nH", "an inductance", Radio.Quantities.Inductance.TryParse, static q => q.Henries);

    public static ValueKind Capacitance { get; } = Of<Capacitance>(
        "27 pF", "a capacitance", Radio.Quantities.Capacitance.TryParse, static q => q.Farads);

    public static ValueKind Resistance { get; } = Of<Resistance>(
        "10 ohm", "a resistance", Radio.Quantities.Resistance.TryParse, static q => q.Ohms);

    public static ValueKind Length { get; } = Of<Length>("0.34 m", "a length", Radio.Quantities.Length.TryParse, static q => q.Metres);

    public static ValueKind Wire { get; } = Of<Length>("1 mm or 18 AWG", "a wire's diameter", WireDiameter.TryParse, static q => q.Metres);

    public static ValueKind Coefficient { get; } = new(
        "0.02",
        "a plain number between -1 and 1",
        static (string text, out double value, out string problem) =>
        {
            bool read = double.TryParse(
                text, NumberStyles.Float & ~NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out value);
            problem = $"'{Quote.Short(text)}' is no coupling coefficient; write a plain number between -1 and 1, such as 0.02";
            return read && Math.Abs(value) < 1;
        },
        static () => new JsonObject { ["type"] = "number", ["exclusiveMinimum"] = -1, ["exclusiveMaximum"] = 1 });

    public string Example { get; }

    /// <summary>A value above 0 (a coefficient: between -1 and 1).</summary>
    public Shape<double> Known { get; }

    /// <summary>The same, or the word unknown, which is null.</summary>
    public Shape<double?> KnownOrUnknown { get; }

    /// <summary>Least and greatest value for an unknown.</summary>
    public Shape<Located<IReadOnlyList<double>>> Range => Shapes.ListOf(Known, 2, 2).WithPlace();

    /// <summary>Puts a value and its range together, and reports a range that has nothing to bound.</summary>
    public PartValue Combine(MappingReader reader, double? value, bool valueRead, Located<IReadOnlyList<double>>? range)
    {
        if (range is not null && value is not null)
        {
            range.Error(reader.Diagnostics, "a range beside a known value", "write the value as unknown, or leave the range out");
        }

        if (range is { Value: [double low, double high] })
        {
            if (low >= high)
            {
                range.Error(
                    reader.Diagnostics,
                    "the range's first value is not below its second",
                    $"write the least value first, as in [{Example}, a larger one]");
            }
            else if (valueRead && value is null)
            {
                return PartValue.Unknown(low, high);
            }
        }

        return value is { } known ? PartValue.Known(known) : PartValue.Unknown();
    }

    private static ValueKind Of<T>(string example, string noun, TextParser<T> parser, Func<T, double> si) => new(
        example,
        noun,
        (string text, out double value, out string problem) =>
        {
            value = 0;
            if (!parser(text, out T quantity, out problem))
            {
                return false;
            }

            value = si(quantity);
            problem = $"'{Quote.Short(text)}' is not above 0; write {noun} such as {example}";
            return value > 0;
        });
}

/// <summary>A place whose schema is not that of its reader: a plain number that is read as text.</summary>
internal sealed class DescribedShape<T>(Shape<T> inner, Func<JsonObject> schema) : Shape<T>
{
    public override string Wanted => inner.Wanted;

    public override JsonObject Describe()
    {
        JsonObject described = schema();
        described["description"] = Wanted;
        return described;
    }

    public override bool TryRead(YamlNode node, DiagnosticBag diagnostics, [MaybeNullWhen(false)] out T value) =>
        inner.TryRead(node, diagnostics, out value);
}

/// <summary>The keys that several kinds of part share.</summary>
internal static class PartShapes
{
    public static Shape<Located<IReadOnlyList<string>>> TwoNodes { get; } = Shapes.ListOf(Shapes.TextOf("a node's name"), 2, 2).WithPlace();

    public static Shape<PartLoss> Quality { get; } = Shapes.Value<PartLoss>(
        "a Q at a frequency such as 160 at 145.05 MHz",
        static (string text, out PartLoss value, out string problem) =>
        {
            const string Unknown = "unknown at ";
            value = null!;
            if (text.StartsWith(Unknown, StringComparison.Ordinal))
            {
                if (!Frequency.TryParsePositive(text[Unknown.Length..], out Frequency at, out problem))
                {
                    return false;
                }

                value = PartLoss.QualityFactor(PartValue.Unknown(), at.Hertz);
                return true;
            }

            if (!QualityAt.TryParse(text, out QualityAt q, out problem))
            {
                return false;
            }

            value = PartLoss.QualityFactor(q.Quality, q.Frequency.Hertz);
            return true;
        });

    public static Shape<PartLoss> SeriesResistance { get; } = Shapes.Value<Resistance>("a resistance such as 0.1 ohm", Resistance.TryParse)
        .Select(static r => PartLoss.SeriesResistance(r.Ohms));

    public static Shape<PartTolerance> Tolerance { get; } = Shapes.Value<PartTolerance>(
        "a tolerance such as 5 %, 5 % normal or E24", TryTolerance);

    public static Shape<double> About { get; } = Shapes.Value<Fraction>("a share such as 10 %", Fraction.TryParse)
        .Check(
            static f => f.Value > 0 ? null : new Refusal(
                "a share that is not above 0 %", "write one sigma, such as 10 %")).Select(static f => f.Value);

    public static Shape<PartRating> Rated { get; } = Shapes.OneOrMany(
        Shapes.Value<PartRating>("a rating such as 50 V, 1 W or 2 A", TryRating))
        .Check(static all => all.Count(static r => r.PeakVoltageV is not null) > 1
            || all.Count(static r => r.PowerW is not null) > 1
            || all.Count(static r => r.CurrentA is not null) > 1
            ? new Refusal("two ratings of one kind", "keep one of them")
            : null)
        .Select(static all => new PartRating(
            all.Select(static r => r.PeakVoltageV).FirstOrDefault(static v => v is not null),
            all.Select(static r => r.PowerW).FirstOrDefault(static v => v is not null),
            all.Select(static r => r.CurrentA).FirstOrDefault(static v => v is not null)));

    internal static bool TryTolerance(string text, out PartTolerance value, out string problem)
    {
        value = null!;
        problem = "";
        switch (text)
        {
            case "E3" or "E6" or "E12" or "E24" or "E48" or "E96" or "E192":
                value = PartTolerance.Series(int.Parse(text.AsSpan(1), CultureInfo.InvariantCulture));
                return true;
        }

        string[] words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        string? shape = words.Length > 1 && words[^1] is "normal" or "uniform" ? words[^1] : null;
        string share = shape is null ? text : text[..text.LastIndexOf(shape, StringComparison.Ordinal)];
        if (!Fraction.TryParse(share.Trim(), out Fraction fraction, out problem))
        {
            problem = $"'{Quote.Short(text)}' is no tolerance; write 5 %, 5 % normal (then it is two sigma), or a series such as E24";
            return false;
        }

        if (fraction.Value is < 0 or >= 1)
        {
            problem = $"'{Quote.Short(text)}' is no tolerance; write 0 % to below 100 %";
            return false;
        }

        value = shape == "normal" ? PartTolerance.Normal(fraction.Value) : PartTolerance.Uniform(fraction.Value);
        return true;
    }

    private static bool TryRating(string text, out PartRating value, out string problem)
    {
        value = null!;
        problem = $"'{Quote.Short(text)}' is no rating; write volts (peak), watts or amperes (rms) above 0, such as 50 V, 1 W or 2 A";
        if (Voltage.TryParse(text, out Voltage voltage, out _) && voltage.Volts > 0)
        {
            value = new PartRating(PeakVoltageV: voltage.Volts);
        }
        else if (Current.TryParse(text, out Current current, out _) && current.Amperes > 0)
        {
            value = new PartRating(CurrentA: current.Amperes);
        }
        else if (Power.TryParse(text, out Power power, out _) && !text.Contains("dB", StringComparison.Ordinal))
        {
            value = new PartRating(PowerW: power.Watts);
        }

        return value is not null;
    }
}
