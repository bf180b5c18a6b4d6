using Spurless.Mixing.Levels;
using Spurless.Radio.Paths;

namespace Spurless.Mixing.Screening;

/// <summary>One active stage of the receivers of a kind.</summary>
/// <param name="GainDb">Gain from an isotropic antenna in its main direction to this stage's input at a frequency in hertz, in dB.</param>
/// <param name="ReferralDb">Gain from this stage's input to the receiver's input at a frequency in hertz, in dB.</param>
/// <param name="Intercepts">Its intercepts.</param>
public sealed record ScreenStage(Func<double, double> GainDb, Func<double, double> ReferralDb, Intercepts Intercepts);

/// <summary>What many receivers have in common: chain, intercepts, antenna. Gains are computed once for each frequency of the
/// field.</summary>
/// <param name="Stages">The active stages from the antenna on, at least one.</param>
public sealed record ScreenProfile(IReadOnlyList<ScreenStage> Stages)
{
    /// <summary>Bearing of the antenna's main direction in degrees from north; NaN for one that has none.</summary>
    public double AzimuthDegrees { get; init; } = double.NaN;

    /// <summary>Its half-power beamwidth in degrees; NaN for one that has none.</summary>
    public double BeamwidthDegrees { get; init; } = double.NaN;
}

/// <summary>A receiver to screen.</summary>
public sealed record ScreenReceiver
{
    /// <summary>Its chain and antenna.</summary>
    public required ScreenProfile Profile { get; init; }

    /// <summary>Where it stands.</summary>
    public required GeoPoint Place { get; init; }

    /// <summary>The channel's centre in hertz.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>The channel's raster in hertz.</summary>
    public required long ChannelHz { get; init; }

    /// <summary>Noise bandwidth in hertz.</summary>
    public required long IfBandwidthHz { get; init; }

    /// <summary>Noise at the receiver's input in dBm.</summary>
    public required double NoiseFloorDbm { get; init; }

    /// <summary>Height of its antenna over ground in metres, or NaN.</summary>
    public double HeightM { get; init; } = double.NaN;

    /// <summary>Height of the ground over sea level in metres, or NaN.</summary>
    public double GroundM { get; init; } = double.NaN;
}

/// <summary>The worst mixture at a receiver.</summary>
/// <param name="Emitters">Indices of its emitters in the field.</param>
/// <param name="Coefficients">Their coefficients, with signs that make the frequency positive.</param>
/// <param name="OverNoiseDb">What of it falls into the channel, over the noise, in dB.</param>
/// <param name="Saturated">Whether a stage cannot deliver what the law of its order gives, so that the level was capped.</param>
public sealed record ScreenMixture(
    IReadOnlyList<int> Emitters, IReadOnlyList<int> Coefficients, double OverNoiseDb, bool Saturated = false);

/// <summary>What a screening finds at one receiver.</summary>
/// <param name="Harmful">Products at or over the upper threshold.</param>
/// <param name="Marginal">Products between the thresholds.</param>
/// <param name="Worst">The strongest of them; null where there is none.</param>
/// <param name="WithoutLevel">Emitters that stand too near for any formula of paths: whatever they make is not counted.</param>
/// <param name="IsComplete">False where there were so many products that the counting was stopped: the counts are the least that there
/// are.</param>
public sealed record ScreenFinding(long Harmful, long Marginal, ScreenMixture? Worst, int WithoutLevel, bool IsComplete);

/// <summary>Limits of a screening.</summary>
public sealed record ScreenOptions
{
    /// <summary>Orders that are looked for, 2 to 9.</summary>
    public IReadOnlyList<int> Orders { get; init; } = [2, 3, 5];

    /// <summary>Most emitters in one product.</summary>
    public int Signals { get; init; } = 3;

    /// <summary>From here on a product is harmful: over the noise, in dB.</summary>
    public double HarmfulFromDb { get; init; }

    /// <summary>From here on it is marginal.</summary>
    public double MarginalFromDb { get; init; } = -10;

    /// <summary>Emitters further away are left out, in metres; none by default.</summary>
    public double WithinM { get; init; } = double.PositiveInfinity;

    /// <summary>The ground between; null for free space and plane earth alone.</summary>
    public IScreenGround? Ground { get; init; }

    /// <summary>Products of one receiver after which its counting stops; the worst is sought among all of them.</summary>
    public long MostProducts { get; init; } = 10_000;

    /// <summary>Threads; null for one per processor.</summary>
    public int? Threads { get; init; }
}
