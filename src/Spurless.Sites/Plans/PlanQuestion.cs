using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Plans;

/// <summary>On which channels of a band would a receiver of the site be quiet?</summary>
public sealed record PlanQuestion
{
    /// <summary>Most channels of a band.</summary>
    public const int MostChannels = 10_000;

    /// <summary>Most channels that are sought to work side by side.</summary>
    public const int MostTogether = 16;

    /// <summary>Up to so many channels side by side are chosen by going through all sets that can be best; more one by one.</summary>
    public const int ExactTogether = 4;

    /// <summary>So many of the best channels are looked at by a whole study each.</summary>
    public const int Looked = 10;

    /// <summary>The site with its circuits and sweeps.</summary>
    public required LoadedSite Site { get; init; }

    /// <summary>The lowest channel in hertz, above 0.</summary>
    public required long FromHz { get; init; }

    /// <summary>The highest channel in hertz, from the lowest on.</summary>
    public required long ToHz { get; init; }

    /// <summary>From one channel to the next in hertz, above 0.</summary>
    public required long RasterHz { get; init; }

    /// <summary>
    /// Transmit less receive frequency in hertz; null where our own transmitter keeps the distance that it has, if there is one.
    /// </summary>
    public long? ShiftHz { get; init; }

    /// <summary>The receiver that is moved; null for the first of the site.</summary>
    public string? Receiver { get; init; }

    /// <summary>How many channels are sought that are quiet side by side; null where that is not asked.</summary>
    public int? Count { get; init; }

    /// <summary>What parts of the band are for; null where all is open.</summary>
    public BandPlan? BandPlan { get; init; }

    /// <summary>Limits and thresholds, as a study's.</summary>
    public StudyOptions Options { get; init; } = new();

    /// <summary>Whether only what lands on the channels is asked: no other receivers, and no whole studies.</summary>
    internal bool ChannelsOnly { get; init; }

    /// <summary>The study's limits and the site's, whichever holds.</summary>
    internal (int Lowest, int Highest) Orders => Options.Orders ?? (
        Site.Document.Search.LowestOrder ?? StudyService.DefaultOrders.Lowest,
        Site.Document.Search.HighestOrder ?? StudyService.DefaultOrders.Highest);

    /// <summary>Most emitters in one mixture.</summary>
    internal int Signals => Options.Signals ?? Site.Document.Search.Signals ?? StudyService.DefaultSignals;
}
