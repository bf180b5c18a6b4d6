using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Radio.Noise;
using Spurless.Radio.Quantities;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;

namespace Spurless.Sites.Studies;

/// <summary>Studies a site: every product that can land on each receiver, its level, and what it does.</summary>
public static class StudyService
{
    /// <summary>Lowest and highest order searched where the site file says nothing.</summary>
    public static (int Lowest, int Highest) DefaultOrders => (2, 7);

    /// <summary>Most emitters in one product where the site file says nothing.</summary>
    public const int DefaultSignals = 3;

    // Keys that a later step of the work is the first to use.
    private static readonly string[] NotUsedYet =
    [
        "evidence", "place.ground",
    ];

    /// <summary>Studies a site.</summary>
    /// <param name="site">The site with its circuits and sweeps.</param>
    /// <param name="options">Limits and thresholds.</param>
    /// <param name="progress">Told how far the search has come, or null.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>The findings.</returns>
    /// <exception cref="TooManyProductsException">A list would be longer than is made.</exception>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public static StudyResult Run(
        LoadedSite site, StudyOptions options, IProgress<SearchProgress>? progress = null, CancellationToken cancellationToken = default) =>
        Run(site, options, new FastSearch(), progress, cancellationToken);

    /// <summary>The same by a given search: a test holds the fast one against the plain one.</summary>
    internal static StudyResult Run(
        LoadedSite site, StudyOptions options, IProductSearch search, IProgress<SearchProgress>? progress, CancellationToken cancellationToken)
    {
        SiteDocument document = site.Document;
        return Run(site, [.. Enumerable.Range(0, document.Receivers.Count)], options, search, withoutFilters: true, progress, cancellationToken);
    }

    /// <summary>Studies one receiver of a site, without what it says of the chain without its filters.</summary>
    internal static ReceiverFindings RunOne(
        LoadedSite site, int receiver, StudyOptions options, IProductSearch search, IProgress<SearchProgress>? progress, CancellationToken cancellationToken) =>
        Run(site, [receiver], options, search, withoutFilters: false, progress, cancellationToken).Receivers[0];

    private static StudyResult Run(
        LoadedSite site, int[] which, StudyOptions options, IProductSearch search, bool withoutFilters, IProgress<SearchProgress>? progress,
        CancellationToken cancellationToken)
    {
        SiteDocument document = site.Document;
        EmitterSetup[] emitters = [.. document.Emitters.Select(Setup)];
        TransmitterResolver transmitters = new(site);
        IReadOnlyList<string> notComputed = transmitters.NotComputed();
        ReceiverSetup[] receivers = [.. which.Select(r => Setup(site, document.Receivers[r], options, transmitters) with { NotComputed = notComputed })];
        (int Lowest, int Highest) orders = options.Orders
            ?? (document.Search.LowestOrder ?? DefaultOrders.Lowest, document.Search.HighestOrder ?? DefaultOrders.Highest);
        int signals = options.Signals ?? document.Search.Signals ?? DefaultSignals;
        Dictionary<string, int> indexOf = document.Emitters.Select(static (e, i) => (e.Name, i)).ToDictionary(static p => p.Name, static p => p.i, StringComparer.Ordinal);
        StudyRun run = new(
            emitters,
            [.. document.Exclusive.Select(g => (System.Collections.Immutable.ImmutableArray<int>)[.. g.Select(n => indexOf[n])])], orders, signals, options, transmitters.Computable);
        return new StudyResult
        {
            Site = document.Site,
            Receivers = run.Run(receivers, search, withoutFilters, progress, cancellationToken),
            KeysNotUsedYet = [.. NotUsedYet.Where(key => document.KeysPresent.Any(p => p == key || p.StartsWith(key + ".", StringComparison.Ordinal)))],
            Options = options with { Orders = orders, Signals = signals, LongLists = null },
            Inputs = site.Inputs,
            Warnings = site.Warnings,
        };
    }

    private static EmitterSetup Setup(EmitterEntry entry) => new()
    {
        Name = entry.Name,
        FrequencyHz = entry.Frequency.Hertz,
        BandwidthHz = entry.BandwidthHz,
        EmissionClass = entry.Emission?.Class,
        NoiseLike = entry.NoiseLike,
        Activity = entry.Activity?.Value ?? 1,
        Follows = entry.Follows,
        PowerDbm = entry.Power?.Dbm,
        Noise = Noise(entry.Noise),
        Harmonics = [.. entry.Harmonics.Select(static h => new HarmonicLevel(h.Order, h.Ratio.Dbc))],
    };

    private static SidebandNoise? Noise(IReadOnlyList<NoiseDensityAt> points) => points.Count == 0
        ? null
        : SidebandNoise.FromPoints([.. points.Select(static p => new NoisePoint(p.Offset.Hertz, p.Density.DbcPerHertz))]);

    private static BlockingPoint? Blocking(ReceiverEntry entry)
    {
        if (entry.Blocking is not { } ratio)
        {
            return null;
        }

        long bandwidth = ChainBuilder.IfBandwidthHz(entry);
        double reference = entry.Sensitivity?.Level.Dbm ?? ReceiverNoise.SensitivityDbm(
            ReceiverNoise.FromNoiseFigure(entry.NoiseFigure!.Value.Decibels, bandwidth).NoiseDbm, ReceiverNoise.DefaultCarrierToNoiseDb(entry.Channel.Hertz));
        return BlockingPoint.FromRatio(ratio.Value, reference);
    }

    private static Superhet? Plan(ReceiverEntry entry) => entry.Superhet is not { } plan
        ? null
        : new Superhet
        {
            FrequencyHz = entry.Frequency.Hertz,
            FirstIfHz = plan.FirstIf.Hertz,
            Injection = plan.Injection == Documents.Injection.High ? Mixing.Causes.Injection.High : Mixing.Causes.Injection.Low,
            SecondIfHz = plan.SecondIf?.Hertz,
        };

    /// <summary>A level as it arrives; a predicted one has the transmitter's output filter taken off, which a measured or radiated one has in it.</summary>
    private static ArrivingLevel Level(LoadedSite site, EmitterEntry emitter, ReceiverEntry receiver, ReceiveChain chain, TransmitterResolver transmitters)
    {
        ArrivingLevel level = LevelResolver.Of(site.Document, emitter, receiver, chain);
        return level.Origin == LevelOrigin.Predicted && emitter.Power is not null
            ? level with { AtAntennaDbm = level.AtAntennaDbm - transmitters.FilterDb(emitter, emitter.Frequency.Hertz) }
            : level;
    }

    private static ReceiverSetup Setup(LoadedSite site, ReceiverEntry entry, StudyOptions options, TransmitterResolver transmitters)
    {
        (ReceiveChain chain, IReadOnlyList<string> assumed) = ChainBuilder.Build(entry, site.Of);
        SearchEntry search = site.Document.Search;
        ArrivingLevel[] levels = [.. site.Document.Emitters.Select(e => Level(site, e, entry, chain, transmitters))];
        return new ReceiverSetup
        {
            Name = entry.Name,
            FrequencyHz = entry.Frequency.Hertz,
            ChannelHz = entry.Channel.Hertz,
            IfBandwidthHz = ChainBuilder.IfBandwidthHz(entry),
            Chain = chain,
            ExternalNoiseDb = ExternalNoiseDb(entry),
            SquelchOpensDb = entry.SquelchOpens?.Value ?? ReceiverNoise.DefaultCarrierToNoiseDb(entry.Channel.Hertz),
            SpoilsWithinDb = entry.SpoilsWithin?.Value ?? ProductEffects.SpoilsWithinDb,
            WantedDbm = entry.Wanted?.Dbm,
            CommonSigmaDb = entry.CommonUncertainty?.Value ?? 0,
            FloorDbm = options.FloorDbm ?? (search.NoFloor ? double.NegativeInfinity : search.Floor?.Dbm),
            Levels = levels,
            Reaches = [.. site.Document.Emitters.Select((e, i) => transmitters.Reach(e, entry, levels[i]))],
            Plan = Plan(entry),
            SelectivityKnown = entry.Selectivity is not null,
            Blocking = Blocking(entry),
            OscillatorNoise = Noise(entry.LocalOscillatorNoise),
            AntennaMismatch = entry.Antenna?.Mismatch ?? ReceiverSetup.DefaultMismatch,
            Mismatch = entry.Mismatch ?? ReceiverSetup.DefaultMismatch,
            Assumed = assumed,
            AssumedOfFilter = [.. OfFilter(site, entry, chain)],
        };
    }

    /// <summary>What a filter in line is assumed to stand between, and how far its figures carry.</summary>
    private static IEnumerable<string> OfFilter(LoadedSite site, ReceiverEntry entry, ReceiveChain chain)
    {
        if (chain.Filters.Count == 0)
        {
            return [];
        }

        string[] unstated =
        [
            .. entry.Antenna?.Mismatch is null ? ["antenna"] : Array.Empty<string>(),
            .. entry.Mismatch is null ? ["receiver"] : Array.Empty<string>(),
        ];
        string mismatch = FormattableString.Invariant(
            $"a reflection coefficient of {ReceiverSetup.DefaultMismatch} out of band at the {string.Join(" and the ", unstated)}, for the band of rejection");
        return [.. unstated.Length > 0 ? [mismatch] : Array.Empty<string>(), .. chain.LeakageNotes([.. site.Document.Emitters.Select(static e => (double)e.Frequency.Hertz)])];
    }

    private static double? ExternalNoiseDb(ReceiverEntry entry) => entry.ExternalNoise switch
    {
        null => null,
        { OverThermal: { } given } => given.Value,
        { Surroundings: { } surroundings } => ExternalNoise.Of(surroundings switch
        {
            Documents.NoiseSurroundings.QuietRural => Radio.Noise.NoiseSurroundings.QuietRural,
            Documents.NoiseSurroundings.Rural => Radio.Noise.NoiseSurroundings.Rural,
            Documents.NoiseSurroundings.Residential => Radio.Noise.NoiseSurroundings.Residential,
            Documents.NoiseSurroundings.City => Radio.Noise.NoiseSurroundings.City,
            _ => Radio.Noise.NoiseSurroundings.None,
        }).OverKt0Db(entry.Frequency.Hertz),
        _ => null,
    };
}
