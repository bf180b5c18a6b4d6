using System.IO.Compression;
using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;
using Spurless.Sites.Paths;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Tests.Terrain;

/// <summary>The demo's elevation tile and profile are what their maker makes, and the demo's site gets its levels from them.</summary>
public sealed class DemoHillTests
{
    [Fact]
    public void Tile_of_the_demo_is_what_its_maker_makes()
    {
        string fresh = Path.Combine(AppContext.BaseDirectory, DemoHill.TileName + ".zip");
        File.WriteAllBytes(fresh, DemoHill.Zip());
        string path = TestData.Demo("elevation", DemoHill.TileName + ".zip");
        Assert.True(File.Exists(
            path), "demo/elevation/N40W036.hgt.zip is missing; the test has written it beside itself, to be copied there");
        using ZipArchive archive = ZipFile.OpenRead(path);
        using MemoryStream committed = new();
        using (Stream entry = archive.Entries.Single().Open())
        {
            entry.CopyTo(committed);
        }

        byte[] made = DemoHill.Tile();
        byte[] found = committed.ToArray();
        Assert.Equal(made.Length, found.Length);
        int off = 0;
        for (int i = 0; i < made.Length; i += 2)
        {
            // Where another machine's exponential rounds otherwise a height may differ by a metre.
            short a = System.Buffers.Binary.BinaryPrimitives.ReadInt16BigEndian(made.AsSpan(i));
            short b = System.Buffers.Binary.BinaryPrimitives.ReadInt16BigEndian(found.AsSpan(i));
            Assert.InRange(Math.Abs(a - b), 0, 1);
            off += a == b ? 0 : 1;
        }

        Assert.InRange(off, 0, 10);
        Assert.InRange(new FileInfo(path).Length, 1000, 400_000);
    }

    [Fact]
    public void Profile_of_the_demo_is_what_its_maker_makes()
    {
        string made = DemoHill.Profile();
        File.WriteAllText(Path.Combine(AppContext.BaseDirectory, "hill.profile.csv"), made);
        Assert.Equal(made, File.ReadAllText(TestData.Demo("hill.profile.csv")).ReplaceLineEndings("\n"));
    }

    [Fact]
    public void Study_of_the_demo_takes_its_levels_from_the_ground()
    {
        LoadedSite site = Load();
        StudyResult study = StudyService.Run(site, new StudyOptions());
        CarrierFinding hidden = study.Receivers[0].Carriers.Single(static c => c.Emitter == "valley relay");
        CarrierFinding clear = study.Receivers[0].Carriers.Single(static c => c.Emitter == "plain base");
        Assert.Contains(
            hidden.Assumed,
            static a => a is LevelNote.Predicted { Basis: TerrainBasis.OverGround, Choice: PathChoice.GroundBetweenKnown });

        // Free space would give each within a few decibels of the other; the ridge takes more than 15 dB of one.
        Assert.True(clear.LevelAtAntennaDbm - hidden.LevelAtAntennaDbm > 15);
    }

    [Fact]
    public void OfSite_behind_the_ridge_names_it_and_agrees_with_the_study()
    {
        LoadedSite site = Load();
        Files.Diagnostics.DiagnosticBag findings = new();
        PathAnswer answer = PathService.OfSite(site, "valley relay", "hill input", null, findings)!;
        Assert.Empty(findings.InOrder());
        Assert.False(answer.Prediction.Sight!.IsClear);

        // The ridge's crest lies at 330 + 140 m less what the path misses of its top.
        Assert.InRange(answer.Prediction.Sight.Worst.TopM, 380, 470);
        Assert.Equal(TerrainMechanism.Diffraction, answer.Prediction.Mechanism);
        StudyResult study = StudyService.Run(site, new StudyOptions());
        Assert.Equal(
            study.Receivers[0].Carriers.Single(
                static c => c.Emitter == "valley relay").LevelAtAntennaDbm!.Value, answer.Level!.AtAntennaDbm, 1e-9);
        Assert.True(Geodesic.TryBetween(GeoPoint.Of(40.60, -35.42), GeoPoint.Of(40.50, -35.20), out GeodesicLine line, out _));
        Assert.Equal(line.DistanceM, answer.Profile.LengthM, 1e-6);
        Assert.Equal(line.BearingDegrees, answer.BearingDegrees!.Value, 1e-9);
    }

    /// <summary>
    /// Response and crossed polarisations stated, a filter behind the transmitter: path and study say the same level, 12 + 20 dB and the
    /// filter's loss under the bare one; without a response 160.525 MHz is out of the antenna's band, one sigma 10 dB more in squares.
    /// </summary>
    [Fact]
    public void OfSite_counts_what_antennas_and_output_filter_do_as_the_study_does()
    {
        PathAnswer Path(string receiving, string transmitting, out double study)
        {
            string text = File.ReadAllText(TestData.Demo("hill.site.yaml"))
                .Replace("height: 20 m }", $"height: 20 m{receiving} }}", StringComparison.Ordinal)
                .Replace(
                    "height: 15 m }\n    at: { latitude: 40.60", $"height: 15 m{transmitting}\n    at: {{ latitude: 40.60",
                    StringComparison.Ordinal);
            SourceFile source = SourceFile.OfText("hill.site.yaml", text, new SiteFolder(TestData.Demo("hill.site.yaml")));
            LoadedSite site = SiteLoader.Load(source, out IReadOnlyList<Files.Diagnostics.Diagnostic> faults)!;
            Assert.Empty(faults);
            study = StudyService.Run(site, new StudyOptions()).Receivers[0].Carriers[0].LevelAtAntennaDbm!.Value;
            return PathService.OfSite(site, "valley relay", "hill input", null, new Files.Diagnostics.DiagnosticBag())!;
        }

        PathAnswer bare = Path("", " }", out _);
        PathAnswer all = Path(
            ", response: [0 dB at 145.05 MHz, -12 dB at 160.525 MHz], polarisation: vertical",
            ", polarisation: horizontal }\n    output_filter: filters/three-tank.s2p", out double study);
        Assert.Equal(study, all.Level!.AtAntennaDbm, 1e-9);
        Assert.Equal(all.Level.AtAntennaDbm - bare.Level!.AtAntennaDbm, all.Level.EffectsDb, 1e-9);

        // The filter's own sweep: |S21| 0.018089 at 160.5 MHz, 0.017411 at 160.75 MHz, which is 34.85 and 35.18 dB; a tenth of the way
        // lies 34.88 dB.
        Assert.Equal(-12 - 20 - 34.88, all.Level.EffectsDb, 0.02);
        double path = bare.Prediction.SigmaDb!.Value;
        Assert.Equal(Math.Sqrt((path * path) + 100), bare.Level.SigmaDb, 1e-9);
        Assert.Contains(bare.Assumed, static a => a is LevelNote.GainOutOfBand);
        Assert.Equal(Math.Sqrt((path * path) + 36), all.Level.SigmaDb, 1e-9);
    }

    [Fact]
    public void Load_of_a_circuit_as_an_output_filter_says_so_once()
    {
        string text = File.ReadAllText(TestData.Demo("hill.site.yaml")).Replace(
            "    at: { latitude: 40.60",
            "    output_filter: filters/three-tank.circuit.yaml\n    at: { latitude: 40.60",
            StringComparison.Ordinal);
        SourceFile source = SourceFile.OfText("hill.site.yaml", text, new SiteFolder(TestData.Demo("hill.site.yaml")));
        Assert.Null(SiteLoader.Load(source, out IReadOnlyList<Files.Diagnostics.Diagnostic> faults));
        Assert.Contains(
            "'filters/three-tank.circuit.yaml' is a circuit, and a sweep is due here; name a two-port sweep (.s2p) here",
            Assert.Single(faults).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void OfSite_to_a_place_beyond_the_tiles_names_the_missing_one()
    {
        LoadedSite site = Load();
        Files.Diagnostics.DiagnosticBag findings = new();
        Assert.Null(PathService.OfSite(site, "far island", "hill input", null, findings));
        string message = Assert.Single(findings.InOrder()).ToString();
        Assert.Contains("N41W036", message, StringComparison.Ordinal);

        // The study goes on with what it had, and says so.
        StudyResult study = StudyService.Run(site, new StudyOptions());
        CarrierFinding island = study.Receivers[0].Carriers.Single(static c => c.Emitter == "far island");
        Assert.NotNull(island.LevelAtAntennaDbm);
        Assert.Contains(
            island.Assumed,
            static a => a is LevelNote.GroundNotCounted { Problem: { } why } && why.Contains("N41W036", StringComparison.Ordinal));
    }

    private static LoadedSite Load()
    {
        LoadedSite? site = SiteLoader.Load(TestData.Demo("hill.site.yaml"), out IReadOnlyList<Files.Diagnostics.Diagnostic> findings);
        Assert.True(site is not null, string.Join('\n', findings));
        return site;
    }
}
