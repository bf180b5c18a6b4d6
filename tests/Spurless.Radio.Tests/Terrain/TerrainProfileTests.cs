using Spurless.Radio.Terrain;

namespace Spurless.Radio.Tests.Terrain;

public sealed class TerrainProfileTests
{
    [Theory]
    [InlineData(new double[] { 0 }, new double[] { 1 }, null, "1 point;")]
    [InlineData(new double[] { 0, 100 }, new double[] { 1, 2 }, null, "2 points")]
    [InlineData(new double[] { 5, 100, 200 }, new double[] { 1, 2, 3 }, 1, "not 0")]
    [InlineData(new double[] { 0, 100, 100 }, new double[] { 1, 2, 3 }, 3, "above the one before")]
    [InlineData(new double[] { 0, 100, double.NaN }, new double[] { 1, 2, 3 }, 3, "above the one before")]
    [InlineData(new double[] { 0, 100, 200 }, new double[] { 1, double.NaN, 3 }, 2, "-500 to 9000")]
    [InlineData(new double[] { 0, 100, 200 }, new double[] { 1, double.PositiveInfinity, 3 }, 2, "-500 to 9000")]
    [InlineData(new double[] { 0, 100, 200 }, new double[] { 1, 2 }, null, "one length")]
    public void TryCreate_of_a_wrong_profile_names_the_point_and_the_remedy(double[] distance, double[] height, int? point, string expected)
    {
        Assert.False(TerrainProfile.TryCreate(distance, height, [], [], out _, out ProfileProblem problem));
        Assert.Equal(point, problem.Point);
        Assert.Contains(expected, problem.Text, StringComparison.Ordinal);
        Assert.Contains(';', problem.Text!);
    }

    [Fact]
    public void TryCreate_refuses_wrong_clutter_and_zones()
    {
        Assert.False(TerrainProfile.TryCreate([0, 1, 2], [0, 0, 0], [0, -1, 0], [], out _, out ProfileProblem problem));
        Assert.Equal(2, problem.Point);
        Assert.False(TerrainProfile.TryCreate([0, 1, 2], [0, 0, 0], [], [0, (RadioZone)7, 0], out _, out problem));
        Assert.Equal(2, problem.Point);
    }

    [Fact]
    public void Reversed_twice_is_the_same()
    {
        TerrainProfile profile = ReferencePaths.Profile("to_sea_100km");
        TerrainProfile twice = profile.Reversed().Reversed();
        Assert.Equal(profile.GroundM, twice.GroundM);
        Assert.Equal(profile.SurfaceM, twice.SurfaceM);
        for (int i = 0; i < profile.Count; i++)
        {
            Assert.Equal(profile.DistanceKm[i], twice.DistanceKm[i], 1e-9);
        }
    }
}
