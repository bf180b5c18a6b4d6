using MathNet.Numerics;

using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Tests.Levels;

public class SumTests
{
    // Check values 1.2.
    [Fact]
    public void PowerDbm_of_three_levels_is_their_sum() => Assert.Equal(-86.02, LevelSum.PowerDbm([-90, -90, -93]), 0.01);

    [Fact]
    public void VoltageDbm_of_two_equal_levels_is_six_dB_more() =>
        Assert.Equal(-90 + (20 * Math.Log10(2)), LevelSum.VoltageDbm([-90, -90]), 1e-12);

    [Fact]
    public void Sums_of_one_and_of_none_are_that_one_and_nothing()
    {
        Assert.Equal(-123.4567, LevelSum.PowerDbm([-123.4567, double.NegativeInfinity]));
        Assert.Equal(-123.4567, LevelSum.VoltageDbm([-123.4567]));
        Assert.Equal(double.NegativeInfinity, LevelSum.PowerDbm([]));
        Assert.Equal(-5000, LevelSum.PowerDbm([-5000, -6000]), 1e-9); // powers that no double holds in milliwatts
    }

    // Check values 1.6.
    [Theory]
    [InlineData(-6, 0.973)]
    [InlineData(0, 3.010)]
    [InlineData(6, 6.973)]
    public void NoiseRiseDb_of_a_product_is_as_computed(double overNoise, double rise) =>
        Assert.Equal(rise, ProductEffects.NoiseRiseDb(overNoise), 0.001);

    [Fact]
    public void NoiseRiseDb_of_a_very_strong_product_is_its_own_level() => Assert.Equal(5_000, ProductEffects.NoiseRiseDb(5_000));

    [Fact]
    public void Effects_switch_at_their_thresholds()
    {
        Assert.True(ProductEffects.OpensSquelch(7.5, 7.5));
        Assert.False(ProductEffects.OpensSquelch(7.499, 7.5));
        Assert.False(ProductEffects.SpoilsWanted(-113, -105)); // exactly 8 dB stronger: not spoilt
        Assert.True(ProductEffects.SpoilsWanted(-112.9, -105));
        Assert.True(ProductEffects.SpoilsWanted(-60, -105));
    }

    [Fact]
    public void SigmaDb_of_a_product_adds_in_squares()
    {
        // 2A-B with 2 dB and 3 dB, common 1 dB, intercept 3 dB: 16 + 9 + 9 + 36 = 70, by hand.
        Assert.Equal(Math.Sqrt(70), LevelUncertainty.SigmaDb([2, -1], [2, 3], 1, 3), 1e-12);
    }

    // Oracle: the complementary error function of a general numerics library.
    [Fact]
    public void Chance_is_the_normal_distribution_of_a_numerics_library()
    {
        for (double x = -12; x <= 12; x += 0.0625)
        {
            double expected = 0.5 * SpecialFunctions.Erfc(x / Math.Sqrt(2));
            double chance = LevelUncertainty.Chance(0, 1, x);
            // The library states about 1e-15 absolute and keeps relative digits in the tail.
            Assert.Equal(expected, chance, 1e-11 * Math.Max(expected, 1e-300));
        }

        Assert.Equal(1, LevelUncertainty.Chance(-100, 0, -100));
        Assert.Equal(0, LevelUncertainty.Chance(-100, 0, -99.9));
    }
}
