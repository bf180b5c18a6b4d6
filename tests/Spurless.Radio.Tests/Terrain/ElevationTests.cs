using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;
using Spurless.Radio.Terrain.Elevation;

namespace Spurless.Radio.Tests.Terrain;

public sealed class ElevationTests
{
    /// <summary>A plane that rises to the north and east, which bilinear interpolation must give exactly.</summary>
    private static short Slope(int row, int column) => (short)(1200 - row + column);

    [Theory]
    [InlineData("N40W036.hgt", 40, -36)]
    [InlineData("elevation/s07e123.hgt.zip", -7, 123)]
    public void TryCorner_reads_the_south_west_corner(string name, int south, int west)
    {
        Assert.True(HgtReader.TryCorner(name, out int s, out int w));
        Assert.Equal((south, west), (s, w));
    }

    [Theory]
    [InlineData("hill.hgt")]
    [InlineData("N40W36.hgt")]
    [InlineData("N95W036.hgt")]
    [InlineData("")]
    public void TryCorner_of_another_name_is_none(string name) => Assert.False(HgtReader.TryCorner(name, out _, out _));

    [Fact]
    public void NameOf_is_the_corner_of_the_square_degree()
    {
        Assert.Equal("N40W036", ElevationTile.NameOf(40.5, -35.2));
        Assert.Equal("S01E000", ElevationTile.NameOf(-0.1, 0.1));
        Assert.Equal("N89E179", ElevationTile.NameOf(90, 180));
    }

    [Fact]
    public void TryRead_of_three_arc_seconds_gives_each_sample_and_what_lies_between()
    {
        using MemoryStream stream = new(TileBytes.Hgt(1201, Slope));
        Assert.True(HgtReader.TryRead(stream, "N40W036.hgt", out ElevationTile tile, out string problem), problem);
        Assert.Equal(1200, tile.HeightM(41, -36));
        Assert.Equal(0, tile.HeightM(40, -36), 1e-9);
        Assert.Equal(2400, tile.HeightM(41, -35));
        Assert.Equal(1200 - 600.25 + 300.5, tile.HeightM(41 - 600.25 / 1200, -36 + 300.5 / 1200), 1e-6);
        Assert.True(tile.Covers(40, -36) && tile.Covers(41, -35) && !tile.Covers(41.01, -35.5));
    }

    [Fact]
    public void TryReadZip_of_one_arc_second_reads_it_too()
    {
        using MemoryStream stream = new(TileBytes.Zip("N40W036.hgt", TileBytes.Hgt(3601, static (row, _) => (short)(row == 0 ? 77 : 0))));
        Assert.True(HgtReader.TryReadZip(stream, "whatever.zip", out ElevationTile tile, out string problem), problem);
        Assert.Equal(3601, tile.Grid.Rows);
        Assert.Equal(77, tile.HeightM(41, -35.5));
    }

    [Fact]
    public void TryRead_of_a_void_has_no_height_there()
    {
        using MemoryStream stream = new(
            TileBytes.Hgt(1201, static (row, column) => row == 600 && column == 600 ? short.MinValue : (short)5));
        Assert.True(HgtReader.TryRead(stream, "N40W036.hgt", out ElevationTile tile, out _));
        Assert.True(double.IsNaN(tile.HeightM(40.5, -35.5)));
        Assert.True(double.IsNaN(tile.HeightM(40.5 + 0.4 / 1200, -35.5)));
        Assert.Equal(5, tile.HeightM(40.5 + 1.5 / 1200, -35.5));
    }

    [Theory]
    [InlineData(2_884_800)]
    [InlineData(0)]
    [InlineData(5)]
    [InlineData(25_934_403)]
    public void TryRead_of_a_wrong_size_says_what_a_tile_has(int length)
    {
        using MemoryStream stream = new(new byte[length]);
        Assert.False(HgtReader.TryRead(stream, "N40W036.hgt", out _, out string problem));
        Assert.Contains("2,884,802", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void TryRead_of_swapped_bytes_is_refused_by_the_height()
    {
        using MemoryStream stream = new(
            TileBytes.Hgt(1201, static (_, _) => System.Buffers.Binary.BinaryPrimitives.ReverseEndianness((short)120)));
        Assert.False(HgtReader.TryRead(stream, "N40W036.hgt", out _, out string problem));
        Assert.Contains("row 1, column 1", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void TryReadZip_of_something_else_is_refused()
    {
        using MemoryStream none = new(TileBytes.Zip("readme.txt", [1, 2, 3]));
        Assert.False(HgtReader.TryReadZip(none, "a.zip", out _, out string problem));
        Assert.Contains("no .hgt", problem, StringComparison.Ordinal);
        using MemoryStream rubbish = new([1, 2, 3, 4, 5, 6, 7, 8]);
        Assert.False(HgtReader.TryReadZip(rubbish, "a.zip", out _, out problem));
        Assert.Contains("no ZIP", problem, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, true)]
    [InlineData(1, false)]
    [InlineData(2, true)]
    public void GeoTiff_gives_each_sample_where_the_raster_type_puts_it(int rasterType, bool floating)
    {
        byte[] bytes = TileBytes.GeoTiff(
            11, 21, 50, 10, 0.001, static (r, c) => 100 + 10 * r + c, rasterType: rasterType, floating: floating);
        using MemoryStream stream = new(bytes);
        Assert.True(GeoTiffReader.TryRead(stream, "hill.tif", out ElevationTile tile, out string problem), problem);
        double half = rasterType == 1 ? 0.0005 : 0;
        Assert.Equal(100, tile.HeightM(50 - half, 10 + half), 1e-3);
        Assert.Equal(100 + 10 * 10 + 20, tile.HeightM(50 - half - 0.010, 10 + half + 0.020), 1e-3);
        Assert.Equal(100 + 10 * 2.5 + 3.25, tile.HeightM(50 - half - 0.0025, 10 + half + 0.00325), 1e-3);
        Assert.Equal(rasterType == 1, tile.Covers(50, 10.0001) && tile.Covers(50 - 0.011, 10));
        stream.Position = 0;
        Assert.True(GeoTiffReader.TryReadGrid(stream, "hill.tif", out ElevationGrid grid, out _));
        Assert.Equal(tile.Grid, grid);
    }

    [Fact]
    public void GeoTiff_knows_its_own_void_value()
    {
        using MemoryStream stream = new(
            TileBytes.GeoTiff(5, 5, 50, 10, 0.001, static (r, c) => r == 2 && c == 2 ? -9999 : 7, rasterType: 2));
        Assert.True(GeoTiffReader.TryRead(stream, "hill.tif", out ElevationTile tile, out string problem), problem);
        Assert.True(double.IsNaN(tile.HeightM(49.998, 10.002)));
        Assert.Equal(7, tile.HeightM(50, 10));
    }

    public static TheoryData<byte[], string> Wrong()
    {
        static float Flat(int r, int c) => 5;
        byte[] good = TileBytes.GeoTiff(50, 50, 50, 10, 0.001, Flat);
        return new()
        {
            { TileBytes.GeoTiff(5, 5, 50, 10, 0.001, Flat, geographic: 4269), "not WGS-84 (EPSG 4269)" },
            { TileBytes.GeoTiff(5, 5, 50, 10, 0.001, Flat, model: 1), "not latitude and longitude" },
            { TileBytes.GeoTiff(5, 5, 50, 10, 0.001, Flat, keys: false), "no GeoTIFF keys" },
            { TileBytes.GeoTiff(5, 5, 5_400_000, 600_000, 30, Flat), "not on the earth" },
            { TileBytes.GeoTiff(5, 5, 50, 10, 0.001, static (_, _) => 25_000), "none of this earth" },
            { TileBytes.GeoTiff(5, 5, 50, 10, 0.001, Flat, bands: 3), "3 band(s)" },
            { good[..^2000], "cut short" },
            { good[..6], "no TIFF" },
            { [1, 2, 3, 4], "no TIFF" },
        };
    }

    [Theory]
    [MemberData(nameof(Wrong))]
    public void GeoTiff_that_is_wrong_is_refused_with_the_remedy(byte[] bytes, string expected)
    {
        using MemoryStream stream = new(bytes);
        Assert.False(GeoTiffReader.TryRead(stream, "hill.tif", out _, out string problem));
        Assert.Contains(expected, problem, StringComparison.Ordinal);
        Assert.Contains(';', problem);
    }

    [Fact]
    public void GeoTiff_with_any_byte_changed_never_throws()
    {
        byte[] good = TileBytes.GeoTiff(6, 6, 50, 10, 0.001, static (r, c) => r + c);
        Random random = new(1);
        for (int i = 0; i < 400; i++)
        {
            byte[] bytes = [.. good];
            bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
            using MemoryStream stream = new(bytes);
            bool read = GeoTiffReader.TryRead(stream, "hill.tif", out _, out string problem);
            Assert.True(read || problem.Length > 0);
        }
    }

    private sealed class Tiles(params ElevationTile[] tiles) : IElevation
    {
        public ElevationTile? TileAt(double latitudeDegrees, double longitudeDegrees) =>
            tiles.Where(t => t.Covers(latitudeDegrees, longitudeDegrees)).MinBy(static t => t.Grid.LatitudeStepDegrees);
    }

    private static ElevationTile Tile(string name, Func<int, int, short> height)
    {
        using MemoryStream stream = new(TileBytes.Hgt(1201, height));
        Assert.True(HgtReader.TryRead(stream, name, out ElevationTile tile, out string problem), problem);
        return tile;
    }

    [Fact]
    public void TrySample_is_no_coarser_than_the_data_and_gives_the_ground()
    {
        Tiles tiles = new(Tile("N40W036.hgt", Slope));
        GeoPoint from = GeoPoint.Of(40.2, -35.8);
        GeoPoint to = GeoPoint.Of(40.4, -35.5);
        Assert.True(ProfileSampler.TrySample(from, to, tiles, out SampledProfile sampled, out string problem), problem);
        Assert.True(Geodesic.TryBetween(from, to, out GeodesicLine line, out _));
        Assert.Equal(line.DistanceM, sampled.Profile.LengthM, 1e-3);
        Assert.Equal(line.BearingDegrees, sampled.BearingDegrees);
        Assert.True(sampled.StepM <= 111_320 * Math.Cos(40.2 * Math.PI / 180) / 1200);
        Assert.Equal(1200 * 0.2 + 1200 * 0.2, sampled.Profile.GroundM[0], 1e-6);
        Assert.Equal(1200 * 0.4 + 1200 * 0.5, sampled.Profile.GroundM[^1], 1e-6);
        Assert.Equal(["N40W036"], sampled.Tiles);
        Assert.Equal(0, sampled.Filled);
        Assert.InRange(sampled.MiddleLatitudeDegrees, 40.3, 40.301);
    }

    [Fact]
    public void TrySample_across_two_tiles_goes_on_without_a_step()
    {
        // One slope over both: 1200 a degree eastwards.
        Tiles tiles = new(Tile("N40W036.hgt", static (_, c) => (short)c), Tile("N40W035.hgt", static (_, c) => (short)(1200 + c)));
        Assert.True(ProfileSampler.TrySample(
            GeoPoint.Of(40.5, -35.4), GeoPoint.Of(40.5, -34.6), tiles, out SampledProfile sampled, out string problem), problem);
        Assert.Equal(["N40W036", "N40W035"], sampled.Tiles);
        for (int i = 1; i < sampled.Profile.Count; i++)
        {
            Assert.InRange(sampled.Profile.GroundM[i] - sampled.Profile.GroundM[i - 1], 0.5, 1.1);
        }
    }

    [Fact]
    public void TrySample_without_a_tile_names_it_and_never_takes_the_sea()
    {
        Tiles tiles = new(Tile("N40W036.hgt", static (_, _) => 10));
        Assert.False(ProfileSampler.TrySample(GeoPoint.Of(40.5, -35.4), GeoPoint.Of(39.9, -34.6), tiles, out _, out string problem));
        Assert.Contains("N40W035", problem, StringComparison.Ordinal);
        Assert.Contains("N39W035", problem, StringComparison.Ordinal);
        Tiles withSea = new(Tile("N40W036.hgt", static (_, _) => 10), ElevationTile.Sea("N40W035", 40, -35));
        Assert.True(ProfileSampler.TrySample(
            GeoPoint.Of(40.5, -35.4), GeoPoint.Of(40.6, -34.6), withSea, out SampledProfile sampled, out problem), problem);
        Assert.Equal(RadioZone.Sea, sampled.Profile.Zones[^1]);
        Assert.Equal(RadioZone.Inland, sampled.Profile.Zones[0]);
    }

    [Fact]
    public void TrySample_fills_voids_in_a_straight_line_and_counts_them()
    {
        Tiles tiles = new(Tile("N40W036.hgt", static (_, c) => c is >= 598 and <= 602 ? short.MinValue : (short)c));
        Assert.True(ProfileSampler.TrySample(
            GeoPoint.Of(40.5, -35.6), GeoPoint.Of(40.5, -35.4), tiles, out SampledProfile sampled, out string problem), problem);
        Assert.InRange(sampled.Filled, 5, 8);
        Assert.InRange(sampled.LongestFilledM, 300, 700);
        Assert.False(sampled.EndFilled);
        for (int i = 0; i < sampled.Profile.Count; i++)
        {
            Assert.Equal(480 + 240.0 * i / (sampled.Profile.Count - 1), sampled.Profile.GroundM[i], 0.2);
        }
    }

    [Fact]
    public void TrySample_of_nothing_but_voids_or_one_place_is_refused()
    {
        Tiles tiles = new(Tile("N40W036.hgt", static (r, _) => r > 300 ? short.MinValue : (short)3));
        Assert.False(ProfileSampler.TrySample(GeoPoint.Of(40.5, -35.6), GeoPoint.Of(40.5, -35.4), tiles, out _, out string problem));
        Assert.Contains("no heights", problem, StringComparison.Ordinal);
        Assert.False(ProfileSampler.TrySample(GeoPoint.Of(40.5, -35.6), GeoPoint.Of(40.5, -35.6), tiles, out _, out problem));
        Assert.Contains("one place", problem, StringComparison.Ordinal);
    }
}
