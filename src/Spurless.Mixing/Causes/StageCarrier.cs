using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Causes;

/// <summary>A carrier as it stands at the stage where the harm is done.</summary>
public sealed record StageCarrier
{
    /// <summary>The emitter's name.</summary>
    public required string Name { get; init; }

    /// <summary>Its frequency in hertz.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>Its occupied bandwidth in hertz, 0 for an unmodulated carrier: decides what can hit.</summary>
    public required long BandwidthHz { get; init; }

    /// <summary>How its power is spread: decides what of it arrives inside the channel.</summary>
    public EmitterSpread Spread { get; init; }

    /// <summary>Level at the stage's input after everything in front of it, in dBm; null where unknown.</summary>
    public required double? LevelDbm { get; init; }

    /// <summary>One sigma of the level in dB.</summary>
    public double SigmaDb { get; init; }

    /// <summary>Whether the envelope moves as noise does: many carriers, scrambled wide data, or full amplitude modulation.</summary>
    public bool EnvelopeMoves { get; init; }
}
