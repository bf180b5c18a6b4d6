namespace Spurless.Circuits.Response;

/// <summary>Finds the notches of a transmission.</summary>
/// <remarks>
/// A notch is a minimum from which the curve rises by at least <see cref="LeastRiseDb"/> on both sides before it falls below it, and that
/// stands beside
/// something within <see cref="WithinDb"/> of the best: what an instrument's noise makes of its floor is none. The deepest eight by that
/// rise are told.
/// </remarks>
internal static class NotchFinder
{
    /// <summary>Least rise on both sides in dB.</summary>
    public const double LeastRiseDb = 10;

    /// <summary>How near to the best one side must come, in dB.</summary>
    public const double WithinDb = 60;

    private const int Most = 8;

    /// <summary>Places of the notches, rising.</summary>
    /// <param name="f">Frequencies, rising.</param>
    /// <param name="db">Transmission at each in dB.</param>
    public static IReadOnlyList<int> Find(double[] f, double[] db)
    {
        double best = db.Max();
        List<(int Index, double Rise)> found = [];
        for (int i = 1; i + 1 < f.Length; i++)
        {
            if (db[i] > db[i - 1] || db[i] >= db[i + 1])
            {
                continue;
            }

            double left = Rise(db, i, -1), right = Rise(db, i, 1), rise = Math.Min(left, right) - db[i];
            if (rise >= LeastRiseDb && Math.Max(left, right) > best - WithinDb && db[i] < best - LeastRiseDb)
            {
                found.Add((i, rise));
            }
        }

        return [.. found.OrderByDescending(static n => n.Rise).Take(Most).Select(static n => n.Index).Order()];
    }

    // The highest level on one side before it falls below the minimum.
    private static double Rise(double[] db, int i, int step)
    {
        double most = db[i];
        for (int k = i + step; k >= 0 && k < db.Length && db[k] >= db[i]; k += step)
        {
            most = Math.Max(most, db[k]);
        }

        return most;
    }
}
