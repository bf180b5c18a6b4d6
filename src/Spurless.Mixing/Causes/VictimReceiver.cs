namespace Spurless.Mixing.Causes;

/// <summary>The receiver that is to be kept quiet, as far as the other causes need it.</summary>
public sealed record VictimReceiver
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>The channel's centre in hertz.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>The raster of the channel in hertz: decides what can hit.</summary>
    public required long ChannelHz { get; init; }

    /// <summary>The noise bandwidth in hertz.</summary>
    public required long IfBandwidthHz { get; init; }

    /// <summary>Noise at the receiver's input in that bandwidth, in dBm.</summary>
    public required double NoiseFloorDbm { get; init; }

    /// <summary>Gain from the antenna connector to the receiver's input on the channel, in dB; negative for a loss.</summary>
    public required double ChainGainDb { get; init; }

    /// <summary>Whether a carrier's frequency lies so that it can hit the channel itself.</summary>
    internal bool HitBy(long frequencyHz, long bandwidthHz) => 2 * Math.Abs(frequencyHz - FrequencyHz) <= ChannelHz + bandwidthHz;
}
