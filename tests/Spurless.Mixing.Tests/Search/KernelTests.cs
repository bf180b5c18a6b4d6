using Spurless.Mixing.Search;
using Spurless.Mixing.Search.Fast;
using Spurless.Tests.Common;

namespace Spurless.Mixing.Tests.Search;

/// <summary>The kernels alone: SIMD against its scalar twin and against the words of the definition, and what they allocate.</summary>
public class KernelTests
{
    // Oracle: the bit asked for in 128-bit arithmetic, modulo taken by hand. All lengths to a block, so that every remainder of 8 and 16
    // occurs.
    [Fact]
    public void BitmapScan_finds_the_carriers_whose_bit_is_set()
    {
        Random random = new(7);
        int[] hits = new int[BitmapScan.Block];
        int[] twin = new int[BitmapScan.Block];
        for (int length = 0; length <= BitmapScan.Block; length++)
        {
            int bits = random.Next(12, 22);
            uint[] map = new uint[1 << (bits - 5)];
            random.NextBytes(System.Runtime.InteropServices.MemoryMarshal.AsBytes(map.AsSpan()));
            long[] carriers = [.. Enumerable.Range(0, length).Select(_ => random.NextInt64(SearchProblem.MaxFrequencyHz))];
            uint[] low = [.. carriers.Select(static c => unchecked((uint)c))];
            long start = random.NextInt64(-9 * SearchProblem.MaxFrequencyHz, 9 * SearchProblem.MaxFrequencyHz);
            int step = random.Next(-9, 10);
            int shift = 32 - bits;
            int count = BitmapScan.Find(low, unchecked((uint)start), unchecked((uint)step), map, shift, hits, BitmapScan.VectorSupported);
            int other = BitmapScan.Find(low, unchecked((uint)start), unchecked((uint)step), map, shift, twin, false);
            int[] expected =
            [
                .. Enumerable.Range(0, length).Where(i =>
                {
                    Int128 modulus = (Int128)1 << 32;
                    Int128 value = (((Int128)start + ((Int128)step * carriers[i])) % modulus + modulus) % modulus;
                    int bin = (int)(value >> shift);
                    return (map[bin / 32] >> (bin % 32) & 1) != 0;
                }),
            ];
            Assert.Equal(expected, hits[..count]);
            Assert.Equal(expected, twin[..other]);
        }
    }

    // Oracle: |f - (s f_r - c f_j)|
    // <= half + reach modulo 2^32 and rank behind, in 128-bit arithmetic; every run of the table from and to any place.
    [Fact]
    public void TailFilter_finds_the_entries_near_enough_and_behind()
    {
        Random random = new(8);
        int[] hits = new int[TailFilter.Block];
        int[] twin = new int[TailFilter.Block];
        int found = 0;
        for (int trial = 0; trial < 400; trial++)
        {
            SearchUnit unit = Unit(FastSearchSizeTests.Hill(random.Next(3, 40), 2, 2, 5, 3, null));
            TailTable table = unit.Tails(random.Next(1, 5)).Table;
            int from = random.Next(table.Count);
            int to = random.Next(from, Math.Min(table.Count, from + TailFilter.Block)) + 1;
            int rank = random.Next(-1, (unit.Count / 2) + 1);
            uint half = (uint)random.Next(1 << random.Next(1, 30));
            if (half + table.MaxReachHz >= TailTable.FarHz)
            {
                continue;
            }

            long near = table.Value[random.Next(from, to)] + random.NextInt64(-2L * half - 100_000, (2L * half) + 100_000);
            uint frequency = unchecked((uint)near);
            int count = TailFilter.Find(table, from, to, frequency, half, rank, hits, BitmapScan.VectorSupported);
            int other = TailFilter.Find(table, from, to, frequency, half, rank, twin, false);
            int[] expected =
            [
                .. Enumerable.Range(from, to - from).Where(i =>
                {
                    Int128 modulus = (Int128)1 << 32;
                    Int128 apart = ((Int128)frequency - table.Value[i] + modulus) % modulus;
                    return Int128.Min(apart, modulus - apart) <= half + table.Reach[i] && table.Rank[i] > rank;
                }),
            ];
            Assert.Equal(expected, hits[..count]);
            Assert.Equal(expected, twin[..other]);
            found += count;
        }

        Assert.True(found > 400, $"{found} entries");
    }

    // Every entry that is exactly within reach stands in the runs that Near gives.
    [Fact]
    public void TailTable_near_leaves_out_no_entry_within_reach()
    {
        Random random = new(9);
        for (int trial = 0; trial < 400; trial++)
        {
            TailTable table = Unit(FastSearchSizeTests.Hill(random.Next(3, 40), 2, 2, 5, 3, null)).Tails(random.Next(1, 5)).Table;
            long half = random.NextInt64(1L << random.Next(1, 30));
            long frequency = random.NextInt64(-9 * SearchProblem.MaxFrequencyHz, 9 * SearchProblem.MaxFrequencyHz);
            (int from, int to, int secondTo) = table.Near(frequency, half);
            for (int i = 0; i < table.Count; i++)
            {
                uint apart = unchecked((uint)frequency - table.Value[i]);
                if (Math.Min(apart, unchecked(0u - apart)) <= half)
                {
                    Assert.True((i >= from && i < to) || i < secondTo);
                }
            }
        }
    }

    // Laying out, building the index, walking, looking up, judging, writing: the second time not a byte.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Kernels_that_are_warm_allocate_nothing(bool vectorised)
    {
        SearchProblem problem = FastSearchSizeTests.Hill(400, 3, 2, 5, 3, -128);
        ExclusiveGroups exclusive = new(problem);
        (int, int)[] members = [(0, 0), (1, 0), (2, 0)];
        FastSearchSizeTests.Count sink = new();
        Gate gate = new(sink);
        SearchUnit unit = new();
        Worker worker = new();
        long allocated = 0;
        for (int turn = 0; turn < 3; turn++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            unit.Prepare(problem, exclusive, members, null);
            unit.BuildIndex(default);
            worker.Begin(unit, gate, vectorised && BitmapScan.VectorSupported, false, null, default);
            for (int task = 0; task < Worker.TaskCount(unit) && worker.Do(task); task++)
            {
            }

            worker.Flush();
            allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        }

        Assert.True(sink.Products > 10_000, $"only {sink.Products} products");
        Assert.Equal(0, allocated);
    }

    [Fact]
    public void Vector_path_is_taken_exactly_where_the_processor_has_it_and_it_is_not_switched_off()
    {
        SuiteAgain.AssertInstructionsAreThoseAllowed();
        Assert.Equal(System.Runtime.Intrinsics.X86.Avx2.IsSupported, BitmapScan.VectorSupported);
    }

    // The whole of this project's suite once more in a process without AVX2, where the scalar twins do everything.
    [Fact]
    [Trait("Category", "Long")]
    public Task Suite_passes_on_a_processor_without_the_vector_instructions() => SuiteAgain.AssertPassesWithoutAsync(
        typeof(KernelTests).Assembly.Location, ["DOTNET_EnableAVX2"], TestContext.Current.CancellationToken);

    private static SearchUnit Unit(SearchProblem problem)
    {
        SearchUnit unit = new();
        unit.Prepare(
            problem, new ExclusiveGroups(problem), [.. Enumerable.Range(0, problem.Receivers.Length).Select(static r => (r, 0))], null);
        unit.BuildIndex(default);
        return unit;
    }
}
