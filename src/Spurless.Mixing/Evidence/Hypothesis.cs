using Spurless.Numerics;

namespace Spurless.Mixing.Evidence;

/// <summary>How hypotheses are weighed before any evidence.</summary>
public enum PriorKind
{
    /// <summary>One share for each product and one for anything else.</summary>
    Equal,

    /// <summary>The same shares, each times the predicted chance to stand over the noise (one half where nothing predicts it).</summary>
    Level,
}

/// <summary>One explanation of what is heard: a product made at a place, or something else.</summary>
/// <param name="Product">Index of the product; -1 for something else.</param>
/// <param name="Place">What kind of place makes it.</param>
/// <param name="Index">Index of the active stage or the emitter; -1 outside and for something else.</param>
/// <param name="Prior">Its probability before any evidence.</param>
/// <param name="OverNoiseDb">Predicted level in the channel over noise, in dB; null where nothing predicts it.</param>
/// <param name="SigmaDb">One sigma of it in dB.</param>
public readonly record struct Hypothesis(int Product, MakingPlace Place, int Index, double Prior, double? OverNoiseDb, double SigmaDb)
{
    /// <summary>
    /// All explanations of a receiver's interference, something else last. Of a product's share half goes to the receiver, a quarter to
    /// transmitters, a quarter outside; a kind of place that cannot be gives its part to the rest in proportion, and several stages or
    /// transmitters share theirs evenly. Convention of this program (docs/method/evidence.md).
    /// </summary>
    /// <param name="products">The products.</param>
    /// <param name="prior">How they are weighed.</param>
    public static Hypothesis[] All(IReadOnlyList<EvidenceProduct> products, PriorKind prior)
    {
        ArgumentNullException.ThrowIfNull(products);
        List<Hypothesis> all = [];
        double share = 1.0 / (products.Count + 1);
        for (int p = 0; p < products.Count; p++)
        {
            IReadOnlyList<EvidencePlace> places = products[p].Places;
            double possible = places.Select(static q => q.Kind).Distinct().Sum(ShareOf);
            foreach (EvidencePlace place in places)
            {
                double part = ShareOf(place.Kind) / possible / places.Count(q => q.Kind == place.Kind);
                all.Add(new Hypothesis(p, place.Kind, place.Index, share * part, place.OverNoiseDb, place.SigmaDb));
            }
        }

        all.Add(new Hypothesis(-1, MakingPlace.Other, -1, share, null, 0));
        return prior == PriorKind.Equal ? [.. all] : ByLevel(all);
    }

    private static double ShareOf(MakingPlace kind) => kind == MakingPlace.Receiver ? 0.5 : 0.25;

    private static Hypothesis[] ByLevel(List<Hypothesis> all)
    {
        double[] weights = [.. all.Select(static h => h.Prior * ChanceOverNoise(h))];
        double sum = weights.Sum();
        return [.. all.Select((h, i) => h with { Prior = weights[i] / sum })];
    }

    private static double ChanceOverNoise(in Hypothesis h) => h.OverNoiseDb is not { } over ? 0.5
        : h.SigmaDb > 0 ? Math.Max(1e-12, NormalDistribution.Above(-over / h.SigmaDb))
        : over >= 0 ? 1 : 1e-12;
}
