using CsCheck;

using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Search;

public class PlainSearchTests : PropertyTests
{
    protected override IProductSearch Search { get; } = new PlainSearch();

    // Oracle: all integer vectors by brute force, written apart from the search (BruteForce.cs).
    [Fact]
    public void Run_of_any_small_site_finds_what_brute_force_finds() =>
        Gen.Int.Sample(
            seed =>
            {
                SearchProblem problem = RandomSite.Create(seed);
                ProductList list = new();
                new PlainSearch().Run(problem, list);
                list.Sort();
                Assert.Equal(BruteForce.Search(problem), list.Products);
            },
            iter: 1_000);

    [Fact]
    public void Record_takes_at_most_48_bytes() => Assert.True(System.Runtime.CompilerServices.Unsafe.SizeOf<ProductRecord>() <= 48);
}
