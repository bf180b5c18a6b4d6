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

    /// <summary>Level in dBm, referred to the receiver's input on its channel; for blocking the power sum of the carriers. Null where unknown.</summary>
    public required double? LevelDbm { get; init; }

    /// <summary>Upper bound of a level that is unknown only for want of a rejection, which can but lower it, in dBm; null where there is no bound or the
    /// level is known.</summary>
    public double? AtMostDbm { get; init; }

    /// <summary>Level less noise floor in dB; for blocking the power sum less the blocking point. Null where unknown.</summary>
    public required double? OverNoiseDb { get; init; }

    /// <summary>Loss of sensitivity in dB, at least 0; null where unknown.</summary>
    public double? DesenseDb => OverNoiseDb is { } over ? ProductEffects.NoiseRiseDb(over) : null;

    /// <summary>One sigma of the level in dB; null where the level is unknown.</summary>
    public required double? SigmaDb { get; init; }

    /// <summary>What was assumed, a sentence each.</summary>
    public IReadOnlyList<string> Assumed { get; init; } = [];

    /// <summary>What is missing for a level, with the measurement that would supply it.</summary>
    public IReadOnlyList<MissingInput> Missing { get; init; } = [];

    /// <summary>The finding in a sentence.</summary>
    public required string Says { get; init; }
}
