using System.Numerics;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Drawing.Schematics;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Responses;

/// <summary>A plot of what is not known everywhere: a sweep that ends inside the picture, an open circuit on the chart.</summary>
public sealed class UnknownResponseTests
{
    private static ResponsePlotModel Half(params PlotDemand[] demands) => new()
    {
        Title = "gain",
        Quantity = static f => f <= 145e6 ? -10 : double.NaN,
        AxisTitle = "gain, dB",
        CurveName = "gain",
        FromHz = 140e6,
        ToHz = 150e6,
        Low = -40,
        High = 0,
        ChannelHz = 146e6,
        Marks = [new PlotMark(142e6, "A"), new PlotMark(148e6, "B")],
        Overlay = new PlotOverlay { Demands = demands },
    };

    [Fact]
    public void Draw_of_a_sweep_that_ends_says_a_figure_only_where_there_is_one()
    {
        Scene scene = ResponsePlotScene.Draw(Half(), 600);
        Assert.DoesNotContain("NaN", scene.Description, StringComparison.Ordinal);
        Assert.Contains("A at 142.0000 MHz -10.0", scene.Description, StringComparison.Ordinal);
        Assert.Contains("B at 148.0000 MHz not known", scene.Description, StringComparison.Ordinal);
        Assert.All(scene.Items.OfType<ScenePath>(), static p => Assert.DoesNotContain("NaN", p.Data, StringComparison.Ordinal));
        SceneChecks.NoTextMeetsAnother(scene);
    }

    [Fact]
    public void Draw_of_a_demand_where_nothing_is_known_does_not_call_it_kept()
    {
        Assert.Contains(
            "Every demand is kept.",
            ResponsePlotScene.Draw(Half(new PlotDemand(141e6, 142e6, -5, Below: true)), 600).Description,
            StringComparison.Ordinal);
        string unknown = ResponsePlotScene.Draw(
            Half(new PlotDemand(141e6, 142e6, -5, Below: true), new PlotDemand(147e6, 148e6, -5, Below: true)), 600).Description;
        Assert.DoesNotContain("Every demand is kept", unknown, StringComparison.Ordinal);
        Assert.Contains("Not known everywhere whether", unknown, StringComparison.Ordinal);
    }

    [Fact]
    public void Draw_of_a_demand_half_missed_says_by_how_much_and_where()
    {
        string missed = ResponsePlotScene.Draw(Half(new PlotDemand(141e6, 144e6, -20, Below: true)), 600).Description;
        Assert.Contains("Not kept: 10.0 dB short at 141.0000 MHz", missed, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, 0)]
    [InlineData(-1, 0)]
    [InlineData(0, 0)]
    public void Draw_of_an_open_or_a_short_circuit_says_it_in_words_or_figures(double real, double imaginary)
    {
        Scene scene = SmithScene.Draw(
            _ => new Complex(real, imaginary), 100e6, 200e6, 50, [new SmithMark(150e6, "150.00 MHz", true)], 420, "an end");
        Assert.DoesNotContain("NaN", scene.Description, StringComparison.Ordinal);
        Assert.DoesNotContain("\u221E", scene.Description, StringComparison.Ordinal);
        Assert.Contains(
            real == 1 ? "at 150.0 MHz an open circuit" : real == -1 ? "at 150.0 MHz 0 + j0 ohm" : "at 150.0 MHz 50 + j0 ohm",
            scene.Description,
            StringComparison.Ordinal);
        SceneChecks.AllInside(scene);
    }

    // Circles of constant resistance pass through the points of the chart's definition, (z - 1)/(z + 1).
    [Theory]
    [InlineData(0.2)]
    [InlineData(1)]
    [InlineData(5)]
    public void Smith_circles_of_resistance_hold_every_impedance_of_that_resistance(double r)
    {
        Scene scene = SmithScene.Draw(static _ => 0, 100e6, 200e6, 50, [], 420, "nothing");
        double radius = (420 / 2.0) - 34;
        SceneCircle circle = scene.Items.OfType<SceneCircle>().Single(
            c => c.Class.StartsWith("grid", StringComparison.Ordinal) && Math.Abs(c.Radius - (radius / (1 + r))) < 1e-9);
        foreach (double x in (double[])[-4, -0.7, 0, 0.3, 2])
        {
            Complex z = new(r, x), g = (z - 1) / (z + 1);
            PlotPoint at = new(210 + (radius * g.Real), radius + 18 - (radius * g.Imaginary));
            Assert.Equal(circle.Radius, double.Hypot(at.X - circle.X, at.Y - circle.Y), 1e-9);
        }
    }

    [Theory]
    [InlineData(999.96e-12, "F", "1 nF")]
    [InlineData(999.94e-12, "F", "999.9 pF")]
    [InlineData(99.96e-9, "H", "100 nH")]
    [InlineData(0.99999, "H", "1 H")]
    [InlineData(-4.7e-9, "H", "-4.7 nH")]
    [InlineData(0, "F", "0 F")]
    [InlineData(2e-15, "F", "0.002 pF")]
    public void Engineering_carries_into_the_next_prefix(double value, string unit, string said) =>
        Assert.Equal(said, PartWords.Engineering(value, unit));

    [Fact]
    public void Engineering_of_any_value_reads_back_and_has_one_to_three_digits_before_its_point() =>
        CsCheck.Check.Sample(CsCheck.Gen.Double[-13.9, 9.9], static exponent =>
        {
            double value = Math.Pow(10, exponent);
            string[] words = PartWords.Engineering(value, "H").Split(' ');
            double scale = words[1].Length == 1 ? 1 : Math.Pow(1000, "fpn\u00B5m kMG".IndexOf(words[1][0], StringComparison.Ordinal) - 5);
            double digits = double.Parse(words[0], System.Globalization.CultureInfo.InvariantCulture);
            Assert.Equal(1, digits * scale / value, 0.0051);
            Assert.InRange(digits, 0.99999, 999.9 + (exponent > 9 ? 1e4 : 0));
        });
}
