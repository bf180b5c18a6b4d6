using System.Collections.Immutable;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Plans;

/// <summary>
/// Chooses channels that are quiet side by side: receivers on all of them and our own transmitters on all of theirs, everything on the
/// air at once.
/// </summary>
/// <remarks>
/// What lands on a set only grows when a channel is added, since a mixture of what was there stays. So a set is left out, with all that
/// would follow of it, where its own score and the least that the channels still to come bring are no better than the best set found.
/// </remarks>
internal sealed class PlanSets(
    Retuning retuning,
    PlanGrid grid,
    int receiver,
    int[] ranked,
    PlanTally[] tallies,
    StudyOptions options,
    FastSearch search,
    CancellationToken cancel)
{
    /// <summary>So many sets are searched at most, some seconds; beyond that the best so far stands, and that is said.</summary>
    private const int MostSearches = 4_000;

    /// <summary>So many times a channel is looked at in all.</summary>
    private const long MostLooks = 50_000_000;

    private readonly Cost[] _single = [.. ranked.Select(j => Cost.Of(tallies[j]))];
    private readonly Dictionary<(int, int), Cost> _pairs = [];
    private int _searches;
    private long _looks;
    private Cost? _best;
    private int[] _bestSet = [];
    private bool _cut;

    private bool IsSpent => _searches >= MostSearches || _looks >= MostLooks;

    /// <summary>The best set.</summary>
    /// <param name="count">How many channels, at least 1.</param>
    public PlanTogether Best(int count)
    {
        Cost bound = Bound(Math.Min(count, ranked.Length));
        if (count > ranked.Length)
        {
            return None(bound, FormattableString.Invariant($"only {ranked.Length} channels are offered"));
        }

        bool exact = count <= PlanQuestion.ExactTogether;
        if (exact)
        {
            Follow([], new Cost(0, 0, 0, long.MinValue), 0, count);
        }

        if (!exact || _best is null)
        {
            OneByOne(count);
        }

        if (_best is not { } best)
        {
            return None(bound, _cut
                ? "none was found of channels that are out of each other's way; not all could be tried"
                : "no such set of channels is out of each other's way: a transmitter would stand on another's channel");
        }

        return new PlanTogether
        {
            FrequenciesHz = [.. _bestSet.Select(r => grid.FrequencyHz(ranked[r])).Order()],
            Score = best.Score,
            Bound = bound.Score,
            IsBest = (exact && !_cut) || best.CompareTo(bound) <= 0,
        };
    }

    private static PlanTogether None(Cost bound, string problem) => new()
    {
        FrequenciesHz = [],
        Score = bound.Score,
        Bound = bound.Score,
        IsBest = false,
        Problem = problem,
    };

    /// <summary>Figure by figure the least that so many channels can have, alone as they are.</summary>
    private Cost Bound(int count) => new(
        _single.Select(static s => s.Harmful).Order().Take(count).Sum(),
        _single.Select(static s => s.Marginal).Order().Take(count).Sum(),
        _single.Select(static s => s.Unknown).Order().Take(count).Sum(),
        _single.Select(static s => s.Worst).Order().Take(count).DefaultIfEmpty(long.MinValue).Last());

    /// <summary>Adds every channel in turn behind the last one of a set, in the order of the list.</summary>
    private void Follow(List<int> set, Cost own, int from, int count)
    {
        int left = count - set.Count;
        for (int k = from; k + left <= ranked.Length; k++)
        {
            cancel.ThrowIfCancellationRequested();
            if (IsSpent)
            {
                _cut = true;
                return;
            }

            _looks++;

            // The list rises with what is harmful: of the channels still to come the next ones have the least.
            int harmful = own.Harmful;
            for (int i = k; i < k + left; i++)
            {
                harmful += _single[i].Harmful;
            }

            if (_best is { } best && harmful > best.Harmful)
            {
                return;
            }

            Cost least = own.With(_single[k]);
            least = least with { Harmful = Math.Max(least.Harmful, harmful) };
            if (IsNoBetter(least) || !set.TrueForAll(s => grid.Fit(ranked[s], ranked[k])))
            {
                continue;
            }

            List<int> more = [.. set, k];
            Cost all = set.Count == 0 ? _single[k] : Least(more, least);
            if (IsNoBetter(all))
            {
                continue;
            }

            if (set.Count > 1)
            {
                all = Search(more);
            }

            if (left == 1 && !IsNoBetter(all))
            {
                (_best, _bestSet) = (all, [.. more]);
            }
            else if (left > 1 && !IsNoBetter(all))
            {
                Follow(more, all, k + 1, count);
            }
        }
    }

    private bool IsNoBetter(Cost cost) => _best is { } best && cost.CompareTo(best) >= 0;

    /// <summary>What pairs of a set tell of it: what each two of its channels bring each other adds up.</summary>
    private Cost Least(List<int> set, Cost least)
    {
        (int harmful, int marginal, int unknown) = (0, 0, 0);
        long worst = least.Worst;
        for (int i = 0; i < set.Count; i++)
        {
            harmful += _single[set[i]].Harmful;
            marginal += _single[set[i]].Marginal;
            unknown += _single[set[i]].Unknown;
            for (int k = i + 1; k < set.Count; k++)
            {
                Cost pair = Pair(set[i], set[k]);
                harmful += pair.Harmful - _single[set[i]].Harmful - _single[set[k]].Harmful;
                marginal += pair.Marginal - _single[set[i]].Marginal - _single[set[k]].Marginal;
                unknown += pair.Unknown - _single[set[i]].Unknown - _single[set[k]].Unknown;
                worst = Math.Max(worst, pair.Worst);
            }
        }

        return new Cost(harmful, marginal, unknown, worst);
    }

    private Cost Pair(int one, int other)
    {
        (int, int) key = (Math.Min(one, other), Math.Max(one, other));
        if (!_pairs.TryGetValue(key, out Cost pair))
        {
            _pairs[key] = pair = Search([one, other]);
        }

        return pair;
    }

    /// <summary>Adds again and again the channel with which the set comes out best.</summary>
    private void OneByOne(int count)
    {
        List<int> set = [];
        Cost own = new(0, 0, 0, long.MinValue);
        while (set.Count < count)
        {
            Cost? best = null;
            int with = -1;
            for (int k = 0; k < ranked.Length; k++)
            {
                cancel.ThrowIfCancellationRequested();
                bool fits = !set.Contains(k) && set.TrueForAll(s => grid.Fit(ranked[s], ranked[k]));
                if (!fits || (best is { } so && own.With(_single[k]).CompareTo(so) >= 0))
                {
                    continue;
                }

                if (best is not null && _searches >= 2 * MostSearches)
                {
                    _cut = true;
                    break;
                }

                Cost all = set.Count == 0 ? _single[k] : Search([.. set, k]);
                if (best is not { } least || all.CompareTo(least) < 0)
                {
                    (best, with) = (all, k);
                }
            }

            if (best is not { } chosen)
            {
                return;
            }

            set.Add(with);
            own = chosen;
        }

        (_best, _bestSet) = (own, [.. set]);
    }

    /// <summary>What lands on the channels of a set with everything on the air.</summary>
    private Cost Search(List<int> set)
    {
        _searches++;
        int[] channels = [.. set.Select(r => ranked[r])];
        HashSet<int> own = [.. grid.Own];
        List<(int Index, long FrequencyHz)> emitters =
            [.. retuning.Emitters.Index().Where(e => !own.Contains(e.Index)).Select(static e => (e.Index, e.Item.FrequencyHz))];
        int stay = emitters.Count;
        foreach (int j in channels)
        {
            emitters.AddRange(grid.Own.Select((o, i) => (o, grid.FrequencyHz(j) + grid.ShiftsHz[i])));
        }

        IReadOnlyList<EmitterSetup> setups = retuning.At(emitters);
        (int[] Greatest, bool Flat)[] referrals =
            [.. channels.Select(j => retuning.Referral(receiver, grid.FrequencyHz(j), grid.FrequencyHz(j)))];
        ProductScorer[] scorers =
        [
            .. channels.Select((j, i) => new ProductScorer(
                retuning.Receiver(receiver, grid.FrequencyHz(j), emitters),
                setups,
                referrals[i])),
        ];
        PlanTally[] each = [.. scorers.Select(s => new PlanTally(s, setups, [], options))];
        SearchProblem problem = new()
        {
            Emitters = [.. setups.Select(static e => new SearchEmitter(e.FrequencyHz, e.BandwidthHz, e.NoiseLike))],
            Receivers = [.. scorers.Select(static s => s.ForSearch())],
            ExclusiveGroups = Exclusive(stay, channels.Length, [.. emitters.Select(static e => e.Index)]),
            MinOrder = retuning.Orders.Lowest,
            MaxOrder = retuning.Orders.Highest,
            MaxSignals = retuning.Signals,
        };
        search.Run(problem, new Into(each), null, cancel);
        return each.Select(Cost.Of).Aggregate(static (a, b) => a.With(b));
    }

    /// <summary>The groups of a site with our own transmitters once for each channel: those are not in each other's way.</summary>
    private ImmutableArray<ImmutableArray<int>> Exclusive(int stay, int channels, int[] of)
    {
        List<ImmutableArray<int>> groups = [];
        foreach (IReadOnlyList<int> group in retuning.Exclusive)
        {
            for (int c = 0; c < channels; c++)
            {
                int first = stay + (c * grid.Own.Count);
                groups.Add(
                [
                    .. Enumerable.Range(0, of.Length)
                        .Where(i => group.Contains(of[i]) && (i < stay || (i >= first && i < first + grid.Own.Count))),
                ]);
            }
        }

        return [.. groups];
    }

    private sealed class Into(PlanTally[] each) : IProductSink
    {
        public bool Add(in ProductRecord product)
        {
            each[product.Receiver].Add(product);
            return true;
        }
    }

    /// <summary>What lands on one or more channels; ordered by harmful, marginal and worst level.</summary>
    private readonly record struct Cost(int Harmful, int Marginal, int Unknown, long Worst) : IComparable<Cost>
    {
        public PlanScore Score => new(Harmful, Marginal, Unknown, Worst == long.MinValue ? null : MicroDb.ToDecibels(Worst));

        public static Cost Of(PlanTally tally) =>
            new(tally.Harmful, tally.Marginal, tally.Unknown, tally.WorstMicroDb ?? long.MinValue);

        public Cost With(Cost other) => new(
            Harmful + other.Harmful, Marginal + other.Marginal, Unknown + other.Unknown, Math.Max(Worst, other.Worst));

        public int CompareTo(Cost other)
        {
            int c = Harmful.CompareTo(other.Harmful);
            c = c != 0 ? c : Marginal.CompareTo(other.Marginal);
            return c != 0 ? c : Worst.CompareTo(other.Worst);
        }
    }
}
