using System.Collections.Immutable;

namespace Spurless.Circuits.Response;

/// <summary>
/// The figures of a pass-band. Widths are between the points nearest to the peak on either side at which the loss has grown by so much over
/// <see cref="LossDb"/>; what does not exist within the frequencies searched is null.
/// </summary>
public sealed record Passband
{
    /// <summary>Frequency of the least loss in hertz.</summary>
    public required double PeakHz { get; init; }

    /// <summary>The least loss in dB; negative for gain.</summary>
    public required double LossDb { get; init; }

    /// <summary>Geometric mean of the two -3 dB points in hertz.</summary>
    public double? CentreHz => Low3DbHz is { } low && High3DbHz is { } high ? Math.Sqrt(low * high) : null;

    /// <summary>Lower -3 dB point in hertz.</summary>
    public required double? Low3DbHz { get; init; }

    /// <summary>Upper -3 dB point in hertz.</summary>
    public required double? High3DbHz { get; init; }

    /// <summary>What kind of pass-band it is, by the -3 dB points there are.</summary>
    public PassbandKind Kind => (Low3DbHz, High3DbHz) switch
    {
        (null, null) => PassbandKind.Everything,
        (null, _) => PassbandKind.LowPass,
        (_, null) => PassbandKind.HighPass,
        _ => PassbandKind.BandPass,
    };

    /// <summary>The -3 dB point of a low-pass or high-pass in hertz; null for others.</summary>
    public double? CornerHz => Kind switch { PassbandKind.LowPass => High3DbHz, PassbandKind.HighPass => Low3DbHz, _ => null };

    /// <summary>Lower -6 dB point in hertz.</summary>
    public required double? Low6DbHz { get; init; }

    /// <summary>Upper -6 dB point in hertz.</summary>
    public required double? High6DbHz { get; init; }

    /// <summary>Lower -60 dB point in hertz.</summary>
    public required double? Low60DbHz { get; init; }

    /// <summary>Upper -60 dB point in hertz.</summary>
    public required double? High60DbHz { get; init; }

    /// <summary>Width between the -3 dB points in hertz.</summary>
    public double? Width3DbHz => High3DbHz - Low3DbHz;

    /// <summary>Width between the -6 dB points in hertz.</summary>
    public double? Width6DbHz => High6DbHz - Low6DbHz;

    /// <summary>Width between the -60 dB points in hertz.</summary>
    public double? Width60DbHz => High60DbHz - Low60DbHz;

    /// <summary>-60 dB width over -3 dB width.</summary>
    public double? ShapeFactor60To3 => Width60DbHz / Width3DbHz;

    /// <summary>
    /// How far the response dips between its outermost maxima within the -3 dB points, in dB; 0 for a single maximum; null without both
    /// points.
    /// </summary>
    public required double? RippleDb { get; init; }

    /// <summary>Return loss of port 1 at <see cref="CentreHz"/> in dB.</summary>
    public required double? ReturnLossDb { get; init; }

    /// <summary>Group delay at <see cref="CentreHz"/> in seconds.</summary>
    public required double? GroupDelayS { get; init; }

    /// <summary>Greatest less least group delay between the -3 dB points, in seconds.</summary>
    public required double? GroupDelayVariationS { get; init; }
}

/// <summary>What a pass-band does within the frequencies searched.</summary>
public enum PassbandKind
{
    /// <summary>It has a -3 dB point on both sides.</summary>
    BandPass,

    /// <summary>It has none below: a low-pass, as far down as was looked.</summary>
    LowPass,

    /// <summary>It has none above: a high-pass, as far up as was looked.</summary>
    HighPass,

    /// <summary>It has neither.</summary>
    Everything,
}

/// <summary>A notch: a minimum of what passes, with at least 10 dB more on both sides before anything lower.</summary>
/// <param name="FrequencyHz">Where, in hertz.</param>
/// <param name="LossDb">Insertion loss there in dB.</param>
/// <param name="DepthDb">The same over the pass-band's least loss.</param>
public sealed record Notch(double FrequencyHz, double LossDb, double DepthDb);

/// <summary>What was found of a transmission.</summary>
/// <param name="Main">The pass-band; null where nothing passes.</param>
/// <param name="Further">Further pass-bands, rising.</param>
/// <param name="Lobes">Lobes of the skirts, rising.</param>
/// <param name="Notches">Notches, rising.</param>
public sealed record PassbandFindings(
    Passband? Main, ImmutableArray<FurtherPassband> Further, ImmutableArray<FurtherPassband> Lobes, ImmutableArray<Notch> Notches)
{
    /// <summary>Nothing passes.</summary>
    public static PassbandFindings None { get; } = new(null, [], [], []);

    /// <summary>The response has more turns than are told apart.</summary>
    public static PassbandFindings Unresolved { get; } = new(null, [], [], []) { IsTooFine = true };

    /// <summary>Whether nothing is told because the response turns too often: a very long line does that.</summary>
    public bool IsTooFine { get; private init; }
}

/// <summary>A place besides the pass-band where the network lets through.</summary>
/// <param name="PeakHz">Frequency of its least loss in hertz.</param>
/// <param name="LossDb">Its least loss in dB.</param>
/// <param name="Low3DbHz">Lower point in hertz, 3 dB below this peak; null where there is none.</param>
/// <param name="High3DbHz">Upper point in hertz, 3 dB below this peak; null where there is none.</param>
public sealed record FurtherPassband(double PeakHz, double LossDb, double? Low3DbHz, double? High3DbHz);
