using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Sites.Levels;

namespace Spurless.Sites.Studies;

/// <summary>Makes findings of the scored products of one receiver: verdict, effects, uncertainty, words.</summary>
internal sealed class FindingBuilder
{
    private readonly ReceiverSetup _receiver;
    private readonly IReadOnlyList<EmitterSetup> _emitters;
    private readonly ProductScorer _scorer;
    private readonly ProductOrder _order;
    private readonly StudyOptions _options;
    private readonly IReadOnlyList<TransmitterStage> _transmitters;
    private readonly ProductPlaces _places;

    public FindingBuilder(
        ReceiverSetup receiver, IReadOnlyList<EmitterSetup> emitters, ProductScorer scorer, ProductOrder order, StudyOptions options,
        IReadOnlyList<TransmitterStage> transmitters)
    {
        _transmitters = transmitters;
        (_receiver, _emitters, _scorer, _order, _options) = (receiver, emitters, scorer, order, options);
        _places = new ProductPlaces(receiver, scorer, transmitters);
    }

    public ProductFinding Build(ScoredProduct scored)
    {
        Term[] terms = _order.Terms(scored.Record);
        long frequency = terms.Sum(static t => t.Coefficient * t.FrequencyHz);
        int order = scored.Record.Order;
        List<Assumption> assumed = [];
        TransmitterStage? maker = scored.Transmitter is { } t ? _transmitters[t] : null;
        foreach (Term term in terms.Where(_ => maker is null))
        {
            assumed.AddRange(_receiver.Levels[term.Emitter].Assumed
                .Select(a => Assumption.Told(new LevelNote.OfEmitter(term.Name, a))));
        }

        IReadOnlyList<MixingPlace> places = _places.Of(scored.Record, terms, frequency);
        ProductFinding finding = new()
        {
            Receiver = _receiver.Name,
            Terms = terms,
            Order = order,
            FrequencyHz = frequency,
            OffsetHz = frequency - _receiver.FrequencyHz,
            BandwidthHz = terms.Sum(t => Math.Abs(t.Coefficient) * _emitters[t.Emitter].BandwidthHz),
            Made = places.First(p => maker is null ? p.Stage == scored.Stage : p.Emitter == maker.Emitter),
            Places = places,
            LevelDbm = null,
            LevelWorstDbm = null,
            InChannelLevelDbm = null,
            OverNoiseDb = null,
            SigmaDb = null,
            NextDegreeErrorDb = null,
            Verdict = Verdict.Unknown,
            Effects = null,
            Assumed = assumed,
            KeepsItselfUp = terms.Any(t => _emitters[t.Emitter].Follows == _receiver.Name),
            OnCarrierOfItsOwn = CancelsInPair(terms),
            Chance = null,
            OnTogether = terms.Aggregate(1.0, (all, t) => all * _emitters[t.Emitter].Activity),
            Heard = Hearing.Of([.. terms.Select(t => (_emitters[t.Emitter], t.Coefficient))]),
        };
        return maker is not null ? MadeAt(finding, scored, maker) : scored.HasLevel ? WithLevel(finding, scored, terms) : finding;
    }

    private ProductFinding MadeAt(ProductFinding finding, ScoredProduct scored, TransmitterStage maker)
    {
        (int Emitter, int Coefficient)[] terms = [.. finding.Terms.Select(static t => (t.Emitter, t.Coefficient))];
        TransmitterProductLevel level = TransmitterProducts.Level(maker, terms, _receiver.Reaches[maker.Emitter]);
        double inChannel = MicroDb.ToDecibels(scored.InChannel);
        double over = MicroDb.ToDecibels(scored.InChannel - _scorer.NoiseFloor);
        double sigma = Math.Sqrt(((level.SigmaDb ?? 0) * (level.SigmaDb ?? 0)) + (_receiver.CommonSigmaDb * _receiver.CommonSigmaDb));
        return finding with
        {
            LevelDbm = MicroDb.ToDecibels(scored.Level),
            LevelWorstDbm = MicroDb.ToDecibels(scored.Worst),
            InChannelLevelDbm = inChannel,
            OverNoiseDb = over,
            SigmaDb = sigma,
            Verdict = VerdictOf(over),
            Effects = EffectsOf(inChannel, over),
            Assumed = level.Assumed,
            Sum = TransmitterSum.Of(
                maker,
                finding.Terms,
                level,
                _receiver.Reaches[maker.Emitter],
                _receiver.Chain.GainToReceiverInputDb(_receiver.FrequencyHz)),
            Chance = LevelUncertainty.Chance(inChannel, sigma, MicroDb.ToDecibels(_scorer.NoiseFloor) + _options.HarmfulFromDb),
        };
    }

    private ProductFinding WithLevel(ProductFinding finding, ScoredProduct scored, Term[] terms)
    {
        Intercepts intercepts = _receiver.Chain.ActiveStages[scored.Stage].Intercepts;
        double inChannel = MicroDb.ToDecibels(scored.InChannel);
        double over = MicroDb.ToDecibels(scored.InChannel - _scorer.NoiseFloor);
        double sigma = LevelUncertainty.SigmaDb(
            [.. terms.Select(static t => t.Coefficient)],
            [.. terms.Select(t => _receiver.Levels[t.Emitter].SigmaDb ?? 0)],
            _receiver.CommonSigmaDb,
            intercepts.SigmaDb(finding.Order));
        double? nextDegree = _scorer.NextDegreeDb(scored.Record, scored.Stage);
        _scorer.AtStage(scored.Record, scored.Stage, finding.FrequencyHz, out bool capped);
        double threshold = MicroDb.ToDecibels(_scorer.NoiseFloor) + _options.HarmfulFromDb;
        List<Assumption> assumed = [.. finding.Assumed];
        if (intercepts.IsAssumed(finding.Order))
        {
            assumed.Add(new Assumption(AssumptionKind.InterceptOfStage)
            {
                Of = finding.MadeIn,
                Order = finding.Order,
                Value = intercepts.Dbm(finding.Order),
            });
        }

        if (nextDegree > NextDegree.TrustLimitDb)
        {
            assumed.Add(new Assumption(AssumptionKind.NextDegree));
        }

        if (capped)
        {
            assumed.Add(new Assumption(AssumptionKind.Saturated) { Of = finding.MadeIn, Value = _scorer.MostDbm(scored.Stage) });
        }

        return finding with
        {
            LevelDbm = MicroDb.ToDecibels(scored.Level),
            LevelWorstDbm = MicroDb.ToDecibels(scored.Worst),
            InChannelLevelDbm = inChannel,
            OverNoiseDb = over,
            SigmaDb = sigma,
            NextDegreeErrorDb = nextDegree,
            Verdict = VerdictOf(over),
            Effects = EffectsOf(inChannel, over),
            Assumed = assumed,
            Chance = LevelUncertainty.Chance(inChannel, sigma, threshold),
        };
    }

    /// <summary>The verdict of a product, without making a finding of it.</summary>
    internal Verdict VerdictOf(in ScoredProduct scored) =>
        scored.HasLevel ? VerdictOf(MicroDb.ToDecibels(scored.InChannel - _scorer.NoiseFloor)) : Verdict.Unknown;

    /// <summary>The verdict of a level over noise, compared in whole micro-dB.</summary>
    internal Verdict VerdictOf(double overNoiseDb) =>
        VerdictOf(_options, (long)Math.Round(overNoiseDb * MicroDb.PerDecibel));

    /// <summary>The verdict of a level over noise in micro-dB.</summary>
    internal static Verdict VerdictOf(StudyOptions options, long overNoiseMicroDb) =>
        overNoiseMicroDb >= (long)Math.Round(options.HarmfulFromDb * MicroDb.PerDecibel) ? Verdict.Harmful
            : overNoiseMicroDb >= (long)Math.Round(options.MarginalFromDb * MicroDb.PerDecibel) ? Verdict.Marginal
            : Verdict.Clear;

    /// <summary>What a product of this level at the receiver's input does.</summary>
    internal Effects EffectsOf(double inChannelDbm, double overNoiseDb)
    {
        bool? spoils = null;
        if (_receiver.WantedDbm is { } wanted)
        {
            double atInput = wanted + _receiver.Chain.GainToReceiverInputDb(_receiver.FrequencyHz);
            spoils = ProductEffects.SpoilsWanted(inChannelDbm, atInput, _receiver.SpoilsWithinDb);
        }

        return new Effects(
            ProductEffects.OpensSquelch(overNoiseDb, _receiver.SquelchOpensDb), ProductEffects.NoiseRiseDb(overNoiseDb), spoils);
    }

    private static bool CancelsInPair(Term[] terms)
    {
        for (int i = 0; i < terms.Length; i++)
        {
            for (int j = i + 1; j < terms.Length; j++)
            {
                if (terms[i].FrequencyHz == terms[j].FrequencyHz && terms[i].Coefficient * terms[j].Coefficient < 0)
                {
                    return true;
                }
            }
        }

        return false;
    }
}
