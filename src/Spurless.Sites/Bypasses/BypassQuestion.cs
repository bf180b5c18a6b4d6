using Spurless.Sites.Sources;

namespace Spurless.Sites.Bypasses;

/// <summary>Does a relay that the radio frequency switches protect the filter that it bypasses?</summary>
public sealed record BypassQuestion
{
    /// <summary>Words a minute at which a keyed carrier is tried.</summary>
    public const double MorseWordsAMinute = 20;

    /// <summary>Isolation of a usual circulator in dB (common practice for one of a single junction).</summary>
    public const double CirculatorIsolationDb = 20;

    /// <summary>Loss of a usual circulator in dB (common practice).</summary>
    public const double CirculatorLossDb = 0.4;

    /// <summary>Distances in hertz between the two tones that stand for speech in single sideband.</summary>
    public static IReadOnlyList<double> TonesApartHz { get; } = [100, 1000];

    /// <summary>Temperatures of the coil in degrees Celsius at which the margins are taken.</summary>
    public static IReadOnlyList<double> CoilCelsius { get; } = [20, 60];

    /// <summary>The supply over the nominal one for the margins.</summary>
    public static IReadOnlyList<double> SupplyShares { get; } = [0.9, 1, 1.1];

    /// <summary>The relay with the files that it names.</summary>
    public required LoadedBypass Bypass { get; init; }

    /// <summary>Whether to try speech and keying, which takes most of the time.</summary>
    public bool TriesKeying { get; init; } = true;
}
