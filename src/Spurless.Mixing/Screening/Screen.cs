using System.Collections.Concurrent;
using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Screening;

/// <summary>Screens many receivers against many emitters, on all processors. The findings do not depend on how many there are.</summary>
public static class Screen
{
    /// <summary>Screens receivers.</summary>
    /// <param name="field">The emitters.</param>
    /// <param name="receivers">The receivers.</param>
    /// <param name="options">Limits and thresholds.</param>
    /// <param name="progress">Told how many receivers are done, or null.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>One finding a receiver, in their order; emitters as indices of the list that the field was made of.</returns>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    /// <exception cref="ArgumentException">An order is not 2 to 9 (a bug of the caller).</exception>
    public static ScreenFinding[] Run(
        ScreenField field, IReadOnlyList<ScreenReceiver> receivers, ScreenOptions options, IProgress<int>? progress = null,
            CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(field);
        ArgumentNullException.ThrowIfNull(receivers);
        ArgumentNullException.ThrowIfNull(options);
        if (options.Orders.Count == 0 || options.Orders.Any(static n => n is < 2 or > Multinomial.MaxOrder))
        {
            throw new ArgumentException("Orders must be 2 to 9.", nameof(options));
        }

        if (options.Signals is < 1 or > 3)
        {
            throw new ArgumentException("Signals must be 1 to 3.", nameof(options));
        }

        ScreenFinding[] findings = new ScreenFinding[receivers.Count];
        int done = 0;
        ParallelOptions parallel =
            new() { MaxDegreeOfParallelism = options.Threads ?? Environment.ProcessorCount, CancellationToken = cancellationToken };

        // The loop takes its threads' state anew ten times a second: what a search has laid out goes from one to the next.
        ConcurrentStack<ScreenSearch> searches = [];
        Parallel.For(
            0,
            receivers.Count,
            parallel,
            () => searches.TryPop(out ScreenSearch? search) ? search : new ScreenSearch(field, options),
            (r, _, search) =>
            {
                findings[r] = search.Run(receivers[r], cancellationToken);
                progress?.Report(Interlocked.Increment(ref done));
                return search;
            },
            searches.Push);
        return findings;
    }
}
