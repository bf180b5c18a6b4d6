using System.Globalization;
using Spurless.Drawing.Plotting;
using Spurless.Radio.Quantities;

namespace Spurless.Drawing.Responses;

/// <summary>A frequency to mark in a plot.</summary>
/// <param name="Hertz">Where.</param>
/// <param name="Letter">What it is called there.</param>
public readonly record struct PlotMark(double Hertz, string Letter);

/// <summary>What a plot of one quantity over frequency shows.</summary>
public sealed record ResponsePlotModel
{
    /// <summary>What it is, in a line.</summary>
    public required string Title { get; init; }

    /// <summary>The quantity over frequency in hertz.</summary>
    public required Func<double, double> Quantity { get; init; }

    /// <summary>Name of the vertical axis with its unit: <c>gain, dB</c>.</summary>
    public required string AxisTitle { get; init; }

    /// <summary>Name of the curve, in italics beside it.</summary>
    public required string CurveName { get; init; }

    /// <summary>First frequency in hertz, above 0.</summary>
    public required double FromHz { get; init; }

    /// <summary>Last frequency in hertz.</summary>
    public required double ToHz { get; init; }

    /// <summary>Whether the frequency axis is logarithmic.</summary>
    public bool Logarithmic { get; init; }

    /// <summary>Lower end of the vertical axis.</summary>
    public required double Low { get; init; }

    /// <summary>Upper end of the vertical axis.</summary>
    public required double High { get; init; }

    /// <summary>Whether the vertical axis grows downwards, as return loss does.</summary>
    public bool Downwards { get; init; }

    /// <summary>Frequencies to mark, by letters over the plot.</summary>
    public IReadOnlyList<PlotMark> Marks { get; init; } = [];

    /// <summary>Measured points under the curve, as dots: at most some 200 are drawn; empty for none.</summary>
    public IReadOnlyList<(double Hertz, double Value)> Measured { get; init; } = [];

    /// <summary>The frequency that matters, with a line of its own; null for none.</summary>
    public double? ChannelHz { get; init; }

    /// <summary>Tolerance band, demands and measured points.</summary>
    public PlotOverlay Overlay { get; init; } = new();
}

/// <summary>Draws a quantity over frequency, sampled where it bends and cut at the frame.</summary>
public static class ResponsePlotScene
{
    /// <summary>Draws it.</summary>
    /// <param name="model">What to show.</param>
    /// <param name="width">In CSS pixels, at least 300.</param>
    /// <param name="height">Of the frame, in CSS pixels.</param>
    public static Scene Draw(ResponsePlotModel model, double width, double height = 150)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 300);
        (PlotBox box, Axis x, Axis y) = Frame(model, width, height);
        List<SceneItem> items = [];
        DrawGrid(items, box, y);
        DrawFrequencies(items, box, x, model, width);
        items.Add(new SceneText("", 0, box.Top - 22, model.AxisTitle));
        IReadOnlyList<PlotPoint> curve = AdaptiveSampling.Of(
            mhz => model.Quantity(mhz * 1e6),
            x,
            y,
            model.Marks.Select(static m => m.Hertz / 1e6).Concat(model.ChannelHz is { } c ? [c / 1e6] : []));
        LabelPlacer placer = new(new PlotBox(0, 0, width, box.Bottom));
        placer.Block(((SceneText)items[^1]).Box);
        OverlayPart overlay = new(model, box, x, y, items, placer);
        overlay.Under();
        DrawMeasured(items, box, x, y, model);
        DrawMarks(items, placer, box, x, y, model);
        foreach (IReadOnlyList<PlotPoint> part in Clipping.Polyline(Decimation.PerColumn(curve, 0.5), box))
        {
            items.Add(new ScenePath("curve", new SvgPath().Through(part).ToString()));
        }

        foreach ((PlotPoint a, PlotPoint b) in curve.Zip(curve.Skip(1)))
        {
            placer.Discourage(new PlotBox(a.X, Math.Min(a.Y, b.Y) - 2, b.X, Math.Max(a.Y, b.Y) + 2));
        }

        overlay.Over(curve);
        NameCurve(items, placer, box, curve, model);
        return new Scene
        {
            Width = width,
            Height = box.Bottom + 36,
            Title = model.Title,
            Description = Describe(model, overlay),
            Items = items,
        };
    }

    /// <summary>The frame of a plot and its axes, in MHz and the plot's quantity.</summary>
    internal static (PlotBox Box, Axis X, Axis Y) Frame(ResponsePlotModel model, double width, double height)
    {
        PlotBox box = new(42, 34, width - 12, 34 + height);
        return (box, Frequencies(model, box), model.Downwards
            ? Axis.Linear(model.Low, model.High, box.Top, box.Bottom)
            : Axis.Linear(model.Low, model.High, box.Bottom, box.Top));
    }

    internal static Axis Frequencies(ResponsePlotModel model, PlotBox box) => model.Logarithmic
        ? Axis.Logarithmic(model.FromHz / 1e6, model.ToHz / 1e6, box.Left, box.Right)
        : Axis.Linear(model.FromHz / 1e6, model.ToHz / 1e6, box.Left, box.Right);

    private static void DrawGrid(List<SceneItem> items, PlotBox box, Axis y)
    {
        foreach (Tick tick in y.Ticks(28))
        {
            double at = y.Map(tick.Value);
            if (at > box.Top + 1 && at < box.Bottom - 1)
            {
                items.Add(new ScenePath("grid", SvgPath.Segment(box.Left, at, box.Right, at)));
            }

            items.Add(
                new SceneText(
                    "",
                    box.Left - 6,
                    at + 4,
                    (tick.Value < 0 ? "\u2212" : "") + Math.Abs(tick.Value).ToString("0.###", CultureInfo.InvariantCulture),
                    TextAnchor.End));
        }

        items.Add(
            new ScenePath("axis", new SvgPath().Move(box.Left, box.Top).Line(box.Left, box.Bottom).Line(box.Right, box.Bottom).ToString()));
        items.Add(
            new ScenePath("tick", new SvgPath().Move(box.Left, box.Top).Line(box.Right, box.Top).Line(box.Right, box.Bottom).ToString()));
    }

    private static void DrawFrequencies(List<SceneItem> items, PlotBox box, Axis x, ResponsePlotModel model, double width)
    {
        LabelPlacer row = new(new PlotBox(0, box.Bottom, width, box.Bottom + 24));
        foreach (Tick tick in x.Ticks(44).OrderByDescending(static t => t.Labelled))
        {
            double at = x.Map(tick.Value);
            SceneText? label = tick.Labelled
                ? row.Place(
                    new SceneText("", at, 0, tick.Value.ToString("0.####", CultureInfo.InvariantCulture), TextAnchor.Middle),
                    [new LabelSpot(at, box.Bottom + 17, TextAnchor.Middle), new LabelSpot(width - 1, box.Bottom + 17, TextAnchor.End)])
                : null;
            items.Add(
                new ScenePath(label is null ? "tick" : "axis", SvgPath.Segment(at, box.Bottom, at, box.Bottom + (label is null ? 3 : 5))));
            if (label is not null)
            {
                items.Add(label);
            }
        }

        items.Add(
            new SceneText("", box.Right, box.Bottom + 31, model.Logarithmic ? "frequency, MHz (log)" : "frequency, MHz", TextAnchor.End));
    }

    private static void DrawMeasured(List<SceneItem> items, PlotBox box, Axis x, Axis y, ResponsePlotModel model)
    {
        const int Most = 200;
        int every = Math.Max(1, (model.Measured.Count + Most - 1) / Most);
        for (int i = 0; i < model.Measured.Count; i += every)
        {
            PlotPoint at = new(x.Map(model.Measured[i].Hertz / 1e6), y.Map(model.Measured[i].Value));
            if (box.Contains(at.X, at.Y))
            {
                items.Add(new SceneCircle("ball", at.X, at.Y, 1.2));
            }
        }
    }

    private static void DrawMarks(List<SceneItem> items, LabelPlacer placer, PlotBox box, Axis x, Axis y, ResponsePlotModel model)
    {
        if (model.ChannelHz is { } channel && x.Shows(channel / 1e6))
        {
            double at = x.Map(channel / 1e6);
            items.Add(new ScenePath("fall", SvgPath.Segment(at, box.Top, at, box.Bottom)));
            placer.Discourage(new PlotBox(at - 1, box.Top, at + 1, box.Bottom));
            string shown = MegahertzText.Of(channel, 4, 6);
            LabelSpot[] beside =
            [
                new(at, box.Top - 5, TextAnchor.Middle),
                new(at + 6, box.Bottom - 6, TextAnchor.Start),
                new(at - 6, box.Bottom - 6, TextAnchor.End),
            ];
            if (placer.Place(new SceneText("picked-text halo", 0, 0, shown, Bold: true), beside) is { } word)
            {
                items.Add(word);
            }
        }

        foreach (PlotMark mark in model.Marks.Where(m => x.Shows(m.Hertz / 1e6)))
        {
            double at = x.Map(mark.Hertz / 1e6);
            double value = y.Map(model.Quantity(mark.Hertz));
            if (value >= box.Top && value <= box.Bottom)
            {
                items.Add(new SceneCircle("ball", at, value, 2.8));
                placer.Block(PlotBox.Around(at, value, 3.4, 3.4));
            }

        }

        DrawLetters(items, placer, box, x, model);
    }

    /// <summary>
    /// The letters in a row over the frame, each over its frequency or as near as the row has room, a hairline leading down. The channel's
    /// figure stands in the same row: letters keep to their side of it.
    /// </summary>
    private static void DrawLetters(List<SceneItem> items, LabelPlacer placer, PlotBox box, Axis x, ResponsePlotModel model)
    {
        const double gap = 3;
        double row = box.Top - 5;
        (double At, SceneText Text)[] letters =
        [
            .. model.Marks
                .Where(m => x.Shows(m.Hertz / 1e6))
                .Select(m => (At: x.Map(m.Hertz / 1e6), Text: new SceneText("ink", 0, row, m.Letter, TextAnchor.Middle)))
                .OrderBy(static l => l.At),
        ];
        PlotBox line = new(box.Left, row - 6, box.Right, row);
        PlotBox? word = placer.Taken.Where(t => t.Overlaps(line) && t.Left > box.Left).Select(static t => (PlotBox?)t).FirstOrDefault();
        double channel = word is { } w ? (w.Left + w.Right) / 2 : double.PositiveInfinity;
        Place([.. letters.Where(l => l.At <= channel)], box.Left - 6, word?.Left - gap ?? box.Right + 10);
        Place([.. letters.Where(l => l.At > channel)], word?.Right + gap ?? box.Left, box.Right + 10);

        void Place((double At, SceneText Text)[] side, double from, double to)
        {
            double[] widths = [.. side.Select(static l => l.Text.Box.Width + gap)];
            if (widths.Sum() > to - from)
            {
                // More than the row holds: those that stand free, as before.
                foreach ((double at, SceneText text) in side)
                {
                    if (placer.Place(text, [new LabelSpot(at, row, TextAnchor.Middle)]) is { } free)
                    {
                        Put(free, at);
                    }
                }

                return;
            }

            // From the left each as far right as its own place, never over its neighbour; then from the right back into the row.
            double[] centre = new double[side.Length];
            double edge = from;
            for (int i = 0; i < side.Length; i++)
            {
                centre[i] = Math.Max(side[i].At, edge + (widths[i] / 2));
                edge = centre[i] + (widths[i] / 2);
            }

            edge = to;
            for (int i = side.Length - 1; i >= 0; i--)
            {
                centre[i] = Math.Min(centre[i], edge - (widths[i] / 2));
                edge = centre[i] - (widths[i] / 2);
            }

            for (int i = 0; i < side.Length; i++)
            {
                SceneText text = side[i].Text.At(centre[i], row, TextAnchor.Middle);
                placer.Block(text.Box);
                Put(text, side[i].At);
            }
        }

        void Put(SceneText text, double at)
        {
            items.Add(text);
            items.Add(new ScenePath("tick", SvgPath.Segment(text.X, box.Top - 3, at, box.Top + 3)));
        }
    }

    private static void NameCurve(
        List<SceneItem> items, LabelPlacer placer, PlotBox box, IReadOnlyList<PlotPoint> curve, ResponsePlotModel model)
    {
        List<PlotPoint> inside = [.. curve.Where(p => double.IsFinite(p.Y) && box.Contains(p.X, p.Y))];
        if (inside.Count == 0)
        {
            return;
        }

        IEnumerable<LabelSpot> spots = Enumerable.Range(1, 30).Select(i => inside[(inside.Count - 1) * (31 - i) / 31])
            .SelectMany(static p =>
            (LabelSpot[])
            [
                new(p.X + 8, p.Y + 18, TextAnchor.Start),
                new(p.X - 8, p.Y + 18, TextAnchor.End),
                new(p.X, p.Y - 10, TextAnchor.Middle),
            ]);
        SceneText name = new("curve-text say halo", 0, 0, model.CurveName, Size: 13);
        // Never over itself: where there is no room beside it, what stands over the axis names it.
        (PlotPoint From, PlotPoint To)[] stretches =
            [.. curve.Zip(curve.Skip(1)).Where(static s => double.IsFinite(s.First.Y + s.Second.Y))];
        bool Clear(PlotBox words) => box.Grown(-2).Contains(words) && !Array.Exists(stretches, s => words.Meets(s.From, s.To));
        if (placer.Place(name, spots.Where(s => Clear(name.At(s.X, s.Y, s.Anchor).Box))) is { } placed)
        {
            items.Add(placed);
        }
    }

    private static string Describe(ResponsePlotModel model, OverlayPart overlay)
    {
        string marks = string.Join("; ", model.Marks.Where(m => m.Hertz >= model.FromHz && m.Hertz <= model.ToHz).Take(30)
            .Select(
                m =>
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{m.Letter} at {MegahertzText.Of(m.Hertz, 4)} MHz {Told(model.Quantity(m.Hertz), "0.0")}")));
        string channel = model.ChannelHz is { } c
            ? string.Create(CultureInfo.InvariantCulture, $" At {MegahertzText.Of(c, 4)} MHz {Told(model.Quantity(c), "0.00")}.")
            : "";
        string band = model.Overlay.Band is { } b ? $" A band: {b.Words}." : "";
        PlotDemand[] shown = [.. model.Overlay.Demands.Where(d => d.ToHz >= model.FromHz && d.FromHz <= model.ToHz)];
        string[] missed = [.. shown
            .Select(overlay.Missing)
            .Where(static m => m.Missing > 0)
            .Select(static m => string.Create(
                CultureInfo.InvariantCulture, $"{m.Missing:0.0} dB short at {MegahertzText.Of(m.Hertz, 4)} MHz"))];
        string demands = shown.Length == 0
            ? ""
            : missed.Length > 0 ? $" Not kept: {string.Join("; ", missed)}."
            : !shown.All(overlay.IsKnown) ? " Not known everywhere whether the demands are kept."
            : shown.Length < model.Overlay.Demands.Count ? " Every demand in the picture is kept."
            : " Every demand is kept.";
        string measured = model.Overlay.Measured.Count == 0
            ? ""
            : string.Create(CultureInfo.InvariantCulture, $" Crosses: {model.Overlay.MeasuredWords}.");
        string beside = model.Overlay.Beside is not null ? $" Dashed: {model.Overlay.BesideWords}."
            : model.Overlay.BesideMeasured.Count > 0 ? $" Upright crosses: {model.Overlay.BesideWords}." : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{model.AxisTitle} from {MegahertzText.InWords(model.FromHz)} to {MegahertzText.InWords(model.ToHz)} "
                + $"MHz.{channel}{(marks.Length > 0 ? " " + marks + "." : "")}{band}{demands}{measured}"
                + $"{beside} The table holds the numbers.");
    }

    private static string Told(double value, string format) =>
        double.IsFinite(value) ? value.ToString(format, CultureInfo.InvariantCulture) : "not known";
}
