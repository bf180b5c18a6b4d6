namespace Spurless.Fit;

/// <summary>
/// Recognises where a transmission stops being the circuit's: below some level the measured values stay up by leakage of instrument and
/// fixture while everything above that level is explained. That part is left out.
/// </summary>
internal static class LeakageCheck
{
    private const double Structured = 3;
    private const double HighestDb = -45;
    private const int LeastPoints = 8;

    /// <summary>Gives the points below such a level weight 0.</summary>
    /// <param name="model">The fit, its data weighted.</param>
    /// <param name="x">Where it stands.</param>
    /// <param name="w">Memory.</param>
    /// <returns>Points left out, per trace.</returns>
    public static int[] LeaveOut(FitModel model, double[] x, FitWorkspace w)
    {
        FitData data = model.Data;
        int[] left = new int[data.Parameters.Length];
        if (!double.IsFinite(model.Cost(x, w)))
        {
            return left;
        }

        for (int t = 0; t < left.Length; t++)
        {
            if (data.Parameters[t] is SweepParameter.S11 or SweepParameter.S22)
            {
                continue;
            }

            model.Residuals(x, t, w);
            (double Db, double Square, int Point)[] points =
            [
                .. Enumerable.Range(0, data.Points).Where(i => data.Weight[t][i] > 0)
                    .Select(i => (Level(data, t, i), ((w.Re[i] * w.Re[i]) + (w.Im[i] * w.Im[i])) / (data.Magnitude[t] ? 1 : 2), i))
                    .OrderBy(static p => p.Item1),
            ];
            double above = Mean(points, HighestDb, double.PositiveInfinity);
            if (!(above < Structured))
            {
                continue;
            }

            double cut = double.NegativeInfinity;
            for (double level = HighestDb; level > -140; level -= 2.5)
            {
                int count = points.Count(p => p.Db < level);
                if (count >= LeastPoints && Mean(points, level - 5, level) > Structured * Math.Max(1, above))
                {
                    cut = level;
                    break;
                }
            }

            foreach ((double db, _, int i) in points)
            {
                if (db < cut)
                {
                    data.Weight[t][i] = 0;
                    left[t]++;
                }
            }
        }

        return left;
    }

    private static double Level(FitData data, int t, int i) => data.Magnitude[t]
        ? data.Real[t][i]
        : 10 * Math.Log10((data.Real[t][i] * data.Real[t][i]) + (data.Imaginary[t][i] * data.Imaginary[t][i]) + 1e-40);

    private static double Mean((double Db, double Square, int Point)[] points, double from, double to)
    {
        double sum = 0;
        int count = 0;
        foreach ((double db, double square, _) in points)
        {
            if (db >= from && db < to)
            {
                sum += Math.Min(square, 100);
                count++;
            }
        }

        return count == 0 ? 0 : sum / count;
    }
}
