namespace Spurless.Circuits.Parts;

/// <summary>
/// The loss of an inductor or a capacitor: a quality factor stated at a frequency, or a series resistance that is the same at every
/// frequency.
/// </summary>
/// <remarks>
/// Laws (physics of the project, section 6): an inductor of Q0 at f0 has the series resistance <c>(2 pi f0 L / Q0) sqrt(f / f0)</c>,
/// a capacitor of Q0 at f0 the constant one <c>1 / (2 pi f0 C Q0)</c>. Both follow the value: a part that turns out larger keeps its Q.
/// </remarks>
public sealed record PartLoss
{
    private PartLoss()
    {
    }

    /// <summary>The quality factor, above 0; null where the loss is a resistance. May be unknown, for a fit.</summary>
    public PartValue? Q { get; private init; }

    /// <summary>The frequency in hertz at which <see cref="Q"/> holds; 0 where the loss is a resistance.</summary>
    public double QFrequencyHz { get; private init; }

    /// <summary>The series resistance in ohms, not negative; null where the loss is a quality factor.</summary>
    public double? SeriesResistanceOhm { get; private init; }

    /// <summary>A quality factor at a frequency.</summary>
    /// <param name="q">Quality factor, above 0.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    public static PartLoss QualityFactor(double q, double frequencyHz) => QualityFactor(PartValue.Known(q), frequencyHz);

    /// <summary>A quality factor at a frequency, possibly unknown.</summary>
    /// <param name="q">Quality factor, above 0 where known.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    public static PartLoss QualityFactor(PartValue q, double frequencyHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(frequencyHz);
        if (q.Value is { } known)
        {
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(known, nameof(q));
        }

        return new PartLoss { Q = q, QFrequencyHz = frequencyHz };
    }

    /// <summary>A series resistance.</summary>
    /// <param name="ohm">Resistance in ohms, not negative.</param>
    public static PartLoss SeriesResistance(double ohm)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(ohm);
        return new PartLoss { SeriesResistanceOhm = ohm };
    }
}
