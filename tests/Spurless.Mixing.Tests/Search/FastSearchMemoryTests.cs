using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>What the fast search keeps. Alone in the process, for the heap is everybody's.</summary>
[Collection("alone")]
[CollectionDefinition("alone", DisableParallelization = true)]
public class FastSearchMemoryTests
{
    // The bound stated at FastSearch: 2^21 index entries of 16 bytes, as many buckets of 4 bytes, bitmaps of 2 x 256 KiB x multiplicities; 64 MB with what is around it.
    [Fact]
    public void Run_for_very_many_receivers_keeps_to_its_memory()
    {
        SearchProblem problem = FastSearchSizeTests.Hill(300, 2_000, 2, 3, 3, -100);
        long before = GC.GetTotalMemory(true);
        FastSearch search = new(new FastSearchOptions { Threads = 1 });
        search.Run(problem, new FastSearchSizeTests.Count());
        long kept = GC.GetTotalMemory(true) - before;
        GC.KeepAlive(search);
        Assert.True(kept < 64_000_000, $"{kept} bytes");
    }
}
