using Spurless.Mixing.Spread;
using Spurless.Radio.Paths;

namespace Spurless.Mixing.Screening;

/// <summary>A transmitter as a screening sees it: where it stands and what it radiates. What is not known is NaN.</summary>
public readonly record struct ScreenEmitter
{
    /// <summary>Carrier in hertz, above 0.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>Occupied bandwidth in hertz, at least 0.</summary>
    public required long BandwidthHz { get; init; }

    /// <summary>How its momentary frequency is spread.</summary>
    public EmitterSpread Spread { get; init; }

    /// <summary>Radiated power in dBm over an isotropic antenna, in the main direction. One without it takes no part.</summary>
    public required double EirpDbm { get; init; }

    /// <summary>Where it stands.</summary>
    public required GeoPoint Place { get; init; }

    /// <summary>Height of its antenna over ground in metres, or NaN.</summary>
    public float HeightM { get; init; }

    /// <summary>Height of the ground over sea level in metres, or NaN.</summary>
    public float GroundM { get; init; }

    /// <summary>Main direction in degrees from north, or NaN.</summary>
    public float AzimuthDegrees { get; init; }

    /// <summary>Half-power beamwidth in degrees, or NaN.</summary>
    public float BeamwidthDegrees { get; init; }

    /// <summary>Whether it is noise-like.</summary>
    public bool NoiseLike { get; init; }
}
