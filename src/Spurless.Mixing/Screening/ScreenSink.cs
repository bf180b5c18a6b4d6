using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Screening;

/// <summary>
/// Judges the products of one receiver: counts by verdict, keeps the worst. Where there are more than are counted it goes on for the worst
/// alone, and wants only what may be worse still.
/// </summary>
internal sealed class ScreenSink : IRisingSink
{
    /// <summary>Levels are rounded to whole micro-dB a few times.</summary>
    private const int RoundingMicroDb = 20;

    private readonly EmitterSpread[] _spreads = new EmitterSpread[Multinomial.MaxOrder];
    private readonly int[] _coefficients = new int[Multinomial.MaxOrder];
    private readonly int[] _indices = new int[Multinomial.MaxOrder];
    private readonly ChannelRings[] _rings = new ChannelRings[(Multinomial.MaxOrder * Multinomial.MaxOrder) + 1];
    private readonly ShareMemory _shares = new();
    private ScreenField _field = null!;
    private SearchProblem _problem = null!;
    private ScreenReceiver _receiver = null!;
    private int[] _emitters = [];
    private long _harmfulFrom;
    private long _marginalFrom;
    private long _noise;
    private long _most;
    private long _stagesMicroDb;
    private long _bestLevel;
    private ScreenSaturation _saturation = null!;
    private ScreenMixture? _worst;
    private int _worstOrder;

    public long Harmful { get; private set; }

    public long Marginal { get; private set; }

    /// <summary>Whether all products were counted.</summary>
    public bool IsComplete { get; private set; }

    /// <summary>Whether products are still counted; if not, the worst alone is sought.</summary>
    public bool IsCounting { get; private set; }

    public ScreenMixture? Worst => _worst;

    /// <summary>How far a product must lie over the lower threshold to be of interest, in dB: 0 while they are counted.</summary>
    public double LiftDb => IsCounting ? 0 : Math.Max(0, MicroDb.ToDecibels(_bestLevel - RoundingMicroDb - _marginalFrom));

    /// <summary>Turns to a receiver.</summary>
    public void Begin(ScreenField field, ScreenReceiver receiver, ScreenOptions options)
    {
        (_field, _receiver) = (field, receiver);
        _noise = MicroDb.Clamped(receiver.NoiseFloorDbm);
        _harmfulFrom = _noise + MicroDb.Clamped(options.HarmfulFromDb);
        _marginalFrom = _noise + MicroDb.Clamped(options.MarginalFromDb);
        (Harmful, Marginal, IsComplete, _worst, _bestLevel, _most) = (0, 0, true, null, long.MinValue, options.MostProducts);
        IsCounting = _most > 0;
    }

    /// <summary>Turns to the search among the strong ones.</summary>
    /// <param name="problem">The search.</param>
    /// <param name="emitters">Its emitters as indices of the field.</param>
    public void Turn(SearchProblem problem, int[] emitters)
    {
        (_problem, _emitters, _saturation) = (problem, emitters, new ScreenSaturation(problem, emitters, _receiver));
        double variance = 0;
        double shift = 0;
        foreach (int e in emitters)
        {
            EmitterSpread spread = _field.Spread[e];
            (variance, shift) = (Math.Max(variance, spread.SigmaHz * spread.SigmaHz), Math.Max(shift, Math.Abs(spread.ShiftHz)));
        }

        // By the sum of the squared coefficients, which is never less than the order.
        for (int squares = 2; squares <= problem.MaxOrder * problem.MaxOrder; squares++)
        {
            _rings[squares] =
                new ChannelRings(_receiver.IfBandwidthHz / 2.0, squares * variance, Math.Min(squares, problem.MaxOrder) * shift);
        }

        // The sum over stages is at most so much more than the strongest one.
        _stagesMicroDb = MicroDb.Clamped(10 * Math.Log10(_receiver.Profile.Stages.Count)) + RoundingMicroDb;
    }

    /// <summary>Says that not all was searched.</summary>
    public void MarkIncomplete() => IsComplete = false;

    /// <inheritdoc/>
    public long WantedFromMicroDbm(int receiver) => IsCounting
        ? long.MinValue
        : _bestLevel - RoundingMicroDb - MicroDb.Clamped(10 * Math.Log10(_receiver.Profile.Stages.Count));

    /// <inheritdoc/>
    public bool Add(in ProductRecord product)
    {
        if (Misses(product))
        {
            return true;
        }

        Span<int> indices = _indices.AsSpan(0, product.Signals);
        Span<int> coefficients = _coefficients.AsSpan(0, product.Signals);
        Span<long> stages = stackalloc long[_problem.Receivers[0].Stages.Length];
        for (int i = 0; i < indices.Length; i++)
        {
            (indices[i], coefficients[i]) = (_emitters[product.Emitter(i)], product.Coefficient(i));
        }

        for (int s = 0; s < stages.Length; s++)
        {
            SearchStage stage = _problem.Receivers[0].Stages[s];
            stages[s] = ProductLevel.OrderMicroDb(product.Order, stage.InterceptMicroDbm[product.Order], stage.ReferralMicroDb);
            for (int i = 0; i < indices.Length; i++)
            {
                stages[s] += ProductLevel.EmitterMicroDb(
                    Math.Abs(coefficients[i]), stage.LevelMicroDbm[product.Emitter(i)], _problem.Emitters[product.Emitter(i)].NoiseLike);
            }
        }

        Judge(indices, coefficients, product.Order, product.FrequencyHz(_problem), stages);
        return true;
    }

    /// <summary>Whether a product lands so far off that what of it comes into the channel counts for nothing, whatever its
    /// emitters.</summary>
    private bool Misses(in ProductRecord product)
    {
        int squares = 0;
        for (int i = 0; i < product.Signals; i++)
        {
            squares += product.Coefficient(i) * product.Coefficient(i);
        }

        double drop = _rings[squares].LeastDropDb(Math.Abs(product.FrequencyHz(_problem) - _receiver.FrequencyHz));
        long most = product.LevelMicroDbm + _stagesMicroDb - (long)(drop * MicroDb.PerDecibel);
        return drop > 0 && most < (IsCounting ? _marginalFrom : Math.Max(_marginalFrom, _bestLevel));
    }

    /// <summary>Judges a product.</summary>
    /// <param name="indices">Its emitters as indices of the field.</param>
    /// <param name="coefficients">Their coefficients; the frequency is positive.</param>
    /// <param name="order">Its order.</param>
    /// <param name="frequencyHz">Where it lands.</param>
    /// <param name="stages">Its level in each stage, referred to the receiver's input, in micro-dBm.</param>
    public void Judge(ReadOnlySpan<int> indices, ReadOnlySpan<int> coefficients, int order, long frequencyHz, ReadOnlySpan<long> stages)
    {
        Span<long> capped = stackalloc long[stages.Length];
        stages.CopyTo(capped);
        bool saturated = _saturation.Cap(capped, indices, coefficients, order);
        long level = SumOf(capped);
        long from = IsCounting ? _marginalFrom : Math.Max(_marginalFrom, _bestLevel);
        if (level < from)
        {
            return;
        }

        for (int i = 0; i < indices.Length; i++)
        {
            _spreads[i] = _field.Spread[indices[i]];
        }

        level += _shares.MicroDbOf(
            frequencyHz - _receiver.FrequencyHz, _receiver.IfBandwidthHz, coefficients, _spreads.AsSpan(0, indices.Length));
        if (level < from)
        {
            return;
        }

        if (IsCounting)
        {
            (Harmful, Marginal) = level >= _harmfulFrom ? (Harmful + 1, Marginal) : (Harmful, Marginal + 1);
            IsCounting = Harmful + Marginal < _most;
            IsComplete &= IsCounting;
        }

        Keep(indices, coefficients, order, level, saturated);
    }

    /// <summary>Power sum over the stages that can make it.</summary>
    private static long SumOf(ReadOnlySpan<long> stages)
    {
        if (stages.Length == 1)
        {
            return stages[0];
        }

        Span<double> each = stackalloc double[stages.Length];
        for (int s = 0; s < each.Length; s++)
        {
            each[s] = MicroDb.ToDecibels(stages[s]);
        }

        return (long)Math.Round(LevelSum.PowerDbm(each) * MicroDb.PerDecibel);
    }

    /// <summary>The stronger one; of equal ones that of the lower order, then of the emitters given first.</summary>
    private void Keep(ReadOnlySpan<int> indices, ReadOnlySpan<int> coefficients, int order, long level, bool saturated)
    {
        if (_worst is not null && (level < _bestLevel || (level == _bestLevel && order > _worstOrder)))
        {
            return;
        }

        (int Emitter, int Coefficient)[] terms = Terms(indices, coefficients);
        if (_worst is not null && level == _bestLevel && order == _worstOrder && !Precedes(terms))
        {
            return;
        }

        _worst = new ScreenMixture(
            [.. terms.Select(static t => t.Emitter)], [.. terms.Select(static t => t.Coefficient)], MicroDb.ToDecibels(level - _noise),
            saturated);
        (_bestLevel, _worstOrder) = (level, order);
    }

    private bool Precedes((int Emitter, int Coefficient)[] terms)
    {
        for (int i = 0; i < terms.Length && i < _worst!.Emitters.Count; i++)
        {
            int c = Math.Abs(_worst.Coefficients[i]).CompareTo(Math.Abs(terms[i].Coefficient));
            c = c != 0 ? c : terms[i].Emitter.CompareTo(_worst.Emitters[i]);
            c = c != 0 ? c : _worst.Coefficients[i].CompareTo(terms[i].Coefficient);
            if (c != 0)
            {
                return c < 0;
            }
        }

        return terms.Length < _worst!.Emitters.Count;
    }

    /// <summary>The terms by falling coefficient, then in the order in which the emitters were given; emitters by their index
    /// there.</summary>
    private (int Emitter, int Coefficient)[] Terms(ReadOnlySpan<int> indices, ReadOnlySpan<int> coefficients)
    {
        (int Emitter, int Coefficient)[] terms = new (int, int)[indices.Length];
        for (int i = 0; i < terms.Length; i++)
        {
            terms[i] = (_field.Original[indices[i]], coefficients[i]);
        }

        Array.Sort(terms, static (a, b) =>
        {
            int c = Math.Abs(b.Coefficient).CompareTo(Math.Abs(a.Coefficient));
            return c != 0 ? c : a.Emitter.CompareTo(b.Emitter);
        });
        return terms;
    }
}
