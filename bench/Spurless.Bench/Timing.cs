using System.Diagnostics;
using System.Globalization;

namespace Spurless.Bench;

/// <summary>
/// Times by the stop watch: the best of many runs, which is the one least disturbed, or two things by turns, so that what disturbs one
/// disturbs the other.
/// </summary>
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

    /// <summary>
    /// Times two actions by turns: in each round the baseline once, then ours as often as fills the same time, so that other work on the
    /// machine takes the same share of both.
    /// </summary>
    /// <param name="ours">The quick one.</param>
    /// <param name="baseline">The slow one.</param>
    /// <param name="budget">Go on until about this much has gone.</param>
    /// <param name="least">Fewest rounds, after one of each that warms up.</param>
    /// <returns>Medians over the rounds: seconds a run of ours, seconds of the baseline, and baseline over ours; and the baseline's
    /// best.</returns>
    public static (double Ours, double Baseline, double Ratio, double BestBaseline) ByTurns(
        Action ours, Action baseline, TimeSpan budget, int least = 5)
    {
        Best(ours, TimeSpan.FromSeconds(0.2));
        baseline();
        List<double> quick = [];
        List<double> slow = [];
        List<double> ratio = [];
        long begin = Stopwatch.GetTimestamp();
        while (ratio.Count < least || Stopwatch.GetElapsedTime(begin) < budget)
        {
            double one = Once(baseline);
            int runs = 0;
            long start = Stopwatch.GetTimestamp();
            double gone;
            do
            {
                ours();
                runs++;
                gone = Stopwatch.GetElapsedTime(start).TotalSeconds;
            }
            while (gone < one);
            slow.Add(one);
            quick.Add(gone / runs);
            ratio.Add(one * runs / gone);
        }

        return (Median(quick), Median(slow), Median(ratio), slow.Min());
    }

    /// <summary>The middle value; of an even number the lower of the two in the middle.</summary>
    public static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[(sorted.Length - 1) / 2];
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
