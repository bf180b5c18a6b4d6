using Spurless.Mixing.Causes;
using Spurless.Mixing.Spread;
using Spurless.Radio.Noise;
using Spurless.Sites.Chains;
using Spurless.Sites.Levels;

namespace Spurless.Sites.Studies;

/// <summary>An emitter of the site as the computation needs it.</summary>
internal sealed record EmitterSetup
{
    public required string Name { get; init; }

    public required long FrequencyHz { get; init; }

    public required long BandwidthHz { get; init; }

    /// <summary>The three symbols of the emission class, or null where only a bandwidth was given.</summary>
    public required string? EmissionClass { get; init; }

    public required bool NoiseLike { get; init; }

    /// <summary>Fraction of time that it is on, 0 to 1.</summary>
    public required double Activity { get; init; }

    /// <summary>The receiver that it follows, or null.</summary>
    public required string? Follows { get; init; }

    /// <summary>The receiver that never hears while this emitter is on, or null.</summary>
    public string? HalfDuplex { get; init; }

    /// <summary>Transmitter output power in dBm; null where not stated.</summary>
    public double? PowerDbm { get; init; }

    /// <summary>Its sideband noise; null where not stated.</summary>
    public SidebandNoise? Noise { get; init; }

    /// <summary>Its harmonics, as far as stated.</summary>
    public IReadOnlyList<HarmonicLevel> Harmonics { get; init; } = [];

    /// <summary>Whether its envelope moves: noise-like, or amplitude modulation with a full carrier.</summary>
    public bool EnvelopeMoves => NoiseLike || EmissionClass?[0] == 'A';

    public EmitterSpread Spread => EmitterSpread.From(BandwidthHz, EmissionClass);
}

/// <summary>A receiver as the computation needs it.</summary>
internal sealed record ReceiverSetup
{
    /// <summary>
    /// Reflection coefficient out of band where the site file states none (docs/method/filter-in-line.md, common practice).
    /// </summary>
    public const double DefaultMismatch = 0.5;

    public required string Name { get; init; }

    public required long FrequencyHz { get; init; }

    public required long ChannelHz { get; init; }

    public required long IfBandwidthHz { get; init; }

    public required ReceiveChain Chain { get; init; }

    /// <summary>External noise over kT0 at the antenna connector in dB, or null for none.</summary>
    public required double? ExternalNoiseDb { get; init; }

    /// <summary>Over noise, in dB.</summary>
    public required double SquelchOpensDb { get; init; }

    /// <summary>In dB.</summary>
    public required double SpoilsWithinDb { get; init; }

    /// <summary>Weakest wanted signal at the antenna connector in dBm, or null.</summary>
    public required double? WantedDbm { get; init; }

    /// <summary>One sigma that all measured levels share, in dB.</summary>
    public required double CommonSigmaDb { get; init; }

    /// <summary>Report floor in dBm; negative infinity for none; null for 20 dB under the noise floor.</summary>
    public required double? FloorDbm { get; init; }

    /// <summary>Magnitude of the antenna's reflection coefficient out of band, 0 to 1.</summary>
    public double AntennaMismatch { get; init; } = DefaultMismatch;

    /// <summary>Magnitude of the receiver's reflection coefficient out of band, 0 to 1.</summary>
    public double Mismatch { get; init; } = DefaultMismatch;

    /// <summary>One level per emitter.</summary>
    public required IReadOnlyList<ArrivingLevel> Levels { get; init; }

    public required IReadOnlyList<ReceiverAssumption> Assumed { get; init; }

    /// <summary>What is assumed of the filter in line.</summary>
    public IReadOnlyList<ReceiverAssumption> AssumedOfFilter { get; init; } = [];

    /// <summary>How each emitter's output would arrive at the antenna connector on this channel; one per emitter.</summary>
    public IReadOnlyList<TransmitterReach> Reaches { get; init; } = [];

    /// <summary>The frequency plan, or null.</summary>
    public Superhet? Plan { get; init; }

    /// <summary>Whether what the input circuits take away was stated.</summary>
    public bool SelectivityKnown { get; init; }

    /// <summary>The stated blocking point at the receiver's first active stage, or null.</summary>
    public BlockingPoint? Blocking { get; init; }

    /// <summary>Sideband noise of the local oscillator, or null.</summary>
    public SidebandNoise? OscillatorNoise { get; init; }

    /// <summary>Its adjacent-channel selectivity.</summary>
    public required AdjacentSelectivity Adjacent { get; init; }

    /// <summary>Carrier to noise ratio at 12 dB SINAD, in dB.</summary>
    public required double CarrierToNoiseDb { get; init; }

    /// <summary>What cannot be computed for want of an input, a sentence each.</summary>
    public IReadOnlyList<NotComputed> NotComputed { get; init; } = [];

    public double NoiseFloorDbm => Chain.NoiseFloorDbm(FrequencyHz, IfBandwidthHz, ExternalNoiseDb);

    /// <summary>Level at the antenna connector that gives 12 dB SINAD through the chain as it stands, in dBm.</summary>
    public double SensitivityAtAntennaDbm =>
        NoiseFloorDbm + ReceiverNoise.DefaultCarrierToNoiseDb(ChannelHz) - Chain.GainToReceiverInputDb(FrequencyHz);
}
