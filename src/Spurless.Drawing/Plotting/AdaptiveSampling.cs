namespace Spurless.Drawing.Plotting;

/// <summary>Samples a curve where it bends: a narrow pass-band on a wide logarithmic axis keeps its shape with few points.</summary>
public static class AdaptiveSampling
{
    private const int MostPoints = 4000;
    private const int MostHalvings = 12;

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
        List<(PlotPoint From, PlotPoint To)> open = [];
        foreach (double at in starts)
        {
            if (points.Count > 0 && at - points[^1].X < 1e-6)
            {
                continue;
            }

            PlotPoint next = Sample(at);
            if (points.Count > 0)
            {
                open.Add((points[^1], next));
            }

            points.Add(next);
        }

        // All intervals once, then all halves that still bend: where the bound ends it, no part of the axis is worse off than another.
        for (int halvings = 0; halvings < MostHalvings && open.Count > 0; halvings++)
        {
            List<(PlotPoint From, PlotPoint To)> halves = [];
            foreach ((PlotPoint a, PlotPoint b) in open)
            {
                if (points.Count >= MostPoints || b.X - a.X < 0.1)
                {
                    continue;
                }

                PlotPoint middle = Sample((a.X + b.X) / 2);
                double off = Math.Abs(middle.Y - ((a.Y + b.Y) / 2));
                if (double.IsFinite(off) && off > tolerance)
                {
                    points.Add(middle);
                    halves.Add((a, middle));
                    halves.Add((middle, b));
                }
            }

            open = halves;
        }

        points.Sort(static (a, b) => a.X.CompareTo(b.X));
        return points;

        PlotPoint Sample(double at)
        {
            double value = function(x.Unmap(at));
            return new PlotPoint(at, double.IsFinite(value) ? y.Map(value) : double.NaN);
        }
    }
}
