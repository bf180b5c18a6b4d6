using System.Collections.Immutable;
using Spurless.Mixing.Causes;
using Spurless.Mixing.Forecast;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Sites.Chains;

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

    public StudyRun(
        IReadOnlyList<EmitterSetup> emitters, ImmutableArray<ImmutableArray<int>> exclusive, (int Min, int Max) orders, int signals, StudyOptions options,
        IReadOnlyList<TransmitterStage> transmitters)
    {
        (_emitters, _exclusive, _orders, _signals, _options, _transmitters) = (emitters, exclusive, orders, signals, options, transmitters);
    }

    /// <summary>Findings of each receiver, and, where that is asked for, of each once more without its filter where it has one.</summary>
    public IReadOnlyList<ReceiverFindings> Run(
        IReadOnlyList<ReceiverSetup> receivers, IProductSearch search, bool withoutFilters, IProgress<SearchProgress>? progress, CancellationToken cancellationToken)
    {
        // One entry per search: the receivers as they stand, then those with a filter again without it.
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

        ScoringSink sink = new(scorers, order, [.. all.Select((_, r) => r < channels ? _options.Top : 1)], _options.LongestList);
        // What no list could hold is not even counted where only the strongest are asked for.
        bool[] rises = [.. all.Select((_, r) => _options.Top is not null && r < channels && forecast?.Expected(r) > _options.LongestList)];
        search.Run(problem, rises.Contains(true) ? new RisingScoringSink(sink, rises) : sink, progress, cancellationToken);
        for (int t = 0; t < _transmitters.Count && sink.Overflowed is null; t++)
        {
            Search(t, all, channels, problem, sink, cancellationToken);
        }

        if (sink.Overflowed is { } full)
        {
            throw new TooManyProductsException(all[full].Name);
        }

        FindingBuilder[] builders = [.. all.Select((receiver, r) => new FindingBuilder(receiver, _emitters, scorers[r], order, _options, _transmitters))];
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

        ReceiverFindings[] findings =
        [
            .. all.Take(channels).Select((receiver, r) => Findings(receiver, scorers[r], builders[r], sink.Of(r), onResponses[r], rises[r] ? forecast!.Expected(r) : null)),
        ];
        return
        [
            .. receivers.Select((receiver, r) => withoutIndex.TryGetValue(r, out int w)
                ? findings[r] with
                {
                    WithoutFilter = findings[w],
                    WantedLossDb = all[w].Chain.GainToReceiverInputDb(receiver.FrequencyHz) - receiver.Chain.GainToReceiverInputDb(receiver.FrequencyHz),
                }
                : findings[r]),
        ];
    }

    /// <summary>Searches what one transmitter makes, on every receiver that it is known to reach.</summary>
    private void Search(
        int transmitter, List<ReceiverSetup> all, int channels, SearchProblem problem, ScoringSink sink, CancellationToken cancellationToken)
    {
        TransmitterStage stage = _transmitters[transmitter];
        int[] reached = [.. Enumerable.Range(0, channels).Where(r => all[r].Reaches[stage.Emitter].ReferenceDbm is not null)];
        if (reached.Length == 0)
        {
            return;
        }

        // Whose arrival at this transmitter is unknown is never on the air with it, as far as this search goes: thousands of mixtures without a level say less
        // than the one sentence on what is missing.
        IEnumerable<ImmutableArray<int>> unknown = Enumerable.Range(0, _emitters.Count)
            .Where(i => stage.UnderPowerDb(i) is null)
            .Select(i => (ImmutableArray<int>)[stage.Emitter, i]);
        SearchProblem own = problem with
        {
            Receivers = [.. reached.Select(r => problem.Receivers[r] with { Stages = [] })],
            ExclusiveGroups = [.. problem.ExclusiveGroups, .. unknown],
        };
        TransmitterSearchInput input = TransmitterSearchInput.From(
            own,
            stage,
            [.. reached.Select(r => all[r].Reaches[stage.Emitter])],
            [.. reached.Select(r => all[r].Chain.GainToReceiverInputDb(all[r].FrequencyHz))]);
        TransmitterSearch.Run(input, new TransmitterSink(sink, transmitter, reached), null, cancellationToken);
    }

    private ReceiverFindings Findings(
        ReceiverSetup receiver,
        ProductScorer scorer,
        FindingBuilder builder,
        (IReadOnlyList<ScoredProduct> Products, long LeftOut) found,
        IReadOnlyList<ProductOnResponse> onResponses,
        double? expected)
    {
        long leftOut = expected is { } about ? Math.Max(found.LeftOut, (long)about - found.Products.Count) : found.LeftOut;
        ProductListing products = new(found.Products, builder);
        double sum = found.Products.Where(static p => p.HasLevel).Sum(static p => Math.Pow(10, MicroDb.ToDecibels(p.InChannel) / 10));
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
            SumOverNoiseDb = sum > 0 ? (10 * Math.Log10(sum)) - noiseFloor : null,
            OtherCauses = Studies.OtherCauses.Of(
                receiver, _emitters, builder, _options.MarginalFromDb, products, found.Products.Count + leftOut, onResponses),
            NotComputed =
            [
                .. receiver.NotComputed,
                .. _transmitters.Where(t => receiver.Reaches[t.Emitter].ReferenceDbm is null)
                    .Select(t => $"Products made in the transmitter of {t.Name} are not known here: its level at {receiver.Name} is not. Measure it at the antenna connector."),
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
            Assumed = [.. level.Assumed, .. notCovering.Select(static n => $"outside the sweep of {n}: counted as not attenuated by it")],
            Follows = emitter.Follows,
            RejectionOf = new Lazy<FilterRejection?>(() => receiver.Chain.RejectionAt(emitter.FrequencyHz, receiver.AntennaMismatch, receiver.Mismatch)),
        };
    }
}
