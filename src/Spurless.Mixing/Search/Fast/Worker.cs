namespace Spurless.Mixing.Search.Fast;

/// <summary>
/// One thread's walk through a unit. Every vector is cut in one way: its weakest emitter is the tail, the rest the prefix; tails are not
/// gone through but looked up.
/// </summary>
internal sealed class Worker
{
    /// <summary>How many emitters deep a task's progress is followed: finer than that nobody sees.</summary>
    private const int FollowedDepth = 3;

    private readonly Prefix _prefix = new();
    private readonly Finder _finder;
    private readonly int[] _hits = new int[BitmapScan.Block];
    private SearchUnit _unit = null!;
    private Gate _gate = null!;
    private bool _vector;
    private int _maxSignals;

    // Part of the task that is done, and the part that what is being done makes of it.
    private bool _follows;
    private double _done;
    private double _part;

    public Worker() => _finder = new Finder(_prefix);

    /// <summary>Work done since the beginning, in steps.</summary>
    public long Work => _finder.Work;

    /// <summary>Part of the task at hand that is done, 0 to 1, by the number of prefixes; followed only where someone is told.</summary>
    public double TaskDone => _done;

    /// <summary>Turns to a unit.</summary>
    /// <param name="unit">The unit.</param>
    /// <param name="gate">Takes the products.</param>
    /// <param name="vector">Whether to use the SIMD twins.</param>
    /// <param name="rising">Whether thresholds rise.</param>
    /// <param name="pulse">Called every some hundred microseconds of work, or null.</param>
    /// <param name="cancel">Stops the work.</param>
    public void Begin(SearchUnit unit, Gate gate, bool vector, bool rising, Action? pulse, CancellationToken cancel)
    {
        (_unit, _gate, _vector, _follows) = (unit, gate, vector, pulse is not null);
        _maxSignals = unit.Problem.MaxSignals;
        _finder.Begin(unit, gate, vector, rising, pulse, cancel);
    }

    /// <summary>Starts counting work anew.</summary>
    public void ResetWork() => _finder.ResetWork();

    /// <summary>Number of tasks of a unit: harmonics and mixtures of two, then one for each strongest emitter.</summary>
    public static int TaskCount(SearchUnit unit) =>
        1 + (unit.Problem.MaxSignals > 2 ? Math.Min(unit.LeadingRanks(), Math.Max(0, unit.Count - 2)) : 0);

    /// <summary>Does one task. False: this one and all behind it can reach no threshold.</summary>
    public bool Do(int task)
    {
        _prefix.Clear();
        (_done, _part) = (0, 1);
        bool more = DoPart(task);
        _done = 1;
        return more;
    }

    private bool DoPart(int task)
    {
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
    public void Flush() => _finder.Flush();

    private void Harmonics()
    {
        for (int rank = 0; rank < _unit.Count && !_gate.Stopped; rank++)
        {
            bool any = false;
            for (int n = _unit.MinOrder; n <= _unit.MaxOrder; n++)
            {
                if ((n * _unit.Emitters.Strength[rank]) - Bounds.Penalty[n] >= _unit.Need(n))
                {
                    any = true;
                    _finder.Harmonic(rank, n);
                }
            }

            if (!any)
            {
                return;
            }
        }
    }

    /// <summary>
    /// Appends the emitter of a rank with each multiplicity and sign, and goes through what can stand behind it. False: it is too weak, and
    /// so is every later one.
    /// </summary>
    private bool ExtendBy(int rank)
    {
        Prefix prefix = _prefix;
        RankedEmitters emitters = _unit.Emitters;
        int depth = prefix.Depth;
        if (_unit.Exclusive.Any && _unit.Exclusive.Excludes(emitters.Emitter[rank], prefix.Emitters.AsSpan(0, depth)))
        {
            return true;
        }

        (int order, long frequency, long width, long level, bool wide) = (
            prefix.Order, prefix.Frequency, prefix.Width, prefix.Level, prefix.Wide);
        (double at, double part) = (_done, _part);
        bool follows = _follows && depth < FollowedDepth;
        int signs = depth == 0 ? 1 : 2;
        long strength = emitters.Strength[rank];
        bool reaches = false;
        prefix.Ranks[depth] = rank;
        prefix.Emitters[depth] = emitters.Emitter[rank];
        for (int a = 1; a <= _unit.MaxOrder - order - 2; a++)
        {
            double share = follows ? part * Share(a, _unit.MaxOrder - order) / signs : 0;
            double end = at + (signs * share);
            if (!CanReach(order + a, level + (a * strength) - Bounds.Penalty[a], _maxSignals - depth - 1, strength))
            {
                at = end;
                continue;
            }

            reaches = true;
            long known = level + emitters.Part(rank, a);
            if (!CanReach(order + a, known, _maxSignals - depth - 1, strength))
            {
                at = end;
                continue;
            }

            for (int sign = 1; sign > -signs; sign -= 2)
            {
                if (follows)
                {
                    (_done, _part) = (at, share);
                    at += share;
                }

                prefix.Coefficients[depth] = sign * a;
                prefix.Depth = depth + 1;
                prefix.Order = order + a;
                prefix.Frequency = frequency + (sign * a * emitters.Frequency[rank]);
                prefix.Width = width + (a * emitters.Bandwidth[rank]);
                prefix.Level = known;
                prefix.Wide = wide || emitters.IsWide[rank];
                Behind(rank);
            }

            at = end;
        }

        if (follows)
        {
            (_done, _part) = (at, part);
        }

        prefix.Depth = depth;
        (prefix.Order, prefix.Frequency, prefix.Width, prefix.Level, prefix.Wide) = (order, frequency, width, level, wide);
        return reaches;
    }

    /// <summary>All that can stand behind the prefix as it is, whose last rank is given.</summary>
    private void Behind(int last)
    {
        ScanPrefixes(last);
        if (_prefix.Depth + 2 < _maxSignals && _prefix.Order + 3 <= _unit.MaxOrder)
        {
            (double from, double part) = (_done, _part);
            double at = from;
            bool follows = _follows && _prefix.Depth < FollowedDepth;
            for (int next = last + 1; next < _unit.Count - 1 && !_gate.Stopped; next++)
            {
                _finder.Step(1);
                if (follows)
                {
                    // Of prefixes of p more emitters the part (1 - t)^p is still to come when the part t of the choices for the first one
                    // is gone.
                    double left = 1 - ((next - last) / (double)(_unit.Count - 2 - last));
                    double to = from + (part * (1 - Math.Pow(Math.Max(0, left), _maxSignals - 1 - _prefix.Depth)));
                    (_done, _part) = (at, to - at);
                    at = to;
                }

                if (!ExtendBy(next))
                {
                    break;
                }
            }
        }
    }

    /// <summary>Of the ways to share out coefficients from this emitter on, the part in which it is taken a times.</summary>
    private double Share(int a, int room)
    {
        // Orders are shared out among the emitters still to come, at least one each: ever fewer ways as a grows.
        int more = Math.Min(_maxSignals, _unit.MaxOrder) - _prefix.Depth - 1;
        double all = 0;
        for (int b = 1; b <= room - 2; b++)
        {
            all += VectorCount.Binomial(room - b, Math.Min(more, room - b));
        }

        return VectorCount.Binomial(room - a, Math.Min(more, room - a)) / all;
    }

    /// <summary>
    /// Whether a prefix can still reach a threshold with at least two more orders on at least one and at most so many more emitters.
    /// </summary>
    private bool CanReach(int order, long level, int slots, long strength)
    {
        for (int n = Math.Max(_unit.MinOrder, order + 2); n <= _unit.MaxOrder; n++)
        {
            if (level + Bounds.Most(n - order, slots, strength) >= _unit.Need(n))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Completes the prefix by one more emitter, with every multiplicity and sign, and asks for tails.</summary>
    private void ScanPrefixes(int last)
    {
        int room = _unit.MaxOrder - _prefix.Order;
        for (int a = 1; a < room; a++)
        {
            for (int c = Math.Max(1, _unit.MinOrder - _prefix.Order - a); c <= room - a; c++)
            {
                TailIndex tails = _unit.Tails(c);
                if (tails.IsEmpty)
                {
                    continue;
                }

                // The tail is no stronger than the carrier in front of it, so (a + c) times that one's strength bounds both.
                long need = _unit.Need(_prefix.Order + a + c) - _prefix.Level + Bounds.Penalty[a] + Bounds.Penalty[c];
                int to = Math.Min(_unit.Emitters.Reaching(need, a + c), _unit.Count - 1);
                _finder.Step(4);
                if (to > last + 1)
                {
                    Scan(tails, a, c, last + 1, to);
                    if (_prefix.Depth > 0)
                    {
                        Scan(tails, -a, c, last + 1, to);
                    }
                }
            }
        }
    }

    private void Scan(TailIndex tails, int a, int c, int from, int to)
    {
        for (int k = 0; k < (_unit.Emitters.HasWide ? 2 : 1); k++)
        {
            ReadOnlySpan<uint> carriers = _unit.Emitters.Carriers(k == 1, from, to, out ReadOnlySpan<int> ranks);
            if (tails.TryGetMap(_prefix.Wide || k == 1, out ReadOnlySpan<uint> map, out int shift))
            {
                ScanByMap(tails, a, c, carriers, ranks, map, shift);
                continue;
            }

            // Every prefix has to be looked up. In order of frequency neighbours in time are neighbours in the table; where only few ranks
            // are wanted it does not pay to pick them out.
            ReadOnlySpan<int> all = _unit.Emitters.ByFrequency(k == 1);
            ReadOnlySpan<int> asked = 4 * ranks.Length > all.Length ? all : ranks;
            for (int i = 0; i < asked.Length && !_gate.Stopped; i++)
            {
                _finder.Step(1);
                if ((uint)(asked[i] - from) < (uint)(to - from))
                {
                    _finder.Ask(tails, a, c, asked[i]);
                }
            }
        }
    }

    private void ScanByMap(
        TailIndex tails, int a, int c, ReadOnlySpan<uint> carriers, ReadOnlySpan<int> ranks, ReadOnlySpan<uint> map, int shift)
    {
        uint start = unchecked((uint)_prefix.Frequency);
        while (!carriers.IsEmpty && !_gate.Stopped)
        {
            int length = Math.Min(BitmapScan.Block, carriers.Length);
            _finder.Step(length);
            int count = BitmapScan.Find(carriers[..length], start, unchecked((uint)a), map, shift, _hits, _vector);
            for (int i = 0; i < count; i++)
            {
                _finder.Ask(tails, a, c, ranks[_hits[i]]);
            }

            carriers = carriers[length..];
            ranks = ranks[length..];
        }
    }
}
