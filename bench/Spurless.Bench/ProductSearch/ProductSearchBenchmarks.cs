using BenchmarkDotNet.Attributes;

using Spurless.Mixing.Search;

namespace Spurless.Bench.ProductSearch;

/// <summary>Plain against fast for BenchmarkDotNet: 200 carriers, one receiver, to the report floor.</summary>
[MemoryDiagnoser]
public class ProductSearchBenchmarks
{
    private readonly PlainSearch _plain = new();
    private readonly FastSearch _fast = new();
    private readonly CountingSink _sink = new();
    private SearchProblem _problem = BandPlan.Problem(200, 1, 3, 3, null);

    /// <summary>Order of the products.</summary>
    [Params(3, 5, 7)]
    public int Order { get; set; }

    /// <summary>Makes the problem.</summary>
    [GlobalSetup]
    public void Setup() => _problem = BandPlan.Problem(200, 1, Order, Order, BandPlan.NoiseDbm - 1);

    /// <summary>The baseline.</summary>
    [Benchmark(Baseline = true)]
    public long Plain() => _plain.Run(_problem, _sink).Found;

    /// <summary>The fast search.</summary>
    [Benchmark]
    public long Fast() => _fast.Run(_problem, _sink).Found;
}

/// <summary>Counts products.</summary>
internal sealed class CountingSink : IProductSink
{
    public long Products { get; set; }

    public bool Add(in ProductRecord product)
    {
        Products++;
        return true;
    }
}
