using CsCheck;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Tests.Plotting;

public class LineTests
{
    private static readonly PlotBox Box = new(0, 0, 100, 50);

    private static readonly Gen<PlotPoint> Point = Gen
        .Select(Gen.Double[-200, 300], Gen.Double[-200, 300])
        .Select(static (x, y) => new PlotPoint(x, y));

    [Fact]
    public void Segment_that_crosses_is_cut_at_both_edges()
    {
        Assert.True(Clipping.Segment(new PlotPoint(-50, 25), new PlotPoint(150, 25), Box, out PlotPoint a, out PlotPoint b));
        Assert.Equal((new PlotPoint(0, 25), new PlotPoint(100, 25)), (a, b));
    }

    [Fact]
    public void Segment_what_is_left_lies_inside_and_on_the_line() => Gen.Select(Point, Point).Sample(static (from, to) =>
    {
        if (!Clipping.Segment(from, to, Box, out PlotPoint a, out PlotPoint b))
        {
            return Enumerable.Range(0, 101).All(
                i =>
                    !new PlotBox(1e-6, 1e-6, 100 - 1e-6, 50 - 1e-6).Contains(
                        from.X + ((to.X - from.X) * i / 100), from.Y + ((to.Y - from.Y) * i / 100)));
        }

        double length = Math.Sqrt(Math.Pow(to.X - from.X, 2) + Math.Pow(to.Y - from.Y, 2));
        double Off(PlotPoint p) =>
            length == 0 ? 0 : Math.Abs(((to.X - from.X) * (p.Y - from.Y)) - ((to.Y - from.Y) * (p.X - from.X))) / length;
        return Box.Grown(1e-9).Contains(a.X, a.Y) && Box.Grown(1e-9).Contains(b.X, b.Y) && Off(a) < 1e-6 && Off(b) < 1e-6;
    });

    [Fact]
    public void Polyline_that_leaves_and_comes_back_gives_two_parts()
    {
        var parts = Clipping.Polyline([new(10, 10), new(50, -30), new(90, 10)], Box);
        Assert.Equal(2, parts.Count);
        Assert.Equal([new PlotPoint(10, 10), new PlotPoint(20, 0)], parts[0]);
        Assert.Equal([new PlotPoint(80, 0), new PlotPoint(90, 10)], parts[1]);
    }

    [Fact]
    public void Polyline_gap_of_unknown_values_interrupts_the_line()
    {
        var parts = Clipping.Polyline([new(1, 1), new(2, 1), new(3, double.NaN), new(4, 1), new(5, 1)], Box);
        Assert.Equal(2, parts.Count);
    }

    [Fact]
    public void PerColumn_keeps_every_extreme_and_at_most_four_points_a_column() => Gen.Double[-100, 100].Array[0, 400].Sample(static ys =>
    {
        PlotPoint[] line = [.. ys.Select((y, i) => new PlotPoint(i * 0.13, y))];
        IReadOnlyList<PlotPoint> kept = Decimation.PerColumn(line);
        return line.GroupBy(static p => Math.Floor(p.X)).All(column =>
        {
            List<PlotPoint> left = [.. kept.Where(p => Math.Floor(p.X).Equals(column.Key))];
            return left.Count is >= 1 and <= 4
                && left.Min(static p => p.Y).Equals(column.Min(static p => p.Y))
                && left.Max(static p => p.Y).Equals(column.Max(static p => p.Y))
                && left[0] == column.First() && left[^1] == column.Last();
        }) && kept.Zip(kept.Skip(1)).All(static p => p.First.X <= p.Second.X);
    });

    [Fact]
    public void AdaptiveSampling_narrow_pass_band_keeps_its_top()
    {
        // A resonance of Q = 2,000 at 145 MHz on an axis from 50 to 500 MHz: 0.07 MHz wide, a fiftieth of a pixel per 0.17 MHz step of
        // 2,000 even points.
        static double Gain(double f) => -10 * Math.Log10(1 + Math.Pow(2000 * ((f / 145e6) - (145e6 / f)), 2));
        Axis x = Axis.Logarithmic(50e6, 500e6, 0, 600);
        Axis y = Axis.Linear(-80, 0, 200, 0);
        IReadOnlyList<PlotPoint> points = AdaptiveSampling.Of(Gain, x, y, [145e6]);
        Assert.Equal(0, points.Min(static p => p.Y), 6);
        Assert.InRange(points.Count, 100, 1000);
        Assert.All(points.Zip(points.Skip(1)), static p => Assert.True(p.Second.X > p.First.X));
    }

    [Fact]
    public void AdaptiveSampling_stays_near_the_curve_between_its_points()
    {
        Axis x = Axis.Linear(0, 10, 0, 500);
        Axis y = Axis.Linear(-1, 1, 200, 0);
        IReadOnlyList<PlotPoint> points = AdaptiveSampling.Of(Math.Sin, x, y, tolerance: 0.25, steps: 4);
        foreach ((PlotPoint a, PlotPoint b) in points.Zip(points.Skip(1)))
        {
            double middle = (a.X + b.X) / 2;
            Assert.Equal(y.Map(Math.Sin(x.Unmap(middle))), (a.Y + b.Y) / 2, 0.5);
        }
    }

    [Fact]
    public void NumberLine_both_twice_minus_once_turns_back_once_and_stays_on_the_axis()
    {
        (int first, IReadOnlyList<Hop> hops) = NumberLine.Walk([158_300_000, 171_550_000], [2, -1], 47e6, 510e6);
        Assert.Equal(0, first);
        Assert.Equal([new Hop(158_300_000, 316_600_000, 0), new Hop(316_600_000, 145_050_000, 1)], hops);
    }

    [Fact]
    public void NumberLine_every_walk_ends_on_the_sum_and_uses_each_term_as_often_as_it_counts() =>
        Gen.Select(Gen.Int[1, 400].Array[1, 3], Gen.Int[-3, 3].Array[3]).Sample(static (megahertz, coefficients) =>
        {
            int[] k = [.. coefficients.Take(megahertz.Length).Select(static (c, i) => i == 0 ? Math.Abs(c) + 1 : c)];
            long[] f = [.. megahertz.Select(static m => m * 1_000_000L)];
            (int first, IReadOnlyList<Hop> hops) = NumberLine.Walk(f, k, 1e6, 1e9);
            long end = hops.Count == 0 ? f[first] : hops[^1].To;
            int[] used = new int[k.Length];
            used[first]++;
            foreach (Hop hop in hops)
            {
                used[hop.Term]++;
            }

            return end == f.Zip(k).Sum(static p => p.First * p.Second) && used.SequenceEqual(k.Select(Math.Abs));
        });
}
