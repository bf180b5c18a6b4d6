using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;

using Spurless.Mixing.Search.Fast;

namespace Spurless.Mixing.Search;

/// <summary>How the fast search works; what it finds does not depend on it.</summary>
public sealed record FastSearchOptions
{
    /// <summary>Most threads, at least 1; null for one per processor. A second one starts only when the work is worth it.</summary>
    public int? Threads { get; init; }

    /// <summary>False forces the scalar twin of the SIMD kernel. True has no effect on a processor without the instructions.</summary>
    public bool Vectorised { get; init; } = true;

    /// <summary>
    /// Steps of work, a few nanoseconds each, that one thread does before others are called: under about 0.2 ms threads lose.
    /// </summary>
    internal long HelpFromSteps { get; init; } = 60_000;
}

/// <summary>
/// The fast search: finds exactly what <see cref="PlainSearch"/> finds, levels bit for bit, without going through all vectors.
/// </summary>
/// <remarks>
/// Emitters are sorted by strength. A vector is its weakest emitter (the tail) and the rest (the prefix). Prefixes are walked as long as
/// they can reach a threshold, tails are looked up in an index of all receivers by frequency. Memory per thread, kept for the next run: 16
/// bytes for each of at most 2^21 entries of the index (or 4 (orders - 1) per emitter, if that is more), 4 bytes for each of at most 2^20
/// buckets and two bitmaps of at most 256 KiB per multiplicity, some 150 bytes per emitter: 72 MB at most. An instance may be used by one
/// thread at a time. docs/method tells the idea; docs/performance.md the figures.
/// </remarks>
/// <param name="options">How to work; null for the defaults.</param>
public sealed class FastSearch(FastSearchOptions? options = null) : IProductSearch
{
    private readonly FastSearchOptions _options = options ?? new FastSearchOptions();
    private readonly ConcurrentStack<SearchUnit> _units = [];
    private readonly ConcurrentStack<Worker> _workers = [];

    /// <inheritdoc/>
    public SearchOutcome Run(
        SearchProblem problem, IProductSink sink, IProgress<SearchProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        problem.Validate();
        cancellationToken.ThrowIfCancellationRequested();
        Session session = new(this, problem, sink, progress, cancellationToken);
        return session.Run();
    }

    /// <summary>One run.</summary>
    private sealed class Session(
        FastSearch owner, SearchProblem problem, IProductSink sink, IProgress<SearchProgress>? progress, CancellationToken cancel)
    {
        private readonly IRisingSink? _rising = sink as IRisingSink;
        private readonly Gate _gate = new(sink);
        private readonly ExclusiveGroups _exclusive = new(problem);
        private readonly List<(int Receiver, int Stage)[]> _plan = UnitPlan.Make(problem, sink is IRisingSink);
        private readonly List<Task> _helpers = [];
        private UnitRun[] _runs = [];
        private int _nextUnit;
        private int _finished;
        private double _reported;
        private Exception? _failure;

        public SearchOutcome Run()
        {
            _runs = [.. _plan.Select(static _ => new UnitRun())];
            Work(true);
            foreach (Task helper in _helpers)
            {
                // Helpers keep their failures in _failure and end without one.
                helper.Wait(CancellationToken.None);
            }

            if (_failure is not null)
            {
                ExceptionDispatchInfo.Throw(_failure);
            }

            progress?.Report(new SearchProgress(1, _gate.Found));
            return new SearchOutcome(!_gate.StoppedBySink, _gate.Found);
        }

        private void Work(bool first)
        {
            Worker worker = owner._workers.TryPop(out Worker? kept) ? kept : new Worker();
            worker.ResetWork();
            try
            {
                // Whole units first; then help where others are still at work.
                for (int u; !_gate.Stopped && (u = Interlocked.Increment(ref _nextUnit) - 1) < _runs.Length;)
                {
                    SearchUnit unit = owner._units.TryPop(out SearchUnit? used) ? used : new SearchUnit();
                    unit.Prepare(problem, _exclusive, _plan[u], _rising);
                    unit.BuildIndex(cancel);
                    _runs[u].Open(unit);
                    WorkOn(worker, unit, _runs[u], first);
                }

                foreach (UnitRun run in _runs)
                {
                    if (run.Enter() is { } unit)
                    {
                        WorkOn(worker, unit, run, first);
                    }
                }

                // One that was cancelled is left behind with what it had not handed on.
                owner._workers.Push(worker);
            }
            catch (Exception e)
            {
                Interlocked.CompareExchange(ref _failure, e, null);
                _gate.Stop();
            }
        }

        private void WorkOn(Worker worker, SearchUnit unit, UnitRun run, bool first)
        {
            Action? pulse = first && progress is not null ? () => Report(run, worker.TaskDone) : null;
            worker.Begin(unit, _gate, owner._options.Vectorised && BitmapScan.VectorSupported, _rising is not null, pulse, cancel);
            for (int task; !_gate.Stopped && (task = run.Take()) >= 0;)
            {
                if (!worker.Do(task))
                {
                    run.EndBefore(task);
                }

                if (first)
                {
                    CallHelp(worker.Work);
                    Report(run, 1);
                }
            }

            worker.Flush();
            if (run.Leave() is { } free)
            {
                owner._units.Push(free);
            }
        }

        private void CallHelp(long work)
        {
            int threads = Math.Max(1, owner._options.Threads ?? Environment.ProcessorCount);
            while (work >= owner._options.HelpFromSteps && _helpers.Count < threads - 1)
            {
                _helpers.Add(Task.Run(() => Work(false), CancellationToken.None));
            }
        }

        /// <summary>Tells how far it all is, if that is further than was told.</summary>
        private void Report(UnitRun at, double lastTask)
        {
            if (progress is null)
            {
                return;
            }

            // Of many units only those at work are asked: what is done stays done.
            int started = Math.Min(Volatile.Read(ref _nextUnit), _runs.Length);
            while (_finished < started && _runs[_finished] != at && _runs[_finished].Fraction(1) >= 1)
            {
                _finished++;
            }

            double done = _finished;
            for (int u = _finished; u < started; u++)
            {
                done += _runs[u].Fraction(_runs[u] == at ? lastTask : 1);
            }

            double fraction = Math.Min(1, done / _runs.Length);
            if (fraction > _reported)
            {
                _reported = fraction;
                progress.Report(new SearchProgress(fraction, _gate.Found));
            }
        }
    }
}
