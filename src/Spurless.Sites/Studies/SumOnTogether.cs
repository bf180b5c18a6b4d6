using System.Collections.Immutable;
using Spurless.Mixing.Levels;

namespace Spurless.Sites.Studies;

/// <summary>The greatest power sum over products that can be on the air at once, where some emitters are never on together.</summary>
internal static class SumOnTogether
{
    /// <summary>Adds up.</summary>
    /// <param name="products">Products with their levels; those without a level count nothing.</param>
    /// <param name="groups">Emitters of which at most one is on, by index.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>
    /// The sum in milliwatts at the receiver's input, whether it leaves a product out, and whether it is a bound, never too low, for want
    /// of time.
    /// </returns>
    /// <remarks>
    /// Products are put together by which members of groups they need. Groups that no product and no member joins are independent: each
    /// such part of the groups has its own greatest sum, and these add. A part that is one group takes its best member; in any other a
    /// member of each group is chosen in turn, and a branch that cannot beat the best is not followed (<see cref="SumSearch"/>).
    /// </remarks>
    public static (double Milliwatts, bool LeavesOut, bool IsBound) Of(
        IReadOnlyList<ScoredProduct> products, ImmutableArray<ImmutableArray<int>> groups, CancellationToken cancellationToken)
    {
        HashSet<int> members = [.. groups.SelectMany(static g => g)];
        double free = 0;
        double all = 0;
        Dictionary<string, SumBundle> bundles = new(StringComparer.Ordinal);
        foreach (ScoredProduct product in products)
        {
            if (!product.HasLevel)
            {
                continue;
            }

            double power = Math.Pow(10, MicroDb.ToDecibels(product.InChannel) / 10);
            all += power;
            int[] needs = members.Count == 0 ? [] : [.. Needs(product, members)];
            if (needs.Length == 0)
            {
                free += power;
                continue;
            }

            string key = string.Join(' ', needs);
            double before = bundles.TryGetValue(key, out SumBundle? bundle) ? bundle.Power : 0;
            bundles[key] = new SumBundle(needs, before + power);
        }

        if (bundles.Count == 0)
        {
            return (all, false, false);
        }

        (double on, bool bound) = SumSearch.Greatest([.. bundles.Values], groups, cancellationToken);
        double best = free + on;
        return best < all * (1 - 1e-12) ? (best, true, bound) : (all, false, false);
    }

    private static IEnumerable<int> Needs(ScoredProduct product, HashSet<int> members)
    {
        for (int i = 0; i < product.Record.Signals; i++)
        {
            int emitter = product.Record.Emitter(i);
            if (members.Contains(emitter))
            {
                yield return emitter;
            }
        }
    }
}
