using CsCheck;
using Spurless.Radio.Paths;

namespace Spurless.Radio.Tests.Paths;

public sealed class OkumuraHataTests
{
    private static readonly PathGeometry _geometry = new()
    {
        FrequencyHz = 160e6,
        TransmitterHeightM = 50,
        ReceiverHeightM = 5,
        DistanceM = 5000,
    };

    /// <summary>
    /// Source: docs/checks.md 2.2, computed there from the coefficients of Hata 1980 as quoted in public copies (no published numeric
    /// example was found).
    /// </summary>
    [Theory]
    [InlineData(150, 30, 1.5, 1, 106.117, 99.654, 82.430)]
    [InlineData(155, 50, 1.5, 10, 137.194, 130.689, 113.470)]
    [InlineData(450, 30, 1.5, 5, 143.177, 134.867, 117.221)]
    [InlineData(900, 30, 1.5, 1, 126.403, 116.461, 97.897)]
    [InlineData(900, 30, 1.5, 5, 151.024, 141.082, 122.518)]
    [InlineData(900, 100, 3, 10, 147.153, 137.210, 118.646)]
    [InlineData(900, 50, 1.5, 10, 157.109, 147.166, 128.603)]
    public void Predict_in_range_is_the_formula(
        double megahertz, double hb, double hm, double kilometres, double urban, double suburban, double open)
    {
        PathGeometry geometry = new()
        {
            FrequencyHz = megahertz * 1e6,
            DistanceM = kilometres * 1000,
            TransmitterHeightM = hb,
            ReceiverHeightM = hm,
        };
        Assert.Equal(urban, OkumuraHata.Urban.Predict(geometry).BasicLossDb!.Value, 0.0006);
        Assert.Equal(suburban, OkumuraHata.Suburban.Predict(geometry).BasicLossDb!.Value, 0.0006);
        Assert.Equal(open, OkumuraHata.Open.Predict(geometry).BasicLossDb!.Value, 0.0006);
        Assert.Empty(OkumuraHata.Open.Predict(geometry).Remarks);

        // The higher antenna is the base, whichever transmits.
        PathGeometry turned = geometry with { TransmitterHeightM = hm, ReceiverHeightM = hb };
        Assert.Equal(urban, OkumuraHata.Urban.Predict(turned).BasicLossDb!.Value, 0.0006);
    }

    [Theory]
    [InlineData(145e6, 5000, 50, 5, PathFigure.Frequency, 145e6, 150e6, 1500e6)]
    [InlineData(160e6, 900, 50, 5, PathFigure.Distance, 900, 1000, 20_000)]
    [InlineData(160e6, 5000, 25, 5, PathFigure.HigherAntenna, 25, 30, 200)]
    [InlineData(160e6, 5000, 50, 12, PathFigure.LowerAntenna, 12, 1, 10)]
    public void Predict_just_out_of_range_is_marked(
        double hertz, double distance, double h1, double h2, PathFigure figure, double value, double from, double to)
    {
        PathResult result = OkumuraHata.Urban.Predict(
            _geometry with { FrequencyHz = hertz, DistanceM = distance, TransmitterHeightM = h1, ReceiverHeightM = h2 });
        Assert.NotNull(result.ConnectorLossDb);
        Assert.Equal(new PathRemark.OutsideFit("hata urban", figure, value, from, to), Assert.Single(result.Remarks));
    }

    [Theory]
    [InlineData(50e6, 5000, 50, 5)]
    [InlineData(2400e6, 5000, 50, 5)]
    [InlineData(160e6, 650, 50, 5)]
    [InlineData(160e6, 31000, 50, 5)]
    [InlineData(160e6, 5000, 19, 5)]
    [InlineData(160e6, 5000, 50, 20)]
    [InlineData(160e6, 5000, 50, 0.5)]
    public void Predict_far_out_of_range_is_refused(double hertz, double distance, double h1, double h2)
    {
        PathResult result = OkumuraHata.Urban.Predict(
            _geometry with { FrequencyHz = hertz, DistanceM = distance, TransmitterHeightM = h1, ReceiverHeightM = h2 });
        Assert.Null(result.ConnectorLossDb);
        Assert.Contains("is outside the model's", result.Refused!, StringComparison.Ordinal);
    }

    [Fact]
    public void Predict_of_less_than_free_space_takes_free_space_and_says_so()
    {
        PathResult result = OkumuraHata.Open.Predict(_geometry with { DistanceM = 1000, TransmitterHeightM = 200, ReceiverHeightM = 10 });
        Assert.Equal(FreeSpace.LossDb(1000, 160e6), result.BasicLossDb);
        Assert.Equal(new PathRemark.LessThanFreeSpace("hata open"), Assert.Single(result.Remarks));
    }

    [Fact]
    public void Predict_without_heights_is_refused() => Assert.Equal(
        "hata urban needs the heights of both antennas; give height: 20 m with each antenna",
        OkumuraHata.Urban.Predict(_geometry with { ReceiverHeightM = null }).Refused);

    [Fact]
    public void Predict_loses_more_with_distance_and_with_houses_and_never_less_than_free_space() =>
        Gen.Select(Gen.Double[150e6, 1500e6], Gen.Double[30, 200], Gen.Double[1, 10], Gen.Double[1000, 10_000]).Sample(
        static (f, hb, hm, d) =>
        {
            PathGeometry geometry = new() { FrequencyHz = f, DistanceM = d, TransmitterHeightM = hb, ReceiverHeightM = hm };
            double open = OkumuraHata.Open.Predict(geometry).BasicLossDb!.Value;
            double suburban = OkumuraHata.Suburban.Predict(geometry).BasicLossDb!.Value;
            double urban = OkumuraHata.Urban.Predict(geometry).BasicLossDb!.Value;
            Assert.True(open <= suburban && suburban <= urban);
            Assert.True(open >= FreeSpace.LossDb(d, f) - 1e-9);
            Assert.True(OkumuraHata.Urban.Predict(geometry with { DistanceM = 2 * d }).BasicLossDb > urban);
        });
}
