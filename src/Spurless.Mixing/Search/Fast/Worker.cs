using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Search.Fast;

/// <summary>
/// One thread's walk through a unit. Every vector is cut in one way: its weakest emitter is the tail, the rest the prefix; tails are not gone through but looked up.
/// </summary>
internal sealed class Worker
{
    private const int BufferLength = 256;

    /// <summary>Steps of work between two looks at the token; a step is a few nanoseconds.</summary>
    private const int StepsPerLook = 100_000;

    private readonly int[] _ranks = new int[Multinomial.MaxOrder];
    private readonly int[] _emitters = new int[Multinomial.MaxOrder];
    private readonly int[] _coefficients = new int[Multinomial.MaxOrder];
    private readonly int[] _hits = new int[BitmapScan.Block];
    private readonly ProductRecord[] _buffer = new ProductRecord[BufferLength];
    private SearchUnit _unit = null!;
    private Gate _gate = null!;
    private CancellationToken _cancel;
    private bool _vector;
    private bool _rising;
    private long[] _carrier = [];
    private long[] _carrierWidth = [];
    private long[] _channel = [];
    private int _buffered;
    private int _maxSignals;
    private int _steps;

    // The prefix without its last emitter.
    private int _depth;
    private int _order;
    private long _frequency;
    private long _width;
    private long _level;
    private bool _wide;

    /// <summary>Work done since the beginning, in steps.</summary>
    public long Work { get; private set; }

    public void Begin(SearchUnit unit, Gate gate, bool vector, bool rising, CancellationToken cancel)
    {
        (_unit, _gate, _vector, _rising, _cancel) = (unit, gate, vector, rising, cancel);
        (_carrier, _carrierWidth, _channel) = (unit.Frequency, unit.Bandwidth, unit.MemberChannel);
        _maxSignals = unit.Problem.MaxSignals;
        _steps = 0;
    }

    /// <summary>Starts counting work anew.</summary>
    public void ResetWork() => Work = 0;

    /// <summary>Number of tasks of a unit: harmonics and mixtures of two, then one for each strongest emitter.</summary>
    public static int TaskCount(SearchUnit unit) =>
        1 + (unit.Problem.MaxSignals > 2 ? Math.Min(unit.LeadingRanks(), Math.Max(0, unit.Count - 2)) : 0);

    /// <summary>Does one task. False: this one and all behind it can reach no threshold.</summary>
    public bool Do(int task)
    {
        _depth = 0;
        (_order, _frequency, _width, _level, _wide) = (0, 0, 0, 0, false);
        if (task == 0)
        {
            Harmonics();
            if (_maxSignals >= 2)
            {
                ScanPrefixes(-1);
            }

            return true;
        }

        return ExtendBy(task - 1);
    }

    /// <summary>Hands on what is buffered.</summary>
    public void Flush()
    {
        if (_buffered > 0)
        {
            _gate.Give(_buffer.AsSpan(0, _buffered));
            _buffered = 0;
            if (_rising)
            {
                _unit.RaiseThresholds();
            }
        }
    }

    private void Harmonics()
    {
        for (int rank = 0; rank < _unit.Count && !_gate.Stopped; rank++)
        {
            bool any = false;
            for (int n = _unit.MinOrder; n <= _unit.MaxOrder; n++)
            {
                if ((n * _unit.Strength[rank]) - SearchUnit.Penalty[n] < _unit.Need(n))
                {
                    continue;
                }

                any = true;
                Step(_unit.MemberCount);
                long frequency = n * _unit.Frequency[rank];
                long width = n * _unit.Bandwidth[rank];
                for (int m = 0; m < _unit.MemberCount; m++)
                {
                    if (2 * Math.Abs(frequency - _unit.MemberFrequency[m]) <= _unit.MemberChannel[m] + width)
                    {
                        _ranks[0] = rank;
                        _coefficients[0] = n;
                        Found(m, 1, n, frequency, _unit.Part(rank, n));
                    }
                }
            }

            if (!any)
            {
                return;
            }
        }
    }

    /// <summary>Appends the emitter of a rank with each multiplicity and sign, and goes through what can stand behind it. False: it is too weak, and so is every later one.</summary>
    private bool ExtendBy(int rank)
    {
        if (_unit.Exclusive.Any && _unit.Exclusive.Excludes(_unit.Emitter[rank], _emitters.AsSpan(0, _depth)))
        {
            return true;
        }

        (int order, long frequency, long width, long level, bool wide) = (_order, _frequency, _width, _level, _wide);
        int depth = _depth;
        long strength = _unit.Strength[rank];
        bool reaches = false;
        _ranks[depth] = rank;
        _emitters[depth] = _unit.Emitter[rank];
        for (int a = 1; a <= _unit.MaxOrder - order - 2; a++)
        {
            if (!CanReach(order + a, level + (a * strength) - SearchUnit.Penalty[a], _maxSignals - depth - 1, strength))
            {
                continue;
            }

            reaches = true;
            long part = level + _unit.Part(rank, a);
            if (!CanReach(order + a, part, _maxSignals - depth - 1, strength))
            {
                continue;
            }

            for (int sign = 1; sign >= (depth == 0 ? 1 : -1); sign -= 2)
            {
                _coefficients[depth] = sign * a;
                _depth = depth + 1;
                _order = order + a;
                _frequency = frequency + (sign * a * _unit.Frequency[rank]);
                _width = width + (a * _unit.Bandwidth[rank]);
                _level = part;
                _wide = wide || _unit.IsWide[rank];
                Behind(rank);
            }
        }

        (_depth, _order, _frequency, _width, _level, _wide) = (depth, order, frequency, width, level, wide);
        return reaches;
    }

    /// <summary>All that can stand behind the prefix as it is, whose last rank is given.</summary>
    private void Behind(int last)
    {
        ScanPrefixes(last);
        if (_depth + 2 < _maxSignals && _order + 3 <= _unit.MaxOrder)
        {
            for (int next = last + 1; next < _unit.Count - 1 && !_gate.Stopped; next++)
            {
                Step(1);
                if (!ExtendBy(next))
                {
                    break;
                }
            }
        }
    }

    /// <summary>Whether a prefix can still reach a threshold with at least two more orders on at least one and at most so many more emitters.</summary>
    private bool CanReach(int order, long level, int slots, long strength)
    {
        for (int n = Math.Max(_unit.MinOrder, order + 2); n <= _unit.MaxOrder; n++)
        {
            if (level + SearchUnit.Most(n - order, slots, strength) >= _unit.Need(n))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Completes the prefix by one more emitter, with every multiplicity and sign, and asks for tails.</summary>
    private void ScanPrefixes(int last)
    {
        int room = _unit.MaxOrder - _order;
        for (int a = 1; a < room; a++)
        {
            for (int c = Math.Max(1, _unit.MinOrder - _order - a); c <= room - a; c++)
            {
                TailIndex tails = _unit.Tails(c);
                if (tails.IsEmpty)
                {
                    continue;
                }

                // The tail is no stronger than the carrier in front of it, so (a + c) times that one's strength bounds both.
                long need = _unit.Need(_order + a + c) - _level + SearchUnit.Penalty[a] + SearchUnit.Penalty[c];
                int to = Math.Min(_unit.RanksReaching(need, a + c), _unit.Count - 1);
                Step(4);
                if (to > last + 1)
                {
                    Scan(tails, a, c, last + 1, to);
                    if (_depth > 0)
                    {
                        Scan(tails, -a, c, last + 1, to);
                    }
                }
            }
        }
    }

    private void Scan(TailIndex tails, int a, int c, int from, int to)
    {
        for (int k = 0; k < (_unit.HasWide ? 2 : 1); k++)
        {
            ReadOnlySpan<uint> carriers = _unit.Carriers(k == 1, from, to, out ReadOnlySpan<int> ranks);
            if (tails.TryGetMap(_wide || k == 1, out ReadOnlySpan<uint> map, out int shift))
            {
                ScanByMap(tails, a, c, carriers, ranks, map, shift);
                continue;
            }

            // Every prefix has to be looked up. In order of frequency neighbours in time are neighbours in the table; where only few ranks are
            // wanted it does not pay to pick them out.
            ReadOnlySpan<int> all = _unit.RanksByFrequency(k == 1);
            ReadOnlySpan<int> asked = 4 * ranks.Length > all.Length ? all : ranks;
            for (int i = 0; i < asked.Length && !_gate.Stopped; i++)
            {
                Step(1);
                if ((uint)(asked[i] - from) < (uint)(to - from))
                {
                    Ask(tails, a, c, asked[i]);
                }
            }
        }
    }

    private void ScanByMap(
        TailIndex tails, int a, int c, ReadOnlySpan<uint> carriers, ReadOnlySpan<int> ranks, ReadOnlySpan<uint> map, int shift)
    {
        while (!carriers.IsEmpty && !_gate.Stopped)
        {
            int length = Math.Min(BitmapScan.Block, carriers.Length);
            Step(length);
            int count = BitmapScan.Find(carriers[..length], unchecked((uint)_frequency), unchecked((uint)a), map, shift, _hits, _vector);
            for (int i = 0; i < count; i++)
            {
                Ask(tails, a, c, ranks[_hits[i]]);
            }

            carriers = carriers[length..];
            ranks = ranks[length..];
        }
    }

    /// <summary>Completes the prefix by a carrier and looks its tails up.</summary>
    private void Ask(TailIndex tails, int a, int c, int rank)
    {
        int times = Math.Abs(a);
        long frequency = _frequency + (a * _carrier[rank]);
        long width = _width + (times * _carrierWidth[rank]);
        long level = _level + _unit.Part(rank, times);
        _ranks[_depth] = rank;
        _coefficients[_depth] = a;
        if (!tails.Narrow.IsEmpty)
        {
            Ask(tails.Narrow, c, rank, frequency, width, level);
        }

        if (!tails.Wide.IsEmpty)
        {
            Ask(tails.Wide, c, rank, frequency, width, level);
        }
    }

    private void Ask(TailBuckets tails, int c, int rank, long frequency, long width, long level)
    {
        long half = (_unit.MaxChannel + width + (c * tails.MaxBandwidthHz)) / 2;
        tails.Near(frequency, half, out ReadOnlySpan<TailEntry> first, out ReadOnlySpan<TailEntry> second);
        Step(1 + first.Length + second.Length);
        Match(first, c, rank, frequency, width, level, half);
        if (!second.IsEmpty)
        {
            Match(second, c, rank, frequency, width, level, half);
        }
    }

    private void Match(ReadOnlySpan<TailEntry> entries, int c, int rank, long frequency, long width, long level, long half)
    {
        ulong window = 2 * (ulong)half;
        foreach (ref readonly TailEntry entry in entries)
        {
            // One branch for both questions: either alone is a coin toss to the processor.
            if (((ulong)(frequency - entry.Value + half) > window) | (entry.Rank <= rank))
            {
                continue;
            }

            int tail = entry.Rank;
            int member = entry.Member;
            if (2 * Math.Abs(frequency - entry.Value) > _channel[member] + width + (c * _carrierWidth[tail]))
            {
                continue;
            }

            // A wide one near 0 Hz may be found by both of its images: the one whose sign is that of the whole counts.
            long total = frequency + (entry.NegativeTail ? -c * _carrier[tail] : c * _carrier[tail]);
            if (total == 0 || total < 0 != entry.MirrorImage)
            {
                continue;
            }

            _ranks[_depth + 1] = tail;
            _coefficients[_depth + 1] = entry.NegativeTail ? -c : c;
            Found(member, _depth + 2, _order + Math.Abs(_coefficients[_depth]) + c, total, level + _unit.Part(tail, c));
        }
    }

    /// <summary>The vector lands on the receiver: exact level, exclusive groups, and whose product it is.</summary>
    private void Found(int member, int signals, int order, long frequency, long parts)
    {
        int stage = _unit.MemberStage[member];
        long level = parts + _unit.Constant(member, order);
        bool unknown = !_unit.WithoutLevels && parts >= SearchUnit.UnknownStrength / 2;
        if (unknown ? stage > 0 : level < _unit.Threshold(member))
        {
            return;
        }

        for (int i = 0; i < signals; i++)
        {
            _emitters[i] = _unit.Emitter[_ranks[i]];
            if (i > 0 && _unit.Exclusive.Any && _unit.Exclusive.Excludes(_emitters[i], _emitters.AsSpan(0, i)))
            {
                return;
            }
        }

        if (unknown)
        {
            level = ProductRecord.UnknownLevel;
        }
        else
        {
            if (_unit.SharesReceiver[member])
            {
                // A product belongs to the stage where it is strongest, which finds it; so no two stages report it.
                (level, int strongest) = StageLevels.Strongest(
                    _unit.Problem, _unit.Problem.Receivers[_unit.MemberReceiver[member]].Stages, _emitters.AsSpan(0, signals), _coefficients.AsSpan(0, signals), order);
                if (!_unit.WithoutLevels && strongest != stage)
                {
                    return;
                }

                stage = strongest;
            }
        }

        _buffer[_buffered++] = new ProductRecord(
            _unit.MemberReceiver[member], _emitters.AsSpan(0, signals), _coefficients.AsSpan(0, signals), frequency < 0, level, Math.Max(0, stage));
        if (_buffered == BufferLength)
        {
            Flush();
        }
    }

    private void Step(int steps)
    {
        _steps += steps;
        if (_steps > StepsPerLook)
        {
            Work += _steps;
            _steps = 0;
            _cancel.ThrowIfCancellationRequested();
            Flush();
        }
    }
}
