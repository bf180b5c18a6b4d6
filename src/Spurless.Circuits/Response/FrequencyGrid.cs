namespace Spurless.Circuits.Response;

/// <summary>Frequencies of a sweep, in hertz.</summary>
public static class FrequencyGrid
{
    /// <summary>Evenly spaced frequencies, both ends included.</summary>
    /// <param name="fromHz">First, above 0.</param>
    /// <param name="toHz">Last, above <paramref name="fromHz"/>.</param>
    /// <param name="points">How many, at least 2.</param>
    public static double[] Linear(double fromHz, double toHz, int points)
    {
        Check(fromHz, toHz, points);
        return Fill(fromHz, toHz, points, t => fromHz + (t * (toHz - fromHz)));
    }

    /// <summary>Frequencies in even ratio, both ends included.</summary>
    /// <inheritdoc cref="Linear"/>
    public static double[] Logarithmic(double fromHz, double toHz, int points)
    {
        Check(fromHz, toHz, points);
        double ratio = toHz / fromHz;
        return Fill(fromHz, toHz, points, t => fromHz * Math.Pow(ratio, t));
    }

    private static double[] Fill(double fromHz, double toHz, int points, Func<double, double> at)
    {
        double[] grid = new double[points];
        for (int i = 1; i < points - 1; i++)
        {
            grid[i] = at((double)i / (points - 1));
        }

        grid[0] = fromHz;
        grid[^1] = toHz;
        return grid;
    }

    private static void Check(double fromHz, double toHz, int points)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fromHz);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(toHz, fromHz);
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 2);
        if (!double.IsFinite(toHz))
        {
            throw new ArgumentOutOfRangeException(nameof(toHz), "must be finite");
        }
    }
}
