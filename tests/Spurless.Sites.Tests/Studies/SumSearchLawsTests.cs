using System.Collections.Immutable;
using CsCheck;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Tests.Studies;

/// <summary>The greatest sum of products that can be on together, against trying every way to switch the members of all groups.</summary>
public sealed class SumSearchLawsTests
{
    private static readonly Gen<(SumBundle[] Bundles, ImmutableArray<ImmutableArray<int>> Groups)> _cases =
        from members in Gen.Int[1, 8]
        from bundles in Gen.Select(Gen.Int[0, members - 1].Array[1, 3], Gen.Int[1, 1000]).Array[1, 10]
        from groups in Gen.Int[0, members - 1].Array[2, 4].Array[0, 4]
        select (
            bundles.Select(static b => new SumBundle([.. b.Item1.Distinct()], b.Item2)).ToArray(),
            groups.Select(static g => g.Distinct().ToImmutableArray()).ToImmutableArray());

    // Of each group at most one is on; every set of members that keeps to it is tried.
    private static double Plain(SumBundle[] bundles, ImmutableArray<ImmutableArray<int>> groups)
    {
        double best = 0;
        for (int on = 0; on < 1 << 8; on++)
        {
            if (groups.All(g => g.Count(m => (on >> m & 1) != 0) <= 1))
            {
                best = Math.Max(best, bundles.Where(b => b.Needs.All(m => (on >> m & 1) != 0)).Sum(static b => b.Power));
            }
        }

        return best;
    }

    [Fact]
    public void Greatest_is_what_trying_all_finds() => _cases.Sample(static (bundles, groups) =>
    {
        (double found, bool bound) = SumSearch.Greatest(bundles, groups, CancellationToken.None);
        Assert.False(bound);
        Assert.Equal(Plain(bundles, groups), found, 1e-9);
    }, iter: 500);

    /// <summary>One more group can only take away, one more product only add; k times every power is k times the sum.</summary>
    [Fact]
    public void Greatest_falls_with_groups_and_rises_with_products() => Gen.Select(_cases, Gen.Double[0.1, 10]).Sample(static (one, k) =>
    {
        double Of(SumBundle[] bundles, ImmutableArray<ImmutableArray<int>> groups) =>
            SumSearch.Greatest(bundles, groups, CancellationToken.None).Milliwatts;
        double all = Of(one.Bundles, one.Groups);
        if (one.Groups.Length > 0)
        {
            Assert.True(Of(one.Bundles, one.Groups.RemoveAt(0)) >= all - 1e-9);
        }

        if (one.Bundles.Length > 1)
        {
            Assert.True(Of(one.Bundles[1..], one.Groups) <= all + 1e-9);
        }

        Assert.Equal(k * all, Of([.. one.Bundles.Select(b => b with { Power = k * b.Power })], one.Groups), 1e-6);
        Assert.Equal(one.Bundles.Sum(static b => b.Power), Of(one.Bundles, []), 1e-9);
    });
}
