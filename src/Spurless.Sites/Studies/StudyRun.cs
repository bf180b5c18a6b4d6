using System.Collections.Immutable;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>The search and its evaluation for a set of receivers, all in one pass of the search.</summary>
internal sealed class StudyRun
{
    private readonly IReadOnlyList<EmitterSetup> _emitters;
    private readonly ImmutableArray<ImmutableArray<int>> _exclusive;
    private readonly (int Min, int Max) _orders;
    private readonly int _signals;
    private readonly StudyOptions _options;

    public StudyRun(
        IReadOnlyList<EmitterSetup> emitters, ImmutableArray<ImmutableArray<int>> exclusive, (int Min, int Max) orders, int signals, StudyOptions options)
    {
        (_emitters, _exclusive, _orders, _signals, _options) = (emitters, exclusive, orders, signals, options);
    }

    /// <summary>Findings of each receiver, and of each once more without its filter where it has one.</summary>
    public IReadOnlyList<ReceiverFindings> Run(
        IReadOnlyList<ReceiverSetup> receivers, IProductSearch search, IProgress<SearchProgress>? progress, CancellationToken cancellationToken)
    {
        // One entry per search: the receivers as they stand, then those with a filter again without it.
        List<ReceiverSetup> all = [.. receivers];
        Dictionary<int, int> withoutIndex = [];
        for (int r = 0; r < receivers.Count; r++)
        {
            if (receivers[r].Chain.Filters.Count > 0)
            {
                withoutIndex[r] = all.Count;
                all.Add(receivers[r] with { Chain = receivers[r].Chain.WithoutFilters(), AssumedOfFilter = [] });
            }
        }

        ProductOrder order = new(_emitters);
        ProductScorer[] scorers = [.. all.Select(r => new ProductScorer(r, _emitters, _orders.Max))];
        ScoringSink sink = new(scorers, order, _options.Top);
        SearchProblem problem = new()
        {
            Emitters = [.. _emitters.Select(static e => new SearchEmitter(e.FrequencyHz, e.BandwidthHz, e.NoiseLike))],
            Receivers = [.. scorers.Select(static s => s.ForSearch())],
            ExclusiveGroups = _exclusive,
            MinOrder = _orders.Min,
            MaxOrder = _orders.Max,
            MaxSignals = _signals,
        };
        search.Run(problem, sink, progress, cancellationToken);
        if (sink.Overflowed is { } full)
        {
            throw new TooManyProductsException(all[full].Name);
        }

        ReceiverFindings[] findings = [.. all.Select((receiver, r) => Findings(receiver, scorers[r], order, sink.Of(r)))];
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

    private ReceiverFindings Findings(
        ReceiverSetup receiver, ProductScorer scorer, ProductOrder order, (IReadOnlyList<ScoredProduct> Products, long LeftOut) found)
    {
        FindingBuilder builder = new(receiver, _emitters, scorer, order, _options);
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
            Products = new ProductListing(found.Products, builder),
            ProductsLeftOut = found.LeftOut,
            SumOverNoiseDb = sum > 0 ? (10 * Math.Log10(sum)) - noiseFloor : null,
            OtherCauses = Direct(receiver, carriers, builder, noiseFloor),
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
            Rejection = receiver.Chain.RejectionAt(emitter.FrequencyHz, receiver.AntennaMismatch, receiver.Mismatch),
        };
    }

    private static IReadOnlyList<OtherCause> Direct(
        ReceiverSetup receiver, CarrierFinding[] carriers, FindingBuilder builder, double noiseFloor)
    {
        List<OtherCause> causes = [];
        foreach (CarrierFinding carrier in carriers.Where(c => 2 * Math.Abs(c.FrequencyHz - receiver.FrequencyHz) <= receiver.ChannelHz))
        {
            double? level = carrier.LevelAtAntennaDbm + receiver.Chain.GainToReceiverInputDb(carrier.FrequencyHz);
            double? over = level - noiseFloor;
            causes.Add(new OtherCause(
                "direct",
                carrier.Emitter,
                level,
                over,
                over is { } x ? ProductEffects.NoiseRiseDb(x) : null,
                over is { } o ? builder.VerdictOf(o) : Verdict.Unknown,
                carrier.Assumed,
                $"{carrier.Emitter} transmits within the channel itself"));
        }

        return [.. causes.OrderByDescending(static c => c.LevelDbm ?? double.NegativeInfinity)];
    }
}
