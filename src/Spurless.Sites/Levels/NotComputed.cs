namespace Spurless.Sites.Levels;

/// <summary>Why products of a transmitter cannot be computed.</summary>
public enum NotComputedKind
{
    /// <summary>Output powers of <see cref="NotComputed.Others"/> are not known: not all products are.</summary>
    OutputPowers,

    /// <summary>How strongly <see cref="NotComputed.Others"/> arrive at the output is not known.</summary>
    Arrivals,

    /// <summary>The turn-round losses are not known.</summary>
    TurnRoundLoss,

    /// <summary>How strongly the other transmitters arrive at the outputs is not stated.</summary>
    Couplings,

    /// <summary>Neither output powers nor couplings are stated.</summary>
    PowersAndCouplings,

    /// <summary>The transmitter's level at this receiver, <see cref="NotComputed.Others"/>, is not known.</summary>
    LevelHere,
}

/// <summary>Products that are not computed for want of an input.</summary>
/// <param name="Kind">Why.</param>
/// <param name="Transmitters">The transmitters in which they would be made.</param>
/// <param name="Others">Whom the missing figure concerns, where it is not the transmitters themselves.</param>
public sealed record NotComputed(NotComputedKind Kind, IReadOnlyList<string> Transmitters, IReadOnlyList<string> Others)
{
    /// <summary>
    /// What each of the transmitters makes at most over the noise, in dB, if it is a usual one; null where even that is not known. Empty
    /// for other gaps.
    /// </summary>
    public IReadOnlyList<double?> AtMostOverNoiseDb { get; init; } = [];

    /// <summary>For want of a figure of the transmitters themselves.</summary>
    internal static NotComputed In(NotComputedKind kind, IReadOnlyList<string> transmitters) => new(kind, transmitters, []);
}
