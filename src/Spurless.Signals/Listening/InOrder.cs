using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;

namespace Spurless.Signals.Listening;

/// <summary>Works on several things at once and hands the results on in order.</summary>
internal static class InOrder
{
    /// <summary>Works on each; the next is taken from the source where one of those in work is done.</summary>
    /// <param name="source">The things, asked for one at a time.</param>
    /// <param name="atOnce">How many are worked on at once.</param>
    /// <param name="work">What is done with each.</param>
    /// <param name="take">Gets the results in the source's order, one at a time.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public static void Run<TItem, TResult>(IEnumerable<TItem> source, int atOnce, Func<TItem, TResult> work, Action<TResult> take,
        CancellationToken cancellationToken)
    {
        Dictionary<long, TResult> waiting = [];
        long next = 0;
        ParallelOptions options = new() { MaxDegreeOfParallelism = atOnce, CancellationToken = cancellationToken };
        try
        {
            Parallel.ForEach(Partitioner.Create(source, EnumerablePartitionerOptions.NoBuffering), options, (item, _, index) =>
            {
                TResult done = work(item);
                lock (waiting)
                {
                    waiting.Add(index, done);
                    while (waiting.Remove(next, out TResult? first))
                    {
                        take(first);
                        next++;
                    }
                }
            });
        }
        catch (AggregateException failed) when (failed.InnerExceptions.Count > 0)
        {
            // What reading or working threw is what the caller wants to see, not that it was done by several.
            ExceptionDispatchInfo.Throw(failed.InnerExceptions[0]);
        }
    }
}
