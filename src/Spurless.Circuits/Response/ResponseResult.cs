using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Touchstone;

namespace Spurless.Circuits.Response;

/// <summary>The response of a circuit or a measured file.</summary>
public sealed record ResponseResult
{
    /// <summary>The network's name.</summary>
    public required string Name { get; init; }

    /// <summary>Number of ports, 1 or 2.</summary>
    public required int Ports { get; init; }

    /// <summary>Reference impedance of each port in ohms.</summary>
    public required ImmutableArray<Complex> References { get; init; }

    /// <summary>The points asked for.</summary>
    public required ImmutableArray<ResponsePoint> Points { get; init; }

    /// <summary>The pass-band; null for a one-port, and where nothing passes.</summary>
    public required Passband? Passband { get; init; }

    /// <summary>Further pass-bands up to 1 GHz, rising: their least loss is within 6 dB of the pass-band's.</summary>
    public required ImmutableArray<FurtherPassband> FurtherPassbands { get; init; }

    /// <summary>Lobes of the skirts, rising: other maxima 6 to 20 dB under the pass-band, which are no pass-bands.</summary>
    public ImmutableArray<FurtherPassband> Lobes { get; init; } = [];

    /// <summary>Notches, rising.</summary>
    public ImmutableArray<Notch> Notches { get; init; } = [];

    /// <summary>The channel asked for in hertz; null where none was.</summary>
    public double? NearHz { get; init; }

    /// <summary>What must stand beside the figures, each a sentence without a full stop.</summary>
    public required ImmutableArray<NetworkRemark> Remarks { get; init; }

    /// <summary>The points as the content of a Touchstone file.</summary>
    public TouchstoneData ToTouchstone() => TouchstoneData.Create(
        Name, Ports, [.. Points.Select(static p => p.FrequencyHz)], [.. Points.Select(static p => p.S)], References);
}
