using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Responses;

/// <summary>A bar of a mask that can be taken at its foot.</summary>
/// <param name="Target">What is picked with it.</param>
/// <param name="FromHz">Lower edge in hertz.</param>
/// <param name="ToHz">Upper edge in hertz.</param>
/// <param name="LossDb">Least loss asked there, in dB.</param>
/// <param name="Words">What it is, for those who do not see it.</param>
public sealed record MaskBar(string Target, double FromHz, double ToHz, double LossDb, string Words);

/// <summary>A gain plot on which a mask is drawn: every bar has a foot to take, and what is held says its figures.</summary>
public static class MaskScene
{
    private const double FootReach = 9;

    /// <summary>Draws it.</summary>
    /// <param name="model">The gain with the mask as its demands.</param>
    /// <param name="width">In CSS pixels, at least 300.</param>
    /// <param name="height">Of the frame, in CSS pixels.</param>
    /// <param name="bars">The bars, in the order of the demands.</param>
    /// <param name="held">Target of the bar that is held, and what it says meanwhile; null for none.</param>
    public static Scene Draw(
        ResponsePlotModel model, double width, double height, IReadOnlyList<MaskBar> bars, (string Target, string Says)? held)
    {
        ArgumentNullException.ThrowIfNull(bars);
        Scene scene = ResponsePlotScene.Draw(model, width, height);
        (PlotBox box, Axis x, Axis y) = ResponsePlotScene.Frame(model, width, height);
        List<SceneItem> items = [.. scene.Items];
        foreach (MaskBar bar in bars.Where(b => b.ToHz >= model.FromHz && b.FromHz <= model.ToHz))
        {
            double left = Math.Max(box.Left, x.Map(Math.Max(bar.FromHz, model.FromHz) / 1e6) - (OverlayPart.BarWidth / 2)),
                right = Math.Min(box.Right, x.Map(Math.Min(bar.ToHz, model.ToHz) / 1e6) + (OverlayPart.BarWidth / 2)),
                foot = Math.Clamp(y.Map(-bar.LossDb), box.Top, box.Bottom);
            items.Add(new ScenePath("foot", SvgPath.Segment(left - 2, foot, right + 2, foot))
            {
                Target = bar.Target,
                Reach = new PlotBox(left - FootReach, foot - FootReach, right + FootReach, foot + FootReach),
            });
            if (held is { } h && h.Target == bar.Target)
            {
                double middle = (left + right) / 2;
                bool atLeft = middle > (box.Left + box.Right) / 2;
                items.Add(new SceneText(
                    "picked-text halo",
                    atLeft ? left - 8 : right + 8,
                    Math.Clamp(foot + 14, box.Top + 14, box.Bottom - 6),
                    h.Says,
                    atLeft ? TextAnchor.End : TextAnchor.Start,
                    Bold: true));
            }
        }

        return scene with
        {
            Items = items,
            Selected = held?.Target,
            TargetNames = bars.DistinctBy(static b => b.Target).ToDictionary(static b => b.Target, static b => b.Words),
        };
    }

    /// <summary>What lies at a place of the drawing: hertz and dB of loss, each held within the frame and rounded to what a pixel
    /// tells.</summary>
    /// <param name="model">The plot.</param>
    /// <param name="width">The drawing's width.</param>
    /// <param name="height">Height of its frame.</param>
    /// <param name="horizontal">Place in the drawing's own units.</param>
    /// <param name="vertical">The same, downwards.</param>
    public static (double Hertz, double LossDb) At(
        ResponsePlotModel model, double width, double height, double horizontal, double vertical)
    {
        (PlotBox box, Axis x, Axis y) = ResponsePlotScene.Frame(model, width, height);
        double at = Math.Clamp(horizontal, box.Left, box.Right), mhz = x.Unmap(at);
        double pixel = Math.Abs(x.Unmap(Math.Min(box.Right, at + 0.5)) - x.Unmap(Math.Max(box.Left, at - 0.5)));
        double step = Axis.RoundStep(Math.Max(1e-4, pixel));
        double db = -y.Unmap(Math.Clamp(vertical, box.Top, box.Bottom));
        return (Math.Round(Math.Round(mhz / step) * step * 1e6), Math.Max(0.5, Math.Round(2 * db) / 2));
    }
}
