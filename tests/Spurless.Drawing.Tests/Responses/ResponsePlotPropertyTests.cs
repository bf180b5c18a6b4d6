using System.Globalization;
using CsCheck;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Responses;

/// <summary>Plots of random resonances in random frames: scales with round figures, curves where they belong, words over nothing.</summary>
public sealed class ResponsePlotPropertyTests
{
    private static readonly Gen<(ResponsePlotModel Model, double Width)> _plot =
        from centre in Gen.Double[20e6, 900e6]
        from q in Gen.Double[2, 300]
        from span in Gen.Double[1.02, 6]
        from logarithmic in Gen.Bool
        from low in Gen.OneOf(-20.0, -40, -60, -100, -140)
        from high in Gen.OneOf(0.0, 10)
        from downwards in Gen.Bool
        from marks in Gen.Double[0, 1].Array[0, 12]
        from channel in Gen.Bool
        from width in Gen.OneOf(300.0, 358, 499, 640, 812)
        let first = centre / span
        let last = centre * span
        select (
            new ResponsePlotModel
            {
                Title = "gain",
                Quantity = f => (downwards ? -1 : 1) * -10 * Math.Log10(1 + Math.Pow(q * ((f / centre) - (centre / f)), 2)),
                AxisTitle = downwards ? "loss, dB" : "gain, dB",
                CurveName = "gain",
                FromHz = first,
                ToHz = last,
                Logarithmic = logarithmic,
                Low = downwards ? -high : low,
                High = downwards ? -low : high,
                Downwards = downwards,
                Marks = [.. marks.Select((m, i) => new PlotMark(first + (m * (last - first)), ((char)('A' + i)).ToString()))],
                ChannelHz = channel ? centre : null,
            },
            width);

    [Fact]
    public void Draw_of_any_plot_lays_no_word_over_another_and_none_outside() => _plot.Sample(
        static plot =>
        {
            Scene scene = ResponsePlotScene.Draw(plot.Model, plot.Width);
            SceneChecks.NoTextMeetsAnother(scene);
            SceneChecks.AllInside(scene);
            Assert.DoesNotContain(scene.Items.OfType<ScenePath>(), static p => p.Data.Contains("NaN", StringComparison.Ordinal)
                || p.Data.Contains("Infinity", StringComparison.Ordinal));
            Assert.DoesNotContain("NaN", scene.Description, StringComparison.Ordinal);
            Assert.DoesNotContain("-0.0 ", scene.Description, StringComparison.Ordinal);
        },
        iter: 300);

    [Fact]
    public void Curve_of_any_plot_stays_in_its_frame_and_on_the_quantity() => _plot.Sample(
        static plot =>
        {
            (PlotBox box, Axis x, Axis y) = ResponsePlotScene.Frame(plot.Model, plot.Width, 150);
            foreach (ScenePath curve in ResponsePlotScene.Draw(plot.Model, plot.Width).Items.OfType<ScenePath>()
                .Where(static p => p.Class == "curve"))
            {
                foreach ((PlotPoint from, PlotPoint to) in SceneGeometry.Stretches(curve))
                {
                    Assert.True(box.Grown(0.06).Contains(from.X, from.Y) && box.Grown(0.06).Contains(to.X, to.Y), $"{from} {to}");

                    // A vertex within the frame is on the curve: within a tenth and what a tenth aside makes of a steep flank.
                    double[] here = [.. Enumerable.Range(-100, 201).Select(i =>
                        y.Map(plot.Model.Quantity(1e6 * x.Unmap(from.X + (0.0006 * i)))))];
                    double least = here.Min() - 0.35, most = here.Max() + 0.35;
                    Assert.InRange(from.Y, Math.Min(least, box.Bottom), Math.Max(most, box.Top));
                }
            }
        },
        iter: 100);

    [Fact]
    public void Figures_of_both_scales_stand_at_their_ticks_in_rising_order() => _plot.Sample(
        static plot =>
        {
            (PlotBox box, Axis x, Axis y) = ResponsePlotScene.Frame(plot.Model, plot.Width, 150);
            SceneText[] texts = [.. ResponsePlotScene.Draw(plot.Model, plot.Width).Items.OfType<SceneText>()];
            (double Value, SceneText Text)[] Scale(Func<SceneText, bool> of) =>
            [
                .. texts.Where(of).Select(static t => (
                    double.Parse(t.Text.Replace('\u2212', '-'), CultureInfo.InvariantCulture), t)),
            ];
            (double Value, SceneText Text)[] levels = Scale(t => t.Anchor == TextAnchor.End && Math.Abs(t.X - (box.Left - 6)) < 1e-9
                && char.IsAsciiDigit(t.Text[^1]));
            Assert.True(levels.Length >= 2);
            Assert.All(levels, l => Assert.Equal(y.Map(l.Value) + 4, l.Text.Y, 1e-6));

            // Frequencies: each figure under its tick, or at the picture's edge where there is no room under it; never out of order.
            (double Value, SceneText Text)[] megahertz = Scale(t => Math.Abs(t.Y - (box.Bottom + 17)) < 1e-9);
            Assert.NotEmpty(megahertz);
            Assert.All(megahertz.Where(static m => m.Text.Anchor == TextAnchor.Middle), m =>
                Assert.Equal(x.Map(m.Value), m.Text.X, 1e-6 * plot.Width + 0.02));
            Assert.Equal(
                megahertz.OrderBy(static m => m.Value).Select(static m => m.Text.Text),
                megahertz.OrderBy(static m => m.Text.Box.Left).Select(static m => m.Text.Text));
        },
        iter: 200);

    [Fact]
    public void MiniScene_of_any_plot_stays_within_its_size() => _plot.Sample(
        static plot =>
        {
            Scene scene = MiniScene.Draw(
                plot.Model with
                {
                    Overlay = new PlotOverlay
                    {
                        Demands =
                        [
                            new(plot.Model.FromHz, plot.Model.FromHz * 1.01, plot.Model.Low / 2, true),
                            new(plot.Model.ToHz * 0.9, plot.Model.ToHz * 1.2, plot.Model.High - 3, false),
                            new(plot.Model.ToHz * 2, plot.Model.ToHz * 3, -10, true),
                        ],
                    },
                },
                90,
                40);
            PlotBox all = new(0, 0, 90, 40);
            Assert.All(scene.Items.OfType<SceneRect>(), r => Assert.True(all.Contains(r.Box), r.Box.ToString()));
            Assert.All(
                scene.Items.OfType<ScenePath>().Where(static p => p.Class is not "limit").SelectMany(SceneGeometry.Stretches),
                s => Assert.True(all.Grown(0.06).Contains(s.From.X, s.From.Y) && all.Grown(0.06).Contains(s.To.X, s.To.Y), $"{s}"));
            // Two demands touch the range, one lies beyond it.
            Assert.Equal(2, scene.Items.Count(static i => i.Class is "mask" or "limit"));
            Assert.Equal(plot.Model.ChannelHz is null ? 0 : 1, scene.Items.Count(static i => i.Class == "fall"));
        },
        iter: 200);

    [Fact]
    public void MaskScene_reads_back_the_place_at_which_a_bar_is_drawn() => Gen.Select(
        Gen.Double[145e6, 160e6], Gen.Double[2, 70]).Sample(static (hertz, loss) =>
        {
            ResponsePlotModel model = new()
            {
                Title = "gain",
                Quantity = static _ => -10,
                AxisTitle = "gain, dB",
                CurveName = "gain",
                FromHz = 140e6,
                ToHz = 165e6,
                Low = -80,
                High = 0,
            };
            Scene scene = MaskScene.Draw(model, 640, 200, [new("bar 0", hertz, hertz, loss, "the bar")], ("bar 0", "held"));
            ScenePath foot = scene.Items.OfType<ScenePath>().Single(static p => p.Class == "foot");
            (PlotPoint From, PlotPoint To) line = SceneGeometry.Stretches(foot).Single();
            (double atHz, double atDb) = MaskScene.At(model, 640, 200, (line.From.X + line.To.X) / 2, line.From.Y);

            // A pixel is 25 MHz / 586, rounded to the next round step: within a step of it; half a decibel the other way.
            Assert.Equal(hertz, atHz, 60_000.0);
            Assert.Equal(loss, atDb, 0.3);
            Assert.True(foot.Reach!.Value.Contains((line.From.X + line.To.X) / 2, line.From.Y));
            Assert.Equal("the bar", scene.TargetNames["bar 0"]);
            Assert.Contains(scene.Items.OfType<SceneText>(), static t => t.Text == "held");
        });
}
