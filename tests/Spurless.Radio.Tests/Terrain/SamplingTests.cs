using CsCheck;
using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;
using Spurless.Radio.Terrain.Elevation;

namespace Spurless.Radio.Tests.Terrain;

/// <summary>Heights along a path from tiles, against the surface that the tiles were made of.</summary>
public sealed class SamplingTests
{
    /// <summary>
    /// A smooth invented surface; between samples of a 120th of a degree the plane between four is off by under a centimetre.
    /// </summary>
    private static double Surface(double latitude, double longitude) =>
        300 + (120 * Math.Sin(latitude)) + (90 * Math.Cos(1.3 * longitude));

    private static readonly Gen<(GeoPoint From, GeoPoint To)> _ends = Gen.Select(
        Gen.Double[40.05, 41.95], Gen.Double[-35.95, -34.05], Gen.Double[40.05, 41.95], Gen.Double[-35.95, -34.05]).Select(
            static (a, b, c, d) => (From: GeoPoint.Of(a, b), To: GeoPoint.Of(c, d))).Where(static e =>
                Math.Abs(e.From.LatitudeDegrees - e.To.LatitudeDegrees) + Math.Abs(e.From.LongitudeDegrees - e.To.LongitudeDegrees) > 0.02);

    private sealed class Tiles(Func<int, int, ElevationTile?> make) : IElevation
    {
        private readonly Dictionary<(int, int), ElevationTile?> _made = [];

        public ElevationTile? TileAt(double latitudeDegrees, double longitudeDegrees)
        {
            (int, int) key = ((int)Math.Floor(latitudeDegrees), (int)Math.Floor(longitudeDegrees));
            if (!_made.TryGetValue(key, out ElevationTile? tile))
            {
                _made[key] = tile = make(key.Item1, key.Item2);
            }

            return tile;
        }
    }

    private static ElevationTile Made(int south, int west, Func<double, double, double> height, double error = 3)
    {
        const int side = 121;
        float[] metres = new float[side * side];
        for (int row = 0; row < side; row++)
        {
            for (int column = 0; column < side; column++)
            {
                metres[(row * side) + column] = (float)height(south + 1 - (row / 120.0), west + (column / 120.0));
            }
        }

        return ElevationTile.Of(
            new ElevationGrid(ElevationTile.NameOf(south, west), south + 1, west, 1 / 120.0, 1 / 120.0, side, side, false, error), metres);
    }

    private static SampledProfile Sampled((GeoPoint From, GeoPoint To) ends, IElevation tiles)
    {
        Assert.True(ProfileSampler.TrySample(ends.From, ends.To, tiles, out SampledProfile profile, out string problem), problem);
        return profile;
    }

    private static readonly Tiles _surface = new(static (south, west) => Made(south, west, Surface));

    [Fact]
    public void TrySample_has_at_each_point_the_height_of_the_ground_there() => _ends.Sample(static (from, to) =>
    {
        SampledProfile sampled = Sampled((from, to), _surface);
        Assert.True(Geodesic.TryBetween(from, to, out GeodesicLine line, out _));
        TerrainProfile profile = sampled.Profile;
        Assert.Equal(line.DistanceM, profile.LengthM, 1e-6);
        Assert.Equal(line.BearingDegrees, sampled.BearingDegrees);
        Assert.Equal(line.DistanceM / (profile.Count - 1), sampled.StepM, 1e-6);
        Assert.Equal((0, 0.0, false, 3.0), (sampled.Filled, sampled.LongestFilledM, sampled.EndFilled, sampled.HeightErrorM));
        for (int i = 0; i < profile.Count; i += Math.Max(1, profile.Count / 50))
        {
            GeoPoint at = Geodesic.Along(from, line.BearingDegrees, profile.DistanceKm[i] * 1000);
            Assert.Equal(Surface(at.LatitudeDegrees, at.LongitudeDegrees), profile.GroundM[i], 0.01);
        }

        // No step is longer than the samples are apart, so that no summit falls between two points.
        Assert.InRange(sampled.StepM, 0, 110_574 / 120.0);
    }, iter: 40);

    [Fact]
    public void TrySample_from_the_other_end_is_the_profile_turned_round() => _ends.Sample(static (from, to) =>
    {
        TerrainProfile there = Sampled((from, to), _surface).Profile, back = Sampled((to, from), _surface).Profile.Reversed();
        Assert.Equal(there.Count, back.Count);
        for (int i = 0; i < there.Count; i++)
        {
            Assert.Equal(there.GroundM[i], back.GroundM[i], 1e-3);
            Assert.Equal(there.DistanceKm[i], back.DistanceKm[i], 1e-6);
        }
    }, iter: 20);

    /// <summary>A gap in the tiles is bridged straight from the last known height to the next, and that is told.</summary>
    [Fact]
    public void TrySample_over_a_gap_goes_straight_from_edge_to_edge() => _ends.Sample(static (from, to) =>
    {
        Tiles gappy = new(static (south, west) => Made(
            south, west, static (lat, lon) => Math.Abs(lat - 41) < 0.015 && Math.Abs(lon + 35) < 1 ? double.NaN : Surface(lat, lon)));
        SampledProfile whole = Sampled((from, to), _surface);
        if (!ProfileSampler.TrySample(from, to, gappy, out SampledProfile sampled, out string problem))
        {
            Assert.Contains("voids filled", problem, StringComparison.Ordinal);
            return;
        }

        ReadOnlySpan<double> g = sampled.Profile.GroundM, w = whole.Profile.GroundM;
        int different = 0;
        for (int i = 1; i + 1 < g.Length; i++)
        {
            if (Math.Abs(g[i] - w[i]) > 0.01)
            {
                different++;

                // Straight: each filled point lies on the line of its neighbours, unless one of these is an edge.
                Assert.InRange(g[i], Math.Min(g[i - 1], g[i + 1]) - 1e-6, Math.Max(g[i - 1], g[i + 1]) + 1e-6);
            }
        }

        Assert.True(different <= sampled.Filled);
        Assert.Equal(sampled.Filled > 0, sampled.LongestFilledM > 0);
        Assert.InRange(sampled.LongestFilledM, 0, 5_000);
    }, iter: 40);

    [Fact]
    public void TrySample_names_every_tile_that_is_missing_and_no_other() => _ends.Sample(static (from, to) =>
    {
        Tiles half = new(static (south, west) => south == 40 ? Made(south, west, Surface) : null);
        bool found = ProfileSampler.TrySample(from, to, half, out SampledProfile sampled, out string problem);
        if (from.LatitudeDegrees < 40.9 && to.LatitudeDegrees < 40.9)
        {
            Assert.True(found, problem);
            Assert.All(sampled.Tiles, static t => Assert.StartsWith("N40", t, StringComparison.Ordinal));
        }
        else if (from.LatitudeDegrees > 41.05 || to.LatitudeDegrees > 41.05)
        {
            Assert.False(found);
            Assert.Contains("N41", problem, StringComparison.Ordinal);
            Assert.DoesNotContain("N40", problem, StringComparison.Ordinal);
        }
    }, iter: 40);

    [Fact]
    public void TrySample_over_the_sea_is_sea_at_height_0()
    {
        Tiles sea = new(static (south, west) =>
            west == -36 ? Made(south, west, Surface) : ElevationTile.Sea(ElevationTile.NameOf(south, west), south, west));
        SampledProfile sampled = Sampled((GeoPoint.Of(40.4, -35.6), GeoPoint.Of(40.6, -34.4)), sea);
        for (int i = 0; i < sampled.Profile.Count; i++)
        {
            bool wet = sampled.Profile.Zones[i] == RadioZone.Sea;
            Assert.Equal(wet, sampled.Profile.GroundM[i] == 0);
            double share = sampled.Profile.DistanceKm[i] * 1000 / sampled.Profile.LengthM;
            Assert.True(Math.Abs(share - 0.5) < 0.01 || wet == share > 0.5, $"{share}: {wet}");
        }

        Assert.Equal(["N40W036", "N40W035"], sampled.Tiles);
    }

    /// <summary>Four samples and the place between them, weighed by hand; every sample itself exactly.</summary>
    [Fact]
    public void HeightM_between_four_samples_weighs_them() =>
        Gen.Select(Gen.Float[-100, 3_000].Array[6 * 9], Gen.Double[0, 5], Gen.Double[0, 8]).Sample(static (metres, row, column) =>
        {
            ElevationTile tile = ElevationTile.Of(new ElevationGrid("t", 50, 10, 0.01, 0.02, 6, 9, false, 1), metres);
            int top = Math.Min((int)row, 4), left = Math.Min((int)column, 7);
            (double y, double x) = (row - top, column - left);
            double At(int r, int c) => metres[(r * 9) + c];
            double expected = (At(top, left) * (1 - y) * (1 - x)) + (At(top, left + 1) * (1 - y) * x)
                + (At(top + 1, left) * y * (1 - x)) + (At(top + 1, left + 1) * y * x);
            Assert.Equal(expected, tile.HeightM(50 - (row * 0.01), 10 + (column * 0.02)), 1e-6);
            (double lowest, double highest, long voids) = tile.Extent();
            Assert.Equal((metres.Min(), metres.Max(), 0L), ((float)lowest, (float)highest, voids));
            Assert.InRange(expected, lowest - 1e-6, highest + 1e-6);
        });
}
