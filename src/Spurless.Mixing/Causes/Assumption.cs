namespace Spurless.Mixing.Causes;

/// <summary>What kind of thing was assumed.</summary>
public enum AssumptionKind
{
    /// <summary>What a caller's own model assumed, in <see cref="Assumption.Note"/>: a path, an antenna, a coupling.</summary>
    Told,

    /// <summary>The level of <see cref="Assumption.Of"/> is not known and not in the sum: a lower bound.</summary>
    UnknownLevelLeftOut,

    /// <summary>Levels of several carriers are not known and not in the sum: a lower bound.</summary>
    UnknownLevelsLeftOut,

    /// <summary>No blocking figure was stated; it was taken from IIP3 by the cubic term.</summary>
    BlockingFromIntercept,

    /// <summary>The spectrum of a moving envelope was taken as flat.</summary>
    EnvelopeTakenFlat,

    /// <summary>The third-order intercept behind a cross-modulation was itself assumed.</summary>
    InterceptOfCrossModulation,

    /// <summary>The side of the second oscillator was not stated: both were looked at.</summary>
    SecondOscillatorSide,

    /// <summary>The second mixer was taken to be as linear as the whole receiver.</summary>
    SecondMixerLinearity,

    /// <summary>Harmonics of an oscillator were taken to fall as 1/q, even ones like odd ones.</summary>
    OscillatorHarmonics,

    /// <summary>The intercept of <see cref="Assumption.Order"/> behind a response was itself assumed.</summary>
    InterceptOfResponse,

    /// <summary>The intercept of <see cref="Assumption.Order"/> of stage <see cref="Assumption.Of"/> was taken as
    /// <see cref="Assumption.Value"/> dBm for want of a figure.</summary>
    InterceptOfStage,

    /// <summary>The term of the next degree could change a product's level by more than is trusted.</summary>
    NextDegree,

    /// <summary>The one figure of noise given, at <see cref="Assumption.FromHz"/> of offset, was taken at
    /// <see cref="Assumption.ToHz"/> too; of a transmitter, or of the receiver's oscillator where <see cref="Assumption.Of"/> is null.
    /// </summary>
    NoiseAtOneOffset,

    /// <summary>The outermost figure of noise given was held, as above.</summary>
    NoiseHeld,

    /// <summary>The isolator of <see cref="Assumption.Of"/> was stated at another frequency.</summary>
    IsolatorElsewhere,

    /// <summary>The path of <see cref="Assumption.Of"/> was measured at another frequency.</summary>
    PathElsewhere,

    /// <summary>A signal arrives at transmitter <see cref="Assumption.Of"/> less than <see cref="Assumption.Value"/> dB under its own
    /// power, where the law of weak signals is not trusted.</summary>
    SignalNotWeak,

    /// <summary>Nothing is known of the noise of <see cref="Assumption.Of"/>: it is bounded by a usual base transmitter.</summary>
    UsualNoise,

    /// <summary>
    /// Nothing is known of the turn-round loss of <see cref="Assumption.Of"/>: it is bounded by a usual base transmitter.
    /// </summary>
    UsualTurnRound,

    /// <summary>Adjacent-channel selectivity of <see cref="Assumption.Value"/> dB taken for want of a figure.</summary>
    AdjacentSelectivity,

    /// <summary>
    /// The adjacent-channel selectivity stated at <see cref="Assumption.FromHz"/> taken at <see cref="Assumption.ToHz"/> too.
    /// </summary>
    AdjacentHeld,

    /// <summary>
    /// The stage <see cref="Assumption.Of"/> cannot deliver what the law of the order gives: capped at <see cref="Assumption.Value"/> dBm.
    /// </summary>
    Saturated,

    /// <summary>The turn-round loss of <see cref="Assumption.FromOrder"/> was taken for <see cref="Assumption.Order"/>.</summary>
    TurnRoundOfOtherOrder,
}

/// <summary>Something that a figure rests on without its having been stated. Equal where it says the same.</summary>
/// <param name="Kind">What kind of thing it is.</param>
public sealed record Assumption(AssumptionKind Kind)
{
    /// <summary>Whom it concerns: an emitter, a transmitter, a stage; null where the kind says all.</summary>
    public string? Of { get; init; }

    /// <summary>Where the figure was stated: a frequency or an offset in hertz.</summary>
    public double FromHz { get; init; }

    /// <summary>Where it was used, in hertz.</summary>
    public double ToHz { get; init; }

    /// <summary>Order it was stated for; 0 where none is meant.</summary>
    public int FromOrder { get; init; }

    /// <summary>Order it was used for; 0 where none is meant.</summary>
    public int Order { get; init; }

    /// <summary>A figure in dB or dBm that belongs to it; 0 where none does.</summary>
    public double Value { get; init; }

    /// <summary>What a caller's model assumed; null for every other kind.</summary>
    public CallersNote? Note { get; init; }

    /// <summary>What a caller's own model assumed.</summary>
    /// <param name="note">As the caller has it.</param>
    public static Assumption Told(CallersNote note) => new(AssumptionKind.Told) { Note = note };
}
