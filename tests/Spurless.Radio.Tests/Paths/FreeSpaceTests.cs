using CsCheck;
using Spurless.Radio.Paths;

namespace Spurless.Radio.Tests.Paths;

public sealed class FreeSpaceTests
{
    /// <summary>
    /// Source: docs/checks.md 2.1; 'exact' computed with c = 299,792,458 m/s, and ITU-R P.525's rounded form 32.4 + 20 lg f + 20 lg d (from
    /// memory).
    /// </summary>
    [Theory]
    [InlineData(146, 0.1, 55.735, 55.687)]
    [InlineData(146, 1, 75.735, 75.687)]
    [InlineData(145.5, 10, 95.705, 95.657)]
    [InlineData(435, 1, 85.218, 85.170)]
    [InlineData(155, 0.03, 45.797, 45.749)]
    [InlineData(900, 5, 105.512, 105.464)]
    public void LossDb_by_the_exact_and_the_rounded_form(double megahertz, double kilometres, double exact, double rounded)
    {
        double loss = FreeSpace.LossDb(kilometres * 1000, megahertz * 1e6);
        Assert.Equal(exact, loss, 0.0006);
        Assert.Equal(rounded, loss, 0.06);
    }

    [Fact]
    public void Predict_counts_the_gains_once()
    {
        PathResult result = FreeSpace.Model.Predict(new PathGeometry
        {
            FrequencyHz = 146e6,
            DistanceM = 1000,
            TransmitterGainDbi = 8.15,
            ReceiverGainDbi = 2.15,
            LargestAntennaM = 3,
        });
        Assert.Equal(75.735, result.BasicLossDb!.Value, 0.001);
        Assert.Equal(75.735 - 10.3, result.ConnectorLossDb!.Value, 0.001);
        Assert.Empty(result.Remarks);
        Assert.Equal(new PathBasis.InFreeSpace(1000), result.Basis);
    }

    /// <summary>
    /// Far field: d not under lambda (2.0534 m at 146 MHz, docs/checks.md 2.4) nor under 2 D^2 / lambda (common practice).
    /// </summary>
    [Theory]
    [InlineData(2.06, null, true)]
    [InlineData(2.05, null, false)]
    [InlineData(24.4, 5.0, true)]
    [InlineData(24.3, 5.0, false)]
    public void Predict_refuses_the_near_field(double distance, double? size, bool predicted)
    {
        PathResult result = FreeSpace.Model.Predict(new PathGeometry { FrequencyHz = 146e6, DistanceM = distance, LargestAntennaM = size });
        Assert.Equal(predicted, result.ConnectorLossDb is not null);
        Assert.Equal(predicted, result.Refused is null);
    }

    [Theory]
    [InlineData(null, "no distance is known; give distance or coordinates, or the measured level")]
    [InlineData(-1.0, "the distance is not a number of 0 or more; give it like 30 m")]
    [InlineData(double.NaN, "the distance is not a number of 0 or more; give it like 30 m")]
    public void Predict_without_a_distance_says_what_to_give(double? distance, string expected) =>
        Assert.Equal(expected, FreeSpace.Model.Predict(new PathGeometry { FrequencyHz = 146e6, DistanceM = distance }).Refused);

    [Fact]
    public void Predict_beyond_the_horizon_and_of_unknown_size_is_marked()
    {
        PathGeometry geometry = new() { FrequencyHz = 146e6, DistanceM = 40_000, TransmitterHeightM = 30, ReceiverHeightM = 2 };
        PathRemark.BeyondHorizon beyond =
            Assert.IsType<PathRemark.BeyondHorizon>(Assert.Single(FreeSpace.Model.Predict(geometry).Remarks));
        Assert.Equal(40_000, beyond.DistanceM);
        Assert.Equal(28_400, beyond.HorizonM, 50.0);
        Assert.IsType<PathRemark.SizesNotKnown>(
            Assert.Single(FreeSpace.Model.Predict(geometry with { DistanceM = 50 }).Remarks));
    }

    /// <summary>Common practice: the radio horizon is about 4.12 (sqrt h1 + sqrt h2) km, heights in metres.</summary>
    [Fact]
    public void RadioHorizon_is_the_rule_of_thumb() =>
        Gen.Select(Gen.Double[0, 1000], Gen.Double[0, 1000]).Sample(static (h1, h2) =>
            Assert.Equal(4.12 * (Math.Sqrt(h1) + Math.Sqrt(h2)), RadioHorizon.DistanceM(h1, h2) / 1000, 0.3));

    [Fact]
    public void LossDb_grows_by_6_02_dB_with_each_doubling() =>
        Gen.Select(Gen.Double[1, 1e5], Gen.Double[1e7, 1e10]).Sample(static (d, f) =>
        {
            Assert.Equal(6.0206, FreeSpace.LossDb(2 * d, f) - FreeSpace.LossDb(d, f), 1e-4);
            Assert.Equal(6.0206, FreeSpace.LossDb(d, 2 * f) - FreeSpace.LossDb(d, f), 1e-4);
        });
}
