using CsCheck;

using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

/// <summary>
/// The fast search with each of its kernels and on several threads: all properties of any search, and the plain search as oracle.
/// </summary>
public abstract class FastSearchTests : PropertyTests
{
    /// <summary>Random sites per configuration; the long run takes many more.</summary>
    private const int Sites = 1_000;

    private const int SitesLong = 30_000;

    [Fact]
    public void Run_of_any_small_site_finds_what_the_plain_search_finds() => AgainstPlain(Sites);

    [Fact]
    [Trait("Category", "Long")]
    public void Run_of_many_small_sites_finds_what_the_plain_search_finds() => AgainstPlain(SitesLong);

    [Fact]
    public void Run_into_a_list_of_the_strongest_keeps_the_first_of_all() =>
        Gen.Int.Sample(
            seed =>
            {
                SearchProblem problem = RandomSite.Create(seed);
                ProductList all = new();
                new PlainSearch().Run(problem, all);
                all.Sort();
                int keep = new Random(seed).Next(1, 12);
                TopProducts top = new(problem.Receivers.Length, keep);
                Search.Run(problem, top);
                for (int r = 0; r < problem.Receivers.Length; r++)
                {
                    Assert.Equal(all.Products.Where(p => p.Receiver == r).Take(keep), top.Of(r));
                }
            },
            iter: 500);

    private void AgainstPlain(int sites) =>
        Gen.Int.Sample(seed => Oracle.Compare(RandomSite.Create(seed), Search), iter: sites);
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

/// <summary>SIMD kernel, four threads from the first task on.</summary>
public sealed class FastSearchThreadedTests : FastSearchTests
{
    protected override IProductSearch Search { get; } = new FastSearch(new FastSearchOptions { Threads = 4, HelpFromSteps = 0 });
}

/// <summary>The comparison that the searches are held to.</summary>
internal static class Oracle
{
    public static void Compare(SearchProblem problem, IProductSearch search)
    {
        ProductList expected = new();
        new PlainSearch().Run(problem, expected);
        expected.Sort();
        ProductList list = new();
        search.Run(problem, list);
        list.Sort();
        Assert.Equal(expected.Products, list.Products);
    }
}
