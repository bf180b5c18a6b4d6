using Spurless.Sites.Studies;

namespace Spurless.Drawing.Plans;

/// <summary>One channel of the strip.</summary>
/// <param name="FrequencyHz">Its centre in hertz.</param>
/// <param name="SumOverNoiseDb">What lands on it, over the noise in dB; null where nothing does.</param>
/// <param name="Verdict">What that amounts to.</param>
/// <param name="IsTaken">Whether it is not offered: nothing else of it is shown then.</param>
public readonly record struct PlanStripChannel(long FrequencyHz, double? SumOverNoiseDb, Verdict Verdict, bool IsTaken);

/// <summary>Something that stands in the band.</summary>
/// <param name="Name">Its name.</param>
/// <param name="FrequencyHz">Its frequency in hertz.</param>
public readonly record struct PlanStripMark(string Name, long FrequencyHz);

/// <summary>What the strip of a band shows.</summary>
public sealed record PlanStripModel
{
    /// <summary>What it is, in a line.</summary>
    public required string Title { get; init; }

    /// <summary>What there is to see, for those who do not see it.</summary>
    public required string Description { get; init; }

    /// <summary>From one channel to the next in hertz.</summary>
    public required long RasterHz { get; init; }

    /// <summary>The channels by frequency, one or more.</summary>
    public required IReadOnlyList<PlanStripChannel> Channels { get; init; }

    /// <summary>What stands in the band, by frequency.</summary>
    public required IReadOnlyList<PlanStripMark> Marks { get; init; }

    /// <summary>The best channel, in hertz; null for none.</summary>
    public required long? BestHz { get; init; }

    /// <summary>The channel that is chosen, in hertz; null for the best.</summary>
    public long? ChosenHz { get; init; }

    /// <summary>Where the receiver stands now, in hertz, within the band or not.</summary>
    public required long PresentHz { get; init; }

    /// <summary>From how many dB over the noise a mixture is marginal.</summary>
    public double MarginalFromDb { get; init; } = -10;
}
