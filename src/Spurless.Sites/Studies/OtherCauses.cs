using System.Globalization;
using Spurless.Mixing.Causes;
using Spurless.Sites.Chains;

namespace Spurless.Sites.Studies;

/// <summary>The strongest product on a response of the receiver, and how many more lie there.</summary>
/// <param name="Response">The response.</param>
/// <param name="Product">The strongest product, referred to the receiver's input as one on the channel would be.</param>
/// <param name="More">How many more there are.</param>
internal sealed record ProductOnResponse(SuperhetResponse Response, ProductFinding Product, long More);

/// <summary>
/// What else than a product on the channel can spoil reception at one receiver. Listed is what is harmful, marginal or unknown, and what
/// the site file asks for by giving its figure (noise, harmonics, blocking, oscillator noise); the rest would be noise.
/// </summary>
internal sealed class OtherCauses
{
    private readonly ReceiverSetup _receiver;
    private readonly IReadOnlyList<EmitterSetup> _emitters;
    private readonly FindingBuilder _builder;
    private readonly double _leastDbm;
    private readonly VictimReceiver _victim;
    private readonly IReadOnlyList<ActiveStage> _active;
    private readonly List<(OtherCause Cause, bool Asked)> _found = [];
    private readonly IReadOnlyList<StageCarrier>?[] _atStage;

    private OtherCauses(ReceiverSetup receiver, IReadOnlyList<EmitterSetup> emitters, FindingBuilder builder, double marginalFromDb)
    {
        (_receiver, _emitters, _builder) = (receiver, emitters, builder);
        _active = receiver.Chain.ActiveStages;
        _atStage = new IReadOnlyList<StageCarrier>?[_active.Count];
        _victim = new VictimReceiver
        {
            Name = receiver.Name,
            FrequencyHz = receiver.FrequencyHz,
            ChannelHz = receiver.ChannelHz,
            IfBandwidthHz = receiver.IfBandwidthHz,
            NoiseFloorDbm = receiver.NoiseFloorDbm,
            ChainGainDb = receiver.Chain.GainToReceiverInputDb(receiver.FrequencyHz),
        };
        _leastDbm = _victim.NoiseFloorDbm + marginalFromDb;
    }

    /// <summary>Finds them.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="emitters">All emitters.</param>
    /// <param name="builder">Knows the verdict of a level.</param>
    /// <param name="marginalFromDb">From how far over noise a cause is marginal.</param>
    /// <param name="products">The products found on the channel.</param>
    /// <param name="total">How many there were with those left out.</param>
    /// <param name="onResponses">Products on the receiver's other responses.</param>
    /// <returns>Worst first, unknown ones last.</returns>
    public static IReadOnlyList<OtherCause> Of(
        ReceiverSetup receiver,
        IReadOnlyList<EmitterSetup> emitters,
        FindingBuilder builder,
        double marginalFromDb,
        IReadOnlyList<ProductFinding> products,
        long total,
        IReadOnlyList<ProductOnResponse> onResponses)
    {
        OtherCauses causes = new(receiver, emitters, builder, marginalFromDb);
        causes.FromEmitters(products);
        causes.FromCarriers();
        causes.FromResponses(onResponses);
        causes.Add(OutsideMixing.Possible(total), asked: true);
        return
        [
            .. causes._found.Where(static c => c.Asked || c.Cause.Verdict != Verdict.Clear)
                .Select(static c => c.Cause)
                .OrderBy(static c => c.Verdict)
                .ThenByDescending(static c => c.DesenseDb ?? 0)
                .ThenBy(static c => c.Cause, StringComparer.Ordinal)
                .ThenBy(static c => c.Emitter, StringComparer.Ordinal),
        ];
    }

    private void Add(
        CauseFinding? finding, bool asked, string? stage = null, OwnIsolation? isolation = null, ProductOnResponse? product = null)
    {
        if (finding is not null)
        {
            Verdict verdict = VerdictOf(finding);
            _found.Add((
                new OtherCause(finding, verdict)
                {
                    Stage = stage,
                    Isolation = isolation,
                    Product = product?.Product,
                    MoreProducts = product?.More ?? 0,
                },
                asked));
        }
    }

    /// <summary>
    /// By its level; a bound that is clear clears it, and one that could change the verdict of what is known leaves it open.
    /// </summary>
    private Verdict VerdictOf(CauseFinding finding)
    {
        Verdict? known = finding.OverNoiseDb is { } over ? _builder.VerdictOf(over) : null;
        if (finding.AtMostOverNoiseDb is not { } most)
        {
            return known ?? Verdict.Unknown;
        }

        Verdict atMost = _builder.VerdictOf(most);
        return known is null ? (atMost == Verdict.Clear ? Verdict.Clear : Verdict.Unknown)
            : known == Verdict.Harmful || known == atMost ? known.Value : Verdict.Unknown;
    }

    private bool IsOff(int emitter) => _emitters[emitter].HalfDuplex == _receiver.Name;

    /// <summary>What emitters put on the channel themselves: their carrier, their noise, their harmonics.</summary>
    private void FromEmitters(IReadOnlyList<ProductFinding> products)
    {
        for (int i = 0; i < _emitters.Count; i++)
        {
            EmitterSetup emitter = _emitters[i];
            if (IsOff(i))
            {
                continue;
            }

            StageCarrier atInput = Carrier(i, _receiver.Chain.GainToReceiverInputDb(emitter.FrequencyHz));
            Add(DirectCause.OnChannel(_victim, atInput), asked: true);
            Add(AdjacentChannel.OfCarrier(_victim, atInput, _receiver.Adjacent, _receiver.CarrierToNoiseDb), asked: false);
            RadiatedSource source = new()
            {
                Name = emitter.Name,
                FrequencyHz = emitter.FrequencyHz,
                BandwidthHz = emitter.BandwidthHz,
                Spread = emitter.Spread,
                Reach = _receiver.Reaches[i],
            };
            Add(HarmonicCause.OnChannel(_victim, source, [.. emitter.Harmonics]), asked: true);
            bool own = emitter.Follows == _receiver.Name && emitter.PowerDbm is not null;
            CauseFinding? noise = TransmitterNoise.OnChannel(_victim, source, emitter.Noise);
            bool stated = emitter.Noise is not null || own;
            if (!stated && noise?.AtMostDbm is null)
            {
                continue;
            }

            Add(noise, asked: stated, isolation: own && noise is not null ? Isolation(i, products) : null);
        }
    }

    /// <summary>What carriers do to the receiver's stages.</summary>
    private void FromCarriers()
    {
        int last = _active.Count - 1;
        for (int s = 0; s <= last; s++)
        {
            bool stated = s == last && _receiver.Blocking is not null;
            CauseFinding? blocking = Blocking.OfCarriers(_victim, AtStage(s), stated ? _receiver.Blocking : FromIntercept(s));
            if (!stated && blocking?.OverNoiseDb is null)
            {
                continue;
            }

            Add(blocking, asked: stated, stage: last > 0 ? _active[s].Name : null);
        }

        IReadOnlyList<StageCarrier> carriers = AtStage(last);
        long widest = carriers.Select(static c => c.BandwidthHz).DefaultIfEmpty(0).Max();
        for (int near = 0; near < carriers.Count; near++)
        {
            // Most carriers are too far off for any other's modulation to reach the channel from there: no need to ask for each.
            if (!CrossModulation.CanReach(_victim, carriers[near], widest))
            {
                continue;
            }

            for (int moving = 0; moving < carriers.Count; moving++)
            {
                if (near != moving && carriers[moving].EnvelopeMoves)
                {
                    Add(StrongestCrossModulation(near, moving), asked: false);
                }
            }
        }

        if (_receiver.OscillatorNoise is { } oscillator)
        {
            Add(ReciprocalMixing.OfCarriers(_victim, carriers, oscillator), asked: true);
        }

        if (_receiver.Plan is { } plan)
        {
            foreach (CauseFinding finding in ResponseCause.OfCarriers(
                _victim, plan, carriers, _active[last].Intercepts, _receiver.SelectivityKnown, _leastDbm))
            {
                Add(finding, asked: false);
            }
        }
    }

    private CauseFinding? StrongestCrossModulation(int near, int moving)
    {
        CauseFinding? strongest = null;
        for (int s = 0; s < _active.Count; s++)
        {
            IReadOnlyList<StageCarrier> carriers = AtStage(s);
            CauseFinding? finding = CrossModulation.OfPair(
                _victim,
                carriers[near],
                carriers[moving],
                _active[s].Intercepts.Dbm(3),
                _active[s].Intercepts.SigmaDb(3),
                _active[s].Intercepts.IsAssumed(3),
                _receiver.Chain.ReferralDb(s, _receiver.FrequencyHz));
            if (finding is not null && (strongest is null || finding.LevelDbm > strongest.LevelDbm))
            {
                strongest = finding;
            }
        }

        return strongest;
    }

    private void FromResponses(IReadOnlyList<ProductOnResponse> onResponses)
    {
        foreach (ProductOnResponse found in onResponses)
        {
            (SuperhetResponse response, ProductFinding product, _) = found;
            // Referred to the input, a product has what the selectivity takes off there undone; where it is made, behind it, it stands as
            // it is.
            double selectivity = _receiver.Chain.GainDb(product.FrequencyHz) - _receiver.Chain.GainToReceiverInputDb(product.FrequencyHz);
            CauseFinding finding = ResponseCause.OfProduct(
                _victim, response, Words(product), product.InChannelLevelDbm + selectivity, product.SigmaDb ?? 0, _active[^1].Intercepts);
            if ((finding.LevelDbm ?? finding.AtMostDbm) < _leastDbm)
            {
                continue;
            }

            Add(finding, asked: false, product: found);
        }
    }

    /// <summary>What the isolation between our own transmitter and this receiver has to be at both frequencies, and is.</summary>
    private OwnIsolation Isolation(int own, IReadOnlyList<ProductFinding> products)
    {
        EmitterSetup emitter = _emitters[own];
        BlockingPoint point = _receiver.Blocking ?? FromIntercept(_active.Count - 1);
        List<OwnCarrierLimit> limits = [OwnTransmitter.ForBlocking(point)];
        if (_receiver.OscillatorNoise is { } oscillator)
        {
            limits.Add(OwnTransmitter.ForOscillator(_victim, emitter.FrequencyHz, oscillator));
        }

        double? arrives = Carrier(own, _receiver.Chain.GainDb(emitter.FrequencyHz)).LevelDbm;
        if (arrives is { } carrier)
        {
            foreach (ProductFinding product in products.TakeWhile(p => p.OverNoiseDb > -OwnTransmitter.MarginDb))
            {
                if (product is { Mechanism: Mechanism.Receiver, OverNoiseDb: { } over }
                    && product.Terms.FirstOrDefault(t => t.Emitter == own) is { } term)
                {
                    limits.Add(OwnTransmitter.ForProduct(Words(product), term.Coefficient, carrier, over));
                }
            }
        }

        DuplexerNeeds needs = OwnTransmitter.Needs(
            _victim,
            emitter.Name,
            emitter.FrequencyHz,
            emitter.PowerDbm,
            emitter.Noise,
            limits,
            emitter.PowerDbm - arrives,
            emitter.PowerDbm - (_receiver.Reaches[own].ReferenceDbm + _victim.ChainGainDb));
        return new OwnIsolation(emitter.FrequencyHz, _receiver.FrequencyHz, needs);
    }

    private BlockingPoint FromIntercept(int stage) =>
        BlockingPoint.FromIntercept(_active[stage].Intercepts.Dbm(3), _active[stage].Intercepts.SigmaDb(3));

    private IReadOnlyList<StageCarrier> AtStage(int stage) => _atStage[stage] ??=
        [
            .. Enumerable.Range(0, _emitters.Count)
                .Where(i => !IsOff(i))
                .Select(i => Carrier(i, _receiver.Chain.GainToStageDb(stage, _emitters[i].FrequencyHz))),
        ];

    private StageCarrier Carrier(int index, double gainDb) => new()
    {
        Name = _emitters[index].Name,
        FrequencyHz = _emitters[index].FrequencyHz,
        BandwidthHz = _emitters[index].BandwidthHz,
        Spread = _emitters[index].Spread,
        LevelDbm = _receiver.Levels[index].AtAntennaDbm + gainDb,
        SigmaDb = _receiver.Levels[index].SigmaDb ?? 0,
        EnvelopeMoves = _emitters[index].EnvelopeMoves,
    };

    private static string Words(ProductFinding product) => string.Join(
        ' ',
        product.Terms.OrderByDescending(static t => Math.Sign(t.Coefficient)).Select(static (t, i) =>
            (t.Coefficient < 0 ? "- " : i > 0 ? "+ " : "")
            + (Math.Abs(t.Coefficient) == 1
                ? t.Name
                : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(t.Coefficient)} x {t.Name}"))));
}
