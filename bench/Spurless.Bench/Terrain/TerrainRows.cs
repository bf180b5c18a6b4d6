using System.Globalization;
using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;
using Spurless.Radio.Terrain.Elevation;

namespace Spurless.Bench.Terrain;

/// <summary>Paths over the ground: the prediction with the profile in memory, and the taking of a profile from a tile.</summary>
public static class TerrainRows
{
    private const string Subject = "Terrain";
    private const int PointsOf30Km = 1300;

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(Subject, "30 km path with its sigma, profile in memory, one thread", ">= 100 a second", static _ => Predict()),
        new BenchRow(Subject, "30 km profile from a tile of one arc second in memory", "guide", static _ => Sample()),
    ];

    private static TerrainConditions Conditions { get; } = new()
    {
        FrequencyHz = 145e6,
        TransmitterHeightM = 30,
        ReceiverHeightM = 10,
        LatitudeDegrees = 40.5,
    };

    private static BenchResult Predict()
    {
        double[] d = [.. Enumerable.Range(0, PointsOf30Km).Select(static i => 30_000.0 * i / (PointsOf30Km - 1))];
        double[] h = [.. d.Select(static m => Height(m / 85_000, m / 111_000))];
        if (!TerrainProfile.TryCreate(d, h, [], [], out TerrainProfile profile, out ProfileProblem problem))
        {
            throw new InvalidOperationException(problem.Text);
        }

        TerrainPrediction? last = null;
        double seconds = Timing.Best(
            () => last = TerrainPrediction.Of(profile, Conditions, ElevationGrid.UsualErrorM), TimeSpan.FromSeconds(1));
        return new BenchResult(
            Timing.Text(seconds),
            "",
            "",
            1 / seconds >= 100,
            string.Create(CultureInfo.InvariantCulture,
                $"{1 / seconds:#,0} a second; {PointsOf30Km} points; {last!.LossDb:0.0} dB, sigma {last.SigmaDb:0.0} dB; "
                    + $"a level by free space alone, which is what screening takes without tiles: {FreeSpaceSeconds() * 1e9:0} ns"));
    }

    private static BenchResult Sample()
    {
        const int side = 3601;
        short[] metres = new short[side * side];
        for (int i = 0; i < metres.Length; i++)
        {
            metres[i] = (short)Height(i % side / 3600.0, i / side / 3600.0);
        }

        ElevationGrid grid = new("N40W036", 41, -36, 1 / 3600.0, 1 / 3600.0, side, side, false, ElevationGrid.UsualErrorM);
        One tiles = new(ElevationTile.Of(grid, metres));
        SampledProfile? last = null;
        double seconds = Timing.Best(
            () => ProfileSampler.TrySample(
                GeoPoint.Of(40.3, -35.7), GeoPoint.Of(40.5, -35.46), tiles, out last, out _), TimeSpan.FromSeconds(1));
        return new BenchResult(
            Timing.Text(seconds),
            "",
            "",
            null,
            string.Create(CultureInfo.InvariantCulture, $"{last!.Profile.Count} points over {last.Profile.LengthM / 1000:0.0} km"));
    }

    /// <summary>Seconds of one level by free space, which is what a screening takes where there are no tiles.</summary>
    private static double FreeSpaceSeconds()
    {
        const int count = 1000;
        double sum = 0;
        double seconds = Timing.Best(
            () =>
            {
                for (int i = 1; i <= count; i++)
                {
                    sum += FreeSpace.LossDb(30_000 + i, 145e6);
                }
            },
            TimeSpan.FromSeconds(0.3));
        return sum > 0 ? seconds / count : throw new InvalidOperationException("nothing was computed");
    }

    /// <summary>Invented rolling ground, 100 to 500 m.</summary>
    private static double Height(double east, double north) =>
        300 + 120 * Math.Sin(40 * east) * Math.Cos(31 * north) + 60 * Math.Sin(170 * east + 90 * north) + 20 * Math.Sin(900 * east);

    private sealed class One(ElevationTile tile) : IElevation
    {
        public ElevationTile? TileAt(double latitudeDegrees, double longitudeDegrees) =>
            tile.Covers(latitudeDegrees, longitudeDegrees) ? tile : null;
    }
}
