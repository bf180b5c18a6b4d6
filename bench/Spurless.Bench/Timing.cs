using System.Diagnostics;
using System.Globalization;

namespace Spurless.Bench;

/// <summary>Times by the stop watch: the best of many runs, which is the one least disturbed.</summary>
public static class Timing
{
    /// <summary>Runs an action again and again and takes the best.</summary>
    /// <param name="action">What to time.</param>
    /// <param name="budget">Go on until about this much has gone, or <paramref name="most"/> runs.</param>
    /// <param name="least">Fewest runs, after one that warms up.</param>
    /// <param name="most">Most runs.</param>
    /// <returns>Seconds.</returns>
    public static double Best(Action action, TimeSpan budget, int least = 3, int most = 10_000)
    {
        action();
        double best = double.PositiveInfinity;
        long begin = Stopwatch.GetTimestamp();
        for (int i = 0; i < most && (i < least || Stopwatch.GetElapsedTime(begin) < budget); i++)
        {
            best = Math.Min(best, Once(action));
        }

        return best;
    }

    /// <summary>Runs an action once.</summary>
    /// <returns>Seconds.</returns>
    public static double Once(Action action)
    {
        long start = Stopwatch.GetTimestamp();
        action();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    /// <summary>Seconds as people write them.</summary>
    public static string Text(double seconds) => seconds switch
    {
        >= 1 => string.Create(CultureInfo.InvariantCulture, $"{seconds:0.00} s"),
        >= 1e-3 => string.Create(CultureInfo.InvariantCulture, $"{seconds * 1e3:0.00} ms"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{seconds * 1e6:0.0} us"),
    };

    /// <summary>A ratio with three significant digits.</summary>
    public static string Times(double ratio) => string.Create(
        CultureInfo.InvariantCulture, $"{(ratio >= 100 ? Math.Round(ratio) : Math.Round(ratio, 1)):#,0.##} x");
}
