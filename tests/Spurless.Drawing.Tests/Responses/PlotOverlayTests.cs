using System.Globalization;
using System.Text.RegularExpressions;
using Bunit;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Responses;

/// <summary>
/// Band, demands and measured points of a plot. The frame of every scene here is 42 to width - 12 across and 34 to 34 + height down (stated
/// in the scene's own code); with a linear axis every expected coordinate is the rule of three.
/// </summary>
public partial class PlotOverlayTests
{
    private const double Width = 742;
    private const double Height = 200;

    // 688 px for 100 to 200 MHz, 200 px for 0 to -40 dB.
    private static double X(double mhz) => 42 + ((mhz - 100) * 6.88);

    private static double Y(double db) => 34 - (db * 5);

    private static ResponsePlotModel Plot(Func<double, double> gain, PlotOverlay overlay) => new()
    {
        Title = "test",
        Quantity = gain,
        AxisTitle = "gain, dB",
        CurveName = "gain",
        FromHz = 100e6,
        ToHz = 200e6,
        Low = -40,
        High = 0,
        Overlay = overlay,
    };

    private static Scene Draw(Func<double, double> gain, PlotOverlay overlay) => ResponsePlotScene.Draw(Plot(gain, overlay), Width, Height);

    [Fact]
    public void Demand_of_attenuation_hangs_from_zero_to_what_is_needed()
    {
        Scene scene = Draw(
            static _ => -30, new PlotOverlay { Demands = [new(150e6, 150e6, -20, Below: true), new(160e6, 180e6, -25, Below: true)] });
        SceneRect[] bars = [.. scene.Items.OfType<SceneRect>().Where(static r => r is { Class: "mask", Hatched: true }).Take(2)];
        Same(new PlotBox(X(150) - 2.5, Y(0), X(150) + 2.5, Y(-20)), bars[0].Box);
        Same(new PlotBox(X(160), Y(0), X(180), Y(-25)), bars[1].Box);
        Assert.DoesNotContain(scene.Items, static i => i.Class == "short");
        Assert.Contains("Every demand is kept.", scene.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Demand_that_is_missed_shows_the_missing_part_solid_and_says_how_much()
    {
        Scene scene = Draw(static _ => -30, new PlotOverlay { Demands = [new(150e6, 150e6, -34.5, Below: true)] });
        SceneRect missing = scene.Items.OfType<SceneRect>().Single(static r => r.Class == "short");
        Same(new PlotBox(X(150) - 2.5, Y(-30), X(150) + 2.5, Y(-34.5)), missing.Box);
        Assert.Contains(scene.Items, static i => i is SceneText { Text: "4.5 dB short", Bold: true });
        Assert.Contains("4.5 dB short at 150.0000 MHz", scene.Description, StringComparison.Ordinal);
        SceneChecks.NoTextMeetsAnother(scene);
        SceneChecks.AllInside(scene);
    }

    [Fact]
    public void Demand_over_a_span_is_solid_only_where_the_curve_is_over_it()
    {
        // From -20 dB at 100 MHz evenly to -40 dB at 200 MHz: over -30 dB up to 150 MHz. Worst at 140 MHz: -28 dB, 2 dB short.
        Scene scene = Draw(static f => -20 - ((f - 100e6) / 5e6), new PlotOverlay { Demands = [new(140e6, 160e6, -30, Below: true)] });
        ScenePath missing = scene.Items.OfType<ScenePath>().Single(static p => p.Class == "short");
        (double X, double Y)[] vertices = Vertices(missing);
        Assert.Equal(Y(-28), vertices.Min(static v => v.Y), 0.11);
        Assert.Equal(Y(-30), vertices.Max(static v => v.Y), 0.11);
        Assert.All(vertices.Where(v => v.X > X(150) + 0.2), v => Assert.Equal(Y(-30), v.Y, 0.11));
        Assert.Contains("2.0 dB short at 140.0000 MHz", scene.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Demand_of_little_loss_is_a_line_of_dots_and_a_curve_under_it_is_short()
    {
        Scene kept = Draw(static _ => -2, new PlotOverlay { Demands = [new(140e6, 160e6, -3, Below: false)] });
        (double X, double Y)[] line = Vertices(kept.Items.OfType<ScenePath>().First(static p => p.Class == "limit"));
        Assert.Equal([X(140), X(140), X(160), X(160)], line.Select(static v => v.X), Tenth);
        Assert.Equal(Y(-3), line[1].Y, 0.11);
        Assert.DoesNotContain(kept.Items, static i => i.Class == "short");

        Scene missed = Draw(static _ => -7, new PlotOverlay { Demands = [new(140e6, 160e6, -3, Below: false)] });
        (double X, double Y)[] area = Vertices(missed.Items.OfType<ScenePath>().Single(static p => p.Class == "short"));
        Assert.Equal(Y(-3), area.Min(static v => v.Y), 0.11);
        Assert.Equal(Y(-7), area.Max(static v => v.Y), 0.11);
        Assert.Contains(missed.Items, static i => i is SceneText { Text: "4.0 dB short" });
    }

    [Fact]
    public void Demand_in_a_plot_that_grows_downwards_hangs_from_zero_too()
    {
        ResponsePlotModel plot = Plot(static _ => 8, new PlotOverlay { Demands = [new(150e6, 150e6, 12, Below: true)] }) with
        {
            Low = 0,
            High = 40,
            Downwards = true,
            AxisTitle = "return loss, dB",
        };
        Scene scene = ResponsePlotScene.Draw(plot, Width, Height);
        Same(
            new PlotBox(X(150) - 2.5, Y(0), X(150) + 2.5, Y(-12)),
            scene.Items.OfType<SceneRect>().First(static r => r.Class == "mask").Box);
        Same(
            new PlotBox(X(150) - 2.5, Y(-8), X(150) + 2.5, Y(-12)),
            scene.Items.OfType<SceneRect>().Single(static r => r.Class == "short").Box);
        Assert.Contains("4.0 dB short", scene.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Demand_outside_the_frame_is_left_to_the_other_plot()
    {
        Scene scene = Draw(static _ => -2, new PlotOverlay { Demands = [new(450e6, 470e6, -30, Below: true)] });
        Assert.DoesNotContain(scene.Items, static i => i.Class is "mask" or "short");
    }

    [Fact]
    public void Band_is_a_wash_between_its_edges_and_both_edges_are_dotted()
    {
        Scene scene = Draw(
            static _ => -20,
            new PlotOverlay { Band = new([new(100e6, -25, -15), new(150e6, -30, -10), new(200e6, -25, -15)], "90 % of those built") });
        (double X, double Y)[] wash = Vertices(scene.Items.OfType<ScenePath>().Single(static p => p.Class == "band"));
        Assert.Equal([X(100), X(150), X(200), X(200), X(150), X(100)], wash.Select(static v => v.X), Tenth);
        Assert.Equal([Y(-25), Y(-30), Y(-25), Y(-15), Y(-10), Y(-15)], wash.Select(static v => v.Y), Tenth);
        Assert.Equal(2, scene.Items.OfType<ScenePath>().Count(static p => p.Class == "band-edge"));
        Assert.Contains(scene.Items, static i => i is SceneText { Text: "90 % of those built" });
        Assert.Contains("A band: 90 % of those built.", scene.Description, StringComparison.Ordinal);
        SceneChecks.NoTextMeetsAnother(scene);

        // Under the curve: drawn before it.
        List<SceneItem> items = [.. scene.Items];
        Assert.True(items.FindIndex(static i => i.Class == "band") < items.FindIndex(static i => i.Class == "curve"));
    }

    [Fact]
    public void Band_that_leaves_the_frame_is_cut_at_it_and_never_drawn_outside()
    {
        // From -10 dB at 50 MHz straight to -80 dB at 250 MHz: passes 100 MHz at -27.5 dB and the frame's foot (-40 dB) at 135.7 MHz.
        Scene scene = Draw(static _ => -5, new PlotOverlay { Band = new([new(50e6, -10, -5), new(250e6, -80, -5)], "band") });
        (double X, double Y)[] wash = Vertices(scene.Items.OfType<ScenePath>().Single(static p => p.Class == "band"));
        Assert.All(
            wash, v => Assert.True(v.X >= X(100) - 0.06 && v.X <= X(200) + 0.06 && v.Y >= Y(0) - 0.06 && v.Y <= Y(-40) + 0.06, $"{v}"));
        Assert.Contains(wash, v => Math.Abs(v.X - X(135.714)) < 0.1 && Math.Abs(v.Y - Y(-40)) < 0.1);
        Assert.Contains(wash, v => Math.Abs(v.X - X(100)) < 0.1 && Math.Abs(v.Y - Y(-27.5)) < 0.1);
    }

    [Fact]
    public void Measured_points_are_crosses_each_alone_and_a_crowd_is_thinned()
    {
        PlotReading[] readings = [new(110e6, -10), new(150e6, -20), new(150.01e6, -20), new(190e6, -30), new(195e6, -70)];
        Scene scene = Draw(static _ => -35, new PlotOverlay { Measured = readings, MeasuredWords = "measured, tuesday.s2p" });
        ScenePath[] crosses = [.. scene.Items.OfType<ScenePath>().Where(static p => p.Class == "meas")];

        // Three are drawn: one is a neighbour's twin, one below the frame; the fourth cross stands in the legend.
        Assert.Equal(4, crosses.Length);
        foreach ((ScenePath cross, PlotReading r) in crosses.Zip(new[] { readings[0], readings[1], readings[3] }))
        {
            (double X, double Y)[] v = Vertices(cross);
            Assert.Equal(X(r.Hertz / 1e6), v.Average(static p => p.X), 0.11);
            Assert.Equal(Y(r.Value), v.Average(static p => p.Y), 0.11);
            Assert.Equal(2, cross.Data.Count(static c => c == 'M'));
        }

        Assert.Contains(scene.Items, static i => i is SceneText { Text: "measured, tuesday.s2p" });
    }

    [Theory]
    // In the narrow drawing there is no room for it: it is left out, and the words under the figure say the same.
    [InlineData(358, 150, 0)]
    [InlineData(728, 190, 3)]
    public void Legend_lies_on_nothing_that_it_names(double width, double height, int rows)
    {
        static double Gain(double f) => -3 - Math.Min(60, Math.Abs(f - 145e6) / 0.4e6);
        PlotSpan[] spans =
        [
            .. Enumerable.Range(0, 101).Select(static i => 100e6 + (i * 1e6)).Select(static f => new PlotSpan(f, Gain(f) - 4, Gain(f) + 2)),
        ];
        ResponsePlotModel plot =
            Plot(
                Gain,
                new PlotOverlay
                {
                    Band = new(spans, "90 % of those built"),
                    Demands = [new(153e6, 153e6, -18, true), new(160e6, 190e6, -25, true), new(144e6, 146e6, -4, false)],
                })
                with
            { Low = -80 };
        Scene scene = ResponsePlotScene.Draw(plot, width, height);
        SceneChecks.NoTextMeetsAnother(scene);
        SceneChecks.AllInside(scene);
        SceneText[] words =
        [
            .. scene.Items.OfType<SceneText>().Where(
                static t => t.Text.Contains("the curve", StringComparison.Ordinal) || t.Text.Contains("built", StringComparison.Ordinal)),
        ];
        Assert.Equal(rows, words.Length);
        PlotBox[] bars =
        [
            .. scene.Items.OfType<SceneRect>().Where(static r => r is { Class: "mask", Box.Height: > 15 }).Select(static r => r.Box),
        ];
        Assert.Equal(2, bars.Length);
        Assert.All(words, w => Assert.All(bars, b => Assert.False(b.Overlaps(w.Box))));
    }

    [Fact]
    public void ResponsePlot_renders_hatch_and_band_in_the_page()
    {
        using BunitContext context = new();
        var shown = context.Render<ResponsePlot>(p => p
            .Add(static c => c.Id, "t1")
            .Add(
                static c => c.Model,
                Plot(
                    static _ => -10,
                    new PlotOverlay
                    {
                        Band = new([new(100e6, -15, -5), new(200e6, -15, -5)], "band"),
                        Demands = [new(150e6, 150e6, -20, true)],
                    })));
        Assert.Equal("url(#t1-h)", shown.Find("rect.mask").GetAttribute("fill"));
        Assert.NotNull(shown.Find("pattern#t1-h"));
        Assert.Single(shown.FindAll("path.band"));
        Assert.Equal(2, shown.FindAll("path.band-edge").Count);
        Assert.Single(shown.FindAll("rect.short"));
    }

    private static bool Tenth(double a, double b) => Math.Abs(a - b) < 0.11;

    private static void Same(PlotBox expected, PlotBox actual)
    {
        Assert.Equal(expected.Left, actual.Left, 0.01);
        Assert.Equal(expected.Top, actual.Top, 0.01);
        Assert.Equal(expected.Right, actual.Right, 0.01);
        Assert.Equal(expected.Bottom, actual.Bottom, 0.01);
    }

    private static (double X, double Y)[] Vertices(ScenePath path) =>
        [
            .. Pair().Matches(path.Data).Select(
                static m =>
                    (
                        double.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture),
                        double.Parse(m.Groups[2].Value, CultureInfo.InvariantCulture))),
        ];

    [GeneratedRegex(@"[ML](-?[\d.]+) (-?[\d.]+)")]
    private static partial Regex Pair();
}
