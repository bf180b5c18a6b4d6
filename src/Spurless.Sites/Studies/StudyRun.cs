using System.Collections.Immutable;
using System.Diagnostics;
using Spurless.Mixing.Causes;
using Spurless.Mixing.Forecast;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Sites.Chains;
using Spurless.Sites.Levels;

namespace Spurless.Sites.Studies;

/// <summary>The search and its evaluation for a set of receivers, all in one pass of the search.</summary>
internal sealed class StudyRun
{
    private readonly IReadOnlyList<EmitterSetup> _emitters;
    private readonly ImmutableArray<ImmutableArray<int>> _exclusive;
    private readonly (int Min, int Max) _orders;
    private readonly int _signals;
    private readonly StudyOptions _options;
    private readonly IReadOnlyList<TransmitterStage> _transmitters;
    private readonly IReadOnlyList<TransmitterStage> _usual;
    private readonly ProductChoice? _choice;

    public StudyRun(
        IReadOnlyList<EmitterSetup> emitters, ImmutableArray<ImmutableArray<int>> exclusive, (int Min, int Max) orders, int signals,
            StudyOptions options,
        IReadOnlyList<TransmitterStage> transmitters, IReadOnlyList<TransmitterStage> usual, ProductChoice? choice = null)
    {
        _choice = choice;
        (_emitters, _exclusive, _orders, _signals, _options, _transmitters, _usual) = (emitters, exclusive, orders, signals, options,
            transmitters, usual);
    }

    /// <summary>Findings of each receiver, and, where that is asked for, of each once more without its filter where it has one.</summary>
    public IReadOnlyList<ReceiverFindings> Run(
        IReadOnlyList<ReceiverSetup> receivers,
        IProductSearch search,
        bool withoutFilters,
        IProgress<SearchProgress>? progress,
        CancellationToken cancellationToken)
    {
        (List<ReceiverSetup> all, Dictionary<int, int> withoutIndex, List<(int Receiver, SuperhetResponse Response)> responses) =
            Searches(receivers, withoutFilters);
        int channels = all.Count - responses.Count;
        ProductOrder order = new(_emitters);
        ProductScorer[] scorers = [.. all.Select(r => new ProductScorer(r, _emitters, _orders.Max))];
        SearchProblem problem = new()
        {
            Emitters = [.. _emitters.Select(static e => new SearchEmitter(e.FrequencyHz, e.BandwidthHz, e.NoiseLike))],
            Receivers = [.. scorers.Select(static s => s.ForSearch())],
            ExclusiveGroups = _exclusive,
            MinOrder = _orders.Min,
            MaxOrder = _orders.Max,
            MaxSignals = _signals,
        };
        ListForecast? forecast = LookAhead.Make(problem, scorers, channels, cancellationToken);
        if (_options.Top is null && forecast is not null)
        {
            LookAhead.Judge(forecast, all, channels, _options);
        }

        // What no list could hold is not even counted where only the strongest are asked for.
        bool[] rises = [.. all.Select((_, r) => _options.Top is not null && r < channels && forecast?.Expected(r) > _options.LongestList)];
        ScoringSink sink = new(
            scorers, order, [.. all.Select((_, r) => r < channels ? _options.Top : 1)], _options.LongestList,
            ChoiceOf(receivers.Count, withoutIndex, channels, responses));
        Find(problem, search, all, channels, sink, rises, progress, cancellationToken);
        FindingBuilder[] builders =
        [
            .. all.Select((receiver, r) => new FindingBuilder(receiver, _emitters, scorers[r], order, _options, _transmitters)),
        ];
        List<ProductOnResponse>[] onResponses = OnResponses(responses, channels, sink, builders);
        ProductScorer[] asked = scorers[..receivers.Count];
        IReadOnlyList<MoreSignals>? behind = BehindTheLimit.Of(
            problem, asked, builders[..receivers.Count], search, _options.HarmfulFromDb, cancellationToken);
        IReadOnlyList<IReadOnlyDictionary<string, double?>> usual = UsualTransmitters.Bounds(_usual, problem, receivers, asked,
            cancellationToken);
        ReceiverFindings[] findings =
        [
            .. all
                .Take(channels)
                .Select((receiver, r) => Findings(
                    receiver, scorers[r], builders[r], sink.Of(r), onResponses[r], rises[r] ? forecast!.Expected(r) : null,
                    cancellationToken)),
        ];
        return
        [
            .. receivers.Select((receiver, r) => withoutIndex.TryGetValue(r, out int w)
                ? Told(r) with
                {
                    WithoutFilter = findings[w],
                    WantedLossDb = all[w].Chain.GainToReceiverInputDb(receiver.FrequencyHz) - receiver.Chain.GainToReceiverInputDb(
                        receiver.FrequencyHz),
                }
                : Told(r)),
        ];

        ReceiverFindings Told(int r) => findings[r] with
        {
            NotComputed = [.. UsualTransmitters.Told(findings[r].NotComputed, usual[r], _options.MarginalFromDb)],
            Limits = new SearchLimits
            {
                Orders = _orders,
                Signals = _signals,
                FloorDbm = scorers[r].Floor is { } floor ? MicroDb.ToDecibels(floor) : null,
                SelectivityStated = receivers[r].SelectivityKnown,
                More = behind?[r],
            },
        };
    }

    // One entry per search, with the index of a receiver's entry without its filter, and what each of the last entries is a response of.
    private (List<ReceiverSetup> All, Dictionary<int, int> WithoutIndex, List<(int Receiver, SuperhetResponse Response)> Responses)
        Searches(IReadOnlyList<ReceiverSetup> receivers, bool withoutFilters)
    {
        // The receivers as they stand, then those with a filter again without it.
        List<ReceiverSetup> all = [.. receivers];
        Dictionary<int, int> withoutIndex = [];
        for (int r = 0; withoutFilters && r < receivers.Count; r++)
        {
            if (receivers[r].Chain.Filters.Count > 0)
            {
                withoutIndex[r] = all.Count;
                all.Add(receivers[r] with { Chain = receivers[r].Chain.WithoutFilters(), AssumedOfFilter = [] });
            }
        }

        // Then their other responses, of which only the strongest product is wanted.
        int channels = all.Count;
        List<(int Receiver, SuperhetResponse Response)> responses = [];
        for (int r = 0; r < channels; r++)
        {
            foreach (SuperhetResponse response in all[r].Plan is { } plan ? ResponseCause.ToSearch(plan) : [])
            {
                long frequency = (long)Math.Round(response.FrequencyHz);
                if (frequency is > 0 and <= SearchProblem.MaxFrequencyHz)
                {
                    responses.Add((r, response));
                    all.Add(all[r] with { FrequencyHz = frequency, FloorDbm = all[r].NoiseFloorDbm + _options.MarginalFromDb });
                }
            }
        }

        return (all, withoutIndex, responses);
    }

    // The choice as the sink asks it: a receiver without its filter and a receiver's responses are that receiver.
    private ProductChoice? ChoiceOf(
        int asked, Dictionary<int, int> withoutIndex, int channels, List<(int Receiver, SuperhetResponse Response)> responses)
    {
        if (_choice is not { } choice)
        {
            return null;
        }

        int[] owner = [.. Enumerable.Range(0, channels + responses.Count)];
        foreach ((int receiver, int without) in withoutIndex)
        {
            owner[without] = receiver;
        }

        for (int i = 0; i < responses.Count; i++)
        {
            owner[channels + i] = owner[responses[i].Receiver];
        }

        Debug.Assert(owner.All(o => o < asked), "every search belongs to a receiver that was asked about");
        return (int receiver, in ProductRecord product) => choice(owner[receiver], product);
    }

    // The products made in the receivers, then those of each transmitter.
    private void Find(SearchProblem problem, IProductSearch search, List<ReceiverSetup> all, int channels, ScoringSink sink, bool[] rises,
        IProgress<SearchProgress>? progress, CancellationToken cancellationToken)
    {
        search.Run(problem, rises.Contains(true) ? new RisingScoringSink(sink, rises) : sink, progress, cancellationToken);
        for (int t = 0; t < _transmitters.Count && sink.Overflowed is null; t++)
        {
            Search(t, all, channels, problem, sink, cancellationToken);
        }

        if (sink.Overflowed is { } full)
        {
            throw new TooManyProductsException(all[full].Name);
        }
    }

    private static List<ProductOnResponse>[] OnResponses(
        List<(int Receiver, SuperhetResponse Response)> responses, int channels, ScoringSink sink, FindingBuilder[] builders)
    {
        List<ProductOnResponse>[] onResponses = [.. Enumerable.Range(0, channels).Select(static _ => new List<ProductOnResponse>())];
        for (int i = 0; i < responses.Count; i++)
        {
            (IReadOnlyList<ScoredProduct> products, long more) = sink.Of(channels + i);
            if (products.Count > 0)
            {
                onResponses[responses[i].Receiver].Add(
                    new ProductOnResponse(responses[i].Response, builders[channels + i].Build(products[0]), more));
            }
        }

        return onResponses;
    }

    /// <summary>Searches what one transmitter makes, on every receiver that it is known to reach.</summary>
    private void Search(
        int transmitter,
        List<ReceiverSetup> all,
        int channels,
        SearchProblem problem,
        ScoringSink sink,
        CancellationToken cancellationToken)
    {
        TransmitterStage stage = _transmitters[transmitter];
        int[] reached = TransmitterRun.Reached(stage, all.Take(channels));
        TransmitterSink made = new(sink, transmitter, reached);
        TransmitterRun.Search(stage, problem, all, reached, static reach => reach, made, cancellationToken);
    }

    private ReceiverFindings Findings(
        ReceiverSetup receiver,
        ProductScorer scorer,
        FindingBuilder builder,
        (IReadOnlyList<ScoredProduct> Products, long LeftOut) found,
        IReadOnlyList<ProductOnResponse> onResponses,
        double? expected,
        CancellationToken cancellationToken)
    {
        long leftOut = expected is { } about ? Math.Max(found.LeftOut, (long)about - found.Products.Count) : found.LeftOut;
        ProductListing products = new(found.Products, builder);
        (double sum, bool some, bool bound) = SumOnTogether.Of(found.Products, _exclusive, cancellationToken);
        double noiseFloor = MicroDb.ToDecibels(scorer.NoiseFloor);
        CarrierFinding[] carriers = [.. _emitters.Select((e, i) => Carrier(receiver, e, i))];
        return new ReceiverFindings
        {
            Name = receiver.Name,
            FrequencyHz = receiver.FrequencyHz,
            ChannelHz = receiver.ChannelHz,
            IfBandwidthHz = receiver.IfBandwidthHz,
            NoiseFloorDbm = noiseFloor,
            Assumed = [.. receiver.Assumed, .. receiver.AssumedOfFilter],
            Carriers = carriers,
            Products = products,
            ProductsLeftOut = leftOut,
            ProductsLeftOutForecast = expected is not null,
            SensitivityAtAntennaDbm = receiver.SensitivityAtAntennaDbm,
            SumOverNoiseDb = sum > 0 ? (10 * Math.Log10(sum)) - noiseFloor : null,
            SumOfSome = some,
            SumIsBound = bound,
            OtherCauses = Studies.OtherCauses.Of(
                receiver, _emitters, builder, _options.MarginalFromDb, products, found.Products.Count + leftOut, onResponses),
            NotComputed =
            [
                .. receiver.NotComputed,
                .. _transmitters.Where(t => receiver.Reaches[t.Emitter].ReferenceDbm is null)
                    .Select(t => new NotComputed(NotComputedKind.LevelHere, [t.Name], [receiver.Name])),
            ],
            WithoutFilter = null,
            WantedLossDb = null,
            Chain = receiver.Chain,
            WantedDbm = receiver.WantedDbm,
        };
    }

    private static CarrierFinding Carrier(ReceiverSetup receiver, EmitterSetup emitter, int index)
    {
        ArrivingLevel level = receiver.Levels[index];
        IReadOnlyList<string> notCovering = receiver.Chain.NotCovering(emitter.FrequencyHz);
        return new CarrierFinding
        {
            Emitter = emitter.Name,
            FrequencyHz = emitter.FrequencyHz,
            BandwidthHz = emitter.BandwidthHz,
            LevelAtAntennaDbm = level.AtAntennaDbm,
            LevelAtReceiverDbm = level.AtAntennaDbm + receiver.Chain.GainDb(emitter.FrequencyHz),
            Origin = level.Origin,
            HowKnown = level.HowKnown,
            SigmaDb = level.SigmaDb,
            HeldOff = emitter.HalfDuplex == receiver.Name,
            Assumed =
            [
                .. Off(),
                .. level.Assumed,
                .. notCovering.Select(static n => new LevelNote.FilterEnds(n)),
            ],
            Follows = emitter.Follows,
            RejectionOf = new Lazy<FilterRejection?>(
                () => receiver.Chain.RejectionAt(emitter.FrequencyHz, receiver.AntennaMismatch, receiver.Mismatch)),
        };

        IEnumerable<LevelNote> Off() =>
            emitter.HalfDuplex == receiver.Name
                ? [new LevelNote.HalfDuplex()]
                : [];
    }
}
