using Spurless.Radio.Paths;
using Spurless.Radio.Terrain.Elevation;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Tests.Terrain;

public sealed class ElevationFolderTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-elevation-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Open_of_no_folder_is_none() => Assert.Null(ElevationFolder.Open(Path.Combine(_folder, "nothing")));

    [Fact]
    public void TileAt_reads_hgt_zip_and_sea_and_prefers_the_plain_file()
    {
        byte[] flat = new byte[2 * 1201 * 1201];
        File.WriteAllBytes(In("N40W036.hgt"), flat);
        File.WriteAllBytes(In("N40W036.hgt.zip"), DemoHill.Zip());
        File.WriteAllBytes(In("N41W036.hgt.zip"), [.. DemoHill.Zip()]);
        File.WriteAllBytes(In("N39W036.sea"), []);
        ElevationFolder folder = ElevationFolder.Open(_folder)!;
        Assert.Equal(0, folder.TileAt(40.5, -35.2)!.HeightM(40.5, -35.2));
        Assert.True(folder.TileAt(39.5, -35.2)!.IsSea);
        Assert.Null(folder.TileAt(38.5, -35.2));

        // The archive's entry says where it lies, whatever the archive is called: it is no tile of N41.
        Assert.True(folder.TileAt(41.5, -35.2) is null || !folder.TileAt(41.5, -35.2)!.Covers(41.5, -35.2));
        Assert.Empty(folder.Problems);
    }

    [Fact]
    public void Open_says_what_is_wrong_with_each_file_and_uses_the_rest()
    {
        File.WriteAllBytes(In("N40W036.hgt"), new byte[1000]);
        File.WriteAllBytes(In("hill.hgt"), new byte[2 * 1201 * 1201]);
        File.WriteAllBytes(In("map.tif"), [1, 2, 3]);
        File.WriteAllText(In("readme.txt"), "nothing");
        File.WriteAllBytes(In("N39W036.hgt"), new byte[2 * 1201 * 1201]);
        ElevationFolder folder = ElevationFolder.Open(_folder)!;
        Assert.Equal(["N40W036.hgt", "hill.hgt", "map.tif"], folder.Problems.Select(static p => p.File));
        Assert.Contains("1,000 bytes", folder.Problems[0].Text, StringComparison.Ordinal);
        Assert.NotNull(folder.TileAt(39.5, -35.2));
    }

    [Fact]
    public void TryProfile_over_a_broken_archive_tells_of_it()
    {
        File.WriteAllBytes(In("N40W036.hgt.zip"), [1, 2, 3]);
        SiteTerrain terrain = new(ElevationFolder.Open(_folder)!);
        Assert.False(terrain.TryProfile(GeoPoint.Of(40.5, -35.2), GeoPoint.Of(40.6, -35.3), out _, out string problem));
        Assert.Contains("no elevation tile N40W036", problem, StringComparison.Ordinal);
        Assert.Contains("no ZIP archive", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void TryProfile_of_the_same_places_is_kept()
    {
        File.WriteAllBytes(In("N40W036.hgt.zip"), DemoHill.Zip());
        SiteTerrain terrain = new(ElevationFolder.Open(_folder)!);
        Assert.True(terrain.TryProfile(GeoPoint.Of(40.5, -35.2), GeoPoint.Of(40.6, -35.3), out SampledProfile first, out _));
        Assert.True(new SiteTerrain(ElevationFolder.Open(_folder)!).TryProfile(
            GeoPoint.Of(40.5, -35.2), GeoPoint.Of(40.6, -35.3), out SampledProfile second, out _));
        Assert.Same(first, second);

        // A tile that changed is read anew.
        File.WriteAllBytes(In("N40W036.hgt"), new byte[2 * 1201 * 1201]);
        Assert.True(new SiteTerrain(ElevationFolder.Open(_folder)!).TryProfile(
            GeoPoint.Of(40.5, -35.2), GeoPoint.Of(40.6, -35.3), out SampledProfile third, out _));
        Assert.Equal(0, third.Profile.GroundM[0]);
    }

    [Theory]
    [InlineData("terrain: nowhere", true, "there is no folder 'nowhere'")]
    [InlineData("terrain: .", false, "holds no elevation file")]
    public void Load_of_a_site_with_a_wrong_folder_says_so(string line, bool error, string expected)
    {
        string site = In("a.site.yaml");
        File.WriteAllText(site, $$"""
            spurless: 1
            site: test
            receivers: [{ name: input, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -10 dBm }]
            {{line}}
            """);
        LoadedSite? loaded = SiteLoader.Load(site, out IReadOnlyList<Files.Diagnostics.Diagnostic> findings);
        Assert.Equal(error, loaded is null);
        Assert.Contains(expected, string.Join('\n', findings), StringComparison.Ordinal);
        Assert.Contains(":4:10:", string.Join('\n', findings), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "add 'terrain: FOLDER'")]
    [InlineData("terrain: .", "N40W036")]
    public void Study_with_path_terrain_and_no_ground_knows_no_level(string line, string expected)
    {
        string site = In("a.site.yaml");
        File.WriteAllText(site, $$"""
            spurless: 1
            site: test
            place: { latitude: 40.5, longitude: -35.2 }
            receivers: [{ name: input, frequency: 145.05 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -10 dBm,
                antenna: { gain: 0 dBd, height: 10 m } }]
            emitters: [{ name: base, frequency: 150 MHz, emission: 11K2F3E, power: 10 W, antenna: { gain: 0 dBd, height: 20 m },
                at: { latitude: 40.6, longitude: -35.3 }, path: terrain }]
            {{line}}
            """);
        LoadedSite loaded = SiteLoader.Load(site, out _)!;
        CarrierFinding carrier = StudyService.Run(loaded, new StudyOptions()).Receivers[0].Carriers[0];
        Assert.Null(carrier.LevelAtAntennaDbm);
        Assert.Contains(
            expected, Assert.IsType<LevelNote.NotPredicted>(Assert.Single(carrier.Assumed)).Refused, StringComparison.Ordinal);
    }

    private string In(string name) => Path.Combine(_folder, name);
}
