using Spurless.Radio.Noise;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents.Receivers;

/// <summary>A receiver's own measurements (<c>*.receiver.yaml</c>).</summary>
public sealed record ReceiverMeasurements
{
    /// <summary>The file's name as the user gave it.</summary>
    public required string File { get; init; }

    /// <summary>What was measured, in the user's words.</summary>
    public required string Name { get; init; }

    /// <summary>The channel's centre, above 0.</summary>
    public required Frequency Frequency { get; init; }

    /// <summary>The raster, above 0.</summary>
    public required Frequency Channel { get; init; }

    /// <summary>The noise bandwidth, above 0; null where not written.</summary>
    public Frequency? IfBandwidth { get; init; }

    /// <summary>What was measured, in the file's order; empty before anything was.</summary>
    public required IReadOnlyList<MeasuredEntry> Measured { get; init; }

    /// <summary>Where everything stands in the file.</summary>
    public required EntrySource Source { get; init; }

    /// <summary>The noise bandwidth in hertz: as written, or by the raster.</summary>
    public long IfBandwidthHz => IfBandwidth?.Hertz ?? ReceiverNoise.DefaultBandwidthHz(Channel.Hertz);

    /// <summary>Carrier to noise ratio at 12 dB SINAD, by the raster, in dB.</summary>
    public double CarrierToNoiseDb => ReceiverNoise.DefaultCarrierToNoiseDb(Channel.Hertz);
}
