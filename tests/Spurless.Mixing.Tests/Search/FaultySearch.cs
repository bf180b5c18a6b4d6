using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>A mistake that a fast search could make.</summary>
public enum Fault
{
    None,
    TailAsStrongAsPrefix,
    BoundOneTooHigh,
    MirrorImageForgotten,
    MirrorImageTwice,
    EdgeLeftOut,
    HalfHertzLost,
    NoiseLikeBoundForgotten,
    FrequencyIn32Bits,
    TailNotExclusive,
    EveryStageReports,
    UnknownTakenForWeak,
    ZeroFrequencyKept,
    LowestOrderForgotten,
    TailWidthTakenOnce,
    FirstReceiversLevels,
    FirstStageOnly,
    EqualCarriersAreOne,
    TailsLevelTakenOnce,
}

/// <summary>
/// Test-only copy of the fast search's ideas (order by strength, prefix and tail, lookup of the tail by frequency, bound by level, a
/// product belongs to its strongest stage), in short and with one mistake planted: the random sites must tell each from the plain search.
/// </summary>
internal sealed class FaultySearch(Fault fault) : IProductSearch
{
    private readonly int[] _emitters = new int[9];
    private readonly int[] _coefficients = new int[9];
    private SearchProblem _problem = null!;
    private IProductSink _sink = null!;
    private int _receiver;
    private int _stage;
    private int[] _order = [];
    private long[] _strength = [];
    private List<(long Value, int Rank, int Times, bool Mirror)> _tails = [];
    private long _widest;
    private long _found;

    public SearchOutcome Run(
        SearchProblem problem, IProductSink sink, IProgress<SearchProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        (_problem, _sink, _found) = (problem, sink, 0);
        for (_receiver = 0; _receiver < problem.Receivers.Length; _receiver++)
        {
            int stages = fault == Fault.FirstStageOnly ? Math.Min(1, Receiver.Stages.Length) : Receiver.Stages.Length;
            for (_stage = 0; _stage < Math.Max(1, stages); _stage++)
            {
                Prepare();
                Extend(0, -1, 0, 0, 0, 0);
            }
        }

        return new SearchOutcome(true, _found);
    }

    private SearchReceiver Receiver => _problem.Receivers[_receiver];

    private bool HasLevels => Receiver.Stages.Length > 0;

    private void Prepare()
    {
        long Strength(int i)
        {
            if (!HasLevels)
            {
                return 0;
            }

            SearchReceiver seen = fault == Fault.FirstReceiversLevels && _problem.Receivers[0].Stages.Length > _stage
                ? _problem.Receivers[0]
                : Receiver;
            int level = seen.Stages[_stage].LevelMicroDbm[i];
            if (level == MicroDb.Unknown)
            {
                return fault == Fault.UnknownTakenForWeak ? -1_000_000_000 : 1_000_000_000_000_000;
            }

            return level + (_problem.Emitters[i].NoiseLike && fault != Fault.NoiseLikeBoundForgotten ? 6_200_000 : 0);
        }

        _order = [.. Enumerable.Range(0, _problem.Emitters.Length).OrderByDescending(Strength)];
        _strength = [.. _order.Select(Strength)];
        _tails = [];
        for (int rank = 0; rank < _order.Length; rank++)
        {
            for (int c = 1; c <= _problem.MaxOrder; c++)
            {
                foreach (int times in new[] { c, -c })
                {
                    long tail = times * _problem.Emitters[_order[rank]].FrequencyHz;
                    _tails.Add((Receiver.FrequencyHz - tail, rank, times, false));
                    if (fault != Fault.MirrorImageForgotten)
                    {
                        _tails.Add((-Receiver.FrequencyHz - tail, rank, times, true));
                    }
                }
            }
        }

        _tails.Sort();
        _widest = Receiver.ChannelHz + (_problem.MaxOrder * _problem.Emitters.Max(static e => e.BandwidthHz));
    }

    private void Extend(int depth, int last, int order, long frequency, long width, long level)
    {
        for (int rank = last + 1; rank < _order.Length; rank++)
        {
            int emitter = _order[rank];
            if (Excluded(emitter, depth))
            {
                continue;
            }

            for (int times = 1; order + times <= _problem.MaxOrder; times++)
            {
                foreach (int k in depth == 0 ? new[] { times } : [times, -times])
                {
                    _emitters[depth] = emitter;
                    _coefficients[depth] = k;
                    long f = frequency + (k * _problem.Emitters[emitter].FrequencyHz);
                    long w = width + (times * _problem.Emitters[emitter].BandwidthHz);
                    long l = level + (times * _strength[rank]) - Multinomial.FactorialVoltageMicroDb(times);
                    if (depth == 0)
                    {
                        Land(1, order + times, f, w, false);
                    }

                    if (depth + 2 <= _problem.MaxSignals)
                    {
                        Complete(depth + 1, rank, order + times, f, w, l);
                        if (depth + 3 <= _problem.MaxSignals && order + times + 2 <= _problem.MaxOrder)
                        {
                            Extend(depth + 1, rank, order + times, f, w, l);
                        }
                    }
                }
            }
        }
    }

    /// <summary>All tails behind a prefix.</summary>
    private void Complete(int depth, int last, int order, long frequency, long width, long level)
    {
        int at = _tails.BinarySearch((frequency - _widest, 0, -10, false));
        for (at = at < 0 ? ~at : at; at < _tails.Count && _tails[at].Value <= frequency + _widest; at++)
        {
            (_, int rank, int k, bool mirror) = _tails[at];
            int times = Math.Abs(k);
            if (order + times > _problem.MaxOrder || (fault == Fault.TailAsStrongAsPrefix ? rank < last : rank <= last))
            {
                continue;
            }

            long threshold = Receiver.ThresholdMicroDbm + (fault == Fault.BoundOneTooHigh ? 1 : 0);
            if (HasLevels && Receiver.FloorMicroDbm is not null)
            {
                SearchStage stage = Receiver.Stages[_stage];
                long bound = level + ((fault == Fault.TailsLevelTakenOnce ? 1 : times) * _strength[rank])
                    - Multinomial.FactorialVoltageMicroDb(times)
                    + ProductLevel.OrderMicroDb(order + times, stage.InterceptMicroDbm[order + times], stage.ReferralMicroDb);
                if (bound < threshold)
                {
                    continue;
                }
            }

            int emitter = _order[rank];
            if (fault != Fault.TailNotExclusive && Excluded(emitter, depth))
            {
                continue;
            }

            _emitters[depth] = emitter;
            _coefficients[depth] = k;
            long wider = fault == Fault.TailWidthTakenOnce ? 1 : times;
            Land(
                depth + 1, order + times, frequency + (k * _problem.Emitters[emitter].FrequencyHz),
                width + (wider * _problem.Emitters[emitter].BandwidthHz), mirror);
        }
    }

    private void Land(int signals, int order, long frequency, long width, bool mirror)
    {
        if (fault == Fault.FrequencyIn32Bits)
        {
            frequency = unchecked((int)frequency);
        }

        bool wrongSign = signals > 1 && fault != Fault.MirrorImageTwice && frequency < 0 != mirror;
        long target = mirror ? -Receiver.FrequencyHz : Receiver.FrequencyHz;
        long twice = 2 * Math.Abs(frequency - target);
        long reach = Receiver.ChannelHz + width;
        bool hits = fault switch
        {
            Fault.EdgeLeftOut => twice < reach,
            Fault.HalfHertzLost => twice / 2 <= (Receiver.ChannelHz / 2) + (width / 2),
            _ => twice <= reach,
        };
        if (!hits
            || wrongSign
            || (frequency == 0 && fault != Fault.ZeroFrequencyKept)
            || (order < _problem.MinOrder && fault != Fault.LowestOrderForgotten))
        {
            return;
        }

        int[] emitters = _emitters[..signals];
        int[] coefficients = _coefficients[..signals];
        (long level, int stage) = StageLevels.Strongest(_problem, Receiver.Stages, emitters, coefficients, Math.Max(2, order));
        bool unknown = level == ProductRecord.UnknownLevel;
        if ((!unknown && level < Receiver.ThresholdMicroDbm) || (stage != _stage && fault != Fault.EveryStageReports))
        {
            return;
        }

        _found++;
        _sink.Add(new ProductRecord(_receiver, emitters, coefficients, frequency < 0, level, stage));
    }

    private bool Excluded(int emitter, int depth) =>
        _problem.ExclusiveGroups.Any(g => g.Contains(emitter) && _emitters.AsSpan(0, depth).ContainsAnyOf(g))
        || (fault == Fault.EqualCarriersAreOne
            && _emitters.Take(depth).Any(e => _problem.Emitters[e].FrequencyHz == _problem.Emitters[emitter].FrequencyHz));
}

internal static class Spans
{
    public static bool ContainsAnyOf(this Span<int> span, IEnumerable<int> values)
    {
        foreach (int value in values)
        {
            if (span.Contains(value))
            {
                return true;
            }
        }

        return false;
    }
}

public class FaultySearchTests
{
    /// <summary>Sites until a fault must have shown: the number the fast search is held to by default.</summary>
    private const int Sites = 1_000;

    public static TheoryData<Fault> Faults => [.. Enum.GetValues<Fault>().Where(static f => f != Fault.None)];

    [Fact]
    public void Copy_without_a_fault_is_the_plain_search()
    {
        for (int seed = 0; seed < Sites; seed++)
        {
            Assert.True(Agrees(seed, Fault.None), $"seed {seed}");
        }
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public void Random_sites_tell_every_planted_fault(Fault fault) =>
        Assert.Contains(Enumerable.Range(0, Sites), seed => !Agrees(seed, fault));

    private static bool Agrees(int seed, Fault fault)
    {
        SearchProblem problem = RandomSite.Create(seed);
        ProductList expected = new();
        new PlainSearch().Run(problem, expected);
        expected.Sort();
        ProductList list = new();
        new FaultySearch(fault).Run(problem, list);
        list.Sort();
        return expected.Products.SequenceEqual(list.Products);
    }
}
