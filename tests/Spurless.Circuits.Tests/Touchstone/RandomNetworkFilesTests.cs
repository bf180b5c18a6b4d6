using System.Globalization;
using System.Numerics;
using System.Text;
using CsCheck;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;
using static Spurless.Circuits.Tests.Touchstone.TouchstoneFiles;

namespace Spurless.Circuits.Tests.Touchstone;

/// <summary>
/// One random network, written in every way that the format has (Touchstone File Format Specification 1.1 and 2.0: kinds of parameters,
/// normalised in version 1 and plain in version 2, three number formats, four units, both orders, triangles) by a writer of the test's own,
/// reads as its S-parameters. The conversions are the textbook's, element by element.
/// </summary>
public sealed class RandomNetworkFilesTests
{
    private static readonly string[] _units = ["Hz", "kHz", "MHz", "GHz"];
    private static readonly string[] _formats = ["RI", "MA", "DB"];
    private static readonly string[] _kinds = ["S", "Z", "Y", "H", "G"];

    private static readonly Gen<Complex> _part = Gen.Select(Gen.Double[-80, 80], Gen.Double[-80, 80]).Select((a, b) => new Complex(a, b));

    /// <summary>Impedance matrices with enough resistance that every description exists.</summary>
    private static readonly Gen<Complex[]> _network = _part.Array[4].Select(static z =>
        new[] { z[0] + 150, z[1], z[2], z[3] + 150 });

    [Fact]
    public void Read_of_version_1_in_every_kind_and_format_is_the_network() =>
        Gen.Select(_network, Gen.Double[10, 200], Gen.Int[0, 1_000_000], Gen.Int[1, 999_999]).Sample((z, ohm, seed, khz) =>
        {
            Random random = new(seed);
            ohm = Math.Round(ohm, 3);
            foreach (string kind in _kinds)
            {
                string format = _formats[random.Next(3)];
                int unit = random.Next(4);
                Complex[] p = Described(z, kind, ohm, ohm);
                Complex[] normalised = kind switch
                {
                    "Z" => [.. p.Select(x => x / ohm)],
                    "Y" => [.. p.Select(x => x * ohm)],
                    "H" => [p[0] / ohm, p[1], p[2], p[3] * ohm],
                    "G" => [p[0] * ohm, p[1], p[2], p[3] / ohm],
                    _ => p,
                };
                StringBuilder file = new("! made for a test\r\n");
                file.Append(OptionLine(random, _units[unit], kind, format, ohm)).Append(random.Next(2) == 0 ? "\r\n" : "\n");
                file.Append(Hertz(khz * 1000L, unit)).Append(random.Next(2) == 0 ? "\t" : "  ");
                file.Append(string.Join(random.Next(2) == 0 ? "\t" : " ", new[] { 0, 2, 1, 3 }.Select(i => Pair(normalised[i], format))));
                file.Append(random.Next(2) == 0 ? " ! the only point\n" : "\n");
                TouchstoneData data = Good(file.ToString(), "any.s2p");
                Assert.Equal([khz * 1000.0], data.FrequenciesHz);
                Assert.Equal(new Complex(ohm, 0), data.References[0]);
                Near(Waves(z, ohm, ohm), data.Points[0], kind + " " + format);
            }
        });

    [Fact]
    public void Read_of_version_2_with_two_references_is_the_network() =>
        Gen.Select(_network, Gen.Double[10, 200], Gen.Double[10, 200], Gen.Int[0, 1_000_000]).Sample((z, first, second, seed) =>
        {
            Random random = new(seed);
            (first, second) = (Math.Round(first, 2), Math.Round(second, 2));
            foreach (string kind in _kinds)
            {
                // Hybrid parameters in two references are plain too: only the waves know a reference.
                string format = _formats[random.Next(3)];
                bool swapped = random.Next(2) == 0;
                Complex[] p = Described(z, kind, first, second);
                int[] order = swapped ? [0, 1, 2, 3] : [0, 2, 1, 3];
                string file = FormattableString.Invariant(
                    $"""
                    [Version] 2.0
                    # MHz {kind} {format} R 50
                    [Number of Ports] 2
                    [Two-Port Data Order] {(swapped ? "12_21" : "21_12")}
                    [Number of Frequencies] 1
                    [Reference] {first} {second}
                    [Matrix Format] Full
                    [Network Data]
                    145 {string.Join(' ', order.Select(i => Pair(p[i], format)))}
                    [End]

                    """);
                TouchstoneData data = Good(file, "any.ts");
                Assert.Equal([first, second], data.References.Select(static r => r.Real));
                Near(Waves(z, first, second), data.Points[0], kind + " " + format);
            }
        });

    [Fact]
    public void Read_of_a_triangle_is_the_whole_of_a_reciprocal_network() =>
        Gen.Select(_network, Gen.Bool, Gen.Int[0, 2]).Sample((z, lower, format) =>
        {
            z[2] = z[1];
            Complex[] p = Described(z, "S", 75, 75);
            int[] order = lower ? [0, 2, 3] : [0, 1, 3];
            string file = FormattableString.Invariant(
                $"""
                [Version] 2.0
                # GHz S {_formats[format]} R 75
                [Number of Ports] 2
                [Two-Port Data Order] 21_12
                [Number of Frequencies] 1
                [Matrix Format] {(lower ? "Lower" : "Upper")}
                [Network Data]
                0.145 {string.Join(' ', order.Select(i => Pair(p[i], _formats[format])))}
                [End]

                """);
            TouchstoneData data = Good(file, "any.ts");
            Near(Waves(z, 75, 75), data.Points[0], lower ? "lower" : "upper");
            Assert.Equal(data.Points[0].S12, data.Points[0].S21);
        });

    /// <summary>Columns that do not make whole points are refused at their line, whatever is missing.</summary>
    [Fact]
    public void Read_of_a_point_with_a_number_less_or_more_is_refused_where_it_stands() =>
        Gen.Select(_network, Gen.Int[0, 7], Gen.Bool).Sample((z, at, more) =>
        {
            Complex[] p = Described(z, "S", 50, 50);
            List<string> whole = [.. new[] { 0, 2, 1, 3 }.SelectMany(i => Pair(p[i], "RI").Split(' '))];
            List<string> broken = [.. whole];
            if (more)
            {
                broken.Insert(at, "0.5");
            }
            else
            {
                broken.RemoveAt(at);
            }

            (string good, string bad) = (string.Join(' ', whole), string.Join(' ', broken));
            string file = $"# MHz S RI R 50\n100 {good}\n101 {bad}\n102 {good}\n";
            Assert.Null(ReadText(file, "any.s2p", out DiagnosticBag bag));
            Diagnostic first = bag.InOrder().First(static d => d.Severity == Severity.Error);
            Assert.InRange(first.Line, 3, 4);
        });

    private static TouchstoneData Good(string text, string name)
    {
        TouchstoneData? data = ReadText(text, name, out DiagnosticBag bag);
        Assert.True(data is not null && !bag.HasErrors, string.Join('\n', bag.InOrder()) + "\n" + text);
        return data;
    }

    // The parts of an option line stand in any order and in any case.
    private static string OptionLine(Random random, string unit, string kind, string format, double ohm)
    {
        string[] parts = [unit, kind, format, "R " + ohm.ToString("R", CultureInfo.InvariantCulture)];
        random.Shuffle(parts);
        string line = "# " + string.Join(random.Next(2) == 0 ? " " : "\t", parts);
        return random.Next(3) switch { 0 => line.ToLowerInvariant(), 1 => line.ToUpperInvariant(), _ => line };
    }

    private static string Hertz(long hertz, int unit) =>
        ((decimal)hertz / (decimal)Math.Pow(1000, unit)).ToString(CultureInfo.InvariantCulture);

    private static string Pair(Complex value, string format)
    {
        double degrees = Math.Atan2(value.Imaginary, value.Real) / Math.PI * 180;
        double magnitude = Math.Sqrt((value.Real * value.Real) + (value.Imaginary * value.Imaginary));
        (double a, double b) = format switch
        {
            "RI" => (value.Real, value.Imaginary),
            "MA" => (magnitude, degrees),
            _ => (20 * Math.Log10(magnitude), degrees),
        };
        return FormattableString.Invariant($"{a:R} {b:R}");
    }

    /// <summary>
    /// S of an impedance matrix between real references, element by element: b over a with the currents eliminated by hand.
    /// </summary>
    private static Complex[] Waves(Complex[] z, double r1, double r2)
    {
        Complex d = ((z[0] + r1) * (z[3] + r2)) - (z[1] * z[2]);
        double root = 2 * Math.Sqrt(r1 * r2);
        return
        [
            (((z[0] - r1) * (z[3] + r2)) - (z[1] * z[2])) / d,
            root * z[1] / d,
            root * z[2] / d,
            (((z[0] + r1) * (z[3] - r2)) - (z[1] * z[2])) / d,
        ];
    }

    private static Complex[] Described(Complex[] z, string kind, double r1, double r2)
    {
        Complex det = (z[0] * z[3]) - (z[1] * z[2]);
        return kind switch
        {
            "Z" => z,
            "Y" => [z[3] / det, -z[1] / det, -z[2] / det, z[0] / det],
            "H" => [det / z[3], z[1] / z[3], -z[2] / z[3], 1 / z[3]],
            "G" => [1 / z[0], -z[1] / z[0], z[2] / z[0], det / z[0]],
            _ => Waves(z, r1, r2),
        };
    }

    private static void Near(Complex[] expected, ScatteringMatrix found, string how)
    {
        Complex[] all = [found.S11, found.S12, found.S21, found.S22];
        for (int i = 0; i < 4; i++)
        {
            Assert.True((expected[i] - all[i]).Magnitude < 1e-10, $"{how}, element {i}: {expected[i]} expected, {all[i]} read");
        }
    }
}
