using CsCheck;

using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>The fast search with each of its kernels and on several threads: all properties of any search, and the plain search as oracle.</summary>
public abstract class FastSearchTests : PropertyTests
{
    /// <summary>Sites per configuration.</summary>
    private const int Sites = 1_500;

    [Fact]
    public void Run_of_any_small_site_finds_what_the_plain_search_finds() =>
        Gen.Int.Sample(
            seed =>
            {
                SearchProblem problem = RandomSite.Create(seed);
                ProductList expected = new();
                new PlainSearch().Run(problem, expected);
                expected.Sort();
                ProductList list = new();
                Search.Run(problem, list);
                list.Sort();
                Assert.Equal(expected.Products, list.Products);
            },
            iter: Sites,
            threads: 1);
}

/// <summary>SIMD kernel, one thread.</summary>
public sealed class FastSearchVectorisedTests : FastSearchTests
{
    protected override IProductSearch Search { get; } = new FastSearch(new FastSearchOptions { Threads = 1 });
}

/// <summary>Scalar kernel, one thread.</summary>
public sealed class FastSearchScalarTests : FastSearchTests
{
    protected override IProductSearch Search { get; } = new FastSearch(new FastSearchOptions { Threads = 1, Vectorised = false });
}
