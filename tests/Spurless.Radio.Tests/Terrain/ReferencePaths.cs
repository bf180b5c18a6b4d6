using System.Globalization;
using Spurless.Radio.Terrain;

namespace Spurless.Radio.Tests.Terrain;

/// <summary>The reference profiles and results of tests/data/itu-p1812 (origin in its README).</summary>
internal static class ReferencePaths
{
    public static readonly string[] Names = ["hillside_1km", "ridge_10km", "to_sea_100km"];

    public static readonly int[] Times = [1, 10, 50];

    public static TerrainProfile Profile(string name)
    {
        string[][] rows = [.. File.ReadLines(TestData.Path($"itu-p1812/{name}.csv")).Skip(1).Select(static l => l.Split(','))];
        Assert.True(TerrainProfile.TryCreate(
            [.. rows.Select(static r => Number(r[0]) * 1000)],
            [.. rows.Select(static r => Number(r[1]))],
            [.. rows.Select(static r => Number(r[2]))],
            [],
            out TerrainProfile profile,
            out ProfileProblem problem), problem.Text);
        return profile;
    }

    /// <summary>The conditions of the set, with the middle latitude printed there (eq. 4).</summary>
    public static TerrainConditions Conditions(string name, int time) => new()
    {
        FrequencyHz = 95.3e6,
        TransmitterHeightM = 60,
        ReceiverHeightM = 7,
        LatitudeDegrees = Number(Expected(name, time)["phi|4"]),
        TimePercent = time,
        Refractivity = 326.079979,
        Polarisation = Polarisation.Horizontal,
    };

    /// <summary>Printed figures by symbol and equation.</summary>
    public static IReadOnlyDictionary<string, string> Expected(string name, int time) =>
        File.ReadLines(TestData.Path($"itu-p1812/{name}.expected.csv"))
        .Skip(1)
        .Select(static l => l.Split(','))
        .ToDictionary(static r => $"{r[0]}|{r[1]}", r => r[3 + Array.IndexOf(Times, time)]);

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
