namespace Spurless.Mixing.Evidence;

/// <summary>What an observation would bring.</summary>
/// <param name="Ask">The observation.</param>
/// <param name="Index">Its index among those that were asked about.</param>
/// <param name="GainNats">By how much it is expected to lower the entropy of the hypotheses, in nats.</param>
/// <param name="Decides">Chance that one hypothesis then stands at <see cref="NextObservations.Sure"/> or more.</param>
/// <param name="DecidesPlace">Chance that one place of making, whatever the product, then stands there.</param>
public sealed record Advice(Observation Ask, int Index, double GainNats, double Decides, double DecidesPlace);

/// <summary>Ranks what could be observed next by how much certainty it is expected to bring.</summary>
public static class NextObservations
{
    /// <summary>From which probability on a question is taken for decided.</summary>
    public const double Sure = 0.95;

    // Hypotheses that together hold less than this cannot change which observation is best.
    private const double Negligible = 1e-7;

    /// <summary>Ranks observations.</summary>
    /// <param name="weighed">What is known so far.</param>
    /// <param name="asked">What could be observed; readings are not looked at.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>The greatest expected gain first, of equal ones the first asked about.</returns>
    public static IReadOnlyList<Advice> Rank(
        WeighedEvidence weighed, IReadOnlyList<Observation> asked, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(weighed);
        ArgumentNullException.ThrowIfNull(asked);
        (int Index, double Weight)[] live = Live(weighed);
        Advice[] all = new Advice[asked.Count];
        for (int i = 0; i < all.Length; i++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            all[i] = Gain(weighed, live, asked[i], i);
        }

        Array.Sort(all, static (a, b) => a.GainNats != b.GainNats ? b.GainNats.CompareTo(a.GainNats) : a.Index.CompareTo(b.Index));
        return all;
    }

    /// <summary>The chance that it is heard at a moment that was waited for, by a hypothesis and the log so far.</summary>
    /// <param name="weighed">What is known so far.</param>
    /// <param name="moment">The moment.</param>
    /// <param name="hypothesis">The hypothesis.</param>
    public static double ChanceHeard(WeighedEvidence weighed, MomentToWaitFor moment, in Hypothesis hypothesis)
    {
        ArgumentNullException.ThrowIfNull(weighed);
        ArgumentNullException.ThrowIfNull(moment);
        EvidenceProduct? product = weighed.Case.ProductOf(hypothesis);
        LogCounts counts = weighed.Case.Observations.OfType<LogReading>().FirstOrDefault()?.Moments.CountsOf(product) ?? default;
        return counts.HeardNext(ClassOf(product, moment));
    }

    private static MomentClass ClassOf(EvidenceProduct? product, MomentToWaitFor moment) =>
        product is null ? MomentClass.Unknown
        : product.TimesOf(moment.Off) > 0 ? MomentClass.Off
        : product.Terms.All(t => moment.On.Contains(t.Emitter)) ? MomentClass.On
        : MomentClass.Unknown;

    private static (int, double)[] Live(WeighedEvidence weighed)
    {
        double least = Negligible / weighed.Hypotheses.Count;
        List<(int Index, double Weight)> live = [];
        double sum = 0;
        for (int h = 0; h < weighed.Hypotheses.Count; h++)
        {
            if (weighed.Posterior[h] >= least)
            {
                live.Add((h, weighed.Posterior[h]));
                sum += weighed.Posterior[h];
            }
        }

        return [.. live.Select(l => (l.Index, l.Weight / sum))];
    }

    private static Advice Gain(
        WeighedEvidence weighed, (int Index, double Weight)[] live, Observation ask, int index)
    {
        Mixture mixture = new();
        if (ask is MomentToWaitFor moment)
        {
            Dictionary<int, double> chances = [];
            foreach ((int at, double weight) in live)
            {
                Hypothesis hypothesis = weighed.Hypotheses[at];
                if (!chances.TryGetValue(hypothesis.Product, out double heard))
                {
                    chances[hypothesis.Product] = heard = ChanceHeard(weighed, moment, hypothesis);
                }

                mixture.Add(at, hypothesis, weight, heard);
            }

            return new Advice(ask, index, mixture.GainOfTwo(), mixture.DecidesOfTwo(place: false), mixture.DecidesOfTwo(place: true));
        }

        foreach ((int at, double weight) in live)
        {
            Hypothesis hypothesis = weighed.Hypotheses[at];
            mixture.Add(at, hypothesis, weight, ask is OffsetReading offset
                ? weighed.Case.Offset(offset, hypothesis)
                : weighed.Case.Fall((FallObservation)ask, hypothesis));
        }

        return mixture.Integrate(ask, index);
    }
}
