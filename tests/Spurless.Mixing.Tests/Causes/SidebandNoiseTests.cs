using CsCheck;
using MathNet.Numerics.Integration;
using Spurless.Mixing.Causes;

namespace Spurless.Mixing.Tests.Causes;

public sealed class SidebandNoiseTests
{
    [Fact]
    public void IntegratedDbc_one_point_is_density_plus_bandwidth()
    {
        SidebandNoise noise = SidebandNoise.FromPoints(new NoisePoint(1e6, -145));

        // By hand: -145 + 10 lg 8000 = -145 + 39.0309.
        Assert.Equal(-105.9691, noise.IntegratedDbc(600_000, 8_000), 4);
        Assert.Equal(-105.9691, noise.IntegratedDbc(-600_000, 8_000), 4);
    }

    [Theory]
    [InlineData(10_000, -100)]
    [InlineData(100_000, -120)]
    [InlineData(316_227.766, -130)] // half way in lg between 100 kHz and 1 MHz
    [InlineData(1_000_000, -140)]
    [InlineData(1_000, -100)] // end held
    [InlineData(5_000_000, -140)] // end held
    public void DensityDbcPerHz_follows_lg_offset_and_holds_the_ends(double offsetHz, double expected)
    {
        SidebandNoise noise = SidebandNoise.FromPoints(new NoisePoint(1e6, -140), new NoisePoint(1e4, -100), new NoisePoint(1e5, -120));

        Assert.Equal(expected, noise.DensityDbcPerHz(offsetHz), 6);
        Assert.Equal(expected, noise.DensityDbcPerHz(-offsetHz), 6);
    }

    [Fact]
    public void IntegratedDbc_agrees_with_numeric_quadrature()
    {
        // Oracle: the general numerics library's Gauss-Legendre rule over the density, piece by piece between the kinks.
        Gen.Select(
            Gen.Double[-180, -60].Array[2, 4], Gen.Double[3, 4], Gen.Double[0.2, 1.2], Gen.Double[0, 7e5], Gen.Double[100, 4e4]).Sample(
            (densities, start, step, offset, width) =>
            {
                NoisePoint[] points = [.. densities.Select((d, i) => new NoisePoint(Math.Pow(10, start + (i * step)), d))];
                SidebandNoise noise = SidebandNoise.FromPoints(points);
                double[] edges = [.. new[] { offset - (width / 2), offset + (width / 2), 0 }
                    .Concat(points.SelectMany(static p => new[] { p.OffsetHz, -p.OffsetHz }))
                    .Where(e => e >= offset - (width / 2) && e <= offset + (width / 2)).Order()];
                double power = 0;
                for (int i = 1; i < edges.Length; i++)
                {
                    // A steep piece over a decade needs cutting finer than one rule of 128 points.
                    for (int cut = 0; cut < 16; cut++)
                    {
                        double from = edges[i - 1] + ((edges[i] - edges[i - 1]) * cut / 16);
                        double to = edges[i - 1] + ((edges[i] - edges[i - 1]) * (cut + 1) / 16);
                        power += GaussLegendreRule.Integrate(f => Math.Pow(10, noise.DensityDbcPerHz(f) / 10), from, to, 128);
                    }
                }

                Assert.Equal(10 * Math.Log10(power), noise.IntegratedDbc(offset, width), 6);
            },
            iter: 300);
    }

    [Fact]
    public void Assumption_speaks_only_away_from_the_points()
    {
        SidebandNoise one = SidebandNoise.FromPoints(new NoisePoint(1e6, -145));
        SidebandNoise two = SidebandNoise.FromPoints(new NoisePoint(1e5, -120), new NoisePoint(1e6, -145));

        Assert.Equal(
            new Assumption(AssumptionKind.NoiseAtOneOffset) { Of = "a", FromHz = 1_000_000, ToHz = 600_000 }, one.AssumedAt(-600_000, "a"));
        Assert.Null(one.AssumedAt(1_000_000, "a"));
        Assert.Null(two.AssumedAt(600_000, "a"));
        Assert.Equal(
            new Assumption(AssumptionKind.NoiseHeld) { FromHz = 1_000_000, ToHz = 5_000_000 }, two.AssumedAt(5_000_000, null));
    }

    [Fact]
    public void FromPoints_refuses_what_is_no_course()
    {
        Assert.Throws<ArgumentException>(() => SidebandNoise.FromPoints());
        Assert.Throws<ArgumentException>(() => SidebandNoise.FromPoints(new NoisePoint(0, -100)));
        Assert.Throws<ArgumentException>(() => SidebandNoise.FromPoints(new NoisePoint(1, double.NaN)));
        Assert.Throws<ArgumentException>(() => SidebandNoise.FromPoints(new NoisePoint(1, -100), new NoisePoint(1, -90)));
    }
}
