using System.Collections.Immutable;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Mixing.Spread;
using Spurless.Sites.Chains;

namespace Spurless.Sites.Studies;

/// <summary>
/// Levels of the products of one receiver: what the search is given, and what a found product comes to exactly. The search knows one
/// referral per stage, the greatest that can occur; here each product gets the one at its own frequency.
/// </summary>
internal sealed class ProductScorer
{
    /// <summary>
    /// What the search's floor stands under the report floor, so that no rounding in it can lose what the exact level brings over: nine
    /// levels, an intercept eight times and a referral, each rounded by half a micro-dB, and as much again for the sum over stages.
    /// </summary>
    public const long SearchMarginMicroDb = 20;

    private readonly ReceiverSetup _receiver;
    private readonly EmitterSetup[] _emitters;
    private readonly EmitterSpread[] _spreads;
    private readonly int[][] _levels;
    private readonly int[][] _intercepts;
    private readonly bool _flatReferral;
    private readonly int[] _referral;
    private readonly bool[] _off;
    private readonly double[] _totalPowerMw;
    private readonly long[] _most;

    public ProductScorer(ReceiverSetup receiver, IReadOnlyList<EmitterSetup> emitters, int maxOrder)
        : this(receiver, emitters, GreatestReferral(receiver, emitters, maxOrder))
    {
    }

    /// <summary>The same where the referral over all that can hit is known already, as over a band of channels.</summary>
    /// <param name="receiver">The receiver.</param>
    /// <param name="emitters">The emitters.</param>
    /// <param name="referral">The greatest referral of each stage, and whether it is the same over all that can hit.</param>
    public ProductScorer(ReceiverSetup receiver, IReadOnlyList<EmitterSetup> emitters, (int[] Greatest, bool Flat) referral)
    {
        _receiver = receiver;
        _emitters = [.. emitters];
        _spreads = [.. emitters.Select(static e => e.Spread)];
        ReceiveChain chain = receiver.Chain;
        int stages = chain.ActiveStages.Count;
        _off = [.. emitters.Select(e => e.HalfDuplex == receiver.Name)];
        _totalPowerMw = new double[stages];
        _most = new long[stages];
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

            _totalPowerMw[s] = Enumerable.Range(0, _emitters.Length).Where(i => !_off[i]).Sum(i => Milliwatts(LevelDbm(s, i)));
            _most[s] = _totalPowerMw[s] > 0
                ? MicroDb.Clamped(Saturation.MostDbm(_totalPowerMw[s], chain.ActiveStages[s].Intercepts.Dbm(3)))
                : long.MaxValue / 4;
            for (int n = 2; n <= Multinomial.MaxOrder; n++)
            {
                _intercepts[s][n] = chain.ActiveStages[s].Intercepts.MicroDbm(n);
            }
        }

        (_referral, _flatReferral) = referral;
        NoiseFloor = MicroDb.FromDecibels(receiver.NoiseFloorDbm);
        Floor = receiver.FloorDbm switch
        {
            null => NoiseFloor - (20L * MicroDb.PerDecibel),
            double.NegativeInfinity => null,
            { } given => MicroDb.Clamped(given),
        };
    }

    /// <summary>The channel in hertz.</summary>
    public long FrequencyHz => _receiver.FrequencyHz;

    /// <summary>Noise floor in micro-dBm.</summary>
    public long NoiseFloor { get; }

    /// <summary>Report floor in micro-dBm, or null for none.</summary>
    public long? Floor { get; }

    /// <summary>Level of an emitter at a stage in dBm; null where unknown.</summary>
    public double? LevelDbm(int stage, int emitter) =>
        _levels[stage][emitter] == MicroDb.Unknown ? null : MicroDb.ToDecibels(_levels[stage][emitter]);

    /// <summary>
    /// Raises levels, stage by stage and emitter by emitter, to this receiver's where those are higher; what is unknown here is unknown.
    /// </summary>
    public void RaiseTo(int[][] levels)
    {
        for (int s = 0; s < _levels.Length; s++)
        {
            for (int i = 0; i < _emitters.Length; i++)
            {
                bool known = levels[s][i] != MicroDb.Unknown && _levels[s][i] != MicroDb.Unknown;
                levels[s][i] = known ? Math.Max(levels[s][i], _levels[s][i]) : MicroDb.Unknown;
            }
        }
    }

    /// <summary>Whether the levels of all emitters of a product are known here.</summary>
    public bool Knows(in ProductRecord record)
    {
        for (int t = 0; t < record.Signals; t++)
        {
            if (_levels[0][record.Emitter(t)] == MicroDb.Unknown)
            {
                return false;
            }
        }

        return true;
    }

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

    /// <summary>
    /// Whether a product is listed: what of it falls inside the channel reaches the report floor, or its level is unknown, and it can be on
    /// the air while this receiver listens.
    /// </summary>
    public bool Reaches(in ScoredProduct product) =>
        !IsOff(product.Record) && (!product.HasLevel || Floor is not { } floor || product.InChannel >= floor);

    /// <summary>The most by which the power sum over the stages can stand over the level that the search knows, in micro-dB.</summary>
    public long MostOverSearchMicroDb =>
        (long)Math.Ceiling(10 * Math.Log10(Math.Max(1, _levels.Length)) * MicroDb.PerDecibel) + SearchMarginMicroDb;

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
            long level = AtStage(record, s, frequency);
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

    /// <summary>
    /// What one active stage alone makes of a product whose levels are known, referred to the receiver's input, in micro-dBm.
    /// </summary>
    /// <param name="record">The product.</param>
    /// <param name="stage">Index of the active stage.</param>
    /// <param name="frequencyHz">The product's frequency in hertz.</param>
    public long AtStage(in ProductRecord record, int stage, long frequencyHz) => AtStage(record, stage, frequencyHz, out _);

    /// <summary>The same, and whether it was capped: the stage cannot deliver what the law of the order gives.</summary>
    /// <param name="record">The product.</param>
    /// <param name="stage">Index of the active stage.</param>
    /// <param name="frequencyHz">The product's frequency in hertz.</param>
    /// <param name="capped">Whether the law, not trusted there, gives more than <see cref="Saturation.MostDbm"/>.</param>
    public long AtStage(in ProductRecord record, int stage, long frequencyHz, out bool capped)
    {
        int referral = _flatReferral ? _referral[stage] : MicroDb.Clamped(_receiver.Chain.ReferralDb(stage, frequencyHz));
        long level = ProductLevel.OrderMicroDb(record.Order, _intercepts[stage][record.Order], referral);
        for (int t = 0; t < record.Signals; t++)
        {
            int emitter = record.Emitter(t);
            level += ProductLevel.EmitterMicroDb(Math.Abs(record.Coefficient(t)), _levels[stage][emitter], _emitters[emitter].NoiseLike);
        }

        capped = level > _most[stage] + referral && !(NextDegreeDb(record, stage) <= NextDegree.TrustLimitDb);
        return capped ? _most[stage] + referral : level;
    }

    /// <summary>The most that a stage can deliver of any product, at its input, in dBm.</summary>
    /// <param name="stage">Index of the active stage.</param>
    public double MostDbm(int stage) => MicroDb.ToDecibels(_most[stage]);

    /// <summary>What the term of the next degree could change in a product of one stage, in dB; null for orders 8 and 9.</summary>
    /// <param name="record">The product.</param>
    /// <param name="stage">Index of the active stage.</param>
    public double? NextDegreeDb(in ProductRecord record, int stage)
    {
        if (record.Order > NextDegree.MaxOrder)
        {
            return null;
        }

        // All carriers count as with k = 0, then the few in the product are corrected.
        double weighted = _totalPowerMw[stage];
        for (int t = 0; t < record.Signals; t++)
        {
            double own = Milliwatts(LevelDbm(stage, record.Emitter(t)));
            weighted -= own - (own / (Math.Abs(record.Coefficient(t)) + 1));
        }

        Intercepts intercepts = _receiver.Chain.ActiveStages[stage].Intercepts;
        return NextDegree.ErrorDb(NextDegree.Ratio(
            record.Order, Math.Max(0, weighted), intercepts.Dbm(record.Order), intercepts.Dbm(record.Order + 2)));
    }

    private static double Milliwatts(double? dbm) => dbm is { } level ? Math.Pow(10, level / 10) : 0;

    /// <summary>Whether an emitter of the product is never on while this receiver listens.</summary>
    private bool IsOff(in ProductRecord record)
    {
        for (int t = 0; t < record.Signals; t++)
        {
            if (_off[record.Emitter(t)])
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>
    /// A product that a transmitter made: it arrives with the level it was found with, and only its share in the channel is left to find.
    /// </summary>
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

    /// <summary>Half a window that holds whatever can hit, in hertz: <c>(B + sum |k_i| b_i) / 2</c>.</summary>
    public static double HalfWindowHz(ReceiverSetup receiver, IReadOnlyList<EmitterSetup> emitters, int maxOrder) =>
        (receiver.ChannelHz + (maxOrder * (double)emitters.Select(static e => e.BandwidthHz).DefaultIfEmpty(0).Max())) / 2;

    private static (int[] Referral, bool Flat) GreatestReferral(
        ReceiverSetup receiver, IReadOnlyList<EmitterSetup> emitters, int maxOrder)
    {
        double half = HalfWindowHz(receiver, emitters, maxOrder);
        return GreatestReferral(receiver.Chain, receiver.FrequencyHz - half, receiver.FrequencyHz + half, 64);
    }

    /// <summary>The greatest referral of each stage of a chain over a range, and whether it is the same throughout.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="fromHz">Lower end in hertz.</param>
    /// <param name="toHz">Upper end in hertz.</param>
    /// <param name="samples">Samples of each half of the range.</param>
    public static (int[] Referral, bool Flat) GreatestReferral(ReceiveChain chain, double fromHz, double toHz, int samples)
    {
        // A filter behind an amplifier may fall steeply inside the range; a decibel more than the greatest of the samples keeps the bound
        // above what lies between them, and every found product is computed again.
        const double margin = 1;
        double middle = (fromHz + toHz) / 2;
        double half = (toHz - fromHz) / 2;
        int stages = chain.ActiveStages.Count;
        int[] referral = new int[stages];
        bool flat = true;
        for (int s = 0; s < stages; s++)
        {
            double low = double.PositiveInfinity;
            double high = double.NegativeInfinity;
            for (int i = -samples; i <= samples; i++)
            {
                double gain = chain.ReferralDb(s, Math.Max(1, middle + (half * i / samples)));
                low = Math.Min(low, gain);
                high = Math.Max(high, gain);
            }

            flat &= low == high;
            referral[s] = MicroDb.Clamped(low == high ? high : high + margin);
        }

        return (referral, flat);
    }
}
