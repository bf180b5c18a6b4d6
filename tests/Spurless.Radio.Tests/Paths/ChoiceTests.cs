using Spurless.Radio.Paths;

namespace Spurless.Radio.Tests.Paths;

/// <summary>
/// The order of trust, fixed by the project's pages: measured, then as given, then plane earth over known ground beyond its break point,
/// then free space.
/// </summary>
public sealed class ChoiceTests
{
    private static readonly PathGeometry _geometry = new()
    {
        FrequencyHz = 146e6,
        DistanceM = 5000,
        TransmitterHeightM = 30,
        ReceiverHeightM = 2,
        TransmitterGroundM = 100,
        ReceiverGroundM = 100,
        TransmitterGainDbi = 8.15,
        ReceiverGainDbi = 2.15,
        LargestAntennaM = 3,
    };

    [Theory]
    [InlineData(5000, 30.0, 2.0, "plane earth", PathChoice.EndsKnown)]
    [InlineData(300, 30.0, 2.0, "free space", PathChoice.WithinBreakPoint)]
    [InlineData(5000, null, 2.0, "free space", PathChoice.HeightsAndGroundsNotKnown)]
    [InlineData(5000, 30.0, 0.0, "free space", PathChoice.HeightsAndGroundsNotKnown)]
    public void Predict_without_a_choice_goes_by_geometry_and_says_so(double distance, double? h1, double? h2, string model, PathChoice why)
    {
        PathResult result = PathModels.Predict(
            null, _geometry with { DistanceM = distance, TransmitterHeightM = h1, ReceiverHeightM = h2 });
        Assert.Equal(model, result.Model);
        Assert.Equal(why, result.Choice);
    }

    /// <summary>Heights alone say nothing of the ground between: free space, said to be the most, sigma 10 dB.</summary>
    [Theory]
    [InlineData(null, 100.0)]
    [InlineData(100.0, null)]
    [InlineData(null, null)]
    public void Predict_without_a_ground_is_the_most_it_can_be(double? g1, double? g2)
    {
        PathResult result = PathModels.Predict(null, _geometry with { TransmitterGroundM = g1, ReceiverGroundM = g2 });
        Assert.Equal("free space", result.Model);
        Assert.Equal(10, result.SigmaDb);
        Assert.Contains(new PathRemark.GroundNotKnown(HeightsKnown: true), result.Remarks);
        Assert.Equal(PathChoice.GroundsNotKnown, result.Choice);
    }

    /// <summary>
    /// 20 m on a hill 300 m over the valley stand 320 m over the ground that reflects: 20 lg(320 / 20) = 24.08 dB less than over their
    /// own ground, by hand. Which end stands on the hill does not matter.
    /// </summary>
    [Fact]
    public void Predict_from_a_hill_counts_the_height_over_the_valley()
    {
        PathGeometry flat = _geometry with { DistanceM = 40_000, TransmitterHeightM = 15, ReceiverHeightM = 20 };
        PathGeometry hill = flat with { ReceiverGroundM = 400 };
        double low = PathModels.Predict(null, flat).BasicLossDb!.Value;
        PathResult high = PathModels.Predict(null, hill);
        Assert.Equal("plane earth", high.Model);
        Assert.Equal(low - (20 * Math.Log10(16)), high.BasicLossDb!.Value, 1e-9);
        PathGeometry turned = hill with { TransmitterHeightM = 20, ReceiverHeightM = 15, TransmitterGroundM = 400, ReceiverGroundM = 100 };
        Assert.Equal(high.BasicLossDb!.Value, PathModels.Predict(null, turned).BasicLossDb!.Value, 1e-9);
        PathResult named = PathModels.Predict(PlaneEarth.Model, hill);
        Assert.Equal(high.BasicLossDb, named.BasicLossDb);
        PathGeometry unknown = hill with { TransmitterGroundM = null };
        Assert.Equal(low, PathModels.Predict(PlaneEarth.Model, unknown).BasicLossDb!.Value, 1e-9);
    }

    /// <summary>Hata's base of 30 m on a hill of 70 m over the mobile's ground is one of 100 m.</summary>
    [Fact]
    public void Predict_by_Hata_counts_the_hill_into_the_base()
    {
        PathGeometry hill = _geometry with
        {
            FrequencyHz = 150e6,
            TransmitterHeightM = 30,
            TransmitterGroundM = 170,
            ReceiverGroundM = 100,
        };
        double expected = OkumuraHata.LossDb(HataSurroundings.Suburban, 150e6, 100, 2, 5000);
        Assert.Equal(expected, OkumuraHata.Suburban.Predict(hill).BasicLossDb!.Value, 1e-9);
    }

    [Fact]
    public void Predict_with_a_choice_takes_it()
    {
        PathResult result = PathModels.Predict(FreeSpace.Model, _geometry);
        Assert.Equal("free space", result.Model);
        Assert.Equal(PathChoice.AsGiven, result.Choice);
    }

    [Theory]
    [InlineData("free space")]
    [InlineData("plane earth")]
    [InlineData("hata urban")]
    [InlineData("hata suburban")]
    [InlineData("hata open")]
    public void TryParse_knows_each_name(string name)
    {
        Assert.True(PathModels.TryParse(name, out IPathModel model, out _));
        Assert.Equal(name, model.Name);
    }

    [Fact]
    public void TryParse_of_another_name_lists_them()
    {
        Assert.False(PathModels.TryParse("hata village", out _, out string problem));
        Assert.Equal(
            "'hata village' is no path; write one of free space, plane earth, hata urban, hata suburban, hata open, "
            + "or { same structure: { vertical: 6 m, horizontal: 0 m } }",
            problem);
    }

    [Fact]
    public void ReceivedLevel_measured_wins()
    {
        ReceivedLevel level = ReceivedLevel.Of(-21, 50, FreeSpace.Model, _geometry);
        Assert.Equal((-21, true), (level.Dbm, level.IsMeasured));
        Assert.Null(level.Path);
    }

    /// <summary>
    /// Hand derivation: 50 dBm + 8.15 + 2.15 - free space over 1 km at 146 MHz (75.735 dB, docs/checks.md 2.1) = -15.435 dBm.
    /// </summary>
    [Fact]
    public void ReceivedLevel_predicted_is_power_less_path()
    {
        ReceivedLevel level = ReceivedLevel.Of(null, 50, FreeSpace.Model, _geometry with { DistanceM = 1000 });
        Assert.Equal(-15.435, level.Dbm!.Value, 0.001);
        Assert.Equal((new PathBasis.InFreeSpace(1000), PathChoice.AsGiven), (level.Path!.Basis, level.Path.Choice));
    }

    [Fact]
    public void ReceivedLevel_without_power_or_distance_is_unknown_and_says_what_would_help()
    {
        ReceivedLevel powerless = ReceivedLevel.Of(null, null, null, _geometry);
        Assert.Null(powerless.Dbm);
        Assert.Null(powerless.Path);
        ReceivedLevel nowhere = ReceivedLevel.Of(null, 50, null, _geometry with { DistanceM = null });
        Assert.Null(nowhere.Dbm);
        Assert.Equal("no distance is known; give distance or coordinates, or the measured level", nowhere.Path!.Refused);
        Assert.Null(nowhere.Path.Basis);
    }

    [Fact]
    public void Predict_with_gains_beyond_the_path_is_refused()
    {
        PathGeometry near = _geometry with { DistanceM = 10, TransmitterGainDbi = 20, ReceiverGainDbi = 20 };
        Assert.StartsWith("free space gives a gain here", PathModels.Predict(FreeSpace.Model, near).Refused, StringComparison.Ordinal);
        PathResult beside = SameStructure.Spaced(0, 0.1).Predict(near);
        Assert.Null(beside.ConnectorLossDb);
        Assert.StartsWith("the formula gives no loss at all", beside.Refused, StringComparison.Ordinal);
    }

    /// <summary>No geometry of the user's makes an exception: each model gives a loss or a reason.</summary>
    [Fact]
    public void Predict_of_an_impossible_geometry_is_a_refusal()
    {
        IPathModel[] models = [.. PathModels.Named, KnifeEdge.Over(10, 100), SameStructure.Spaced(3, 0)];
        double[] bad = [double.NaN, double.PositiveInfinity, double.NegativeInfinity, -1, 0];
        foreach (IPathModel model in models)
        {
            foreach (double value in bad)
            {
                PathGeometry[] tries =
                [
                    _geometry with { FrequencyHz = value },
                    _geometry with { DistanceM = value },
                    _geometry with { TransmitterHeightM = value },
                    _geometry with { ReceiverHeightM = value }, _geometry with { ReceiverGainDbi = value },
                ];
                foreach (PathGeometry geometry in tries)
                {
                    PathResult result = PathModels.Predict(model, geometry);
                    Assert.True(result.Refused is null != result.ConnectorLossDb is null);
                    Assert.True(result.ConnectorLossDb is not { } loss || double.IsFinite(loss));
                    Assert.True(PathModels.Predict(null, geometry).ConnectorLossDb is not { } chosen || double.IsFinite(chosen));
                }
            }
        }
    }
}
