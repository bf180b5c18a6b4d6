namespace Spurless.Mixing.Evidence;

/// <summary>Weighs evidence: the probability of every hypothesis after everything that was observed.</summary>
public static class Weighing
{
    /// <summary>Most hypotheses of one receiver; more are not weighed.</summary>
    public const int MostHypotheses = 50_000;

    /// <summary>
    /// Weighs a case: prior times the likelihood of every clue, by Bayes' theorem, observations independent of each other given a
    /// hypothesis.
    /// </summary>
    /// <param name="evidence">The case.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>The weighed hypotheses; their probabilities sum to 1.</returns>
    /// <exception cref="ArgumentException">There are over <see cref="MostHypotheses"/>.</exception>
    public static WeighedEvidence Weigh(EvidenceCase evidence, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(evidence);
        Hypothesis[] hypotheses = Hypothesis.All(evidence.Products, evidence.Prior);
        if (hypotheses.Length > MostHypotheses)
        {
            throw new ArgumentException($"{hypotheses.Length} hypotheses are more than are weighed", nameof(evidence));
        }

        Clue[] clues = Clues(evidence);
        double[][] likelihoods = new double[clues.Length][];
        for (int c = 0; c < clues.Length; c++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            likelihoods[c] = LogLikelihoods(evidence, hypotheses, clues[c]);
        }

        double[] logs = [.. hypotheses.Select(static h => Math.Log(h.Prior))];
        foreach (double[] of in likelihoods)
        {
            for (int h = 0; h < logs.Length; h++)
            {
                logs[h] += of[h];
            }
        }

        double most = logs.Max();
        double[] posterior = [.. logs.Select(l => Math.Exp(l - most))];
        double sum = posterior.Sum();
        for (int h = 0; h < posterior.Length; h++)
        {
            posterior[h] /= sum;
        }

        return new WeighedEvidence(evidence, hypotheses, clues, likelihoods, posterior, Ties.Of(evidence, hypotheses, clues));
    }

    private static Clue[] Clues(EvidenceCase evidence)
    {
        List<Clue> clues = [];
        if (evidence.LevelFrom >= 0)
        {
            clues.Add(new Clue(ClueKind.Level, evidence.LevelFrom));
        }

        for (int i = 0; i < evidence.Observations.Count; i++)
        {
            clues.Add(new Clue(
                evidence.Observations[i] switch
                {
                    FallObservation => ClueKind.Fall,
                    OffsetReading => ClueKind.Offset,
                    LogReading => ClueKind.Log,
                    GivenLikelihoods => ClueKind.Given,
                    _ => throw new ArgumentException("a moment to wait for is not yet observed", nameof(evidence)),
                },
                i));
        }

        return [.. clues];
    }

    private static double[] LogLikelihoods(EvidenceCase evidence, Hypothesis[] hypotheses, Clue clue)
    {
        double[] all = new double[hypotheses.Length];
        Observation observation = evidence.Observations[clue.Observation];
        LogCounts counts = default;
        int countsOf = int.MinValue;
        for (int h = 0; h < all.Length; h++)
        {
            ref readonly Hypothesis hypothesis = ref hypotheses[h];
            if (observation is LogReading log && countsOf != hypothesis.Product)
            {
                (counts, countsOf) = (log.Moments.CountsOf(evidence.ProductOf(hypothesis)), hypothesis.Product);
            }

            all[h] = observation switch
            {
                LogReading => counts.LogLikelihood,
                GivenLikelihoods given =>
                    hypothesis.Product < 0 ? given.LogLikelihoodOfOther : given.LogLikelihoodOfProduct[hypothesis.Product],
                _ => evidence.PredictionOf(clue, hypothesis).LogDensity(evidence.ReadingOf(clue)),
            };
        }

        return all;
    }
}
