using System.Collections.Immutable;

using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>Sites of everyday size: the index, its bitmaps, blocks of SIMD and threads are then truly used.</summary>
public class FastSearchSizeTests
{
    // Each by both kernels.
    [Theory]
    [InlineData(120, 1, 2, 5, 3, -128.0)]
    [InlineData(300, 20, 2, 3, 3, -128.0)]
    [InlineData(200, 20, 2, 3, 3, null)]
    [InlineData(80, 3, 3, 5, 3, null)]
    [InlineData(24, 3, 2, 7, 5, -140.0)]
    [InlineData(12, 2, 8, 9, 9, -300.0)]
    public void Run_of_a_hill_finds_what_the_plain_search_finds(
        int emitters, int receivers, int minOrder, int maxOrder, int signals, double? floor)
    {
        SearchProblem problem = Hill(emitters, receivers, minOrder, maxOrder, signals, floor);
        ProductList expected = new();
        new PlainSearch().Run(problem, expected);
        expected.Sort();
        Assert.NotEmpty(expected.Products);
        foreach (bool vectorised in new[] { true, false })
        {
            ProductList list = new();
            new FastSearch(new FastSearchOptions { Vectorised = vectorised, HelpFromSteps = 0, Threads = 2 }).Run(problem, list);
            list.Sort();
            Assert.Equal(expected.Products, list.Products);
        }
    }

    [Fact]
    public void Run_on_one_and_on_many_threads_finds_the_same()
    {
        SearchProblem problem = Hill(400, 5, 2, 5, 3, -128);
        List<IReadOnlyList<ProductRecord>> results = [];
        foreach (int threads in new[] { 1, 2, 7 })
        {
            ProductList list = new();
            new FastSearch(new FastSearchOptions { Threads = threads, HelpFromSteps = 0 }).Run(problem, list);
            list.Sort();
            results.Add(list.Products);
        }

        Assert.True(results[0].Count > 1_000);
        Assert.Equal(results[0], results[1]);
        Assert.Equal(results[0], results[2]);
    }

    [Fact]
    public void Tally_counts_what_a_list_holds()
    {
        SearchProblem problem = Hill(120, 3, 2, 5, 3, -128);
        ProductList list = new();
        ProductTally tally = new(problem.Receivers.Length, problem.Emitters.Length);
        new FastSearch().Run(problem, list);
        new FastSearch().Run(problem, tally);
        Assert.Equal(list.Products.Count, tally.Total);
        for (int r = 0; r < 3; r++)
        {
            List<ProductRecord> own = [.. list.Products.Where(p => p.Receiver == r)];
            Assert.Equal(own.Count, tally.OfReceiver(r).Count);
            Assert.Equal(own.Max(static p => p.LevelMicroDbm), tally.OfReceiver(r).StrongestMicroDbm);
            Assert.Equal(own.Count(static p => p.Order == 3), tally.OfOrder(r, 3).Count);
            Assert.Equal(own.Count(static p => Enumerable.Range(0, p.Signals).Any(i => p.Emitter(i) == 17)), tally.OfEmitter(r, 17).Count);
        }
    }

    // Warm, a run allocates its small bookkeeping and nothing that grows with emitters, prefixes or products.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Run_that_is_warm_allocates_next_to_nothing(bool vectorised)
    {
        FastSearch search = new(new FastSearchOptions { Threads = 1, Vectorised = vectorised });
        SearchProblem problem = Hill(500, 3, 2, 5, 3, -128);
        Count sink = new();
        search.Run(problem, sink);
        long products = sink.Products;
        long before = GC.GetAllocatedBytesForCurrentThread();
        search.Run(problem, sink);
        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        Assert.True(products > 10_000, $"only {products} products");
        Assert.True(allocated < 8_192, $"{allocated} bytes");
    }

    // A token that a product pulls: the rest of the buffer is handed on, and the search is over. In time: bench/run, row 'from the token to
    // the end'.
    [Fact]
    public void Run_that_is_cancelled_midway_ends_with_the_buffer()
    {
        SearchProblem problem = Hill(2_000, 1, 2, 7, 3, null);
        using CancellationTokenSource cancel = new();
        CancelAfter sink = new(cancel, 1_000);
        Assert.Throws<OperationCanceledException>(
            () => new FastSearch(new FastSearchOptions { Threads = 1 }).Run(problem, sink, null, cancel.Token));
        Assert.InRange(sink.After, 0, 256);
    }

    // What the cancelled run had found and not handed on must not turn up in the next.
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public void Run_after_a_cancelled_one_finds_its_own(int threads)
    {
        FastSearch search = new(new FastSearchOptions { Threads = threads, HelpFromSteps = 0 });
        SearchProblem problem = Hill(120, 2, 2, 5, 3, -128);
        ProductList expected = new();
        new FastSearch().Run(problem, expected);
        expected.Sort();
        for (int products = 1; products < 3_000; products += 401)
        {
            using CancellationTokenSource cancel = new();
            Assert.Throws<OperationCanceledException>(
                () => search.Run(Hill(400, 1, 2, 7, 3, null), new CancelAfter(cancel, products), null, cancel.Token));
            ProductList list = new();
            search.Run(problem, list);
            list.Sort();
            Assert.Equal(expected.Products, list.Products);
        }
    }

    // Without a floor the products found go with the work done: prefixes left go as (1-t)^2, products (which need a tail behind) as (1-t)^3
    // of the tasks left, 0.15 apart at most; records waiting in the buffer and uneven spreading make the rest.
    [Theory]
    [InlineData(500, 3, 3)]
    [InlineData(40, 5, 5)]
    public void Run_tells_progress_in_proportion_to_the_work(int emitters, int order, int signals)
    {
        List<SearchProgress> reports = [];
        SearchOutcome outcome = new FastSearch(new FastSearchOptions { Threads = 1 }).Run(
            Hill(emitters, 20, order, order, signals, null), new Count(), new Collect(reports));
        Assert.True(reports.Count > 20);
        Assert.All(reports, r => Assert.True(
            Math.Abs(r.Fraction - ((double)r.Found / outcome.Found)) < 0.2, $"{r.Fraction}: {r.Found} of {outcome.Found}"));
    }

    // With many signals the strongest emitter alone is a good part of the work, of seven among sixteen 1 - (13/14)^6 = 36 %, of four among
    // sixty 5 %: that is not done in one step.
    [Theory]
    [InlineData(60, 6, 4, 0.03)]
    [InlineData(16, 8, 7, 0.1)]
    public void Run_with_many_signals_tells_progress_in_small_steps(int emitters, int order, int signals, double step)
    {
        List<SearchProgress> reports = [];
        new FastSearch(new FastSearchOptions { Threads = 1 }).Run(
            Hill(emitters, 40, 2, order, signals, null), new Count(), new Collect(reports));
        Assert.All(reports.Zip(reports.Skip(1)), pair => Assert.InRange(pair.Second.Fraction - pair.First.Fraction, 0, step));
        Assert.InRange(reports[0].Fraction, 0, step);
        Assert.Equal(1, reports[^1].Fraction);
    }

    [Fact]
    public void Remaining_time_is_in_proportion()
    {
        Assert.Equal(TimeSpan.FromSeconds(30), new SearchProgress(0.25, 0).Remaining(TimeSpan.FromSeconds(10)));
        Assert.Null(new SearchProgress(0.0001, 0).Remaining(TimeSpan.FromSeconds(10)));
        Assert.Equal(TimeSpan.Zero, new SearchProgress(1, 0).Remaining(TimeSpan.FromSeconds(10)));
    }

    /// <summary>Carriers on rasters between 88 and 470 MHz, levels as they spread on a hill. Invented.</summary>
    internal static SearchProblem Hill(int emitters, int receivers, int minOrder, int maxOrder, int signals, double? floorDbm)
    {
        Random random = new(5);
        SearchEmitter[] carriers = [.. Enumerable.Range(0, emitters).Select(i => (i % 10) switch
        {
            0 => new SearchEmitter(88_000_000 + (random.Next(200) * 100_000L), 180_000),
            < 5 => new SearchEmitter(146_000_000 + (random.Next(2_240) * 12_500L), 11_200),
            < 7 => new SearchEmitter(144_000_000 + (random.Next(160) * 12_500L), 16_000, i % 20 == 5),
            _ => new SearchEmitter(410_000_000 + (random.Next(4_800) * 12_500L), i % 3 == 0 ? 0 : 11_200),
        })];
        ImmutableArray<int> levels = [.. carriers.Select(_ => MicroDb.FromDecibels(-85 + (65 * random.NextDouble())))];
        Intercepts intercepts = Intercepts.Complete(-3);
        SearchStage stage = new()
        {
            LevelMicroDbm = levels,
            InterceptMicroDbm = [0, 0, .. Enumerable.Range(2, 8).Select(intercepts.MicroDbm)],
        };
        return new SearchProblem
        {
            Emitters = [.. carriers],
            Receivers = [.. Enumerable.Range(0, receivers).Select(_ => new SearchReceiver
            {
                FrequencyHz = 144_000_000 + (random.Next(2_400) * 12_500L),
                ChannelHz = 12_500,
                FloorMicroDbm = floorDbm is { } floor ? MicroDb.FromDecibels(floor) : null,
                Stages = [stage],
            })],
            MinOrder = minOrder,
            MaxOrder = maxOrder,
            MaxSignals = signals,
        };
    }

    private sealed class Collect(List<SearchProgress> reports) : IProgress<SearchProgress>
    {
        public void Report(SearchProgress value) => reports.Add(value);
    }

    internal sealed class Count : IProductSink
    {
        public long Products { get; private set; }

        public bool Add(in ProductRecord product)
        {
            Products++;
            return true;
        }
    }

    private sealed class CancelAfter(CancellationTokenSource source, int products) : IProductSink
    {
        private int _seen;

        public int After => _seen - products;

        public bool Add(in ProductRecord product)
        {
            if (++_seen == products)
            {
                source.Cancel();
            }

            return true;
        }
    }
}
