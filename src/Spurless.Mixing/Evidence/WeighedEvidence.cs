namespace Spurless.Mixing.Evidence;

/// <summary>What evidence says: every hypothesis with its probability, and why.</summary>
public sealed class WeighedEvidence
{
    // Over this many sigma a reading is taken for a contradiction, not for scatter (one in 16,000).
    private const double MostSigmas = 4;
    private const double LogUnexplainedFrom = 4.605170185988092; // ln 100

    private readonly double[][] _likelihoods;
    private readonly double[] _posterior;
    private readonly int[] _ties;
    private readonly double[] _ofProduct;
    private readonly (double Most, double All)[] _whole;

    internal WeighedEvidence(
        EvidenceCase evidence, Hypothesis[] hypotheses, Clue[] clues, double[][] likelihoods, double[] posterior, int[] ties)
    {
        (Case, Hypotheses, Clues) = (evidence, hypotheses, clues);
        (_likelihoods, _posterior, _ties) = (likelihoods, posterior, ties);
        Leader = Array.IndexOf(posterior, posterior.Max());
        _whole = new (double, double)[clues.Length];
        _ofProduct = new double[evidence.Products.Count];
        for (int h = 0; h < hypotheses.Length; h++)
        {
            if (hypotheses[h].Product >= 0)
            {
                _ofProduct[hypotheses[h].Product] += posterior[h];
            }
        }
    }

    /// <summary>What was weighed.</summary>
    public EvidenceCase Case { get; }

    /// <summary>All hypotheses, by product and place; something else last.</summary>
    public IReadOnlyList<Hypothesis> Hypotheses { get; }

    /// <summary>The clues: the level first, then the observations in their order.</summary>
    public IReadOnlyList<Clue> Clues { get; }

    /// <summary>By hypothesis: its probability.</summary>
    public IReadOnlyList<double> Posterior => _posterior;

    /// <summary>By hypothesis: the first one that everything observed predicts alike; its own index where nothing is like it.</summary>
    public IReadOnlyList<int> TieOf => _ties;

    /// <summary>Index of the likeliest hypothesis; of equal ones the first.</summary>
    public int Leader { get; }

    /// <summary>Probability of one product, wherever it is made.</summary>
    /// <param name="product">Its index.</param>
    public double OfProduct(int product) => _ofProduct[product];

    /// <summary>Probability that it is made at a kind of place, whatever the product.</summary>
    /// <param name="place">The kind.</param>
    /// <param name="index">The stage or emitter; null for all of the kind.</param>
    public double OfPlace(MakingPlace place, int? index = null) => Sum(h => h.Place == place && (index is null || h.Index == index));

    /// <summary>The same before any evidence.</summary>
    /// <param name="place">The kind.</param>
    /// <param name="index">The stage or emitter; null for all of the kind.</param>
    public double PriorOfPlace(MakingPlace place, int? index = null) =>
        Hypotheses.Where(h => h.Place == place && (index is null || h.Index == index)).Sum(static h => h.Prior);

    /// <summary>What speaks for and against a hypothesis, strongest first.</summary>
    /// <param name="hypothesis">Its index.</param>
    public IReadOnlyList<Reason> ReasonsOf(int hypothesis)
    {
        Reason[] reasons = [.. Clues.Select((_, c) => new Reason(c, Weight(c, hypothesis)))];
        Array.Sort(reasons, static (a, b) =>
            Math.Abs(a.Weight) != Math.Abs(b.Weight) ? Math.Abs(b.Weight).CompareTo(Math.Abs(a.Weight)) : a.Clue.CompareTo(b.Clue));
        return reasons;
    }

    /// <summary>What does not fit: said, never averaged away.</summary>
    public IReadOnlyList<Misfit> Misfits()
    {
        List<Misfit> all = [];
        for (int c = 0; c < Clues.Count; c++)
        {
            Clue clue = Clues[c];
            double[] likelihoods = _likelihoods[c];
            double behind = likelihoods.Max() - likelihoods[Leader];
            if (clue.Kind is ClueKind.Fall or ClueKind.Offset or ClueKind.Level)
            {
                double reading = Case.ReadingOf(clue);
                double nearest = Hypotheses.Min(h => Case.PredictionOf(clue, h).SigmasOff(reading));
                double leaders = Case.PredictionOf(clue, Hypotheses[Leader]).SigmasOff(reading);
                if (nearest > MostSigmas)
                {
                    all.Add(new Misfit(MisfitKind.NothingNear, c, nearest));
                }
                else if (leaders > MostSigmas)
                {
                    all.Add(new Misfit(MisfitKind.AgainstTheRest, c, leaders));
                }
            }
            else if (clue.Kind == ClueKind.Log && Case.Products.Count > 0
                && likelihoods[^1] - likelihoods[..^1].Max() > LogUnexplainedFrom)
            {
                all.Add(new Misfit(MisfitKind.LogUnexplained, c, Math.Sqrt(2 * (likelihoods[^1] - likelihoods[..^1].Max()))));
            }
            else if (behind > MostSigmas * MostSigmas / 2)
            {
                // As unlikely as a reading that lies so many sigma off.
                all.Add(new Misfit(MisfitKind.AgainstTheRest, c, Math.Sqrt(2 * behind)));
            }
        }

        return all;
    }

    private double Sum(Func<Hypothesis, bool> of)
    {
        double sum = 0;
        for (int h = 0; h < _posterior.Length; h++)
        {
            sum += of(Hypotheses[h]) ? _posterior[h] : 0;
        }

        return sum;
    }

    private double Weight(int clue, int hypothesis)
    {
        double[] likelihoods = _likelihoods[clue];
        (double most, double all) = Whole(clue);
        double prior = Hypotheses[hypothesis].Prior;
        double others = all - (prior * Math.Exp(likelihoods[hypothesis] - most));
        if (others < 1e-6 * all)
        {
            // The difference has lost its digits: sum the others themselves.
            others = 0;
            for (int h = 0; h < likelihoods.Length; h++)
            {
                others += h == hypothesis ? 0 : Hypotheses[h].Prior * Math.Exp(likelihoods[h] - most);
            }
        }

        // Where the others cannot make it at all, more than e^100 to one says nothing more.
        return prior < 1 ? Math.Clamp(likelihoods[hypothesis] - most - Math.Log(others / (1 - prior)), -100, 100) : 0;
    }

    /// <summary>Of a clue the greatest log likelihood, and the likelihoods over it summed with the priors.</summary>
    private (double Most, double All) Whole(int clue)
    {
        if (_whole[clue].All == 0)
        {
            double most = _likelihoods[clue].Max();
            double all = 0;
            for (int h = 0; h < Hypotheses.Count; h++)
            {
                all += Hypotheses[h].Prior * Math.Exp(_likelihoods[clue][h] - most);
            }

            _whole[clue] = (most, all);
        }

        return _whole[clue];
    }
}
