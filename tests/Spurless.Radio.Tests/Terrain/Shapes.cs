using Spurless.Radio.Terrain;

namespace Spurless.Radio.Tests.Terrain;

/// <summary>Profiles of simple shape.</summary>
internal static class Shapes
{
    /// <summary>A profile of evenly spaced points.</summary>
    /// <param name="lengthM">Length in metres.</param>
    /// <param name="count">How many points.</param>
    /// <param name="height">Height of the ground at a distance in metres.</param>
    /// <param name="zone">Zone of all points.</param>
    public static TerrainProfile Even(double lengthM, int count, Func<double, double> height, RadioZone zone = RadioZone.Inland)
    {
        double[] d = [.. Enumerable.Range(0, count).Select(i => lengthM * i / (count - 1))];
        Assert.True(TerrainProfile.TryCreate(
            d, [.. d.Select(height)], [], [.. d.Select(_ => zone)], out TerrainProfile profile, out ProfileProblem problem), problem.Text);
        return profile;
    }

    public static TerrainConditions Usual { get; } = new()
    {
        FrequencyHz = 145e6,
        TransmitterHeightM = 30,
        ReceiverHeightM = 10,
        LatitudeDegrees = 50,
    };

    public static double LossDb(TerrainProfile profile, TerrainConditions conditions) =>
        PathSpecificModel.Predict(profile, conditions).BasicLossDb;
}
