namespace Spurless.Fit;

/// <summary>Chooses few of a sweep's points so that they lie dense where it turns fast.</summary>
internal static class SweepThinning
{
    /// <summary>Chooses points evenly along the curve of all traces together, half by its length and half by frequency.</summary>
    /// <param name="data">The sweep.</param>
    /// <param name="count">How many at most.</param>
    /// <returns>Places of points, rising, without repetition.</returns>
    public static int[] Choose(FitData data, int count)
    {
        int n = data.Points;
        if (n <= count)
        {
            return [.. Enumerable.Range(0, n)];
        }

        double[] along = new double[n];
        for (int i = 1; i < n; i++)
        {
            double step = 0;
            for (int t = 0; t < data.Parameters.Length; t++)
            {
                step += data.Magnitude[t]
                    ? Math.Abs(data.Real[t][i] - data.Real[t][i - 1]) / 20
                    : double.Hypot(data.Real[t][i] - data.Real[t][i - 1], data.Imaginary[t][i] - data.Imaginary[t][i - 1]);
            }

            along[i] = along[i - 1] + step;
        }

        SortedSet<int> chosen = [];
        double whole = Math.Max(along[^1], 1e-12);
        for (int k = 0, i = 0; k < count; k++)
        {
            double wanted = k / (count - 1.0);
            while (i < n - 1 && ((along[i] / whole) + (i / (n - 1.0))) / 2 < wanted - 1e-12)
            {
                i++;
            }

            chosen.Add(i);
        }

        return [.. chosen];
    }
}
