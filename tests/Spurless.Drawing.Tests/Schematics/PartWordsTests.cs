using System.Globalization;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Drawing.Schematics;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Schematics;

/// <summary>Values of parts as they are printed, over all decades: read back to four figures, with the prefix of the trade.</summary>
public sealed class PartWordsTests
{
    private static readonly Gen<double> _value = Gen.OneOf<double>(
        Gen.Double[-14.5, 11.5], Gen.OneOf(-9.00001, -8.99999, -12, -6, 0, 3, 2.99999, -0.0000001)).Select(static p => Math.Pow(10, p));

    [Fact]
    public void Engineering_of_any_value_reads_back_to_four_figures() => Gen.Select(
        _value, Gen.OneOf("F", "H", "\u03A9", "m", "Hz"), Gen.Bool).Sample(static (magnitude, unit, negative) =>
        {
            double value = negative ? -magnitude : magnitude;
            string text = PartWords.Engineering(value, unit);
            string[] parts = text.Split(' ');
            string prefix = parts[1][..^unit.Length];
            double scale = prefix switch
            {
                "f" => 1e-15,
                "p" => 1e-12,
                "n" => 1e-9,
                "\u00B5" => 1e-6,
                "m" => 1e-3,
                "" => 1,
                "k" => 1e3,
                "M" => 1e6,
                "G" => 1e9,
                _ => double.NaN,
            };

            // Down to the femto (of farads the pico), where the last of three decimals stands.
            double least = unit == "F" ? 0.5e-15 : 0.5e-18;
            Assert.Equal(value, scale * double.Parse(parts[0], CultureInfo.InvariantCulture), (0.00051 * magnitude) + least);
            double figure = Math.Abs(double.Parse(parts[0], CultureInfo.InvariantCulture));
            Assert.True(figure < 1000 || prefix == "G", text);
            Assert.True(figure >= 1 || prefix == (unit == "F" ? "p" : "f"), text);
            Assert.DoesNotContain("-0 ", text, StringComparison.Ordinal);
        });

    [Fact]
    public void Engineering_keeps_the_order_of_values() => Gen.Select(_value, _value).Sample(static (a, b) =>
    {
        double Read(double v)
        {
            string[] parts = PartWords.Engineering(v, "H").Split(' ');
            double scale = parts[1][..^1] switch
            {
                "f" => 1e-15,
                "p" => 1e-12,
                "n" => 1e-9,
                "\u00B5" => 1e-6,
                "m" => 1e-3,
                "" => 1,
                "k" => 1e3,
                "M" => 1e6,
                _ => 1e9,
            };
            return scale * double.Parse(parts[0], CultureInfo.InvariantCulture);
        }

        Assert.True(Read(Math.Min(a, b)) <= Read(Math.Max(a, b)) * (1 + 1e-12));
    });

    [Fact]
    public void Every_part_of_every_circuit_has_a_kind_a_value_and_a_place()
    {
        foreach (Part part in Topologies.Names.SelectMany(static n => Topologies.Of(n).Parts))
        {
            Assert.NotEqual("part", PartWords.Kind(part));
            Assert.NotEqual("", PartWords.Value(part));
            Assert.NotEqual("", PartWords.Where(part));
            Assert.DoesNotContain(
                "NaN", PartWords.Value(part) + PartWords.Loss(part) + PartWords.Tolerance(part), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void What_is_not_known_says_so()
    {
        Capacitor c = new() { Name = "C1", From = "a", To = "b", Capacitance = PartValue.Unknown(1e-12, 2e-12) };
        Assert.Equal("unknown", PartWords.Value(c));
        Assert.Equal("none stated", PartWords.Loss(c));
        Assert.Equal("", PartWords.Tolerance(c));
        Assert.Equal("5 %", PartWords.Tolerance(c with { Tolerance = PartTolerance.Uniform(0.05) }));
        Assert.Equal("2 % normal", PartWords.Tolerance(c with { Tolerance = PartTolerance.Normal(0.02) }));
        Assert.Equal("E24", PartWords.Tolerance(c with { Tolerance = PartTolerance.Series(24) }));
    }
}
