using System.Globalization;
using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Causes;
using Spurless.Radio.Noise;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Tests.Documents;

public sealed class SiteReaderTests
{
    private static SiteDocument Example()
    {
        SiteReading reading = SiteReader.Read(TestData.Read("site", "example.site.yaml"), "example.site.yaml", StubFiles.OfExample);
        Assert.Equal("", string.Join("\n", reading.Diagnostics));
        Assert.NotNull(reading.Document);
        return reading.Document;
    }

    // Expected values: the example of the format's description, read by eye; microvolts by P = 20 lg U - 106.99 dBm (50 ohm).
    [Fact]
    public void Read_example_gives_every_value_of_the_receiver()
    {
        SiteDocument site = Example();
        Assert.Equal("Quernmoss repeater", site.Site);
        Assert.Equal(new PlaceEntry(40.5, -35.2, Length.FromMetres(410)), site.Place);
        ReceiverEntry r = Assert.Single(site.Receivers);
        Assert.Equal(
            ("repeater input", 145_050_000L, 12_500L, 8_000L), (r.Name, r.Frequency.Hertz, r.Channel.Hertz, r.IfBandwidth!.Value.Hertz));
        Assert.Equal((20 * Math.Log10(0.25)) - 106.99, r.Sensitivity!.Value.Level.Dbm, 0.001);
        Assert.Null(r.NoiseFigure);
        Assert.Equal([3], r.Intercepts.Keys);
        Assert.Equal(-8, r.Intercepts[3].Dbm);
        Assert.Null(r.IntermodRejection);
        Assert.Equal(
            [(0.0, 145_000_000L), (25.0, 160_000_000L), (45.0, 466_000_000L)],
            r.Selectivity!.Points.Select(p => (p.Value.Value, p.Frequency.Hertz)));
        Assert.Equal(new ExternalNoiseEntry(NoiseSurroundings.Rural, null), r.ExternalNoise);
        Assert.Equal(
            (8.15, 20.0, 0.5), (Math.Round(r.Antenna!.Gain!.Value.Dbi, 9), r.Antenna.Height!.Value.Metres, r.Antenna.Mismatch!.Value));
        Assert.Equal(
            (-105.0, 7.0, 8.0, 0.5, 0.0),
            (
                r.Wanted!.Value.Dbm,
                r.SquelchOpens!.Value.Value,
                r.SpoilsWithin!.Value.Value,
                r.Mismatch!.Value,
                r.CommonUncertainty!.Value.Value));
        Assert.Equal(new SuperhetEntry(Frequency.FromHertz(21_400_000), Injection.Low, Frequency.FromHertz(455_000)), r.Superhet);
        Assert.Equal(84, r.Blocking!.Value.Value);
        Assert.Equal([(-140.0, 1_000_000L)], r.LocalOscillatorNoise.Select(n => (n.Density.DbcPerHertz, n.Offset.Hertz)));
        Assert.Equal(LevelsAt.Antenna, r.LevelsAt);
        Assert.Collection(
            r.Chain,
            s =>
                Assert.Equal(
                    (1.2, 145_000_000L),
                    (Assert.IsType<FeedlineStage>(s).Loss!.Value.Value.Value, ((FeedlineStage)s).Loss!.Value.Frequency.Hertz)),
            s => Assert.Equal("filters/three-tank.circuit.yaml", Assert.IsType<CircuitStage>(s).Circuit.Path),
            s => Assert.Equal(3, Assert.IsType<AttenuatorStage>(s).Loss.Value),
            s =>
            {
                AmplifierStage a = Assert.IsType<AmplifierStage>(s);
                Assert.Equal((15.0, 1.5, 5.0), (a.Gain.Value, a.NoiseFigure.Decibels, a.Intercepts[3].Dbm));
            });
    }

    [Fact]
    public void Read_example_gives_every_value_of_the_emitters()
    {
        SiteDocument site = Example();
        Assert.Equal(["waterworks base", "paging mast", "repeater output", "mill gate"], site.Emitters.Select(e => e.Name));
        EmitterEntry first = site.Emitters[0];
        Assert.Equal(
            (160_512_500L, "11K2F3E", 11_200L, -21.0, 0.15),
            (
                first.Frequency.Hertz,
                first.Emission.ToString(),
                first.BandwidthHz,
                first.LevelAt("repeater input")!.Value.Dbm,
                first.Activity!.Value.Value));
        EmitterEntry p = site.Emitters[1];
        Assert.Equal(
            (100.0, 2.0, 40.0, 65.0, 40.503, -35.19),
            (
                p.Power!.Value.Watts,
                p.Feedline!.Value.Value,
                p.Antenna!.Bearing!.Value,
                p.Antenna.Beamwidth!.Value,
                p.At!.Latitude,
                p.At.Longitude));
        Assert.Null(p.LevelAt("repeater input"));
        Assert.Equal(new PathEntry(PathModel.HataSuburban, null, null), p.Path);
        Assert.Equal(25, p.Isolator!.Everywhere!.Value.Value);
        Assert.Equal("filters/duplexer-high.s2p", p.OutputFilter!.Path);
        Assert.Equal(12, p.TurnRoundLoss!.EveryOrder!.Value.Value);
        Assert.Equal(45, p.Coupling["waterworks base"].Value);
        Assert.Equal([(-145.0, 1_000_000L)], p.Noise.Select(n => (n.Density.DbcPerHertz, n.Offset.Hertz)));
        Assert.Equal([(-70.0, 2)], p.Harmonics.Select(h => (h.Ratio.Dbc, h.Order)));
        Assert.Equal(6, p.Uncertainty!.Value.Value);
        Assert.True(p.NoiseLike);
        Assert.Equal("repeater input", site.Emitters[2].Follows);
        Assert.Equal(["waterworks base", "repeater output"], Assert.Single(site.Exclusive));
        Assert.Equal(new SearchEntry(2, 7, 3, null, false), site.Search);
        Assert.Equal("neighbours.csv", site.Emitters[3].Source.File);
        Assert.Equal(2, site.Emitters[3].Source.Start.Line);
    }

    [Fact]
    public void Read_example_gives_every_observation()
    {
        SiteDocument site = Example();
        Assert.Collection(
            site.Evidence,
            e =>
                Assert.Equal(
                    ("repeater input", 3.0, InsertedAt.Antenna, 22.0, 8.6, 1.0),
                    Assert.IsType<AttenuatorTest>(e) is var t
                        ? (t.Receiver, t.Inserted.Value, t.At, t.OverNoise.Value, t.Fall.Value, t.PlusMinus!.Value.Value)
                        : default),
            e =>
                Assert.Equal(("filters/trap.s2p", 22.0), Assert.IsType<FilterTest>(e) is var t ? (t.Inserted.Path, t.Fall.Value) : default),
            e =>
                Assert.Equal(
                    ("paging mast", 3.0, 3.0),
                    Assert.IsType<EmitterReduced>(e) is var t ? (t.Emitter, t.By!.Value.Value, t.Fall.Value) : default),
            e =>
                Assert.Equal(
                    (180L, 50L), Assert.IsType<OffsetMeasured>(e) is var t ? (t.Measured.Hertz, t.PlusMinus!.Value.Hertz) : default),
            e => Assert.Equal("logs/tuesday.log.csv", Assert.IsType<LogEvidence>(e).Log.Path));
        Assert.Equal(
            ["filters/three-tank.circuit.yaml", "filters/duplexer-high.s2p", "neighbours.csv", "filters/trap.s2p", "logs/tuesday.log.csv"],
            site.Files.Select(f => f.Path));
    }

    [Fact]
    public void Read_example_lists_the_kinds_of_key_and_no_names()
    {
        IReadOnlyList<string> keys = Example().KeysPresent;
        Assert.Equal(keys.Count, keys.Distinct().Count());
        Assert.Contains("receivers.superhet.first_if", keys);
        Assert.Contains("receivers.chain.amplifier.gain", keys);
        Assert.Contains("emitters.coupling", keys);
        Assert.Contains("emitters.path", keys);
        Assert.Contains("evidence.attenuator_test.over_noise", keys);
        Assert.DoesNotContain("emitters.coupling.waterworks base", keys);
    }

    [Fact]
    public void Source_tells_where_each_field_stands()
    {
        string text = TestData.Read("site", "example.site.yaml");
        ReceiverEntry receiver = Example().Receivers[0];
        FieldPlace place = receiver.Source.Fields["chain[3].amplifier.iip3"];
        Assert.StartsWith("5 dBm", text[place.Value.Index..], StringComparison.Ordinal);
        Assert.StartsWith("iip3: 5 dBm", text[place.Key.Index..], StringComparison.Ordinal);
        Assert.Contains("sensitivity", receiver.Source.Fields.Keys);
        Assert.DoesNotContain("noise_figure", receiver.Source.Fields.Keys);
    }

    [Fact]
    public void Read_other_ways_of_writing_are_understood()
    {
        const string Text = """
            spurless: 1
            site: other ways
            receivers:
              - name: a
                frequency: 145.05 MHz
                channel: 25 kHz
                noise_figure: 6 dB
                iip2: 30 dBm
                iip9: -1 dBm
                intermod_rejection: { by: 70 dB, method: en300086, wanted: -107 dBm, co_channel: 8 dB }
                selectivity: { two_port: f.s2p }
                external_noise: 6 dB
                lo_noise: [-150 dBc/Hz at 1 MHz, -120 dBc/Hz at 12.5 kHz]
                levels_at: feedline end
                chain:
                  - feedline: { type: rg213, length: 100 ft }
                  - two_port: f.s2p
            emitters:
              - name: x
                frequency: 160 MHz
                bandwidth: 0 kHz
                level: { a: -21 dBm }
                erp: 5 W
                distance: 650 m
                bearing: 210
                path: { same structure: { vertical: 6 m, horizontal: 0 m } }
                isolator: [30 dB at 171.55 MHz, 55 dB at 158.3 MHz]
                turn_round_loss: [20 dB at 5, 12 dB at 3]
            search: { orders: 3, floor: none }
            """;
        SiteReading reading = SiteReader.Read(Text, "x", new StubFiles(("f.s2p", "")));
        Assert.Equal("", string.Join("\n", reading.Diagnostics));
        ReceiverEntry r = reading.Document!.Receivers[0];
        Assert.Equal([2, 9], r.Intercepts.Keys);
        Assert.Equal(
            new IntermodRejectionEntry(Decibels.FromDecibels(70), RejectionMethod.En300086, Level.FromDbm(-107), Decibels.FromDecibels(8)),
            r.IntermodRejection);
        Assert.Equal("f.s2p", r.Selectivity!.TwoPort!.Path);
        Assert.Equal(6, r.ExternalNoise!.OverThermal!.Value.Value);
        Assert.Equal([12_500L, 1_000_000L], r.LocalOscillatorNoise.Select(n => n.Offset.Hertz));
        Assert.Equal(LevelsAt.FeedlineEnd, r.LevelsAt);
        Assert.Equal(30.48, ((FeedlineStage)r.Chain[0]).Length!.Value.Metres, 1e-9);
        EmitterEntry e = reading.Document.Emitters[0];
        Assert.Equal((0L, -21.0, 650.0, 210.0), (e.BandwidthHz, e.LevelAt("a")!.Value.Dbm, e.Distance!.Value.Metres, e.Bearing!.Value));
        Assert.Equal(new PathEntry(PathModel.SameStructure, Length.FromMetres(6), Length.FromMetres(0)), e.Path);
        Assert.Equal([158_300_000L, 171_550_000L], e.Isolator!.Points.Select(p => p.Frequency.Hertz));
        Assert.Equal([3, 5], e.TurnRoundLoss!.Points.Select(p => p.Order));
        Assert.Equal(new SearchEntry(3, 3, null, null, true), reading.Document.Search);
    }

    public static TheoryData<string> BadFiles =>
        [
            .. Directory.GetFiles(TestData.Path("site", "bad"), "*.site.yaml").Select(f => Path.GetFileName(f)!).Order(
                StringComparer.Ordinal),
        ];

    [Theory]
    [MemberData(nameof(BadFiles))]
    public void Read_bad_file_gives_exactly_the_expected_findings(string file)
    {
        string expected = TestData.Read("site", "bad", file.Replace(".site.yaml", ".expected.txt", StringComparison.Ordinal));
        CultureInfo before = CultureInfo.CurrentCulture;
        foreach (string culture in (string[])["", "de-DE"])
        {
            try
            {
                CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
                SiteReading reading = SiteReader.Read(TestData.Read("site", "bad", file), file, new BesideFiles());
                string actual = string.Concat(reading.Diagnostics.Select(d => d + "\n"));
                Assert.Null(reading.Document);
                if (actual != expected)
                {
                    File.WriteAllText(
                        TestData.Path("site", "bad", file.Replace(".site.yaml", ".received.txt", StringComparison.Ordinal)), actual);
                }

                Assert.Equal(expected, actual);
            }
            finally
            {
                CultureInfo.CurrentCulture = before;
            }
        }
    }

    /// <summary>The files in tests/data/site/bad, under the names as written.</summary>
    private sealed class BesideFiles : ISiteFiles
    {
        private readonly SiteFolder _folder = new(TestData.Path("site", "bad", "x"));

        public bool Exists(string path) => _folder.Exists(path);

        public byte[]? Read(string path) => _folder.Read(path);

        public string NameOf(string path) => path;
    }

    [Fact]
    public void Read_more_than_5000_emitters_is_refused()
    {
        string Site(int n) =>
            "spurless: 1\nsite: s\nreceivers: [{ name: r, frequency: 145 MHz, channel: 12.5 kHz, "
                + "noise_figure: 6 dB, iip3: -8 dBm }]\nemitters:\n"
            + string.Concat(
                Enumerable.Range(0, n).Select(
                    i => FormattableString.Invariant($"  - {{ name: e{i}, frequency: 160 MHz, bandwidth: 11 kHz }}\n")));
        Assert.Empty(SiteReader.Read(Site(5000), "s", new StubFiles()).Diagnostics);
        Assert.Equal(
            "s:5005:5: this is emitter 5001 of 5001; keep the strongest 5000",
            Assert.Single(SiteReader.Read(Site(5001), "s", new StubFiles()).Diagnostics).ToString());
    }

    [Fact]
    public void Read_from_disk_finds_files_beside_the_site_file()
    {
        string folder = Directory.CreateTempSubdirectory("spurless").FullName;
        try
        {
            string path = Path.Combine(folder, "a.site.yaml");
            File.WriteAllText(
                path,
                "spurless: 1\nsite: s\nreceivers: [{ name: r, frequency: 145 MHz, channel: 12.5 kHz, "
                    + "noise_figure: 6 dB, iip3: -8 dBm }]\nemitters_from: sub/e.csv\n");
            Assert.Equal(
                $"{path}:4:16: there is no file 'sub/e.csv'; write a path relative to the site file, with '/' between folders",
                Assert.Single(Read(path).Diagnostics).ToString());
            Directory.CreateDirectory(Path.Combine(folder, "sub"));
            File.WriteAllText(
                Path.Combine(folder, "sub", "e.csv"), "name;frequency;bandwidth\nx;160 MHz;\ny;161 MHz;11 kHz\n", new UTF8Encoding(true));
            SiteReading reading = Read(path);
            Assert.Equal(
                $"{Path.Combine(folder, "sub/e.csv")}:2:1: there is neither 'emission' nor "
                    + $"'bandwidth'; add 'emission: 11K2F3E' or 'bandwidth: 16 kHz'",
                Assert.Single(reading.Diagnostics).ToString());
            Assert.Equal([path, Path.Combine(folder, "sub/e.csv")], reading.Inputs.Select(i => i.Name));
            Assert.Equal($"{folder}:0:0: this is a folder; give the site file in it", Assert.Single(NotRead(folder)).ToString());
            Assert.Equal(
                $"{path}x:0:0: there is no such file; check the name, or make one with 'new site'",
                Assert.Single(NotRead(path + "x")).ToString());
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    private static SiteReading Read(string path) => SiteReader.Read(File.ReadAllBytes(path), path, new SiteFolder(path));

    private static IReadOnlyList<Diagnostic> NotRead(string path)
    {
        DiagnosticBag findings = new();
        Assert.Null(SourceFile.Read(path, FileKind.Site, findings));
        return findings.InOrder();
    }
}
