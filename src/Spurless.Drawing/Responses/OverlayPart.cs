using System.Globalization;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Responses;

/// <summary>
/// Draws tolerance band, demands and measured points of a plot, each with its own shape: wash with dots, hatched bar or dots, diagonal
/// cross.
/// </summary>
internal sealed class OverlayPart(ResponsePlotModel model, PlotBox box, Axis x, Axis y, List<SceneItem> items, LabelPlacer placer)
{
    /// <summary>Width of a bar at one frequency.</summary>
    public const double BarWidth = 5;

    private const double CrossHalf = 2.8;
    private const double CrossesApart = 5;
    private const double LimitFoot = 6;
    private const int SpanSteps = 40;

    // What a legend must not lie on: it names what lies under it and would hide it.
    private readonly List<PlotBox> _drawn = [];

    private double Ground => y.Map(0);

    /// <summary>What lies under the curve: the band and the hatched bars.</summary>
    public void Under()
    {
        if (model.Overlay.Band is { Spans.Count: > 1 } band)
        {
            PlotPoint[] from = Line(band.Spans, static s => s.From), to = Line(band.Spans, static s => s.To);
            if (from.Length > 1)
            {
                List<PlotPoint> around = [.. Held(from, box), .. Held(to, box).AsEnumerable().Reverse()];
                items.Add(new ScenePath("band", new SvgPath().Through(around).Close().ToString()));
                _drawn.AddRange(Covered(from, to));
                foreach (IReadOnlyList<PlotPoint> part in Clipping.Polyline(from, box).Concat(Clipping.Polyline(to, box)))
                {
                    items.Add(new ScenePath("band-edge", new SvgPath().Through(part).ToString()));
                }
            }
        }

        foreach (PlotDemand demand in Shown())
        {
            (double left, double right) = Sides(demand);
            double edge = y.Map(demand.Edge);
            if (demand.Below)
            {
                (double top, double bottom) = (Math.Clamp(Ground, box.Top, box.Bottom), Math.Clamp(edge, box.Top, box.Bottom));
                if (bottom - top > 0.5)
                {
                    items.Add(new SceneRect("mask", new PlotBox(left, top, right, bottom), Hatched: true));
                    _drawn.Add(new PlotBox(left, top, right, bottom).Grown(2));
                }
            }
            else if (edge >= box.Top && edge <= box.Bottom)
            {
                // Its ends point to where the curve must not be.
                items.Add(
                    new ScenePath(
                        "limit",
                        new SvgPath()
                            .Move(left, edge + LimitFoot)
                            .Line(left, edge)
                            .Line(right, edge)
                            .Line(right, edge + LimitFoot)
                            .ToString()));
            }
        }
    }

    /// <summary>What lies over the curve: shortfalls with their words, measured points, and the legend.</summary>
    /// <param name="curve">The curve as drawn.</param>
    public void Over(IReadOnlyList<PlotPoint> curve)
    {
        _drawn.AddRange(curve.Zip(curve.Skip(1), static (a, b) => new PlotBox(a.X, Math.Min(a.Y, b.Y) - 2, b.X, Math.Max(a.Y, b.Y) + 2)));
        if (model.ChannelHz is { } channel && x.Shows(channel / 1e6))
        {
            _drawn.Add(new PlotBox(x.Map(channel / 1e6), box.Top, x.Map(channel / 1e6), box.Bottom).Grown(2));
        }
        Beside();
        Readings(model.Overlay.Measured, Cross);
        Readings(model.Overlay.BesideMeasured, Upright);

        foreach (PlotDemand demand in Shown())
        {
            Shortfall(demand);
        }

        Legend();
    }

    private void Readings(IReadOnlyList<PlotReading> readings, Func<double, double, string> mark)
    {
        PlotPoint last = new(double.NegativeInfinity, double.NegativeInfinity);
        foreach (PlotReading reading in readings)
        {
            PlotPoint at = new(x.Map(reading.Hertz / 1e6), y.Map(reading.Value));
            bool crowded = Math.Abs(at.X - last.X) < CrossesApart && Math.Abs(at.Y - last.Y) < CrossesApart;
            if (!x.Shows(reading.Hertz / 1e6) || !box.Contains(at.X, at.Y) || crowded)
            {
                continue;
            }

            items.Add(new ScenePath("meas", mark(at.X, at.Y)));
            placer.Discourage(PlotBox.Around(at.X, at.Y, CrossHalf, CrossHalf));
            last = at;
        }
    }

    // The other network, dashed.
    private void Beside()
    {
        if (model.Overlay.Beside is not { } beside)
        {
            return;
        }

        IReadOnlyList<PlotPoint> line = AdaptiveSampling.Of(mhz => beside(mhz * 1e6), x, y, []);
        foreach (IReadOnlyList<PlotPoint> part in Clipping.Polyline(Decimation.PerColumn(line, 0.5), box))
        {
            items.Add(new ScenePath("curve second", new SvgPath().Through(part).ToString()));
        }

        foreach (IReadOnlyList<PlotPoint> part in Clipping.Polyline(Decimation.PerColumn(line, 1), box))
        {
            placer.BlockLine([.. part]);
            _drawn.AddRange(part.Zip(part.Skip(1), static (a, b) =>
                new PlotBox(a.X, Math.Min(a.Y, b.Y) - 2, b.X, Math.Max(a.Y, b.Y) + 2)));
        }
    }

    /// <summary>How far the curve misses a demand, in the plot's quantity, and where; 0 where it keeps it.</summary>
    /// <param name="demand">The demand.</param>
    public (double Missing, double Hertz) Missing(PlotDemand demand) =>
        Samples(demand).Select(f => (Missing: Math.Max(0, Beyond(demand, f)), Hertz: f)).MaxBy(static m => m.Missing);

    /// <summary>Whether the curve is known wherever a demand is made of it.</summary>
    public bool IsKnown(PlotDemand demand) => Samples(demand).All(f => !double.IsNaN(model.Quantity(f)));

    // The band in columns between its vertices.
    private static IEnumerable<PlotBox> Covered(PlotPoint[] from, PlotPoint[] to) =>
        Enumerable.Range(1, Math.Min(from.Length, to.Length) - 1).Select(i => new PlotBox(
        from[i - 1].X,
        Math.Min(Math.Min(from[i - 1].Y, from[i].Y), Math.Min(to[i - 1].Y, to[i].Y)),
        from[i].X,
        Math.Max(Math.Max(from[i - 1].Y, from[i].Y), Math.Max(to[i - 1].Y, to[i].Y))));

    private static string Cross(double cx, double cy) =>
        SvgPath.Segment(cx - CrossHalf, cy - CrossHalf, cx + CrossHalf, cy + CrossHalf)
            + SvgPath.Segment(cx - CrossHalf, cy + CrossHalf, cx + CrossHalf, cy - CrossHalf);

    private static string Upright(double cx, double cy) =>
        SvgPath.Segment(cx - CrossHalf - 0.6, cy, cx + CrossHalf + 0.6, cy)
            + SvgPath.Segment(cx, cy - CrossHalf - 0.6, cx, cy + CrossHalf + 0.6);

    // Values outside the frame are held at its edge; where a segment crosses the edge, the crossing itself is a vertex, so that the wash is
    // cut and not bent.
    private static List<PlotPoint> Held(PlotPoint[] line, PlotBox box)
    {
        List<PlotPoint> held = [];
        for (int i = 0; i < line.Length; i++)
        {
            if (i > 0)
            {
                PlotPoint a = line[i - 1], b = line[i];
                held.AddRange(new[] { box.Top, box.Bottom }.Where(edge => (a.Y - edge) * (b.Y - edge) < 0)
                    .Select(edge => new PlotPoint(a.X + ((b.X - a.X) * (edge - a.Y) / (b.Y - a.Y)), edge)).OrderBy(static p => p.X));
            }

            held.Add(line[i] with { Y = Math.Clamp(line[i].Y, box.Top, box.Bottom) });
        }

        return held;
    }

    // The part of the band inside the frequencies shown, its ends interpolated.
    private PlotPoint[] Line(IReadOnlyList<PlotSpan> spans, Func<PlotSpan, double> value)
    {
        List<PlotPoint> line = [];
        PlotPoint? before = null;
        foreach (PlotSpan span in spans.Where(s => double.IsFinite(value(s))))
        {
            PlotPoint at = new(x.Map(span.Hertz / 1e6), y.Map(value(span)));
            if (before is { } b)
            {
                foreach (double side in (double[])[box.Left, box.Right])
                {
                    if ((b.X - side) * (at.X - side) < 0)
                    {
                        line.Add(new PlotPoint(side, b.Y + ((at.Y - b.Y) * (side - b.X) / (at.X - b.X))));
                    }
                }
            }

            if (at.X >= box.Left && at.X <= box.Right)
            {
                line.Add(at);
            }

            before = at;
        }

        return [.. line];
    }

    private IEnumerable<PlotDemand> Shown() => model.Overlay.Demands.Where(d => d.ToHz >= model.FromHz && d.FromHz <= model.ToHz);

    private (double Left, double Right) Sides(PlotDemand demand)
    {
        double a = x.Map(Math.Max(demand.FromHz, model.FromHz) / 1e6), b = x.Map(Math.Min(demand.ToHz, model.ToHz) / 1e6);
        double middle = (a + b) / 2, half = Math.Max(BarWidth, b - a) / 2;
        return (Math.Max(box.Left, middle - half), Math.Min(box.Right, middle + half));
    }

    private IEnumerable<double> Samples(PlotDemand demand)
    {
        double from = Math.Max(demand.FromHz, model.FromHz), to = Math.Min(demand.ToHz, model.ToHz);
        return to > from ? Enumerable.Range(0, SpanSteps + 1).Select(i => from + ((to - from) * i / SpanSteps)) : [from];
    }

    // By how much the curve lies on the wrong side, in the plot's quantity.
    private double Beyond(PlotDemand demand, double hertz)
    {
        double value = model.Quantity(hertz);
        bool up = demand.Below != model.Downwards;
        return up ? value - demand.Edge : demand.Edge - value;
    }

    private void Shortfall(PlotDemand demand)
    {
        double edge = Math.Clamp(y.Map(demand.Edge), box.Top, box.Bottom);
        double[] samples = [.. Samples(demand)];
        (double left, double right) = Sides(demand);
        (double missing, double worst) = Missing(demand);
        if (!(missing > 0))
        {
            return;
        }

        double Reach(double f) => Beyond(demand, f) > 0 ? Math.Clamp(y.Map(model.Quantity(f)), box.Top, box.Bottom) : edge;
        if (samples.Length == 1)
        {
            double reach = Reach(samples[0]);
            items.Add(new SceneRect("short", new PlotBox(left, Math.Min(reach, edge), right, Math.Max(reach, edge))));
        }
        else
        {
            PlotPoint[] line = [.. samples.Select((f, i) => new PlotPoint(left + ((right - left) * i / (samples.Length - 1)), Reach(f)))];
            items.Add(
                new ScenePath(
                    "short", new SvgPath().Through([new PlotPoint(left, edge), .. line, new PlotPoint(right, edge)]).Close().ToString()));
        }

        double at = x.Map(worst / 1e6), middle = (edge + Reach(worst)) / 2;
        SceneText words = new("harm-text halo", 0, 0, string.Create(CultureInfo.InvariantCulture, $"{missing:0.0} dB short"), Bold: true);
        if (placer.Place(words, [
            new LabelSpot(right + 6, middle + 4, TextAnchor.Start),
            new LabelSpot(left - 6, middle + 4, TextAnchor.End),
            new LabelSpot(at, edge + 15, TextAnchor.Middle),
            new LabelSpot(right + 6, middle + 18, TextAnchor.Start),
            new LabelSpot(left - 6, middle + 18, TextAnchor.End),
            new LabelSpot(right + 6, middle - 12, TextAnchor.Start),
            new LabelSpot(left - 6, middle - 12, TextAnchor.End),
            new LabelSpot(at, edge + 30, TextAnchor.Middle), new LabelSpot(right + 22, middle + 34, TextAnchor.Start),
            new LabelSpot(left - 22, middle + 34, TextAnchor.End)]) is { } placed)
        {
            items.Add(placed);
        }
    }

    private IEnumerable<(string Words, Action<double, double> Symbol)> BesideRows()
    {
        if (model.Overlay.Beside is not null)
        {
            yield return (model.Overlay.BesideWords,
                (left, base_) => items.Add(new ScenePath("curve second", SvgPath.Segment(left - 2, base_ - 4, left + 15, base_ - 4))));
        }

        if (model.Overlay.BesideMeasured.Count > 0)
        {
            yield return (model.Overlay.BesideWords, (left, base_) => items.Add(new ScenePath("meas", Upright(left + 7, base_ - 4))));
        }
    }

    private void Legend()
    {
        List<(string Words, Action<double, double> Symbol)> rows = [];
        if (model.Overlay.Measured.Count > 0)
        {
            rows.Add((model.Overlay.MeasuredWords, (left, base_) => items.Add(new ScenePath("meas", Cross(left + 7, base_ - 4)))));
        }

        rows.AddRange(BesideRows());
        if (model.Overlay.Band is { } band)
        {
            rows.Add((band.Words, (left, base_) => items.Add(new SceneRect("band", new PlotBox(left + 1, base_ - 9, left + 13, base_)))));
        }

        if (Shown().Any(static d => d.Below))
        {
            rows.Add(
                (
                    "needed: the curve passes below",
                    (left, base_) =>
                        items.Add(new SceneRect("mask", new PlotBox(left + 4, base_ - 10, left + 10, base_ + 1), Hatched: true))));
        }

        if (Shown().Any(static d => !d.Below))
        {
            rows.Add(
                (
                    "allowed: the curve stays above",
                    (left, base_) => items.Add(new ScenePath("limit", SvgPath.Segment(left, base_ - 4, left + 14, base_ - 4)))));
        }

        if (rows.Count == 0)
        {
            return;
        }

        const double leading = 16, indent = 18;
        SceneText[] texts = [.. rows.Select(static r => new SceneText("ink halo", 0, 0, r.Words))];
        double width = indent + texts.Max(static t => t.Box.Width) + 6, height = leading * rows.Count;
        IEnumerable<LabelSpot> spots =
            from row in Enumerable.Range(0, 12)
            from column in Enumerable.Range(0, 14)
            let left = box.Right - width - 4 - (column * (box.Width - width - 8) / 13)
            let top = box.Top + 16 + (row * (box.Height - height - 10) / 11)
            let whole = new PlotBox(left, top - 10, left + width, top - 10 + height)
            where left >= box.Left + 4 && placer.IsFree(whole) && !_drawn.Exists(d => d.Overlaps(whole))
            select new LabelSpot(left + indent, top, TextAnchor.Start);
        if (placer.Place(texts, spots, leading) is { } spot)
        {
            for (int i = 0; i < rows.Count; i++)
            {
                double line = spot.Y + (i * leading);
                rows[i].Symbol(spot.X - indent, line);
                items.Add(texts[i].At(spot.X, line, TextAnchor.Start));
            }
        }
    }
}
