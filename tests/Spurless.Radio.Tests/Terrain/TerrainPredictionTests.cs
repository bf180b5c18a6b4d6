using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;

namespace Spurless.Radio.Tests.Terrain;

public sealed class TerrainPredictionTests
{
    [Fact]
    public void Of_a_path_in_range_is_the_model_with_its_parts()
    {
        TerrainProfile profile = ReferencePaths.Profile("ridge_10km");
        TerrainPrediction prediction = TerrainPrediction.Of(profile, ReferencePaths.Conditions("ridge_10km", 50), 5);
        Assert.Equal(120.4908523, prediction.LossDb!.Value, 1e-7);
        Assert.Equal(TerrainMechanism.Diffraction, prediction.Mechanism);
        Assert.Equal(28.49553647, prediction.Parts!.DiffractionDb, 1e-7);
        Assert.False(prediction.Sight!.IsClear);
        Assert.Equal(6500, prediction.Sight.Worst.DistanceM, 1e-6);
        Assert.Null(prediction.Outside);
        Assert.Equal(
            prediction.SigmaDb!.Value,
            Math.Sqrt(Math.Pow(prediction.Sigma!.Value.LocationDb, 2) + Math.Pow(prediction.Sigma.Value.DataDb, 2) + Math.Pow(
                prediction.Sigma.Value.ModelDb, 2)),
            1e-12);
    }

    [Fact]
    public void Sigma_grows_with_the_error_of_the_heights_and_behind_a_ridge()
    {
        TerrainProfile ridge = Shapes.Even(20_000, 401, static d => Math.Max(0, 250 - Math.Abs(d - 9000) / 8));
        TerrainProfile flat = Shapes.Even(2_000, 101, static _ => 0);
        double Sigma(TerrainProfile profile, double error) =>
            TerrainPrediction.Of(profile, Shapes.Usual with { TransmitterHeightM = 60, ReceiverHeightM = 60 }, error).SigmaDb!.Value;
        Assert.True(Sigma(ridge, 20) > Sigma(ridge, 1));
        Assert.True(Sigma(ridge, 1) > Sigma(flat, 1));
        Assert.InRange(Sigma(flat, 1), 3, 4);
    }

    /// <summary>A parabola h = c d^2 of 2c = 2e-5 per m lies h'' step^2 / 8 = 0.025 m under its chord of 100 m.</summary>
    [Fact]
    public void Between_points_the_ground_stands_off_by_its_bend()
    {
        TerrainProfile parabola = Shapes.Even(10_000, 101, static d => 1e-5 * d * d);
        Assert.Equal(0.025, TerrainSigma.BetweenPointsM(parabola), 1e-9);
    }

    [Theory]
    [InlineData(200, 145e6, 30, 10, RangeFigure.Length, 200, TerrainMechanism.FreeSpace, SimplePath.FreeSpace)]
    [InlineData(200, 145e6, 2, 1, RangeFigure.Length, 200, TerrainMechanism.PlaneEarth, SimplePath.PlaneEarth)]
    [InlineData(5000, 10e9, 60, 60, RangeFigure.Frequency, 10e9, TerrainMechanism.FreeSpace, SimplePath.FreeSpace)]
    [InlineData(5000, 145e6, 200, 0.5, RangeFigure.ReceiverHeight, 0.5, TerrainMechanism.PlaneEarth, SimplePath.PlaneEarth)]
    [InlineData(30_000, 145e6, 5, 0.5, RangeFigure.ReceiverHeight, 0.5, TerrainMechanism.Diffraction, SimplePath.Edges)]
    public void Of_a_path_outside_the_range_says_what_was_taken(
        double lengthM, double hz, double ht, double hr, RangeFigure figure, double value, TerrainMechanism mechanism, SimplePath taken)
    {
        TerrainPrediction prediction = TerrainPrediction.Of(
            Shapes.Even(lengthM, 21, static _ => 0),
                Shapes.Usual with { FrequencyHz = hz, TransmitterHeightM = ht, ReceiverHeightM = hr }, 5);
        Assert.Equal(new RangeExcess(figure, value), prediction.Outside!.Excess);
        Assert.Equal(taken, prediction.Outside.Taken);
        Assert.Equal(taken == SimplePath.Edges ? prediction.Sight!.EdgesLossDb : 0, prediction.Outside.EdgesLossDb);
        Assert.Equal(mechanism, prediction.Mechanism);
        Assert.Equal(10, prediction.SigmaDb);
        Assert.Null(prediction.Parts);
        Assert.True(prediction.LossDb >= prediction.FreeSpaceDb - 1e-9);
    }

    [Fact]
    public void Of_a_short_path_over_a_wall_adds_its_edge()
    {
        TerrainProfile wall = Shapes.Even(200, 21, static d => Math.Abs(d - 100) < 1 ? 60 : 0);
        TerrainPrediction prediction = TerrainPrediction.Of(wall, Shapes.Usual, 5);
        Assert.Equal(FreeSpace.LossDb(Math.Sqrt(200 * 200 + 400), 145e6) + prediction.Sight!.EdgesLossDb, prediction.LossDb!.Value, 1e-9);
        Assert.True(prediction.Sight.EdgesLossDb > 20);
    }

    [Fact]
    public void Of_an_impossible_or_endless_path_refuses()
    {
        TerrainProfile endless = Shapes.Even(3_100_000, 101, static _ => 0);
        Assert.Contains("3,000", TerrainPrediction.Of(endless, Shapes.Usual, 5).Refused, StringComparison.Ordinal);

        // It is the length that nothing holds for, whatever else lies outside.
        Assert.StartsWith(
            "3100 km is outside ITU-R P.1812",
            TerrainPrediction.Of(endless, Shapes.Usual with { FrequencyHz = 20e6 }, 5).Refused,
            StringComparison.Ordinal);
        Assert.Contains("latitude", TerrainPrediction.Of(
            Shapes.Even(10_000, 11, static _ => 0), Shapes.Usual with { LatitudeDegrees = 95 }, 5).Refused, StringComparison.Ordinal);

        Assert.NotNull(TerrainPrediction.Of(
            Shapes.Even(1, 3, static _ => 0), Shapes.Usual with { TransmitterHeightM = 2, ReceiverHeightM = 2 }, 5).Refused);
    }

    [Fact]
    public void TerrainPath_counts_gains_once_and_carries_its_sigma_and_remarks()
    {
        TerrainProfile profile = ReferencePaths.Profile("ridge_10km");
        TerrainRemark.VoidsFilled voids = new(2, 101, 30, EndFilled: false);
        TerrainPath path = TerrainPath.Over(profile, ReferencePaths.Conditions("ridge_10km", 50), 5, false, voids);
        PathResult result = path.Predict(new PathGeometry
        {
            FrequencyHz = 95.3e6,
            TransmitterHeightM = 60,
            ReceiverHeightM = 7,
            DistanceM = 10_000,
            TransmitterGainDbi = 5,
            ReceiverGainDbi = 2,
        });
        Assert.Equal(120.4908523 - 7, result.ConnectorLossDb!.Value, 1e-7);
        Assert.Equal("terrain", result.Model);
        Assert.True(result.SigmaDb > 5);
        Assert.Equal([voids], result.Remarks);
        TerrainBasis.OverGround basis = Assert.IsType<TerrainBasis.OverGround>(result.Basis);
        Assert.Equal(TerrainMechanism.Diffraction, basis.Mechanism);
        Assert.Equal(120.4908523 - FreeSpace.LossDb(10_000, 95.3e6), basis.OverFreeSpaceDb, 0.1);
    }
}
