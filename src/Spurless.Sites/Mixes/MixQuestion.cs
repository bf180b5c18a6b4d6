using Spurless.Mixing.Search;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Mixes;

/// <summary>Which sums and differences of frequencies land on a frequency?</summary>
public sealed record MixQuestion
{
    /// <summary>The highest frequency, in hertz.</summary>
    public const long MostHz = SearchProblem.MaxFrequencyHz;

    /// <summary>The farthest offset that can be asked for, in hertz.</summary>
    public const long MostWithinHz = MostHz / 2;

    /// <summary>Most carriers.</summary>
    public const int MostCarriers = SearchProblem.MaxEmitters;

    /// <summary>The frequency listened to, in hertz.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>The frequencies on the air, in hertz.</summary>
    public required IReadOnlyList<long> CarriersHz { get; init; }

    /// <summary>How far from the frequency still counts, in hertz: the raster of 12.5 kHz.</summary>
    public long WithinHz { get; init; } = 12_500;

    /// <summary>Lowest and highest order, 2 to 9.</summary>
    public (int Lowest, int Highest) Orders { get; init; } = StudyService.DefaultOrders;

    /// <summary>Most carriers in one mixture, 1 to 9.</summary>
    public int Signals { get; init; } = StudyService.DefaultSignals;
}
