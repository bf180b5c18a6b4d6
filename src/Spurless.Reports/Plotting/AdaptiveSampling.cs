namespace Spurless.Reports.Plotting;

/// <summary>Samples a curve where it bends: a narrow pass-band on a wide logarithmic axis keeps its shape with few points.</summary>
public static class AdaptiveSampling
{
    /// <summary>
    /// The curve as a polyline in the picture's units. Starts from even steps and halves each interval until the middle lies within
    /// <paramref name="tolerance"/> of the chord or the interval is under a tenth of a unit wide.
    /// </summary>
    /// <param name="function">The quantity over the horizontal axis' quantity; NaN and infinities become gaps.</param>
    /// <param name="x">Horizontal axis.</param>
    /// <param name="y">Vertical axis.</param>
    /// <param name="through">Values that must be among the samples (the channel, the carriers), in the horizontal axis' quantity.</param>
    /// <param name="tolerance">In the picture's units.</param>
    /// <param name="steps">Intervals to begin with, at least 1.</param>
    /// <returns>By ascending position along the axis; at most 4,000 points.</returns>
    public static IReadOnlyList<PlotPoint> Of(
        Func<double, double> function, Axis x, Axis y, IEnumerable<double>? through = null, double tolerance = 0.25, int steps = 120)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(steps);
        List<double> starts = [];
        for (int i = 0; i <= steps; i++)
        {
            starts.Add(x.From + ((x.To - x.From) * i / steps));
        }

        starts.AddRange((through ?? []).Where(x.Shows).Select(x.Map));
        starts.Sort();
        List<PlotPoint> points = [];
        PlotPoint last = Sample(starts[0]);
        points.Add(last);
        for (int i = 1; i < starts.Count; i++)
        {
            if (starts[i] - starts[i - 1] < 1e-6)
            {
                continue;
            }

            PlotPoint next = Sample(starts[i]);
            Refine(last, next, 12);
            points.Add(next);
            last = next;
        }

        return points;

        PlotPoint Sample(double at)
        {
            double value = function(x.Unmap(at));
            return new PlotPoint(at, double.IsFinite(value) ? y.Map(value) : double.NaN);
        }

        void Refine(PlotPoint a, PlotPoint b, int depth)
        {
            if (depth == 0 || points.Count > 4000 || b.X - a.X < 0.1)
            {
                return;
            }

            PlotPoint middle = Sample((a.X + b.X) / 2);
            double off = Math.Abs(middle.Y - ((a.Y + b.Y) / 2));
            if (off <= tolerance || !double.IsFinite(off))
            {
                return;
            }

            Refine(a, middle, depth - 1);
            points.Add(middle);
            Refine(middle, b, depth - 1);
        }
    }
}
