using Spurless.Circuits.Solving;

namespace Spurless.Fit;

/// <summary>
/// Holds estimates against what the sweep made of them. Estimates that miss by more than their spread are taken as less sure by as much;
/// several that all
/// lean one way have a cause in common, and are remarked.
/// </summary>
internal static class EstimateCheck
{
    private const double LeastSeen = 0.5;
    private const double MostWider = 5;
    private const double LeansFrom = 3;

    /// <summary>
    /// By how much the estimates of each kind miss more than they say: rms miss over rms of what is to be expected; at least 1.
    /// </summary>
    /// <param name="unknowns">What was looked for.</param>
    /// <param name="x">Where it was found.</param>
    /// <param name="sigmas">One sigma of each, estimates counted.</param>
    public static IReadOnlyDictionary<CircuitQuantity, double> Factors(IReadOnlyList<FitUnknown> unknowns, double[] x, double[] sigmas)
    {
        Dictionary<CircuitQuantity, double> factors = [];
        foreach (IGrouping<CircuitQuantity, int> kind in Estimated(unknowns))
        {
            double missed = 0, expected = 0;
            foreach (int i in kind)
            {
                double miss = (x[i] - unknowns[i].Mean!.Value) / unknowns[i].Sigma, after = sigmas[i] / unknowns[i].Sigma;
                missed += miss * miss;
                expected += Math.Max(0, 1 - (after * after));
            }

            factors[kind.Key] = expected < LeastSeen ? 1 : Math.Clamp(Math.Sqrt(missed / expected), 1, MostWider);
        }

        return factors;
    }

    /// <summary>
    /// Remarks on estimates that all lean one way by more than chance makes likely (their mean over 3 of its sigmas, as stated).
    /// </summary>
    /// <param name="unknowns">What was looked for.</param>
    /// <param name="x">Where it was found.</param>
    /// <param name="factor">How many times less sure the estimates count than stated.</param>
    public static IEnumerable<FitRemark> Leaning(IReadOnlyList<FitUnknown> unknowns, double[] x, double factor)
    {
        foreach (IGrouping<CircuitQuantity, int> kind in Estimated(unknowns))
        {
            int[] all = [.. kind];
            double[] misses = [.. all.Select(i => factor * (x[i] - unknowns[i].Mean!.Value) / unknowns[i].Sigma)];
            if (all.Length < 2 || Math.Abs(misses.Sum()) / Math.Sqrt(all.Length) < LeansFrom || misses.Select(Math.Sign).Distinct()
                .Count() > 1)
            {
                continue;
            }

            double[] percent = [.. all.Select(i => 100 * Math.Abs((unknowns[i].From(x[i]) / unknowns[i].From(unknowns[i].Mean!.Value)) - 1))
                .Order()];
            yield return new FitRemark.EstimatesLean(
                [.. all.Select(i => unknowns[i].Part)], misses[0] > 0, percent[0], percent[^1]);
        }
    }

    private static IEnumerable<IGrouping<CircuitQuantity, int>> Estimated(IReadOnlyList<FitUnknown> unknowns) =>
        Enumerable.Range(0, unknowns.Count).Where(i => unknowns[i] is
        {
            Mean: not null, IsParasitic: false,
            Quantity: not CircuitQuantity.Q
        }).GroupBy(i => unknowns[i].Quantity);
}
