using System.Collections.Immutable;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Mixing.Spread;
using Spurless.Sites.Chains;

namespace Spurless.Sites.Studies;

/// <summary>
/// Levels of the products of one receiver: what the search is given, and what a found product comes to exactly. The search knows one referral per stage, the
/// greatest that can occur; here each product gets the one at its own frequency.
/// </summary>
internal sealed class ProductScorer
{
    /// <summary>
    /// What the search's floor stands under the report floor, so that no rounding in it can lose what the exact level brings over: nine levels, an intercept
    /// eight times and a referral, each rounded by half a micro-dB, and as much again for the sum over stages.
    /// </summary>
    public const long SearchMarginMicroDb = 20;

    private readonly ReceiverSetup _receiver;
    private readonly EmitterSetup[] _emitters;
    private readonly EmitterSpread[] _spreads;
    private readonly int[][] _levels;
    private readonly int[][] _intercepts;
    private readonly bool _flatReferral;
    private readonly int[] _referral;

    public ProductScorer(ReceiverSetup receiver, IReadOnlyList<EmitterSetup> emitters, int maxOrder)
    {
        _receiver = receiver;
        _emitters = [.. emitters];
        _spreads = [.. emitters.Select(static e => e.Spread)];
        ReceiveChain chain = receiver.Chain;
        int stages = chain.ActiveStages.Count;
        _levels = new int[stages][];
        _intercepts = new int[stages][];
        for (int s = 0; s < stages; s++)
        {
            _levels[s] = new int[_emitters.Length];
            _intercepts[s] = new int[Multinomial.MaxOrder + 1];
            for (int i = 0; i < _emitters.Length; i++)
            {
                _levels[s][i] = receiver.Levels[i].AtAntennaDbm is { } level
                    ? MicroDb.Clamped(level + chain.GainToStageDb(s, _emitters[i].FrequencyHz))
                    : MicroDb.Unknown;
            }

            for (int n = 2; n <= Multinomial.MaxOrder; n++)
            {
                _intercepts[s][n] = chain.ActiveStages[s].Intercepts.MicroDbm(n);
            }
        }

        (_referral, _flatReferral) = GreatestReferral(receiver, _emitters, maxOrder);
        NoiseFloor = MicroDb.FromDecibels(receiver.NoiseFloorDbm);
        Floor = receiver.FloorDbm switch
        {
            null => NoiseFloor - (20L * MicroDb.PerDecibel),
            double.NegativeInfinity => null,
            { } given => MicroDb.Clamped(given),
        };
    }

    /// <summary>Noise floor in micro-dBm.</summary>
    public long NoiseFloor { get; }

    /// <summary>Report floor in micro-dBm, or null for none.</summary>
    public long? Floor { get; }

    /// <summary>Level of an emitter at a stage in dBm; null where unknown.</summary>
    public double? LevelDbm(int stage, int emitter) =>
        _levels[stage][emitter] == MicroDb.Unknown ? null : MicroDb.ToDecibels(_levels[stage][emitter]);

    /// <summary>The receiver as the search sees it.</summary>
    public SearchReceiver ForSearch() => new()
    {
        FrequencyHz = _receiver.FrequencyHz,
        ChannelHz = _receiver.ChannelHz,
        FloorMicroDbm = Floor - SearchMarginMicroDb,
        Stages =
        [
            .. Enumerable.Range(0, _levels.Length).Select(s => new SearchStage
            {
                LevelMicroDbm = ImmutableArray.Create(_levels[s]),
                InterceptMicroDbm = ImmutableArray.Create(_intercepts[s]),
                ReferralMicroDb = _referral[s],
            }),
        ],
    };

    /// <summary>Whether a product is listed: what of it falls inside the channel reaches the report floor, or its level is unknown.</summary>
    public bool Reaches(in ScoredProduct product) => !product.HasLevel || Floor is not { } floor || product.InChannel >= floor;

    /// <summary>The most by which the power sum over the stages can stand over the level that the search knows, in micro-dB.</summary>
    public long MostOverSearchMicroDb => (long)Math.Ceiling(10 * Math.Log10(Math.Max(1, _levels.Length)) * MicroDb.PerDecibel) + SearchMarginMicroDb;

    /// <summary>The product's levels, exactly.</summary>
    public ScoredProduct Score(in ProductRecord record)
    {
        if (!record.HasLevel)
        {
            return new ScoredProduct(record, 0, ProductRecord.UnknownLevel, ProductRecord.UnknownLevel, ProductRecord.UnknownLevel);
        }

        (long frequency, long share) = FrequencyAndShare(record);
        long best = long.MinValue;
        int bestStage = 0;
        Span<double> each = stackalloc double[_levels.Length];
        for (int s = 0; s < _levels.Length; s++)
        {
            int referral = _flatReferral ? _referral[s] : MicroDb.Clamped(_receiver.Chain.ReferralDb(s, frequency));
            long level = ProductLevel.OrderMicroDb(record.Order, _intercepts[s][record.Order], referral);
            for (int t = 0; t < record.Signals; t++)
            {
                int emitter = record.Emitter(t);
                level += ProductLevel.EmitterMicroDb(Math.Abs(record.Coefficient(t)), _levels[s][emitter], _emitters[emitter].NoiseLike);
            }

            each[s] = MicroDb.ToDecibels(level);
            if (level > best)
            {
                (best, bestStage) = (level, s);
            }
        }

        long sum = best;
        long worst = best;
        if (each.Length > 1)
        {
            sum = Micro(LevelSum.PowerDbm(each));
            worst = Micro(LevelSum.VoltageDbm(each));
        }

        return new ScoredProduct(record, bestStage, sum, worst, sum + share);
    }

    /// <summary>A product that a transmitter made: it arrives with the level it was found with, and only its share in the channel is left to find.</summary>
    public ScoredProduct ScoreMade(in ProductRecord record, int transmitter)
    {
        long level = record.LevelMicroDbm;
        return new ScoredProduct(record, ~transmitter, level, level, level + FrequencyAndShare(record).ShareMicroDb);
    }

    private (long FrequencyHz, long ShareMicroDb) FrequencyAndShare(in ProductRecord record)
    {
        long frequency = 0;
        Span<int> coefficients = stackalloc int[Multinomial.MaxOrder];
        Span<EmitterSpread> spreads = stackalloc EmitterSpread[Multinomial.MaxOrder];
        for (int t = 0; t < record.Signals; t++)
        {
            int emitter = record.Emitter(t);
            coefficients[t] = record.Coefficient(t);
            spreads[t] = _spreads[emitter];
            frequency += coefficients[t] * _emitters[emitter].FrequencyHz;
        }

        double share = InChannelShare.Of(
            frequency - _receiver.FrequencyHz, _receiver.IfBandwidthHz, coefficients[..record.Signals], spreads[..record.Signals]);
        return (frequency, Micro(10 * Math.Log10(share)));
    }

    private static long Micro(double decibels) => (long)Math.Round(decibels * MicroDb.PerDecibel);

    private static (int[] Referral, bool Flat) GreatestReferral(ReceiverSetup receiver, EmitterSetup[] emitters, int maxOrder)
    {
        // Half a window holds whatever can hit: (B + sum |k_i| b_i) / 2. A filter behind an amplifier may fall steeply inside it; a decibel more than the
        // greatest of the samples keeps the bound above what lies between them, and every found product is computed again.
        const int samples = 64;
        const double margin = 1;
        double half = (receiver.ChannelHz + (maxOrder * (double)emitters.Select(static e => e.BandwidthHz).DefaultIfEmpty(0).Max())) / 2;
        int stages = receiver.Chain.ActiveStages.Count;
        int[] referral = new int[stages];
        bool flat = true;
        for (int s = 0; s < stages; s++)
        {
            double low = double.PositiveInfinity;
            double high = double.NegativeInfinity;
            for (int i = -samples; i <= samples; i++)
            {
                double gain = receiver.Chain.ReferralDb(s, Math.Max(1, receiver.FrequencyHz + (half * i / samples)));
                low = Math.Min(low, gain);
                high = Math.Max(high, gain);
            }

            flat &= low == high;
            referral[s] = MicroDb.Clamped(low == high ? high : high + margin);
        }

        return (referral, flat);
    }
}
