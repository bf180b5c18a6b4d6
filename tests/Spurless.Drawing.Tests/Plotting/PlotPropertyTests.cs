using CsCheck;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Tests.Plotting;

/// <summary>Lines, ticks and walks against slow ways to the same end.</summary>
public sealed class PlotPropertyTests
{
    private static readonly PlotBox _box = new(0, 0, 100, 50);

    private static readonly Gen<PlotPoint[]> _line = Gen.Select(
        Gen.Double[-80, 180], Gen.OneOf<double>(Gen.Double[-60, 110], Gen.OneOf(double.NaN, 0.0, 50.0, 25.0)),
        static (x, y) => new PlotPoint(x, y)).Array[2, 12];

    [Fact]
    public void Polyline_shows_exactly_what_lies_inside_the_frame() => _line.Sample(static line =>
    {
        IReadOnlyList<IReadOnlyList<PlotPoint>> parts = Clipping.Polyline(line, _box);
        Assert.All(parts.SelectMany(static p => p), static p => Assert.True(_box.Grown(1e-9).Contains(p.X, p.Y)));

        // Every sampled point of the whole line is on a part if, and only if, it is in the frame.
        for (int i = 1; i < line.Length; i++)
        {
            for (int step = 1; step < 20; step++)
            {
                double t = step / 20.0;
                PlotPoint p = new(
                    line[i - 1].X + (t * (line[i].X - line[i - 1].X)), line[i - 1].Y + (t * (line[i].Y - line[i - 1].Y)));
                if (double.IsNaN(p.Y) || !_box.Grown(-1e-6).Contains(p.X, p.Y))
                {
                    continue;
                }

                Assert.Contains(parts, part => part.Zip(part.Skip(1)).Any(s => Distance(p, s.First, s.Second) < 1e-6));
            }
        }
    });

    [Fact]
    public void PerColumn_of_a_line_with_gaps_keeps_every_extreme_and_every_gap() =>
        Gen.OneOf<double>(Gen.Double[-100, 100], Gen.Const(double.NaN)).Array[0, 200].Sample(static ys =>
        {
            PlotPoint[] line = [.. ys.Select(static (y, i) => new PlotPoint(i * 0.13, y))];
            IReadOnlyList<PlotPoint> kept = Decimation.PerColumn(line);
            foreach (IGrouping<double, PlotPoint> column in line.GroupBy(static p => Math.Floor(p.X)))
            {
                double[] all = [.. column.Select(static p => p.Y).Where(double.IsFinite)];
                double[] left = [.. kept.Where(p => Math.Floor(p.X).Equals(column.Key)).Select(static p => p.Y).Where(double.IsFinite)];
                Assert.Equal(all.Length == 0, left.Length == 0);
                if (all.Length > 0)
                {
                    Assert.Equal((all.Min(), all.Max()), (left.Min(), left.Max()));
                }
            }

            // Two points between which there was a gap have one between them still.
            for (int i = 1; i < kept.Count; i++)
            {
                if (!double.IsNaN(kept[i - 1].Y) && !double.IsNaN(kept[i].Y))
                {
                    int from = Array.IndexOf(line, kept[i - 1]), to = Array.IndexOf(line, kept[i]);
                    Assert.DoesNotContain(line[(from + 1)..to], static p => double.IsNaN(p.Y));
                }
            }
        });

    [Fact]
    public void AdaptiveSampling_of_the_wildest_curve_keeps_to_its_bound_and_covers_the_axis()
    {
        // A curve that bends at every point: nothing but the bound ends the halving.
        static double Wild(double f) => (Math.Sin(f * 1e4) + Math.Sin(f * 1.7e5)) * 100;
        Axis x = Axis.Linear(0, 10, 0, 1400), y = Axis.Linear(-200, 200, 400, 0);
        IReadOnlyList<PlotPoint> points = AdaptiveSampling.Of(Wild, x, y, [1.2345]);
        Assert.InRange(points.Count, 121, 4000);
        Assert.Equal(0, points[0].X);
        Assert.Equal(1400, points[^1].X);
        Assert.Contains(points, p => Math.Abs(p.X - x.Map(1.2345)) < 1e-6);

        // The end of the axis is looked at as closely as its beginning.
        int First(double from) => points.Count(p => p.X >= from && p.X < from + 350);
        Assert.InRange(First(1050), First(0) / 2, First(0) * 2);
    }

    [Fact]
    public void Walk_of_any_mixture_is_as_good_as_the_best_of_all_orders() =>
        Gen.Select(Gen.Int[50, 400].Array[2, 3], Gen.OneOf(-2, -1, 1, 2).Array[3]).Sample(static (megahertz, k) =>
        {
            int[] coefficients = [.. k.Take(megahertz.Length)];
            if (coefficients.All(static c => c < 0))
            {
                return;
            }

            long[] f = [.. megahertz.Select(static m => m * 1_000_000L)];
            const double low = 60e6, high = 500e6;
            (int first, IReadOnlyList<Hop> hops) = NumberLine.Walk(f, coefficients, low, high);
            int[] order = [first, .. hops.Select(static h => h.Term)];
            int[] steps = [.. coefficients.SelectMany(static (c, i) => Enumerable.Repeat(i, Math.Abs(c)))];
            (int Off, int Turns, double Reach) best = Orders(steps).Where(o => coefficients[o[0]] > 0)
                .Select(o => Cost(o, f, coefficients, low, high)).Min();
            Assert.Equal(best, Cost(order, f, coefficients, low, high));
        });

    [Fact]
    public void Ticks_of_a_long_logarithmic_axis_are_every_digit_of_every_decade_once() =>
        Gen.Select(Gen.Double[0.01, 1e6], Gen.Double[10, 1e5]).Sample(static (low, ratio) =>
        {
            IReadOnlyList<Tick> ticks = Axis.Logarithmic(low, low * ratio, 0, 800).Ticks();
            Assert.All(ticks, t => Assert.InRange(t.Value, low * (1 - 1e-9), low * ratio * (1 + 1e-9)));
            Assert.All(ticks.Zip(ticks.Skip(1)), static p => Assert.True(p.Second.Value > p.First.Value));

            // One significant digit each, counted by hand: floor and ceiling of the decade.
            int expected = 0;
            for (int decade = -3; decade <= 12; decade++)
            {
                expected += Enumerable.Range(1, 9).Count(d => d * Math.Pow(10, decade) is var v && v >= low && v <= low * ratio);
            }

            Assert.InRange(ticks.Count, expected - 1, expected + 1);
        });

    [Theory]
    [InlineData(1, 1)]
    [InlineData(1.01, 2)]
    [InlineData(2.5, 5)]
    [InlineData(5.1, 10)]
    [InlineData(0.021, 0.05)]
    [InlineData(7e-9, 1e-8)]
    public void RoundStep_is_the_next_1_2_5(double least, double step) => Assert.Equal(step, Axis.RoundStep(least), step * 1e-12);

    [Fact]
    public void Fit_of_any_text_is_the_longest_beginning_that_fits() =>
        Gen.Select(Gen.String[Gen.Char[' ', '~'], 0, 40], Gen.Double[0, 260], Gen.Bool).Sample(static (text, width, bold) =>
        {
            string fit = TextWidth.Fit(text, width, 12, bold);
            if (TextWidth.Of(text, 12, bold) <= width)
            {
                Assert.Equal(text, fit);
                return;
            }

            Assert.True(fit.Length == 0 || (fit.EndsWith('\u2026') && TextWidth.Of(fit, 12, bold) <= width));
            Assert.StartsWith(fit.TrimEnd('\u2026'), text, StringComparison.Ordinal);
            int kept = fit.Length == 0 ? 0 : fit.Length - 1;
            for (int more = kept + 1; more < text.Length; more++)
            {
                string longer = text[..more].TrimEnd();
                Assert.True(longer.Length == kept || TextWidth.Of(longer + "\u2026", 12, bold) > width, longer);
            }
        });

    [Fact]
    public void Number_of_any_coordinate_is_short_and_never_a_negative_zero() => Gen.Double[-5000, 5000].Sample(static v =>
    {
        string text = SvgPath.Number(v);
        Assert.Equal(v, double.Parse(text, System.Globalization.CultureInfo.InvariantCulture), 0.0500001);
        Assert.NotEqual("-0", text);
        Assert.Matches(@"^-?\d+(\.\d)?$", text);
    });

    private static double Distance(PlotPoint p, PlotPoint a, PlotPoint b)
    {
        double dx = b.X - a.X, dy = b.Y - a.Y, length = (dx * dx) + (dy * dy);
        double t = length == 0 ? 0 : Math.Clamp((((p.X - a.X) * dx) + ((p.Y - a.Y) * dy)) / length, 0, 1);
        return double.Hypot(p.X - a.X - (t * dx), p.Y - a.Y - (t * dy));
    }

    private static (int Off, int Turns, double Reach) Cost(int[] order, long[] f, int[] k, double low, double high)
    {
        long at = 0;
        int off = 0, turns = 0;
        double reach = 0;
        for (int i = 0; i < order.Length; i++)
        {
            at += Math.Sign(k[order[i]]) * f[order[i]];
            bool outside = at < low || at > high;
            off += outside ? 1 : 0;
            reach += outside ? Math.Abs((double)at) : 0;
            // The first hop has no direction yet; from the third place on a change of sign is a turn.
            turns += i > 1 && Math.Sign(k[order[i]]) != Math.Sign(k[order[i - 1]]) ? 1 : 0;
        }

        return (off, turns, reach);
    }

    private static IEnumerable<int[]> Orders(int[] steps) => steps.Length <= 1
        ? [steps]
        : Enumerable.Range(0, steps.Length).SelectMany(i => Orders([.. steps[..i], .. steps[(i + 1)..]]), (i, rest) => (int[])[steps[i],
            .. rest]);
}
