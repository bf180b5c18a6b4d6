using Spurless.Mixing.Search;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Plans;

/// <summary>
/// Receivers of a site as a study would see them on other channels: what does not depend on the channel is worked out once.
/// </summary>
internal sealed class Retuning
{
    private readonly LoadedSite _site;
    private readonly TransmitterResolver _transmitters;
    private readonly ReceiverSetup?[] _receivers;
    private readonly StudyOptions _options;

    public Retuning(PlanQuestion question)
    {
        (_site, _options) = (question.Site, question.Options);
        _transmitters = new TransmitterResolver(_site.Document, _site.Of, _site.Terrain);
        _receivers = new ReceiverSetup?[_site.Document.Receivers.Count];
        Emitters = [.. _site.Document.Emitters.Select(StudyService.Setup)];
        Orders = question.Orders;
        Signals = question.Signals;
        Dictionary<string, int> indexOf =
            _site.Document.Emitters.Index().ToDictionary(static e => e.Item.Name, static e => e.Index, StringComparer.Ordinal);
        Exclusive = [.. _site.Document.Exclusive.Select(g => (IReadOnlyList<int>)[.. g.Select(n => indexOf[n])])];
    }

    /// <summary>The emitters where the site file has them.</summary>
    public IReadOnlyList<EmitterSetup> Emitters { get; }

    /// <summary>Lowest and highest order.</summary>
    public (int Lowest, int Highest) Orders { get; }

    /// <summary>Most emitters in a mixture.</summary>
    public int Signals { get; }

    /// <summary>Groups of emitters that are never on together.</summary>
    public IReadOnlyList<IReadOnlyList<int>> Exclusive { get; }

    /// <summary>A receiver on a channel, and how emitters arrive there.</summary>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="frequencyHz">The channel in hertz.</param>
    /// <param name="emitters">The emitters: index in the site file, and frequency in hertz.</param>
    public ReceiverSetup Receiver(int receiver, long frequencyHz, IReadOnlyList<(int Index, long FrequencyHz)> emitters)
    {
        ReceiverSetup known = Base(receiver);
        ReceiverEntry entry = MovedSite.At(_site.Document.Receivers[receiver], frequencyHz);

        // Of all that a level is made of only an antenna's sweep is asked where the receiver itself stands.
        bool everywhere = entry.Antenna?.Response?.TwoPort is not null && frequencyHz != known.FrequencyHz;
        ArrivingLevel[] levels = new ArrivingLevel[emitters.Count];
        for (int i = 0; i < levels.Length; i++)
        {
            (int index, long at) = emitters[i];
            bool stays = at == Emitters[index].FrequencyHz;
            levels[i] = stays && !everywhere
                ? known.Levels[index]
                : StudyService.Level(_site, MovedSite.At(_site.Document.Emitters[index], at), entry, known.Chain, _transmitters);
        }

        return known with
        {
            FrequencyHz = frequencyHz,
            ExternalNoiseDb = entry.ExternalNoise?.OverKt0Db(frequencyHz),
            Levels = levels,
        };
    }

    /// <summary>Emitters as the computation needs them, at given frequencies.</summary>
    public IReadOnlyList<EmitterSetup> At(IReadOnlyList<(int Index, long FrequencyHz)> emitters) =>
    [
        .. emitters.Select(e => e.FrequencyHz == Emitters[e.Index].FrequencyHz
            ? Emitters[e.Index]
            : Emitters[e.Index] with { FrequencyHz = e.FrequencyHz }),
    ];

    /// <summary>The greatest referral of every stage on a range of channels.</summary>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="fromHz">The lowest channel in hertz.</param>
    /// <param name="toHz">The highest in hertz.</param>
    public (int[] Greatest, bool Flat) Referral(int receiver, long fromHz, long toHz)
    {
        ReceiverSetup setup = Base(receiver);
        double half = ProductScorer.HalfWindowHz(setup, Emitters, Orders.Highest);
        double step = Math.Max(1, setup.ChannelHz / 4.0);
        int samples = (int)Math.Clamp((((toHz - fromHz) / 2.0) + half) / step, 64, 40_000);
        return ProductScorer.GreatestReferral(setup.Chain, fromHz - half, toHz + half, samples);
    }

    /// <summary>
    /// What a search is given so that it loses nothing on any of some channels: of every figure the one that finds most.
    /// </summary>
    public static SearchReceiver Bound(IEnumerable<ProductScorer> scorers)
    {
        SearchReceiver? first = null;
        int[][] levels = [];
        long? floor = null;
        foreach (ProductScorer scorer in scorers)
        {
            long? own = scorer.Floor - ProductScorer.SearchMarginMicroDb;
            if (first is null)
            {
                first = scorer.ForSearch();
                levels = [.. first.Stages.Select(static s => s.LevelMicroDbm.ToArray())];
                floor = own;
            }

            scorer.RaiseTo(levels);
            floor = own < floor ? own : floor;
        }

        return first! with
        {
            FloorMicroDbm = floor,
            Stages = [.. first.Stages.Select((s, i) => s with { LevelMicroDbm = [.. levels[i]] })],
        };
    }

    private ReceiverSetup Base(int receiver) =>
        _receivers[receiver] ??= StudyService.Setup(_site, _site.Document.Receivers[receiver], _options, _transmitters);
}
