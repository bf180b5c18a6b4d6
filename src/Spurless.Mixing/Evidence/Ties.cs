namespace Spurless.Mixing.Evidence;

/// <summary>Finds hypotheses that everything given predicts alike.</summary>
internal static class Ties
{
    // Two predictions within a millionth of the reading's unit are one: no instrument tells them apart.
    private const double PerUnit = 1e6;

    /// <summary>By hypothesis: the index of the first one that all clues predict alike; its own where nothing is like it.</summary>
    public static int[] Of(EvidenceCase evidence, Hypothesis[] hypotheses, Clue[] clues)
    {
        Dictionary<long[], int> first = new(Comparer.Instance);
        int[] ties = new int[hypotheses.Length];
        Dictionary<(int Clue, int Product), LogCounts> counts = [];
        for (int h = 0; h < ties.Length; h++)
        {
            List<long> signature = [];
            for (int c = 0; c < clues.Length; c++)
            {
                Add(signature, evidence, hypotheses[h], clues[c], c, counts);
            }

            long[] key = [.. signature];
            if (!first.TryGetValue(key, out ties[h]))
            {
                first[key] = ties[h] = h;
            }
        }

        return ties;
    }

    private static void Add(
        List<long> signature, EvidenceCase evidence, in Hypothesis hypothesis, Clue clue, int index,
        Dictionary<(int Clue, int Product), LogCounts> known)
    {
        switch (evidence.Observations[clue.Observation])
        {
            case LogReading log:
                if (!known.TryGetValue((index, hypothesis.Product), out LogCounts counts))
                {
                    known[(index, hypothesis.Product)] = counts = log.Moments.CountsOf(evidence.ProductOf(hypothesis));
                }

                signature.AddRange([counts.On, counts.OnHeard, counts.Off, counts.OffHeard]);
                break;
            case GivenLikelihoods given:
                signature.Add(Rounded(
                    hypothesis.Product < 0 ? given.LogLikelihoodOfOther : given.LogLikelihoodOfProduct[hypothesis.Product]));
                break;
            default:
                Prediction prediction = evidence.PredictionOf(clue, hypothesis);
                signature.Add(prediction.IsNormal ? Rounded(prediction.Mean) : long.MaxValue);
                signature.Add(Rounded(prediction.IsNormal ? prediction.Sigma : prediction.High - prediction.Low));
                break;
        }
    }

    private static long Rounded(double value) => (long)Math.Round(Math.Clamp(value, -1e12, 1e12) * PerUnit);

    private sealed class Comparer : IEqualityComparer<long[]>
    {
        public static readonly Comparer Instance = new();

        public bool Equals(long[]? x, long[]? y) => x.AsSpan().SequenceEqual(y);

        public int GetHashCode(long[] obj)
        {
            HashCode hash = default;
            foreach (long part in obj)
            {
                hash.Add(part);
            }

            return hash.ToHashCode();
        }
    }
}
