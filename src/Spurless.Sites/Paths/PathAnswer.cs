using Spurless.Radio.Terrain;
using Spurless.Radio.Terrain.Elevation;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Paths;

/// <summary>One path over the ground: what was asked, what lies between, and what it costs.</summary>
public sealed record PathAnswer
{
    /// <summary>Name of the transmitter; null where a profile stands alone.</summary>
    public string? From { get; init; }

    /// <summary>Name of the receiver; null where a profile stands alone.</summary>
    public string? To { get; init; }

    /// <summary>Bearing of the receiver from the transmitter in degrees from true north; null where it is not known.</summary>
    public double? BearingDegrees { get; init; }

    /// <summary>What was asked.</summary>
    public required PathQuestion Question { get; init; }

    /// <summary>The ground.</summary>
    public required TerrainProfile Profile { get; init; }

    /// <summary>Where the ground came from, for profiles taken from elevation tiles; null for one by hand.</summary>
    public SampledProfile? Sampled { get; init; }

    /// <summary>What the path costs; never refused.</summary>
    public required TerrainPrediction Prediction { get; init; }

    /// <summary>The level that arrives; null where a profile stands alone or the transmitter's power is not known.</summary>
    public PathLevel? Level { get; init; }

    /// <summary>What was assumed.</summary>
    public required IReadOnlyList<LevelNote> Assumed { get; init; }

    /// <summary>The files read.</summary>
    public required IReadOnlyList<InputFile> Inputs { get; init; }
}

/// <summary>The level that a path gives.</summary>
/// <param name="RadiatedDbm">Power radiated towards the receiver over an isotropic antenna, in dBm.</param>
/// <param name="ReceiverGainDbi">Gain of the receiving antenna towards the transmitter in dBi.</param>
/// <param name="EffectsDb">
/// What the antennas' response off their band, polarisations and tilt add, and the transmitter's output filter takes, in dB.
/// </param>
/// <param name="AtAntennaDbm">Level at the receiving antenna's connector in dBm.</param>
/// <param name="SigmaDb">One sigma of it in dB: the path's, and what the antennas leave open.</param>
/// <param name="MeasuredDbm">A level of the site file, which wins over this prediction; null where there is none.</param>
public sealed record PathLevel(
    double RadiatedDbm, double ReceiverGainDbi, double EffectsDb, double AtAntennaDbm, double SigmaDb, double? MeasuredDbm);
