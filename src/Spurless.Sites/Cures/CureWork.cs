using System.Collections.Concurrent;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Cures;

/// <summary>
/// Tries many sets of steps at once; the order of what comes back is that of what was asked, however many threads there are.
/// </summary>
/// <param name="trial">Tries one.</param>
/// <param name="none">The receiver without a list.</param>
/// <param name="harmful">Harmful mixtures as it is.</param>
/// <param name="progress">Told after each, or null.</param>
/// <param name="cancellation">Stops it.</param>
internal sealed class CureWork(
    CureTrial trial, CuredReceiver none, int harmful, IProgress<CureProgress>? progress, CancellationToken cancellation)
{
    private readonly Lock _lock = new();
    private readonly List<Cure?> _all = [];
    private readonly ConcurrentDictionary<Cure, Cure?> _finished = new(ReferenceEqualityComparer.Instance);
    private int _tried, _quiet;

    /// <summary>Whether one of those tried leaves nothing harmful.</summary>
    public bool Ends => _quiet > 0;

    /// <summary>Tries sets.</summary>
    /// <param name="sets">The sets.</param>
    /// <returns>What each does; those left out that cannot be done here.</returns>
    public IReadOnlyList<(Cure Cure, Dictionary<ProductRow, double> Levels)> Try(CureStep[][] sets)
    {
        (Cure Cure, Dictionary<ProductRow, double> Levels)?[] results = new (Cure, Dictionary<ProductRow, double>)?[sets.Length];
        int first, of;
        lock (_lock)
        {
            first = _all.Count;
            _all.AddRange(Enumerable.Repeat<Cure?>(null, sets.Length));
            of = _all.Count;
        }

        Parallel.For(
            0,
            sets.Length,
            new ParallelOptions { CancellationToken = cancellation },
            static () => new StudyMemory(),
            (i, _, memory) =>
            {
                results[i] = trial.Try(sets[i], memory, cancellation);
                int tried, quiet;
                lock (_lock)
                {
                    _all[first + i] = results[i]?.Cure;
                    _quiet += results[i] is { Cure.EndsIt: true } ? 1 : 0;
                    (tried, quiet) = (++_tried, _quiet);
                }

                progress?.Report(new CureProgress(none.Before.Name, tried, of, quiet, List));
                return memory;
            },
            static _ => { });
        return [.. results.Where(static r => r is not null).Select(static r => r!.Value)];
    }

    /// <summary>
    /// The list of what has been tried until now, best first: each way of it written into the site file's text, read of that and studied.
    /// </summary>
    public CuredReceiver List()
    {
        Cure[] cures;
        int tried;
        lock (_lock)
        {
            (cures, tried) = ([.. _all.OfType<Cure>()], _tried);
        }

        Cure[] helping = [.. cures.Where(c => c.Harmful < harmful || c.Steps[0] is ToneSquelchStep)];
        Cure[] able = helping, kept;
        Cure?[] finished;
        do
        {
            // What cannot be written into this file is no way out; what it stood in front of is then looked at again.
            able = [.. able.Where(c => !_finished.TryGetValue(c, out Cure? written) || written is not null)];
            kept = [.. CureOrder.Undominated(able)];
            finished = new Cure?[kept.Length];
            Parallel.For(
                0,
                kept.Length,
                new ParallelOptions { CancellationToken = cancellation },
                static () => new StudyMemory(),
                (i, _, memory) =>
                {
                    finished[i] = _finished.GetOrAdd(kept[i], c => trial.Finished(c, memory, cancellation));
                    return memory;
                },
                static _ => { });
        }
        while (finished.Contains(null));
        return none with
        {
            Cures = [.. finished.OfType<Cure>()],
            Tried = tried,
            Dominated = able.Length - kept.Length,
            Useless = cures.Length - able.Length,
            Combined = cures.Any(static c => c.Steps.Count > 1),
        };
    }
}
