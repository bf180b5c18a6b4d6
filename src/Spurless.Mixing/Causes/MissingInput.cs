namespace Spurless.Mixing.Causes;

/// <summary>Which figure is missing.</summary>
public enum MissingKind
{
    /// <summary>Level of emitter <see cref="MissingInput.Of"/> at this receiver.</summary>
    LevelHere,

    /// <summary>Levels of the carriers of product <see cref="MissingInput.Of"/>.</summary>
    ProductLevel,

    /// <summary>Level of products made outside: nobody can predict it.</summary>
    OutsideLevel,

    /// <summary>Blocking of this receiver.</summary>
    Blocking,

    /// <summary>
    /// Harmonic <see cref="MissingInput.Times"/> of <see cref="MissingInput.Of"/>, at <see cref="MissingInput.FrequencyHz"/>.
    /// </summary>
    Harmonic,

    /// <summary>Sideband noise of <see cref="MissingInput.Of"/> at an offset of <see cref="MissingInput.FrequencyHz"/>.</summary>
    SidebandNoise,

    /// <summary>
    /// What the input circuits of receiver <see cref="MissingInput.Of"/> take off at <see cref="MissingInput.FrequencyHz"/>.
    /// </summary>
    InputSelectivity,

    /// <summary>How much of <see cref="MissingInput.FrequencyHz"/> passes the mixer of <see cref="MissingInput.Of"/> unconverted.</summary>
    MixerFeedthrough,

    /// <summary>What the first IF filter of receiver <see cref="MissingInput.Of"/> takes off.</summary>
    FirstIfFilter,

    /// <summary>Coupling from <see cref="MissingInput.Of"/> to transmitter <see cref="MissingInput.At"/> at
    /// <see cref="MissingInput.FrequencyHz"/>.</summary>
    Coupling,

    /// <summary>Turn-round loss of transmitter <see cref="MissingInput.Of"/>.</summary>
    TurnRoundLoss,

    /// <summary>Output power of <see cref="MissingInput.Of"/>.</summary>
    OutputPower,

    /// <summary>Path from <see cref="MissingInput.Of"/> to this receiver.</summary>
    Path,

    /// <summary>Path from <see cref="MissingInput.Of"/> to this receiver at <see cref="MissingInput.FrequencyHz"/>, far from where it was
    /// measured.</summary>
    PathOnChannel,

    /// <summary>Noise of this receiver's oscillator at an offset of <see cref="MissingInput.FrequencyHz"/>.</summary>
    OscillatorNoise,
}

/// <summary>A figure without which a level stays unknown. Equal where it is the same figure.</summary>
/// <param name="Kind">Which figure.</param>
/// <param name="Of">Whose it is; null where the kind says all.</param>
public sealed record MissingInput(MissingKind Kind, string? Of = null)
{
    /// <summary>The transmitter at which it is wanted; null where none is meant.</summary>
    public string? At { get; init; }

    /// <summary>Frequency or offset in hertz; 0 where none is meant.</summary>
    public long FrequencyHz { get; init; }

    /// <summary>Which harmonic; 0 where none is meant.</summary>
    public int Times { get; init; }
}
