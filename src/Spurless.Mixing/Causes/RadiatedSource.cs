using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Causes;

/// <summary>An emitter as the source of what it radiates besides its carrier.</summary>
public sealed record RadiatedSource
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Its frequency in hertz.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>Its occupied bandwidth in hertz, 0 for an unmodulated carrier.</summary>
    public required long BandwidthHz { get; init; }

    /// <summary>How its power is spread.</summary>
    public EmitterSpread Spread { get; init; }

    /// <summary>How its output would arrive on the channel, its output filter there included.</summary>
    public required TransmitterReach Reach { get; init; }
}
