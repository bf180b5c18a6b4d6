namespace Spurless.Mixing.Levels;

/// <summary>Levels added together.</summary>
public static class LevelSum
{
    /// <summary>Sum in power: what signals of unrelated phase make together.</summary>
    /// <param name="levelsDbm">Levels in dBm; minus infinity counts nothing.</param>
    /// <returns>dBm; minus infinity for none. -90, -90 and -93 dBm: -86.02 dBm.</returns>
    public static double PowerDbm(ReadOnlySpan<double> levelsDbm) => Sum(levelsDbm, 10);

    /// <summary>Sum in voltage: the worst case, all in phase.</summary>
    /// <param name="levelsDbm">Levels in dBm; minus infinity counts nothing.</param>
    /// <returns>dBm; minus infinity for none. Two of -90 dBm: -83.98 dBm.</returns>
    public static double VoltageDbm(ReadOnlySpan<double> levelsDbm) => Sum(levelsDbm, 20);

    private static double Sum(ReadOnlySpan<double> levelsDbm, double divisor)
    {
        // Relative to the largest, so that nothing under- or overflows and a single level comes back exactly.
        double largest = double.NegativeInfinity;
        foreach (double level in levelsDbm)
        {
            largest = Math.Max(largest, level);
        }

        if (double.IsNegativeInfinity(largest))
        {
            return largest;
        }

        double sum = 0;
        foreach (double level in levelsDbm)
        {
            sum += Math.Pow(10, (level - largest) / divisor);
        }

        return largest + (divisor * Math.Log10(sum));
    }
}
