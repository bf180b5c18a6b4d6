using CsCheck;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Spurless.Numerics.Tests;

public sealed class NormalDistributionTests
{
    // Outside: the complementary error function of MathNet.Numerics, Q(x) = erfc(x / sqrt 2) / 2.
    [Fact]
    public void Above_agrees_with_a_general_library() => Gen.Double[-8, 30].Sample(static x =>
    {
        double theirs = SpecialFunctions.Erfc(x / Math.Sqrt(2)) / 2;
        Assert.Equal(theirs, NormalDistribution.Above(x), 1e-11 * theirs);
    });

    // Outside: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), table 26.1, from memory: Q(1), Q(2), Q(3), Q(5).
    [Theory]
    [InlineData(1, 0.158655253931)]
    [InlineData(2, 0.022750131948)]
    [InlineData(3, 0.001349898032)]
    [InlineData(5, 2.866515719e-7)]
    public void Above_gives_the_tabulated_tails(double x, double q) => Assert.Equal(q, NormalDistribution.Above(x), q * 1e-9);

    [Fact]
    public void Above_and_its_mirror_image_fill_one() => Gen.Double[-40, 40].Sample(
        static x => Assert.Equal(1, NormalDistribution.Above(x) + NormalDistribution.Above(-x), 1e-15));

    [Fact]
    public void Above_at_the_ends_is_one_and_nothing()
    {
        Assert.Equal(1, NormalDistribution.Above(double.NegativeInfinity));
        Assert.Equal(0, NormalDistribution.Above(double.PositiveInfinity));
    }

    [Fact]
    public void Between_adds_up_over_neighbours() =>
        Gen.Select(Gen.Double[-9, 9], Gen.Double[0, 5], Gen.Double[0, 5]).Sample(static (low, first, second) =>
    {
        double whole = NormalDistribution.Between(low, low + first + second);
        double parts = NormalDistribution.Between(low, low + first) + NormalDistribution.Between(low + first, low + first + second);
        Assert.Equal(whole, parts, 1e-15);
    });

    // Outside: MathNet.Numerics; the approximation's own error is 1.2e-9.
    [Fact]
    public void Quantile_agrees_with_a_general_library() => Gen.Double[1e-9, 1 - 1e-9].Sample(
        static p => Assert.Equal(Normal.InvCDF(0, 1, p), NormalDistribution.Quantile(p), 2e-9 * (1 + Math.Abs(Normal.InvCDF(0, 1, p)))));

    [Fact]
    public void Quantile_undoes_the_distribution() => Gen.Double[-6, 6].Sample(
        static x => Assert.Equal(x, NormalDistribution.Quantile(1 - NormalDistribution.Above(x)), x > 5 ? 1e-3 : 1e-7));
}
