using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>
/// All integer vectors, both signs of everything, one after the other, straight from the words of the definition; shares no code with the
/// searches but the shape of the records. 128-bit arithmetic, factorials and logarithms of its own.
/// </summary>
internal static class BruteForce
{
    public static List<ProductRecord> Search(SearchProblem problem)
    {
        List<ProductRecord> found = [];
        Walk(problem, new int[problem.Emitters.Length], 0, problem.MaxOrder, found);
        found.Sort();
        return found;
    }

    private static void Walk(SearchProblem problem, int[] k, int position, int room, List<ProductRecord> found)
    {
        if (position == k.Length)
        {
            Judge(problem, k, found);
            return;
        }

        for (int c = -room; c <= room; c++)
        {
            k[position] = c;
            Walk(problem, k, position + 1, room - Math.Abs(c), found);
        }

        k[position] = 0;
    }

    private static void Judge(SearchProblem problem, int[] k, List<ProductRecord> found)
    {
        int order = k.Sum(Math.Abs);
        int[] present = [.. Enumerable.Range(0, k.Length).Where(i => k[i] != 0)];
        if (order < problem.MinOrder || order > problem.MaxOrder || present.Length > problem.MaxSignals)
        {
            return;
        }

        if (problem.ExclusiveGroups.Any(group => present.Count(group.Contains) > 1))
        {
            return;
        }

        Int128 frequency = 0;
        Int128 width = 0;
        foreach (int i in present)
        {
            frequency += (Int128)k[i] * problem.Emitters[i].FrequencyHz;
            width += (Int128)Math.Abs(k[i]) * problem.Emitters[i].BandwidthHz;
        }

        if (frequency <= 0)
        {
            return;
        }

        for (int r = 0; r < problem.Receivers.Length; r++)
        {
            SearchReceiver receiver = problem.Receivers[r];
            if (2 * Int128.Abs(frequency - receiver.FrequencyHz) > receiver.ChannelHz + width)
            {
                continue;
            }

            long[] levels = [.. receiver.Stages.Select(stage => Level(problem, stage, k, present, order))];
            bool unknown = levels.Length == 0 || present.Any(i => receiver.Stages[0].LevelMicroDbm[i] == MicroDb.Unknown);
            if (!unknown && receiver.FloorMicroDbm is not null && levels.Max() < receiver.ThresholdMicroDbm)
            {
                continue;
            }

            found.Add(new ProductRecord(
                r, present, [.. present.Select(i => k[i])], false, unknown ? ProductRecord.UnknownLevel : levels.Max(),
                unknown ? 0 : Array.IndexOf(levels, levels.Max())));
        }
    }

    private static long Level(SearchProblem problem, SearchStage stage, int[] k, int[] present, int order)
    {
        long level = stage.ReferralMicroDb - ((order - 1L) * stage.InterceptMicroDbm[order])
            + Rounded(20 * Math.Log10(Factorial((order + 1) / 2) * Factorial(order / 2)));
        foreach (int i in present)
        {
            int j = Math.Abs(k[i]);
            level += ((long)j * stage.LevelMicroDbm[i]) - Rounded(20 * Math.Log10(Factorial(j)));
            level += problem.Emitters[i].NoiseLike ? Rounded(10 * Math.Log10(Factorial(j))) : 0;
        }

        return level;
    }

    private static long Rounded(double dB) => (long)Math.Round(dB * 1e6);

    private static double Factorial(int n) => n < 2 ? 1 : n * Factorial(n - 1);
}
