namespace Spurless.Mixing.Search.Fast;

/// <summary>One thread's finder: looks the tails of a completed prefix up, judges each exactly, and hands on what is found.</summary>
internal sealed class Finder
{
    private const int BufferLength = 256;

    /// <summary>Steps of work between two looks at the token; a step is a few nanoseconds.</summary>
    private const int StepsPerLook = 20_000;

    private readonly int[] _near = new int[TailFilter.Block];
    private readonly ProductRecord[] _buffer = new ProductRecord[BufferLength];
    private readonly Prefix _prefix;
    private SearchUnit _unit = null!;
    private Gate _gate = null!;
    private CancellationToken _cancel;
    private Action? _pulse;
    private bool _vector;
    private bool _rising;
    private long[] _carrier = [];
    private long[] _carrierWidth = [];
    private long[] _channel = [];
    private int _buffered;
    private int _steps;

    public Finder(Prefix prefix) => _prefix = prefix;

    /// <summary>Work done since <see cref="ResetWork"/>, in steps.</summary>
    public long Work { get; private set; }

    public void Begin(SearchUnit unit, Gate gate, bool vector, bool rising, Action? pulse, CancellationToken cancel)
    {
        (_unit, _gate, _vector, _rising, _pulse, _cancel) = (unit, gate, vector, rising, pulse, cancel);
        (_carrier, _carrierWidth, _channel) = (unit.Emitters.Frequency, unit.Emitters.Bandwidth, unit.MemberChannel);
        (_steps, _buffered) = (0, 0);
    }

    /// <summary>Starts counting work anew.</summary>
    public void ResetWork() => Work = 0;

    /// <summary>Counts work, and now and then looks at the token and hands on what is found.</summary>
    public void Step(int steps)
    {
        _steps += steps;
        if (_steps > StepsPerLook)
        {
            Look();
        }
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

    /// <summary>One emitter alone, n times.</summary>
    public void Harmonic(int rank, int n)
    {
        Step(_unit.MemberCount);
        long frequency = n * _carrier[rank];
        long width = n * _carrierWidth[rank];
        long parts = _unit.Emitters.Part(rank, n);
        for (int m = 0; m < _unit.MemberCount; m++)
        {
            if (2 * Math.Abs(frequency - _unit.MemberFrequency[m]) <= _channel[m] + width
                && parts + _unit.Constant(m, n) >= _unit.Threshold(m))
            {
                _prefix.Ranks[0] = rank;
                _prefix.Coefficients[0] = n;
                Land(m, 1, n, frequency, parts);
            }
        }
    }

    /// <summary>Completes the prefix by the carrier of a rank, taken a times, and looks its tails up.</summary>
    public void Ask(TailIndex tails, int a, int c, int rank)
    {
        int times = Math.Abs(a);
        TailTable table = tails.Table;
        long frequency = _prefix.Frequency + (a * _carrier[rank]);
        long width = _prefix.Width + (times * _carrierWidth[rank]);
        long half = (width + 1) / 2;
        _prefix.Ranks[_prefix.Depth] = rank;
        _prefix.Coefficients[_prefix.Depth] = a;
        if (half + table.MaxReachHz >= TailTable.FarHz)
        {
            AskAll(tails, a, c, frequency, width);
            return;
        }

        (int from, int to, int secondTo) = table.Near(frequency, half + table.MaxReachHz);
        Step(1 + to - from + secondTo);
        if (from < to)
        {
            AskRun(tails, a, c, rank, from, to, frequency, width);
        }

        if (secondTo > 0)
        {
            AskRun(tails, a, c, rank, 0, secondTo, frequency, width);
        }
    }

    private void AskRun(TailIndex tails, int a, int c, int rank, int from, int to, long frequency, long width)
    {
        uint half = (uint)((width + 1) / 2);
        for (int begin = from; begin < to; begin += TailFilter.Block)
        {
            int end = Math.Min(to, begin + TailFilter.Block);
            int count = TailFilter.Find(tails.Table, begin, end, unchecked((uint)frequency), half, rank, _near, _vector);
            if (count > 0)
            {
                Judge(tails, a, c, frequency, width, _near.AsSpan(0, count));
            }
        }
    }

    /// <summary>The same where the prefix reaches so far that frequencies modulo 2^32 say nothing.</summary>
    private void AskAll(TailIndex tails, int a, int c, long frequency, long width)
    {
        int rank = _prefix.Ranks[_prefix.Depth];
        int count = tails.Table.Count;
        Step(count);
        for (int i = 0; i < count; i++)
        {
            if (tails.Table.Rank[i] > rank)
            {
                _near[0] = i;
                Judge(tails, a, c, frequency, width, _near.AsSpan(0, 1));
            }
        }
    }

    /// <summary>Asks exactly, in 64 bits, whether the tails land and reach their thresholds.</summary>
    private void Judge(TailIndex tails, int a, int c, long frequency, long width, ReadOnlySpan<int> entries)
    {
        int depth = _prefix.Depth;
        int times = Math.Abs(a);
        int order = _prefix.Order + times + c;
        long level = _prefix.Level + _unit.Emitters.Part(_prefix.Ranks[depth], times);
        foreach (int entry in entries)
        {
            int tail = tails.Table.Rank[entry];
            int target = tails.Table.Target[entry];
            int member = target >> 2;
            long parts = level + tails.Part[tail];
            if (parts + _unit.Constant(member, order) < _unit.Threshold(member))
            {
                continue;
            }

            int k = (target & 1) != 0 ? -c : c;
            bool mirrored = (target & 2) != 0;
            long total = frequency + (k * _carrier[tail]);
            long at = mirrored ? -_unit.MemberFrequency[member] : _unit.MemberFrequency[member];
            // A wide one near 0 Hz may be found by both of its images: the one whose sign is that of the whole counts.
            if (2 * Math.Abs(total - at) > _channel[member] + width + (c * _carrierWidth[tail]) || total == 0 || total < 0 != mirrored)
            {
                continue;
            }

            _prefix.Ranks[depth + 1] = tail;
            _prefix.Coefficients[depth + 1] = k;
            Land(member, depth + 2, order, total, parts);
        }
    }

    /// <summary>
    /// The vector lands on the receiver and reaches its threshold or is of unknown level: exclusive groups, and whose product it is.
    /// </summary>
    private void Land(int member, int signals, int order, long frequency, long parts)
    {
        int stage = _unit.MemberStage[member];
        bool unknown = !_unit.WithoutLevels && parts >= RankedEmitters.UnknownStrength / 2;
        if (unknown && stage > 0)
        {
            return;
        }

        Span<int> emitters = _prefix.Emitters.AsSpan(0, signals);
        ReadOnlySpan<int> coefficients = _prefix.Coefficients.AsSpan(0, signals);
        int[] emitterOf = _unit.Emitters.Emitter;
        for (int i = 0; i < emitters.Length; i++)
        {
            emitters[i] = emitterOf[_prefix.Ranks[i]];
        }

        if (_unit.Exclusive.Any && AnyExcluded(emitters))
        {
            return;
        }

        long level = unknown ? ProductRecord.UnknownLevel : parts + _unit.Constant(member, order);
        if (!unknown && _unit.SharesReceiver[member])
        {
            // A product belongs to the stage where it is strongest, which finds it; so no two stages report it.
            (level, int strongest) = StageLevels.Strongest(
                _unit.Problem, _unit.Problem.Receivers[_unit.MemberReceiver[member]].Stages, emitters, coefficients, order);
            if (!_unit.WithoutLevels && strongest != stage)
            {
                return;
            }

            stage = strongest;
        }

        ProductRecord.Write(
            ref _buffer[_buffered++], _unit.MemberReceiver[member], emitters, coefficients, frequency < 0, level, Math.Max(0, stage));
        if (_buffered == BufferLength)
        {
            // A sink may take its time: the token is looked at with every buffer.
            Look();
        }
    }

    private bool AnyExcluded(ReadOnlySpan<int> emitters)
    {
        for (int i = 1; i < emitters.Length; i++)
        {
            if (_unit.Exclusive.Excludes(emitters[i], emitters[..i]))
            {
                return true;
            }
        }

        return false;
    }

    private void Look()
    {
        Work += _steps;
        _steps = 0;
        _cancel.ThrowIfCancellationRequested();
        Flush();
        _pulse?.Invoke();
    }
}
