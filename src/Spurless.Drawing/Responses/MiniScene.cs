using Spurless.Drawing.Plotting;
using Spurless.Radio.Quantities;

namespace Spurless.Drawing.Responses;

/// <summary>A plot in the size of a word or two, one of several alike: curve, demands and the frequency that matters, without a
/// scale.</summary>
public static class MiniScene
{
    private const double Edge = 2;

    /// <summary>Draws it.</summary>
    /// <param name="model">What to show.</param>
    /// <param name="width">In CSS pixels.</param>
    /// <param name="height">In CSS pixels.</param>
    public static Scene Draw(ResponsePlotModel model, double width, double height)
    {
        ArgumentNullException.ThrowIfNull(model);
        PlotBox box = new(Edge, Edge + 2, width - Edge, height - Edge - 2);
        Axis x = ResponsePlotScene.Frequencies(model, box), y = Axis.Linear(model.Low, model.High, box.Bottom, box.Top);
        double ground = Math.Clamp(y.Map(0), box.Top, box.Bottom);
        List<SceneItem> items = [new ScenePath("axis", SvgPath.Segment(box.Left, ground, box.Right, ground))];
        foreach (PlotDemand demand in model.Overlay.Demands.Where(d => d.ToHz >= model.FromHz && d.FromHz <= model.ToHz))
        {
            double left = Math.Max(box.Left, x.Map(Math.Max(demand.FromHz, model.FromHz) / 1e6) - 1.5),
                right = Math.Min(box.Right, x.Map(Math.Min(demand.ToHz, model.ToHz) / 1e6) + 1.5),
                edge = Math.Clamp(y.Map(demand.Edge), box.Top, box.Bottom);
            items.Add(demand.Below
                ? new SceneRect("mask", new PlotBox(left, Math.Min(ground, edge), right, Math.Max(ground, edge)), Hatched: true)
                : new ScenePath("limit", SvgPath.Segment(left - 3, edge, right + 3, edge)));
        }

        if (model.ChannelHz is { } channel && x.Shows(channel / 1e6))
        {
            items.Add(new ScenePath("fall", SvgPath.Segment(x.Map(channel / 1e6), box.Top, x.Map(channel / 1e6), box.Bottom)));
        }

        IReadOnlyList<PlotPoint> curve = AdaptiveSampling.Of(
            mhz => model.Quantity(mhz * 1e6), x, y, model.ChannelHz is { } c ? [c / 1e6] : [], steps: 60);
        foreach (IReadOnlyList<PlotPoint> part in Clipping.Polyline(Decimation.PerColumn(curve, 0.5), box))
        {
            items.Add(new ScenePath("curve", new SvgPath().Through(part).ToString()));
        }

        return new Scene
        {
            Width = width,
            Height = height,
            Title = model.Title,
            Description = FormattableString.Invariant(
                $"{model.AxisTitle}, {MegahertzText.InWords(model.FromHz)} to {MegahertzText.InWords(model.ToHz)} MHz, ")
                + FormattableString.Invariant($"{model.Low:0} to {model.High:0}."),
            Items = items,
        };
    }
}
