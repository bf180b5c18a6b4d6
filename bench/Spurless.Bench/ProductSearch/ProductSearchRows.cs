using System.Diagnostics;
using System.Globalization;
using System.Runtime.CompilerServices;

using Spurless.Mixing.Forecast;
using Spurless.Mixing.Search;

namespace Spurless.Bench.ProductSearch;

/// <summary>The rows 'Product search': the band plan of seed 1, floor 1 dB under the noise, 3 emitters per product unless said.</summary>
public static class ProductSearchRows
{
    private const string Subject = "Product search";
    private const double Floor = BandPlan.NoiseDbm - 1;
    private const double DefaultFloor = BandPlan.NoiseDbm - 20;
    private static readonly TimeSpan Budget = TimeSpan.FromSeconds(0.6);

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        AgainstPlain(3, 200),
        AgainstPlain(5, 1_500),
        AgainstPlain(7, 3_000),
        new BenchRow(
            Subject, "order 7, 2,000 emitters, 1 receiver", "<= 3 ms", static _ => Absolute(BandPlan.Problem(2_000, 1, 7, 7, Floor), 3e-3)),
        new BenchRow(
            Subject,
            "order 7, up to 7 emitters per product, 100 emitters",
            "<= 2 ms",
            static _ => Absolute(BandPlan.Problem(100, 1, 7, 7, Floor, 7), 2e-3)),
        new BenchRow(Subject, "growth in emitters 200 -> 2,000, order 7, with floor", "<= N^1.5", static _ => Growth()),
        new BenchRow(Subject, "no floor, order 5, 1,000 emitters, vs plain", ">= 150 x", static _ => WithoutFloor()),
        new BenchRow(Subject, "top 20 of each, order 3, 2,000 emitters, 100 receivers", "<= 100 ms, heap < 100 MB", static _ => Top()),
        new BenchRow(Subject, "per product stored, order 3, 2,000 emitters, 6 receivers", "<= 80 ns, <= 48 B", static _ => PerProduct()),
        new BenchRow(Subject, "orders 2-7, 200 emitters, 1 receiver, by the plain search", "< 1.5 s", static _ => PlainEveryday()),
        new BenchRow(
            Subject, "cancelled: from the token to the end, orders 2-7, 2,000 emitters, no floor", "<= 50 ms", static _ => Cancelled()),
        new BenchRow(Subject, "forecast of a list's length, orders 2-7, 2,000 emitters, no floor", "guide", static _ => OfList()),
        new BenchRow(Subject, "spectral forecast, orders 2-7, 200 emitters, 12.5 kHz bins", "guide", static _ => Forecast()),
    ];

    private static BenchRow AgainstPlain(int order, double goal) => new(
        Subject,
        string.Create(CultureInfo.InvariantCulture, $"order {order}, 200 emitters, 1 receiver, vs plain"),
        string.Create(CultureInfo.InvariantCulture, $">= {goal:#,0} x"),
        _ =>
        {
            SearchProblem problem = BandPlan.Problem(200, 1, order, order, Floor);
            (double fast, double plain, double ratio, double perVector, long found) = ByTurns(problem, problem);
            (double fastDefault, long foundDefault) = Fast(BandPlan.Problem(200, 1, order, order, DefaultFloor));
            long all = new FastSearch().Run(BandPlan.Problem(200, 1, order, order, null), new CountingSink()).Found;
            return new BenchResult(
                Timing.Text(fast), Timing.Text(plain), Timing.Times(ratio), ratio >= goal && perVector <= 8e-9,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"plain {perVector * 1e9:0.0} ns a vector; {found:#,0} of {all:#,0} products; "
                        + $"default floor (noise - 20 dB): {Timing.Text(fastDefault)}, "
                            + $"{Timing.Times(plain / fastDefault)}, {foundDefault:#,0} products"));
        });

    private static (double Seconds, long Found) Fast(SearchProblem problem, TimeSpan? budget = null)
    {
        FastSearch search = new();
        CountingSink sink = new();
        long found = 0;
        double seconds = Timing.Best(() => found = search.Run(problem, sink).Found, budget ?? Budget);
        return (seconds, found);
    }

    /// <summary>
    /// The fast search of one problem and the plain one of another, by turns; what the plain one needs for a vector by its best run.
    /// </summary>
    private static (double Fast, double Plain, double Ratio, double PerVector, long Found) ByTurns(
        SearchProblem problem, SearchProblem plainProblem)
    {
        FastSearch search = new();
        CountingSink sink = new();
        long found = 0;
        (double fast, double plain, double ratio, double best) = Timing.ByTurns(
            () => found = search.Run(problem, sink).Found, () => new PlainSearch().Run(plainProblem, sink), TimeSpan.FromSeconds(1.5));
        return (fast, plain, ratio, best / Vectors(plainProblem), found);
    }

    private static double Vectors(SearchProblem problem) =>
        VectorCount.Canonical(problem.Emitters.Length, problem.MinOrder, problem.MaxOrder, problem.MaxSignals);

    private static (double Seconds, double PerVector) Plain(SearchProblem problem)
    {
        CountingSink sink = new();
        double seconds = Timing.Best(() => new PlainSearch().Run(problem, sink), TimeSpan.FromSeconds(1), 2, 20);
        return (seconds, seconds / Vectors(problem));
    }

    private static BenchResult Absolute(SearchProblem problem, double goal)
    {
        (double seconds, long found) = Fast(problem);
        SearchProblem lower = problem with
        {
            Receivers = [.. problem.Receivers.Select(static r => r with { FloorMicroDbm = r.FloorMicroDbm - 19_000_000 })],
        };
        (double secondsLower, long foundLower) = Fast(lower);
        return new BenchResult(
            Timing.Text(seconds),
            "",
            "",
            seconds <= goal,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{found:#,0} products out of {Vectors(problem):0.0e0} vectors; default floor (noise - 20 dB): "
                    + $"{Timing.Text(secondsLower)}, {foundLower:#,0} products"));
    }

    private static BenchResult Growth()
    {
        int[] sizes = [200, 400, 800, 1_400, 2_000];
        double[] times = [.. sizes.Select(static n => Fast(BandPlan.Problem(n, 1, 7, 7, Floor)).Seconds)];
        double exponent = Math.Log(times[^1] / times[0]) / Math.Log((double)sizes[^1] / sizes[0]);
        string products = string.Join(
            " / ",
            sizes.Select(
                static n =>
                    new FastSearch().Run(BandPlan.Problem(n, 1, 7, 7, Floor), new CountingSink()).Found.ToString(
                        "#,0", CultureInfo.InvariantCulture)));
        return new BenchResult(
            string.Join(" / ", times.Select(Timing.Text)),
            "plain: N^3",
            string.Create(CultureInfo.InvariantCulture, $"N^{exponent:0.00}"),
            exponent <= 1.5,
            $"at 200 / 400 / 800 / 1,400 / 2,000 emitters; products over the floor {products}");
    }

    private static BenchResult WithoutFloor()
    {
        SearchProblem problem = BandPlan.Problem(1_000, 1, 5, 5, null);
        // Plain on 300 emitters, carried on by the number of vectors: all of it would take half the two minutes.
        SearchProblem fewer = BandPlan.Problem(300, 1, 5, 5, null);
        (double fast, double plain, double ratio, double perVector, long found) = ByTurns(problem, fewer);
        double more = Vectors(problem) / Vectors(fewer);
        return new BenchResult(
            Timing.Text(fast),
            Timing.Text(plain * more) + " (extrapolated from 300 emitters)",
            Timing.Times(ratio * more),
            ratio * more >= 150 && perVector <= 8e-9,
            string.Create(CultureInfo.InvariantCulture, $"plain {perVector * 1e9:0.0} ns a vector; {found:#,0} products"));
    }

    private static BenchResult PerProduct()
    {
        SearchProblem problem = BandPlan.Problem(2_000, 6, 3, 3, Floor);
        FastSearch search = new();
        ProductRecord[] store = new ProductRecord[8_000_000];
        StoringSink sink = new(store);
        double seconds = Timing.Best(
            () =>
            {
                sink.Count = 0;
                search.Run(problem, sink);
            },
            Budget);
        double each = seconds / sink.Count;
        int bytes = Unsafe.SizeOf<ProductRecord>();
        return new BenchResult(
            string.Create(CultureInfo.InvariantCulture, $"{each * 1e9:0} ns, {bytes} B"), "", "", each <= 80e-9 && bytes <= 48,
            string.Create(CultureInfo.InvariantCulture, $"{sink.Count:#,0} products in {Timing.Text(seconds)}, into an array"));
    }

    private static BenchResult Top()
    {
        // The heap of this row alone: what earlier ones left is taken off.
        GC.Collect();
        double left = GC.GetTotalMemory(true) / 1e6;
        SearchProblem problem = BandPlan.Problem(2_000, 100, 3, 3, Floor);
        FastSearch search = new();
        double seconds = Timing.Best(() => search.Run(problem, new TopProducts(100, 20)), TimeSpan.FromSeconds(2));
        long before = GC.GetTotalAllocatedBytes(true);
        search.Run(problem, new TopProducts(100, 20));
        double allocated = (GC.GetTotalAllocatedBytes(true) - before) / 1e6;
        double heap = (GC.GetTotalMemory(true) / 1e6) - left;
        GC.KeepAlive(search);
        return new BenchResult(
            string.Create(CultureInfo.InvariantCulture, $"{Timing.Text(seconds)}, heap {heap:0} MB"), "", "", seconds <= 0.1 && heap < 100,
            string.Create(CultureInfo.InvariantCulture, $"{allocated:0.00} MB allocated a run"));
    }

    private static BenchResult PlainEveryday()
    {
        (double seconds, double perVector) = Plain(BandPlan.Problem(200, 1, 2, 7, Floor));
        return new BenchResult(
            Timing.Text(seconds), "", "", seconds < 1.5, string.Create(CultureInfo.InvariantCulture, $"{perVector * 1e9:0.0} ns a vector"));
    }

    private static BenchResult Cancelled()
    {
        SearchProblem problem = BandPlan.Problem(2_000, 10, 2, 7, null);
        FastSearch search = new();
        List<double> taken = [];
        for (int i = 0; i < 15; i++)
        {
            using CancellationTokenSource source = new();
            Task run = Task.Run(() => search.Run(problem, new CountingSink(), null, source.Token));
            Thread.Sleep(40 + (13 * i));
            long start = Stopwatch.GetTimestamp();
            source.Cancel();
            try
            {
                run.Wait();
            }
            catch (AggregateException e) when (e.InnerException is OperationCanceledException)
            {
                taken.Add(Stopwatch.GetElapsedTime(start).TotalSeconds);
            }
        }

        return new BenchResult(
            Timing.Text(taken.Max()),
            "",
            "",
            taken.Max() <= 50e-3,
            string.Create(CultureInfo.InvariantCulture, $"longest of {taken.Count}; median {Timing.Text(Timing.Median(taken))}"));
    }

    private static BenchResult OfList()
    {
        SearchProblem problem = BandPlan.Problem(2_000, 1, 2, 7, null);
        double expected = 0;
        double error = 0;
        double seconds = Timing.Best(
            () =>
            {
                ListForecast forecast = ListForecast.Of(problem);
                (expected, error) = (forecast.Expected(0), forecast.StandardError(0));
            },
            Budget,
            2);
        CountingSink all = new();
        double whole = Timing.Once(() => new FastSearch().Run(problem, all));
        return new BenchResult(
            Timing.Text(seconds), "", "", null,
            string.Create(
                CultureInfo.InvariantCulture,
                $"forecast {expected:#,0}, standard error {error:#,0}; counted {all.Products:#,0} in {Timing.Text(whole)}"));
    }

    private static BenchResult Forecast()
    {
        long[] carriers = [.. BandPlan.Problem(200, 1, 2, 7, Floor).Emitters.Select(static e => e.FrequencyHz)];
        double seconds = Timing.Best(() => SpectralForecast.Count(carriers, 12_500, 7), Budget, 2);
        return new BenchResult(
            Timing.Text(seconds), "", "", null, "number of products of every channel, any number of emitters per product");
    }

    private sealed class StoringSink(ProductRecord[] store) : IProductSink
    {
        public int Count { get; set; }

        public bool Add(in ProductRecord product)
        {
            store[Count++] = product;
            return Count < store.Length;
        }
    }
}
