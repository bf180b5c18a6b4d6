using Spurless.Mixing.Causes;
using Spurless.Radio.Noise;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>A receiver of a site file. What is null was not written.</summary>
public sealed record ReceiverEntry
{
    /// <summary>Its name, unlike every other receiver's and emitter's.</summary>
    public required string Name { get; init; }

    /// <summary>The channel's centre, above 0.</summary>
    public required Frequency Frequency { get; init; }

    /// <summary>The raster: decides what can hit. Above 0.</summary>
    public required Frequency Channel { get; init; }

    /// <summary>The noise bandwidth, above 0.</summary>
    public Frequency? IfBandwidth { get; init; }

    /// <summary>The level for 12 dB SINAD; exactly one of this and <see cref="NoiseFigure"/> is given.</summary>
    public Sensitivity? Sensitivity { get; init; }

    /// <summary>The noise figure; exactly one of this and <see cref="Sensitivity"/> is given.</summary>
    public NoiseFigure? NoiseFigure { get; init; }

    /// <summary>Input intercepts by order, 2 to 9, as far as given.</summary>
    public required IReadOnlyDictionary<int, Level> Intercepts { get; init; }

    /// <summary>One sigma of intercepts by order, each 0 or more, as far as stated.</summary>
    public IReadOnlyList<DecibelsAtOrder> InterceptUncertainty { get; init; } = [];

    /// <summary>Where the intercepts are from; null where not stated.</summary>
    public InterceptOrigin? InterceptsFrom { get; init; }

    /// <summary>The third-order intercept's origin where no iip3 is given.</summary>
    public IntermodRejectionEntry? IntermodRejection { get; init; }

    /// <summary>What the receiver takes away before its first active stage.</summary>
    public SelectivityEntry? Selectivity { get; init; }

    /// <summary>The noise that comes with the signals; null for none.</summary>
    public ExternalNoiseEntry? ExternalNoise { get; init; }

    /// <summary>Its antenna.</summary>
    public AntennaEntry? Antenna { get; init; }

    /// <summary>The weakest signal to protect.</summary>
    public Level? Wanted { get; init; }

    /// <summary>From how far over noise the squelch opens.</summary>
    public Decibels? SquelchOpens { get; init; }

    /// <summary>A product this close under the wanted signal spoils it.</summary>
    public Decibels? SpoilsWithin { get; init; }

    /// <summary>Magnitude of the receiver's reflection coefficient out of band, 0 to 1.</summary>
    public double? Mismatch { get; init; }

    /// <summary>One sigma that all levels measured at this receiver share, 0 or more.</summary>
    public Decibels? CommonUncertainty { get; init; }

    /// <summary>Its frequency plan; null where not given.</summary>
    public SuperhetEntry? Superhet { get; init; }

    /// <summary>Adjacent-channel selectivity over the sensitivity; null where not given.</summary>
    public AdjacentEntry? Adjacent { get; init; }

    /// <summary>Blocking: ratio of the blocking signal to the sensitivity, above 0.</summary>
    public Decibels? Blocking { get; init; }

    /// <summary>Sideband noise of the local oscillator, by ascending offset; empty where not given.</summary>
    public required IReadOnlyList<NoiseDensityAt> LocalOscillatorNoise { get; init; }

    /// <summary>Where this receiver's measured levels were taken.</summary>
    public required LevelsAt LevelsAt { get; init; }

    /// <summary>The stages from the antenna connector towards the receiver.</summary>
    public required IReadOnlyList<ChainStageEntry> Chain { get; init; }

    /// <summary>Where it stands in the file.</summary>
    public required EntrySource Source { get; init; }
}

/// <summary>Where measured levels were taken.</summary>
public enum LevelsAt
{
    /// <summary>At the antenna connector.</summary>
    Antenna,

    /// <summary>Behind the feedline.</summary>
    FeedlineEnd,

    /// <summary>At the receiver's input, behind the whole chain.</summary>
    Receiver,
}

/// <summary>How an intermodulation response rejection was measured.</summary>
public enum RejectionMethod
{
    /// <summary>Relative to the 12 dB SINAD sensitivity.</summary>
    Tia603,

    /// <summary>Relative to the test's wanted level.</summary>
    En300086,
}

/// <summary>An intermodulation response rejection.</summary>
/// <param name="By">The rejection, above 0.</param>
/// <param name="Method">How it was measured.</param>
/// <param name="Wanted">The wanted level of the test, with <see cref="RejectionMethod.En300086"/> only.</param>
/// <param name="CoChannel">The co-channel rejection, with <see cref="RejectionMethod.En300086"/> only.</param>
public sealed record IntermodRejectionEntry(Decibels By, RejectionMethod Method, Level? Wanted, Decibels? CoChannel);

/// <summary>A selectivity: points by ascending frequency, or a measured two-port.</summary>
/// <param name="Points">Attenuations, 0 or more; empty with a two-port.</param>
/// <param name="TwoPort">The measurement's file, or null.</param>
public sealed record SelectivityEntry(IReadOnlyList<DecibelsAt> Points, FileReference? TwoPort);

/// <summary>Adjacent-channel selectivity: one figure, one raster away, or points by ascending offset.</summary>
/// <param name="OneRasterAway">One figure, above 0; null with points.</param>
/// <param name="Points">Points, above 0, their frequency the offset; empty with one figure.</param>
public sealed record AdjacentEntry(Decibels? OneRasterAway, IReadOnlyList<DecibelsAt> Points);

/// <summary>External noise.</summary>
/// <param name="Surroundings">The category; null where <paramref name="OverThermal"/> is given.</param>
/// <param name="OverThermal">Decibels over kT0, or null.</param>
public sealed record ExternalNoiseEntry(NoiseSurroundings? Surroundings, Decibels? OverThermal)
{
    /// <summary>The noise in dB over kT0 at a frequency in hertz; null for none.</summary>
    public double? OverKt0Db(double frequencyHz) =>
        OverThermal?.Value ?? (Surroundings is { } surroundings ? ExternalNoise.Of(surroundings).OverKt0Db(frequencyHz) : null);
}

/// <summary>The frequency plan of a superheterodyne receiver.</summary>
/// <param name="FirstIf">First intermediate frequency, above 0.</param>
/// <param name="Injection">Side of the first local oscillator.</param>
/// <param name="SecondIf">Second intermediate frequency, or null.</param>
public sealed record SuperhetEntry(Frequency FirstIf, Injection Injection, Frequency? SecondIf);

/// <summary>A stage of the chain from the antenna connector to the receiver.</summary>
public abstract record ChainStageEntry;

/// <summary>A cable: loss at a frequency, or a type and a length.</summary>
/// <param name="Loss">Loss at one frequency, 0 or more; null with a type.</param>
/// <param name="Type">Name of a type of cable; null with a loss.</param>
/// <param name="Length">Its length, above 0; null with a loss.</param>
public sealed record FeedlineStage(DecibelsAt? Loss, string? Type, Length? Length) : ChainStageEntry;

/// <summary>A circuit of its own file.</summary>
public sealed record CircuitStage(FileReference Circuit) : ChainStageEntry;

/// <summary>A measured two-port.</summary>
public sealed record TwoPortStage(FileReference TwoPort) : ChainStageEntry;

/// <summary>A relay round a filter, at rest: filter and contacts in line.</summary>
/// <param name="Bypass">The relay's file.</param>
public sealed record BypassStage(FileReference Bypass) : ChainStageEntry;

/// <summary>An attenuator.</summary>
/// <param name="Loss">0 or more.</param>
public sealed record AttenuatorStage(Decibels Loss) : ChainStageEntry;

/// <summary>An amplifier.</summary>
/// <param name="Gain">Gain, may be negative.</param>
/// <param name="NoiseFigure">Noise figure.</param>
/// <param name="Intercepts">Input intercepts by order, 2 to 9; 3 is always there.</param>
public sealed record AmplifierStage(Decibels Gain, NoiseFigure NoiseFigure, IReadOnlyDictionary<int, Level> Intercepts) : ChainStageEntry;
