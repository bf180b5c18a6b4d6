namespace Spurless.Mixing.Evidence;

/// <summary>What is weighed for one receiver: the products that could be it, and what was observed.</summary>
public sealed record EvidenceCase
{
    /// <summary>Lower end of the levels over noise that something of unknown level can have, in dB.</summary>
    public const double LeastOverNoiseDb = -10;

    /// <summary>Upper end of the levels over noise that something of unknown level can have, in dB.</summary>
    public const double MostOverNoiseDb = 80;

    // What was read before is itself known to one decibel.
    private const double BeforeSigmaDb = 1;

    /// <summary>The products.</summary>
    public required IReadOnlyList<EvidenceProduct> Products { get; init; }

    /// <summary>What was observed. Logs stand together in one.</summary>
    public required IReadOnlyList<Observation> Observations { get; init; }

    /// <summary>The raster of the channel in hertz, above 0.</summary>
    public required double ChannelHz { get; init; }

    /// <summary>How hypotheses are weighed before any evidence.</summary>
    public PriorKind Prior { get; init; }

    /// <summary>
    /// The reading whose level over noise counts as the level of what is heard: the largest, and of equal ones the first; -1 where nothing
    /// was read.
    /// </summary>
    public int LevelFrom
    {
        get
        {
            int largest = -1;
            for (int i = 0; i < Observations.Count; i++)
            {
                if (Observations[i] is FallObservation fall
                    && (largest < 0 || fall.OverNoiseDb > ((FallObservation)Observations[largest]).OverNoiseDb))
                {
                    largest = i;
                }
            }

            return largest;
        }
    }

    /// <summary>The product of a hypothesis; null for something else.</summary>
    /// <param name="hypothesis">The hypothesis.</param>
    public EvidenceProduct? ProductOf(in Hypothesis hypothesis) => hypothesis.Product < 0 ? null : Products[hypothesis.Product];

    /// <summary>What a hypothesis says of the level over noise.</summary>
    /// <param name="sigmaDb">One sigma of the reading.</param>
    /// <param name="hypothesis">The hypothesis.</param>
    public static Prediction Level(double sigmaDb, in Hypothesis hypothesis) => hypothesis.OverNoiseDb is { } over
        ? Prediction.Normal(over, (hypothesis.SigmaDb * hypothesis.SigmaDb) + (sigmaDb * sigmaDb))
        : Prediction.Between(LeastOverNoiseDb, MostOverNoiseDb);

    /// <summary>What a hypothesis says of a fall.</summary>
    /// <param name="fall">What was changed.</param>
    /// <param name="hypothesis">The hypothesis.</param>
    public Prediction Fall(FallObservation fall, in Hypothesis hypothesis)
    {
        ArgumentNullException.ThrowIfNull(fall);
        double attenuation = fall.AttenuationDb(ProductOf(hypothesis), hypothesis.Product, hypothesis);
        if (double.IsNaN(attenuation))
        {
            return Prediction.Between(0, Math.Max(1, FallLaw.MostDb(fall.OverNoiseDb)));
        }

        double slope = FallLaw.Slope(fall.OverNoiseDb, attenuation) * BeforeSigmaDb;
        return Prediction.Normal(FallLaw.Db(fall.OverNoiseDb, attenuation), (fall.SigmaDb * fall.SigmaDb) + (slope * slope));
    }

    /// <summary>What a hypothesis says of the offset.</summary>
    /// <param name="offset">How it is measured.</param>
    /// <param name="hypothesis">The hypothesis.</param>
    public Prediction Offset(OffsetReading offset, in Hypothesis hypothesis)
    {
        ArgumentNullException.ThrowIfNull(offset);
        return ProductOf(hypothesis) is { } product
            ? Prediction.Normal(product.OffsetHz, (offset.SigmaHz * offset.SigmaHz) + (product.OffsetSigmaHz * product.OffsetSigmaHz))
            : Prediction.Between(-ChannelHz / 2, ChannelHz / 2);
    }

    /// <summary>What a hypothesis says of the reading of a clue: level, fall or offset.</summary>
    /// <param name="clue">The clue.</param>
    /// <param name="hypothesis">The hypothesis.</param>
    /// <exception cref="ArgumentException">The clue is no reading.</exception>
    public Prediction PredictionOf(Clue clue, in Hypothesis hypothesis) => (clue.Kind, Observations[clue.Observation]) switch
    {
        (ClueKind.Level, FallObservation fall) => Level(fall.SigmaDb, hypothesis),
        (ClueKind.Fall, FallObservation fall) => Fall(fall, hypothesis),
        (ClueKind.Offset, OffsetReading offset) => Offset(offset, hypothesis),
        _ => throw new ArgumentException($"a clue of kind {clue.Kind} is no reading", nameof(clue)),
    };

    /// <summary>The reading of a clue: level over noise or fall in dB, offset in hertz.</summary>
    /// <param name="clue">The clue.</param>
    /// <exception cref="ArgumentException">The clue is no reading.</exception>
    public double ReadingOf(Clue clue) => (clue.Kind, Observations[clue.Observation]) switch
    {
        (ClueKind.Level, FallObservation fall) => fall.OverNoiseDb,
        (ClueKind.Fall, FallObservation fall) => fall.FallDb,
        (ClueKind.Offset, OffsetReading offset) => offset.OffsetHz,
        _ => throw new ArgumentException($"a clue of kind {clue.Kind} is no reading", nameof(clue)),
    };
}
