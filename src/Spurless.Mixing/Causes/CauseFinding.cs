using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Causes;

/// <summary>One cause other than a product of the receiver, worked out as far as the inputs allow.</summary>
/// <remarks>A null level, over-noise or desense means unknown, never nought; <see cref="Missing"/> then says why.</remarks>
public sealed record CauseFinding
{
    /// <summary>The kind of cause.</summary>
    public required CauseKind Cause { get; init; }

    /// <summary>Name of the emitter concerned (the strongest where several act together); null where none is.</summary>
    public required string? Emitter { get; init; }

    /// <summary>
    /// Level in dBm, referred to the receiver's input on its channel; for blocking the power sum of the carriers. Null where unknown.
    /// </summary>
    public required double? LevelDbm { get; init; }

    /// <summary>Upper bound in dBm of a level that is not known, or of which only a part is; null where there is none or none is
    /// needed.</summary>
    public double? AtMostDbm { get; init; }

    /// <summary><see cref="AtMostDbm"/> less the noise floor in dB; null where there is no bound.</summary>
    public double? AtMostOverNoiseDb { get; init; }

    /// <summary>Level less noise floor in dB; for blocking the power sum less the blocking point. Null where unknown.</summary>
    public required double? OverNoiseDb { get; init; }

    /// <summary>Loss of sensitivity in dB, at least 0; null where unknown.</summary>
    public double? DesenseDb => OverNoiseDb is { } over ? ProductEffects.NoiseRiseDb(over) : null;

    /// <summary>One sigma of the level in dB; null where the level is unknown.</summary>
    public required double? SigmaDb { get; init; }

    /// <summary>What was assumed.</summary>
    public IReadOnlyList<Assumption> Assumed { get; init; } = [];

    /// <summary>What is missing for a level, with the measurement that would supply it.</summary>
    public IReadOnlyList<MissingInput> Missing { get; init; } = [];

    /// <summary>Distance from the channel's centre in hertz, with sign: of an emitter on the channel its own, of sideband noise
    /// the channel's from the transmitter. 0 for other causes.</summary>
    public long OffsetHz { get; init; }

    /// <summary>Which harmonic falls on the channel, 2 or more, and its frequency; null for other causes.</summary>
    public (int Times, long FrequencyHz)? Harmonic { get; init; }

    /// <summary>The emitter whose carrier is modulated by <see cref="Emitter"/>; null but for cross-modulation.</summary>
    public string? Modulated { get; init; }

    /// <summary>The response of the superheterodyne that is hit; null for other causes.</summary>
    public SuperhetResponse? Response { get; init; }

    /// <summary>Whether <see cref="AtMostDbm"/> rests on what is usual, not on a figure of this transmitter.</summary>
    public bool BoundByUsual { get; init; }

    /// <summary>Density under which sideband noise that is not known would be harmless, in dBc/Hz; null where it is known, or
    /// its path is not.</summary>
    public double? HarmlessDbcPerHz { get; init; }
}
