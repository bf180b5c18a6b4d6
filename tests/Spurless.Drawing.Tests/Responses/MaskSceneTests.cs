using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;

namespace Spurless.Drawing.Tests.Responses;

/// <summary>A mask on a plot of gain: where a bar's foot is drawn is what is read back there.</summary>
public class MaskSceneTests
{
    private static readonly MaskBar[] _bars = [new("bar 0", 153.35e6, 153.35e6, 18, "A"), new("bar 1", 158e6, 160e6, 25, "B")];

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void At_the_foot_of_a_bar_is_what_it_asks_for(bool logarithmic)
    {
        ResponsePlotModel model = Model(logarithmic);
        Scene scene = MaskScene.Draw(model, 396, 178, _bars, ("bar 1", "says"));
        foreach (MaskBar bar in _bars)
        {
            PlotBox reach = scene.Items.OfType<ScenePath>().Single(p => p.Target == bar.Target).Reach!.Value;
            (double hertz, double lossDb) = MaskScene.At(
                model, 396, 178, (reach.Left + reach.Right) / 2, (reach.Top + reach.Bottom) / 2);

            // A pixel is 25 MHz over 342 units on the straight axis: the place is known to half of it, rounded to a round step under two.
            Assert.Equal((bar.FromHz + bar.ToHz) / 2, hertz, 0.15e6);
            Assert.Equal(bar.LossDb, lossDb, 0.25);
        }

        Assert.Contains(scene.Items.OfType<SceneText>(), static t => t.Text == "says");
        Assert.Equal("bar 1", scene.Selected);
    }

    [Fact]
    public void At_beside_the_frame_stays_within_it_and_asks_for_something()
    {
        ResponsePlotModel model = Model(false);
        (double low, double least) = MaskScene.At(model, 396, 178, -50, -50);
        (double high, double most) = MaskScene.At(model, 396, 178, 900, 900);
        Assert.Equal((140e6, 0.5, 165e6, 50), (low, least, high, most));
    }

    [Fact]
    public void Draw_without_a_response_has_the_mask_alone()
    {
        Scene scene = MiniScene.Draw(Model(false) with { Quantity = static _ => double.NaN }, 180, 66);
        Assert.DoesNotContain(scene.Items.OfType<ScenePath>(), static p => p.Class == "curve");
        Assert.Equal(2, scene.Items.OfType<SceneRect>().Count());
        Assert.All(scene.Items.OfType<SceneRect>(), static r => Assert.InRange(r.Box.Right, 0, 180));
        Assert.Contains(
            MiniScene.Draw(Model(false), 180, 66).Items.OfType<ScenePath>(), static p => p.Class == "curve");
    }

    private static ResponsePlotModel Model(bool logarithmic) => new()
    {
        Title = "any",
        Quantity = static hz => -Math.Abs(hz - 145e6) / 1e6,
        AxisTitle = "gain, dB",
        CurveName = "gain",
        FromHz = 140e6,
        ToHz = 165e6,
        Logarithmic = logarithmic,
        Low = -50,
        High = 0,
        Overlay = new PlotOverlay
        {
            Demands = [.. _bars.Select(static b => new PlotDemand(b.FromHz, b.ToHz, -b.LossDb, Below: true))],
        },
    };
}
