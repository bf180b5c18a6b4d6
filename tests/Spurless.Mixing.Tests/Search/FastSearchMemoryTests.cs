using System.Runtime.CompilerServices;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>What the fast search keeps. Alone in the process, for the heap is everybody's.</summary>
[Collection("alone")]
[CollectionDefinition("alone", DisableParallelization = true)]
public class FastSearchMemoryTests
{
    // The bound stated at FastSearch, per thread: 2^21 index entries of 16 bytes make 34 MB, 2^19 or 2^20 buckets of 4 bytes for each
    // multiplicity 8 to 17 MB, bitmaps of 2 x 256 KiB x multiplicities 1 to 4 MB, 150 bytes for each of 65,000 emitters 10 MB.
    private const long MostBytes = 72_000_000;

    [Theory]
    [InlineData(300, 2_000, 3)]
    [InlineData(60_000, 1, 9)]
    public void Run_at_the_limits_keeps_to_its_memory(int emitters, int receivers, int maxOrder)
    {
        SearchProblem problem = FastSearchSizeTests.Hill(emitters, receivers, 2, maxOrder, 3, null);
        long before = Settled();
        FastSearch search = new(new FastSearchOptions { Threads = 1 });
        SearchOutcome outcome = search.Run(problem, new ProductList(1_000));
        long kept = Settled() - before;
        GC.KeepAlive(search);
        Assert.False(outcome.Complete);
        Assert.InRange(kept, 30_000_000, MostBytes);
    }

    // A run that goes through all of it keeps no more.
    [Fact]
    public void Run_for_very_many_receivers_keeps_to_its_memory()
    {
        SearchProblem problem = FastSearchSizeTests.Hill(300, 2_000, 2, 3, 3, -100);
        long before = Settled();
        FastSearch search = new(new FastSearchOptions { Threads = 1 });
        search.Run(problem, new FastSearchSizeTests.Count());
        long kept = Settled() - before;
        GC.KeepAlive(search);
        Assert.InRange(kept, 0, MostBytes);
    }

    // Threads of the pool outlive every search: what one keeps by thread must not lead back to it.
    [Fact]
    public void Run_that_told_its_progress_is_let_go_with_the_search()
    {
        WeakReference[] left = [.. Enumerable.Range(0, 5).Select(static _ => OfOneRun())];
        Settled();
        Assert.DoesNotContain(left, static l => l.IsAlive);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static WeakReference OfOneRun()
    {
        SearchProblem problem = FastSearchSizeTests.Hill(300, 20, 2, 3, 3, -100);
        new FastSearch(new FastSearchOptions { HelpFromSteps = 0 }).Run(problem, new FastSearchSizeTests.Count(), new Untold());
        return new WeakReference(problem);
    }

    private sealed class Untold : IProgress<SearchProgress>
    {
        public void Report(SearchProgress value)
        {
        }
    }

    // What an earlier search left is let go of in two steps: it is waited for by finalizers.
    private static long Settled()
    {
        for (int i = 0; i < 3; i++)
        {
            GC.Collect();
            GC.WaitForPendingFinalizers();
        }

        return GC.GetTotalMemory(true);
    }
}
