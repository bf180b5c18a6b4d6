using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>Looks, cheaply, whether one emitter more in a mixture would add harmful ones.</summary>
internal static class BehindTheLimit
{
    /// <summary>Orders above this are not looked at: there are many, and they are weak.</summary>
    private const int HighestOrder = 5;

    /// <summary>
    /// So many vectors there may be at most. The threshold cuts nearly all of them off: 157 emitters of -25 to -85 dBm take some
    /// milliseconds, and a tenth of a second where all are 15 dB stronger, so that a slider's step can have it too.
    /// </summary>
    private const double MostVectors = 1e9;

    /// <summary>What each receiver would hear of mixtures with one emitter more.</summary>
    /// <param name="problem">The search that was made; its first receivers are the ones asked about.</param>
    /// <param name="scorers">Their levels.</param>
    /// <param name="builders">Their verdicts.</param>
    /// <param name="search">The search to use.</param>
    /// <param name="harmfulFromDb">From how far over noise a product is harmful, in dB.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>An entry for each receiver; null where there are too many vectors, or no such mixture within the orders.</returns>
    public static IReadOnlyList<MoreSignals>? Of(
        SearchProblem problem, IReadOnlyList<ProductScorer> scorers, IReadOnlyList<FindingBuilder> builders, IProductSearch search,
            double harmfulFromDb, CancellationToken cancellationToken)
    {
        int signals = problem.MaxSignals + 1;
        int highest = Math.Min(HighestOrder, problem.MaxOrder);
        int lowest = Math.Max(problem.MinOrder, signals);
        if (lowest > highest || VectorCount.Canonical(problem.Emitters.Length, lowest, highest, signals) > MostVectors)
        {
            return null;
        }

        // The floor of the search stands at the threshold itself: what is under it is cut off early.
        SearchProblem more = problem with
        {
            MinOrder = lowest,
            MaxOrder = highest,
            MaxSignals = signals,
            Receivers =
            [
                .. scorers.Select((s, r) => problem.Receivers[r] with
                {
                    FloorMicroDbm = s.NoiseFloor + MicroDb.FromDecibels(harmfulFromDb) - s.MostOverSearchMicroDb,
                }),
            ],
        };
        Counter counter = new(scorers, builders, signals);
        search.Run(more, counter, null, cancellationToken);
        return [.. counter.Count.Select((count, r) => new MoreSignals(signals, highest, count, count > 0 ? counter.Worst[r] : null))];
    }

    private sealed class Counter(IReadOnlyList<ProductScorer> scorers, IReadOnlyList<FindingBuilder> builders, int signals) : IProductSink
    {
        public long[] Count { get; } = new long[scorers.Count];

        public double[] Worst { get; } = [.. Enumerable.Repeat(double.NegativeInfinity, scorers.Count)];

        public bool Add(in ProductRecord product)
        {
            if (product.Signals != signals || !product.HasLevel)
            {
                return true;
            }

            int r = product.Receiver;
            ScoredProduct scored = scorers[r].Score(product);
            if (scorers[r].Reaches(scored) && builders[r].VerdictOf(scored) == Verdict.Harmful)
            {
                Count[r]++;
                Worst[r] = Math.Max(Worst[r], MicroDb.ToDecibels(scored.InChannel - scorers[r].NoiseFloor));
            }

            return true;
        }
    }
}
