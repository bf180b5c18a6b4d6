using CsCheck;
using Spurless.Radio.Noise;

namespace Spurless.Radio.Tests.Noise;

/// <summary>
/// Source of figures: docs/checks.md 1.6, computed from k = 1.380649e-23 J/K and T0 = 290 K; tolerance 0.01 dB as printed there.
/// </summary>
public sealed class ThermalNoiseTests
{
    [Fact]
    public void Density_is_that_of_290_kelvin()
    {
        Assert.Equal(-173.975, ThermalNoise.DensityDbmPerHz, 0.0005);

        // 300 K, by the same constant: 10 lg(300 / 290) higher.
        Assert.Equal(-173.828, ThermalNoise.DensityDbmPerHz + 10 * Math.Log10(300 / ThermalNoise.ReferenceKelvin), 0.0005);
    }

    [Theory]
    [InlineData(7_500, 0, -135.23)]
    [InlineData(11_000, 0, -133.56)]
    [InlineData(12_000, 0, -133.18)]
    [InlineData(15_000, 0, -132.21)]
    [InlineData(16_000, 0, -131.93)]
    [InlineData(12_000, 6, -127.18)]
    [InlineData(12_000, 10, -123.18)]
    [InlineData(8_000, 6, -128.94)] // the demo's receiver, docs/checks.md 9
    public void FloorDbm_of_bandwidth_and_figure(double hertz, double figure, double expected) =>
        Assert.Equal(expected, ThermalNoise.FloorDbm(hertz, figure), 0.006);

    [Fact]
    public void FloorDbm_out_of_range_is_refused_by_name()
    {
        Assert.Equal("bandwidthHz", Assert.Throws<ArgumentOutOfRangeException>(() => ThermalNoise.FloorDbm(0, 6)).ParamName);
        Assert.Equal("bandwidthHz", Assert.Throws<ArgumentOutOfRangeException>(() => ThermalNoise.FloorDbm(double.NaN, 6)).ParamName);
        Assert.Equal(
            "noiseFigureDb", Assert.Throws<ArgumentOutOfRangeException>(() => ThermalNoise.FloorDbm(1, double.PositiveInfinity)).ParamName);
    }

    [Theory]
    [InlineData(-6, 0.973)]
    [InlineData(0, 3.010)]
    [InlineData(6, 6.973)]
    [InlineData(double.NegativeInfinity, 0)]
    [InlineData(4000, 4000)]
    public void RiseDb_of_what_adds_itself(double over, double expected) => Assert.Equal(expected, ThermalNoise.RiseDb(over), 0.0005);

    /// <summary>
    /// Against the sum of powers written out; far down the rise is x ln(10)/10 of a dB ratio, which must not be lost in rounding.
    /// </summary>
    [Fact]
    public void RiseDb_is_the_power_sum_and_keeps_its_digits_far_down()
    {
        Gen.Double[-100, 100].Sample(static x =>
            Assert.Equal(ThermalNoise.SumDbm(0, x), ThermalNoise.RiseDb(x), 1e-9));
        Assert.Equal(1e-20 * 10 / Math.Log(10), ThermalNoise.RiseDb(-200), 1e-30);
    }

    [Fact]
    public void SumDbm_adds_powers()
    {
        Assert.Equal(-86.02, ThermalNoise.SumDbm(-90, -90, -93), 0.005); // docs/checks.md 1.2
        Assert.Equal(double.NegativeInfinity, ThermalNoise.SumDbm());
        Assert.Equal(-50, ThermalNoise.SumDbm(-50, double.NegativeInfinity), 1e-12);
        Assert.Equal(5003.0103, ThermalNoise.SumDbm(5000, 5000), 1e-4);
    }

    [Fact]
    public void SumDbm_in_any_order_is_the_sum_in_milliwatts() =>
        Gen.Double[-150, 30].Array[1, 8].Sample(static levels =>
        {
            double milliwatts = levels.Sum(static p => Math.Pow(10, p / 10));
            Assert.Equal(10 * Math.Log10(milliwatts), ThermalNoise.SumDbm(levels), 1e-9);
            Array.Reverse(levels);
            Assert.Equal(10 * Math.Log10(milliwatts), ThermalNoise.SumDbm(levels), 1e-9);
        });
}
