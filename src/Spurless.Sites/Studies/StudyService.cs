using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Radio.Noise;
using Spurless.Radio.Quantities;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Studies;

/// <summary>Studies a site: every product that can land on each receiver, its level, and what it does.</summary>
public static class StudyService
{
    /// <summary>Lowest and highest order searched where the site file says nothing.</summary>
    public static (int Lowest, int Highest) DefaultOrders => (2, 7);

    /// <summary>Most emitters in one product where the site file says nothing.</summary>
    public const int DefaultSignals = 3;

    // Keys that a later step of the work is the first to use: none at present.
    private static readonly string[] NotUsedYet = [];

    /// <summary>Answers a question.</summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Told how far the search has come, or null.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>The findings; a refusal where a list would be longer than is made.</returns>
    public static Outcome<StudyResult> Ask(
        StudyQuestion question, IProgress<SearchProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        try
        {
            return Run(question.Site, question.Options, progress, cancellationToken);
        }
        catch (TooManyProductsException e)
        {
            return e.Refusal;
        }
    }

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
        LoadedSite site,
        StudyOptions options,
        IProductSearch search,
        IProgress<SearchProgress>? progress,
        CancellationToken cancellationToken)
    {
        SiteDocument document = site.Document;
        return Run(
            site,
            new StudyPart { Receivers = [.. Enumerable.Range(0, document.Receivers.Count)] },
            options,
            search,
            new TransmitterResolver(document, site.Of, site.Terrain),
            withoutFilters: true,
            progress,
            cancellationToken);
    }

    /// <summary>Studies one receiver of a site, without what it says of the chain without its filters.</summary>
    /// <param name="site">The site with its circuits and sweeps.</param>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="options">Limits and thresholds.</param>
    /// <param name="memory">What the study before this one left.</param>
    /// <param name="progress">Told how far the search has come, or null.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    public static ReceiverFindings RunOne(
        LoadedSite site,
        int receiver,
        StudyOptions options,
        StudyMemory memory,
        IProgress<SearchProgress>? progress,
        CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(memory);
        return Run(
            site, new StudyPart { Receivers = [receiver] }, options, memory.Search, memory.TransmittersOf(site), withoutFilters: false,
            progress, cancellationToken)
            .Receivers[0];
    }

    /// <summary>Studies a part of a site, without what it says of the chains without their filters.</summary>
    /// <param name="site">The site with its circuits and sweeps.</param>
    /// <param name="part">Which receivers and products, and what is weaker than the site says.</param>
    /// <param name="options">Limits and thresholds.</param>
    /// <param name="progress">Told how far the search has come, or null.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <exception cref="TooManyProductsException">A list would be longer than is made.</exception>
    internal static StudyResult RunPart(
        LoadedSite site, StudyPart part, StudyOptions options, IProgress<SearchProgress>? progress, CancellationToken cancellationToken) =>
        Run(
            site, part, options, new FastSearch(), new TransmitterResolver(site.Document, site.Of, site.Terrain), withoutFilters: false,
            progress,
            cancellationToken);

    private static StudyResult Run(
        LoadedSite site,
        StudyPart part,
        StudyOptions options,
        IProductSearch search,
        TransmitterResolver transmitters,
        bool withoutFilters,
        IProgress<SearchProgress>? progress,
        CancellationToken cancellationToken)
    {
        SiteDocument document = site.Document;
        EmitterSetup[] emitters = [.. document.Emitters.Select(Setup)];
        IReadOnlyList<NotComputed> notComputed = transmitters.NotComputed;
        ReceiverSetup[] receivers =
        [
            .. part.Receivers.Select(r => Setup(site, document.Receivers[r], options, transmitters, part.Fall) with
            {
                NotComputed = notComputed,
            }),
        ];
        (int Lowest, int Highest) orders = options.Orders
            ?? (document.Search.LowestOrder ?? DefaultOrders.Lowest, document.Search.HighestOrder ?? DefaultOrders.Highest);
        int signals = options.Signals ?? document.Search.Signals ?? DefaultSignals;
        Dictionary<string, int> indexOf = document.Emitters
            .Select(static (e, i) => (e.Name, i))
            .ToDictionary(static p => p.Name, static p => p.i, StringComparer.Ordinal);
        StudyRun run = new(
            emitters,
            [.. document.Exclusive.Select(g => (System.Collections.Immutable.ImmutableArray<int>)[.. g.Select(n => indexOf[n])])], orders,
                signals, options, transmitters.Computable, transmitters.Usual, part.Choice);
        return new StudyResult
        {
            Site = document.Site,
            Contact = document.Contact,
            Notes = document.Notes,
            Heard = document.Heard,
            Receivers = run.Run(receivers, search, withoutFilters, progress, cancellationToken),
            KeysNotUsedYet =
            [
                .. NotUsedYet.Where(key => document.KeysPresent.Any(p => p == key || p.StartsWith(key + ".", StringComparison.Ordinal))),
            ],
            Options = options with { Orders = orders, Signals = signals, LongLists = null },
            Inputs = site.Inputs,
            Warnings = site.Warnings,
        };
    }

    /// <summary>An emitter as the computation needs it.</summary>
    internal static EmitterSetup Setup(EmitterEntry entry) => new()
    {
        Name = entry.Name,
        FrequencyHz = entry.Frequency.Hertz,
        BandwidthHz = entry.BandwidthHz,
        EmissionClass = entry.Emission?.Class,
        NoiseLike = entry.NoiseLike,
        Activity = entry.Activity?.Value ?? 1,
        Follows = entry.Follows,
        HalfDuplex = entry.HalfDuplex,
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
            ReceiverNoise.FromNoiseFigure(entry.NoiseFigure!.Value.Decibels, bandwidth).NoiseDbm,
            ReceiverNoise.DefaultCarrierToNoiseDb(entry.Channel.Hertz));
        return BlockingPoint.FromRatio(ratio.Value, reference);
    }

    private static AdjacentSelectivity Adjacent(ReceiverEntry entry) => entry.Adjacent switch
    {
        null => AdjacentSelectivity.Usual(entry.Channel.Hertz),
        { OneRasterAway: { } one } => AdjacentSelectivity.FromPoints(new FrequencyResponsePoint(entry.Channel.Hertz, one.Value)),
        { Points: var points } =>
            AdjacentSelectivity.FromPoints([.. points.Select(static p => new FrequencyResponsePoint(p.Frequency.Hertz, p.Value.Value))]),
    };

    private static Superhet? Plan(ReceiverEntry entry) => entry.Superhet is not { } plan
        ? null
        : new Superhet
        {
            FrequencyHz = entry.Frequency.Hertz,
            FirstIfHz = plan.FirstIf.Hertz,
            Injection = plan.Injection,
            SecondIfHz = plan.SecondIf?.Hertz,
        };

    /// <summary>
    /// A level as it arrives; a predicted one has the transmitter's output filter taken off, which a measured or radiated one has in it.
    /// </summary>
    internal static ArrivingLevel Level(
        LoadedSite site, EmitterEntry emitter, ReceiverEntry receiver, ReceiveChain chain, TransmitterResolver transmitters)
    {
        ArrivingLevel level = new AntennaEffects(site.Document, site.Of).Applied(
            LevelResolver.Of(site.Document, emitter, receiver, chain, site.Terrain), emitter, receiver);
        return level.Origin == LevelOrigin.Predicted && emitter.Power is not null
            ? level with { AtAntennaDbm = level.AtAntennaDbm - transmitters.FilterDb(emitter, emitter.Frequency.Hertz) }
            : level;
    }

    /// <summary>A receiver as the computation needs it.</summary>
    internal static ReceiverSetup Setup(
        LoadedSite site, ReceiverEntry entry, StudyOptions options, TransmitterResolver transmitters,
        Func<string, string, SignalFall>? fall = null)
    {
        (ReceiveChain chain, IReadOnlyList<ReceiverAssumption> assumed) = ChainBuilder.Build(entry, site.Of);
        SearchEntry search = site.Document.Search;
        ArrivingLevel[] levels = [.. site.Document.Emitters.Select(e => Level(site, e, entry, chain, transmitters))];
        TransmitterReach[] reaches = [.. site.Document.Emitters.Select((e, i) => transmitters.Reach(e, entry, levels[i]))];
        if (fall is not null)
        {
            for (int i = 0; i < levels.Length; i++)
            {
                (double carrier, double channel) = fall(entry.Name, site.Document.Emitters[i].Name);
                levels[i] = levels[i] with { AtAntennaDbm = levels[i].AtAntennaDbm - carrier };
                reaches[i] = reaches[i] with
                {
                    ReferenceDbm = reaches[i].ReferenceDbm - channel,
                    AtMostDbm = reaches[i].AtMostDbm - channel,
                };
            }
        }

        return new ReceiverSetup
        {
            Name = entry.Name,
            FrequencyHz = entry.Frequency.Hertz,
            ChannelHz = entry.Channel.Hertz,
            IfBandwidthHz = ChainBuilder.IfBandwidthHz(entry),
            Chain = chain,
            ExternalNoiseDb = entry.ExternalNoise?.OverKt0Db(entry.Frequency.Hertz),
            SquelchOpensDb = entry.SquelchOpens?.Value ?? ReceiverNoise.DefaultCarrierToNoiseDb(entry.Channel.Hertz),
            SpoilsWithinDb = entry.SpoilsWithin?.Value ?? ProductEffects.SpoilsWithinDb,
            WantedDbm = entry.Wanted?.Dbm,
            CommonSigmaDb = entry.CommonUncertainty?.Value ?? 0,
            FloorDbm = options.FloorDbm ?? (search.NoFloor ? double.NegativeInfinity : search.Floor?.Dbm),
            Levels = levels,
            Reaches = reaches,
            Plan = Plan(entry),
            SelectivityKnown = entry.Selectivity is not null,
            Blocking = Blocking(entry),
            OscillatorNoise = Noise(entry.LocalOscillatorNoise),
            Adjacent = Adjacent(entry),
            CarrierToNoiseDb = ReceiverNoise.DefaultCarrierToNoiseDb(entry.Channel.Hertz),
            AntennaMismatch = entry.Antenna?.Mismatch ?? ReceiverSetup.DefaultMismatch,
            Mismatch = entry.Mismatch ?? ReceiverSetup.DefaultMismatch,
            Assumed = assumed,
            AssumedOfFilter = OfFilter(site, entry, chain),
        };
    }

    /// <summary>What a filter in line is assumed to stand between, and how far its figures carry.</summary>
    private static IReadOnlyList<ReceiverAssumption> OfFilter(LoadedSite site, ReceiverEntry entry, ReceiveChain chain)
    {
        if (chain.Filters.Count == 0)
        {
            return [];
        }

        ReceiverAssumption.ReflectionTaken taken =
            new(ReceiverSetup.DefaultMismatch, entry.Antenna?.Mismatch is null, entry.Mismatch is null);
        return [
            .. taken.AtAntenna || taken.AtReceiver ? (ReceiverAssumption[])[taken] : [],
            .. chain.LeakageNotes([.. site.Document.Emitters.Select(static e => (double)e.Frequency.Hertz)]),
        ];
    }
}
