using System.Collections.Immutable;
using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Sites.Levels;

namespace Spurless.Sites.Studies;

/// <summary>Bounds what is made in transmitters whose turn-round loss nobody stated, by what is usual.</summary>
internal static class UsualTransmitters
{
    /// <summary>For every receiver the strongest product that each such transmitter can make there, over noise in dB.</summary>
    /// <param name="stages">The transmitters, their turn-round loss the least usual one.</param>
    /// <param name="problem">The search that was made; its first receivers are the ones asked about.</param>
    /// <param name="receivers">The receivers asked about.</param>
    /// <param name="scorers">Their levels.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>By receiver, then by the transmitter's name; null where its level there is not known, negative infinity for nothing that
    /// lands.</returns>
    public static IReadOnlyList<IReadOnlyDictionary<string, double?>> Bounds(
        IReadOnlyList<TransmitterStage> stages, SearchProblem problem, IReadOnlyList<ReceiverSetup> receivers,
            IReadOnlyList<ProductScorer> scorers,
        CancellationToken cancellationToken)
    {
        Dictionary<string, double?>[] bounds = [.. receivers.Select(static _ => new Dictionary<string, double?>(StringComparer.Ordinal))];
        foreach (TransmitterStage stage in stages)
        {
            int[] reached = TransmitterRun.Reached(stage, receivers);
            for (int r = 0; r < receivers.Count; r++)
            {
                bounds[r][stage.Name] = reached.Contains(r) ? double.NegativeInfinity : null;
            }

            // Where the path itself is only bounded, the bound counts.
            Strongest sink = new(stage.Name, reached, scorers, bounds);
            TransmitterRun.Search(stage, problem, receivers, reached, Most, sink, cancellationToken);
        }

        return bounds;
    }

    /// <summary>The gaps of a receiver with what is usual in them: a transmitter that is clear even so is no gap.</summary>
    /// <param name="gaps">The gaps as they are.</param>
    /// <param name="bounds">What each transmitter makes at most, over noise in dB.</param>
    /// <param name="marginalFromDb">From here on it could matter.</param>
    public static IEnumerable<NotComputed> Told(IEnumerable<NotComputed> gaps, IReadOnlyDictionary<string, double?> bounds,
        double marginalFromDb)
    {
        foreach (NotComputed gap in gaps)
        {
            if (gap.Kind != NotComputedKind.TurnRoundLoss)
            {
                yield return gap;
                continue;
            }

            string[] left = [.. gap.Transmitters.Where(t => !(bounds.GetValueOrDefault(t) < marginalFromDb))];
            if (left.Length > 0)
            {
                yield return gap with { Transmitters = left, AtMostOverNoiseDb = [.. left.Select(t => bounds.GetValueOrDefault(t))] };
            }
        }
    }

    private static TransmitterReach Most(TransmitterReach reach) => reach with { ReferenceDbm = reach.AtMostDbm ?? reach.ReferenceDbm };

    private sealed class Strongest(string name, int[] reached, IReadOnlyList<ProductScorer> scorers, Dictionary<string, double?>[] bounds)
        : IProductSink
    {
        public bool Add(in ProductRecord product)
        {
            if (!product.HasLevel)
            {
                return true;
            }

            int r = reached[product.Receiver];
            ScoredProduct scored = scorers[r].ScoreMade(product, 0);
            double over = MicroDb.ToDecibels(scored.InChannel - scorers[r].NoiseFloor);
            if (scorers[r].Reaches(scored) && over > bounds[r][name])
            {
                bounds[r][name] = over;
            }

            return true;
        }
    }
}
