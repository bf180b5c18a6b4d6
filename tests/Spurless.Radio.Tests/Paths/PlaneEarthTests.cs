using System.Numerics;
using CsCheck;
using Spurless.Radio.Paths;

namespace Spurless.Radio.Tests.Paths;

public sealed class PlaneEarthTests
{
    private static readonly PathGeometry _geometry = new()
    {
        FrequencyHz = 146e6,
        TransmitterHeightM = 30,
        ReceiverHeightM = 2,
        DistanceM = 1000,
        LargestAntennaM = 1,
    };

    /// <summary>Source: docs/checks.md 2.3, formula from memory, computed.</summary>
    [Theory]
    [InlineData(1000, 30, 2, 84.437)]
    [InlineData(5000, 30, 1.5, 114.895)]
    [InlineData(10000, 100, 1.5, 116.478)]
    public void LossDb_over_level_ground(double distance, double h1, double h2, double expected) =>
        Assert.Equal(expected, PlaneEarth.LossDb(distance, h1, h2), 0.0006);

    [Fact]
    public void BreakPointM_is_where_free_space_is_met()
    {
        double breakPoint = PlaneEarth.BreakPointM(30, 2, 146e6);
        Assert.Equal(367.2, breakPoint, 0.05); // docs/checks.md 2.3, computed
        Assert.Equal(FreeSpace.LossDb(breakPoint, 146e6), PlaneEarth.LossDb(breakPoint, 30, 2), 1e-9);
    }

    /// <summary>
    /// Second derivation: direct ray and reflection with coefficient -1 added as waves over their true lengths, well beyond the break
    /// point.
    /// </summary>
    [Fact]
    public void LossDb_is_that_of_two_rays_far_out()
    {
        double distance = 50 * PlaneEarth.BreakPointM(30, 2, 146e6);
        double waveNumber = 2 * Math.PI * 146e6 / 299_792_458;
        double direct = Math.Sqrt(distance * distance + 28 * 28);
        double reflected = Math.Sqrt(distance * distance + 32 * 32);
        Complex sum = (Complex.Exp(new Complex(0, -waveNumber * direct)) / direct) - (
            Complex.Exp(new Complex(0, -waveNumber * reflected)) / reflected);
        double loss = -20 * Math.Log10(sum.Magnitude / (2 * waveNumber));
        Assert.Equal(loss, PlaneEarth.LossDb(distance, 30, 2), 0.01);
    }

    [Fact]
    public void Predict_is_continuous_and_never_under_free_space() =>
        Gen.Select(Gen.Double[2, 100], Gen.Double[1, 50], Gen.Double[50e6, 500e6], Gen.Double[0.01, 100]).Sample(static (h1, h2, f, part) =>
        {
            double breakPoint = PlaneEarth.BreakPointM(h1, h2, f);
            PathGeometry geometry = new()
            {
                FrequencyHz = f,
                TransmitterHeightM = h1,
                ReceiverHeightM = h2,
                LargestAntennaM = 0,
                DistanceM = breakPoint * part,
            };
            if (PlaneEarth.Model.Predict(geometry).BasicLossDb is { } loss)
            {
                Assert.True(loss >= FreeSpace.LossDb(breakPoint * part, f) - 1e-9);
            }

            double just = 1e-7;
            double? below = PlaneEarth.Model.Predict(geometry with { DistanceM = breakPoint * (1 - just) }).BasicLossDb;
            double? above = PlaneEarth.Model.Predict(geometry with { DistanceM = breakPoint * (1 + just) }).BasicLossDb;
            if (below is { } b && above is { } a)
            {
                Assert.Equal(b, a, 1e-5);
            }
        });

    [Fact]
    public void Predict_nearer_than_the_break_point_takes_free_space_and_says_so()
    {
        PathResult result = PlaneEarth.Model.Predict(_geometry with { DistanceM = 300 });
        Assert.Equal(FreeSpace.LossDb(300, 146e6), result.BasicLossDb);
        PathRemark.WithinBreakPoint near = Assert.IsType<PathRemark.WithinBreakPoint>(Assert.Single(result.Remarks));
        Assert.Equal(367.2, near.BreakPointM, 0.05);
        Assert.Equal(300, near.DistanceM);
        Assert.Equal(new PathBasis.WithinBreakPoint(near.BreakPointM, 300), result.Basis);
    }

    [Theory]
    [InlineData(null, 2.0)]
    [InlineData(30.0, null)]
    [InlineData(30.0, 0.0)]
    public void Predict_without_both_heights_is_refused(double? h1, double? h2) => Assert.Equal(
        "plane earth needs the heights of both antennas above 0; give height: 20 m with each antenna",
        PlaneEarth.Model.Predict(_geometry with { TransmitterHeightM = h1, ReceiverHeightM = h2 }).Refused);
}
