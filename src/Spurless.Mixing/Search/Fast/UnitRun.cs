namespace Spurless.Mixing.Search.Fast;

/// <summary>A unit while it is being searched: which tasks are given out, and who works on it.</summary>
internal sealed class UnitRun
{
    private readonly Lock _lock = new();
    private SearchUnit? _unit;
    private int _next;
    private int _users;
    private int _end;
    private int _prefix = 1;

    /// <summary>Opens it for helpers. The opener is the first user.</summary>
    public void Open(SearchUnit unit)
    {
        lock (_lock)
        {
            (_unit, _next, _users) = (unit, 0, 1);
            _end = Worker.TaskCount(unit);
            _prefix = Math.Max(1, Math.Min(unit.Problem.MaxSignals, unit.MaxOrder) - 1);
        }
    }

    /// <summary>Joins in, if there is anything left to do.</summary>
    public SearchUnit? Enter()
    {
        lock (_lock)
        {
            if (_unit is null || Volatile.Read(ref _next) >= Volatile.Read(ref _end))
            {
                return null;
            }

            _users++;
            return _unit;
        }
    }

    /// <summary>Leaves; the last one to leave gets the unit back, to be used again.</summary>
    public SearchUnit? Leave()
    {
        lock (_lock)
        {
            if (--_users > 0 || _unit is null)
            {
                return null;
            }

            SearchUnit unit = _unit;
            (_unit, _next) = (null, int.MaxValue - 1_000);
            return unit;
        }
    }

    /// <summary>Next task, or -1.</summary>
    public int Take()
    {
        if (Volatile.Read(ref _next) >= Volatile.Read(ref _end))
        {
            return -1;
        }

        int task = Interlocked.Increment(ref _next) - 1;
        return task < Volatile.Read(ref _end) ? task : -1;
    }

    /// <summary>No task from this one on can find anything.</summary>
    public void EndBefore(int task)
    {
        lock (_lock)
        {
            Volatile.Write(ref _end, Math.Min(_end, task));
        }
    }

    /// <summary>
    /// Part of the work that the tasks given out so far make, 0 to 1. A task chooses the strongest emitter; what is left to choose from
    /// falls with each, so of prefixes of p emitters the part (1 - t)^p is still to come.
    /// </summary>
    /// <param name="last">How much of the last of them is done.</param>
    public double Fraction(double last)
    {
        // Task 0, harmonics and mixtures of two, is as nothing beside the others.
        int next = Volatile.Read(ref _next) - 1;
        int end = Volatile.Read(ref _end) - 1;
        if (end <= 0 || (next >= end && last >= 1))
        {
            return next < 0 ? 0 : last;
        }

        double before = Math.Pow(1 - ((double)Math.Clamp(next - 1, 0, end) / end), _prefix);
        double after = Math.Pow(1 - ((double)Math.Clamp(next, 0, end) / end), _prefix);
        return 1 - before + (last * (before - after));
    }
}
