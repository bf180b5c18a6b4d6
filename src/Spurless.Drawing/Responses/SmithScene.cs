using System.Globalization;
using System.Numerics;
using Spurless.Drawing.Plotting;
using Spurless.Radio.Quantities;

namespace Spurless.Drawing.Responses;

/// <summary>A point of the chart that is named.</summary>
/// <param name="Hertz">Frequency.</param>
/// <param name="Words">What stands beside it.</param>
/// <param name="IsMain">Whether it is the one that matters.</param>
public readonly record struct SmithMark(double Hertz, string Words, bool IsMain);

/// <summary>The Smith chart of a reflection, its circles in ohms of the reference, not normalised.</summary>
public static class SmithScene
{
    private static readonly double[] Circles = [0.2, 0.5, 1, 2, 5];

    /// <summary>Draws it.</summary>
    /// <param name="reflection">Reflection coefficient over frequency in hertz, e^{+jwt}.</param>
    /// <param name="fromHz">First frequency of the trace.</param>
    /// <param name="toHz">Last frequency of the trace.</param>
    /// <param name="referenceOhm">Reference impedance, real.</param>
    /// <param name="marks">Frequencies to name.</param>
    /// <param name="width">In CSS pixels, at least 200.</param>
    /// <param name="name">What reflects.</param>
    /// <param name="measured">Measured reflections to lay over it, referred to the same impedance; null for none.</param>
    /// <param name="beside">Reflection of another network over frequency, dashed; null for none.</param>
    /// <param name="besideMeasured">Measured reflections of another network, upright crosses; null for none.</param>
    public static Scene Draw(
        Func<double, Complex> reflection,
        double fromHz,
        double toHz,
        double referenceOhm,
        IReadOnlyList<SmithMark> marks,
        double width,
        string name,
        IReadOnlyList<Complex>? measured = null,
        Func<double, Complex>? beside = null,
        IReadOnlyList<Complex>? besideMeasured = null)
    {
        double radius = (width / 2) - 34;
        (double cx, double cy) = (width / 2, radius + 18);
        PlotPoint At(Complex g) => new(cx + (g.Real * radius), cy - (g.Imaginary * radius));
        List<SceneItem> items = [];
        LabelPlacer placer = new(new PlotBox(0, 0, width, (2 * radius) + 36));
        DrawGrid(items, placer, At, radius, referenceOhm);
        items.Add(new SceneCircle("axis", cx, cy, radius));
        if (beside is not null)
        {
            DrawTrace(items, placer, beside, fromHz, toHz, At, "curve second");
        }

        DrawTrace(items, placer, reflection, fromHz, toHz, At, "curve");
        DrawReadings(measured ?? [], static p =>
            new SvgPath().Move(p.X - 3, p.Y - 3).Line(p.X + 3, p.Y + 3).Move(p.X - 3, p.Y + 3).Line(p.X + 3, p.Y - 3));
        DrawReadings(besideMeasured ?? [], static p =>
            new SvgPath().Move(p.X - 3.6, p.Y).Line(p.X + 3.6, p.Y).Move(p.X, p.Y + 3.6).Line(p.X, p.Y - 3.6));

        SmithMark[] shown = [.. marks.Where(m => m.Hertz >= fromHz && m.Hertz <= toHz)];
        foreach (SmithMark mark in shown.OrderByDescending(static m => m.IsMain))
        {
            PlotPoint p = At(reflection(mark.Hertz));
            items.Add(new SceneCircle(mark.IsMain ? "ball on picked" : "ball", p.X, p.Y, mark.IsMain ? 4 : 3));
            placer.Block(PlotBox.Around(p.X, p.Y, 4, 4));
            SceneText text = new((mark.IsMain ? "picked-text" : "ink") + " halo", 0, 0, mark.Words, Bold: mark.IsMain);
            LabelSpot[] spots =
            [
                new(p.X + 8, p.Y + 4, TextAnchor.Start),
                new(p.X - 8, p.Y + 4, TextAnchor.End),
                new(p.X + 8, p.Y + 18, TextAnchor.Start),
                new(p.X - 8, p.Y + 18, TextAnchor.End),
                new(p.X + 8, p.Y - 10, TextAnchor.Start),
                new(p.X - 8, p.Y - 10, TextAnchor.End),
                new(p.X, p.Y + 32, TextAnchor.Middle),
                new(p.X, p.Y - 26, TextAnchor.Middle),
            ];
            if (placer.Place(text, spots) is { } placed)
            {
                items.Add(placed);
            }
        }

        return new Scene
        {
            Width = width,
            Height = (2 * radius) + 36,
            Title = $"Input reflection of {name} on a Smith chart",
            Description = string.Create(
                CultureInfo.InvariantCulture,
                $"From {MegahertzText.InWords(fromHz)} to {MegahertzText.InWords(toHz)} MHz, "
                    + $"far end in {referenceOhm:0.##} ohm; circles of resistance and reactance in ohms.")
                + (shown.Length == 0
                    ? ""
                    : " " + string.Join("; ", shown.Select(m => Spoken(m, reflection(m.Hertz), referenceOhm))) + "."),
            Items = items,
        };

        // The mark of a reading, as in the plots; crowded ones would be a smear.
        void DrawReadings(IReadOnlyList<Complex> readings, Func<PlotPoint, SvgPath> mark)
        {
            PlotPoint last = new(double.NegativeInfinity, 0);
            foreach (PlotPoint p in readings.Select(At))
            {
                if (double.Hypot(p.X - last.X, p.Y - last.Y) >= 7 && double.Hypot(p.X - cx, p.Y - cy) <= radius + 1)
                {
                    items.Add(new ScenePath("meas", mark(p).ToString()));
                    placer.Discourage(PlotBox.Around(p.X, p.Y, 3, 3));
                    last = p;
                }
            }
        }
    }

    /// <summary>The impedance that reflects so, in ohms.</summary>
    public static Complex Impedance(Complex reflection, double referenceOhm) => referenceOhm * (1 + reflection) / (1 - reflection);

    private static string Spoken(SmithMark mark, Complex g, double reference)
    {
        if ((1 - g).Magnitude < 1e-9)
        {
            return $"at {MegahertzText.InWords(mark.Hertz)} MHz an open circuit";
        }

        Complex z = Impedance(g, reference);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"at {MegahertzText.InWords(mark.Hertz)} MHz {Math.Round(z.Real, 1) + 0.0:0.#} "
                + $"{(z.Imaginary < 0 ? '-' : '+')} j{Math.Abs(z.Imaginary):0.#} ohm");
    }

    private static void DrawGrid(List<SceneItem> items, LabelPlacer placer, Func<Complex, PlotPoint> at, double radius, double reference)
    {
        PlotPoint left = at(-1);
        PlotPoint right = at(1);
        items.Add(new ScenePath("grid strong", SvgPath.Segment(left.X, left.Y, right.X, right.Y)));
        foreach (double r in Circles)
        {
            PlotPoint centre = at(r / (1 + r));
            items.Add(new SceneCircle(r == 1 ? "grid strong" : "grid", centre.X, centre.Y, radius / (1 + r)));
            PlotPoint cross = at((r - 1) / (r + 1));
            Put(items, placer, new SceneText("halo", cross.X + 2, cross.Y - 3, Ohms(r * reference), TextAnchor.Start));
        }

        foreach (double x in Circles)
        {
            foreach (int sign in (int[])[1, -1])
            {
                // The circle of a reactance runs from the rim to the open point; its radius is 1/x.
                Complex z = new(0, sign * x);
                Complex rim = (z - 1) / (z + 1);
                PlotPoint a = at(rim);
                items.Add(
                    new ScenePath("grid", new SvgPath().Move(a.X, a.Y).Arc(radius / x, false, sign < 0, right.X, right.Y).ToString()));
                PlotPoint outside = at(rim * (1 + (11 / radius)));
                TextAnchor anchor = rim.Real > 0.3 ? TextAnchor.Start : rim.Real < -0.3 ? TextAnchor.End : TextAnchor.Middle;
                Put(
                    items,
                    placer,
                    new SceneText("", outside.X, outside.Y + 4, $"{(sign < 0 ? "\u2212" : "")}j{Ohms(x * reference)}", anchor));
            }
        }

        Put(items, placer, new SceneText("", left.X - 6, left.Y + 4, "0", TextAnchor.End));
        Put(items, placer, new SceneText("", right.X + 6, right.Y + 4, "\u221E"));
    }

    private static void DrawTrace(
        List<SceneItem> items,
        LabelPlacer placer,
        Func<double, Complex> reflection,
        double fromHz,
        double toHz,
        Func<Complex, PlotPoint> at,
        string style)
    {
        // Steps of even ratio, halved where the trace moves more than two pixels.
        List<PlotPoint> points = [];
        const int Steps = 160;
        double ratio = Math.Pow(toHz / fromHz, 1.0 / Steps);
        PlotPoint last = at(reflection(fromHz));
        points.Add(last);
        double f = fromHz;
        for (int i = 1; i <= Steps; i++)
        {
            double next = i == Steps ? toHz : f * ratio;
            PlotPoint end = at(reflection(next));
            Refine(f, last, next, end, 8);
            points.Add(end);
            (f, last) = (next, end);
        }

        items.Add(
            new ScenePath(
                style, new SvgPath().Through([.. points.Where(static p => double.IsFinite(p.X) && double.IsFinite(p.Y))]).ToString()));
        foreach (PlotPoint p in points)
        {
            placer.Discourage(PlotBox.Around(p.X, p.Y, 1.5, 1.5));
        }

        void Refine(double f1, PlotPoint a, double f2, PlotPoint b, int depth)
        {
            if (depth == 0 || Math.Abs(a.X - b.X) + Math.Abs(a.Y - b.Y) < 2)
            {
                return;
            }

            double middle = Math.Sqrt(f1 * f2);
            PlotPoint m = at(reflection(middle));
            Refine(f1, a, middle, m, depth - 1);
            points.Add(m);
            Refine(middle, m, f2, b, depth - 1);
        }
    }

    private static void Put(List<SceneItem> items, LabelPlacer placer, SceneText text)
    {
        if (placer.Place(text, [new LabelSpot(text.X, text.Y, text.Anchor)]) is { } placed)
        {
            items.Add(placed);
        }
    }

    private static string Ohms(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
