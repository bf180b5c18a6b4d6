using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Paths;
using Spurless.Register.Importing;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;
using Spurless.Sites.Registers;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Tests.Registers;

public sealed class RegisterServiceTests : IDisposable
{
    private const string Mapping = """
        spurless_columns: 1
        register: invented
        columns:
          licence: L
          call_sign: C
          emission: E
          latitude: Lat
          longitude: Lon
          bearing: B
          beamwidth: W
          frequency: { column: F, unit: Hz }
          erp: { column: P, unit: W }
          height: { column: H, unit: m }
          ground: { column: G, unit: m }
        """;

    private const string Site = """
        spurless: 1
        site: hill (invented)
        # a comment that stays
        place: { latitude: 50, longitude: 0, ground: 100 m }
        receivers:
          - name: input
            frequency: 145.05 MHz
            channel: 12.5 kHz
            noise_figure: 6 dB
            iip3: -5 dBm
            antenna: { gain: 2.15 dBi, height: 20 m }
        emitters:
          - name: own      # ours
            frequency: 145.65 MHz
            emission: 11K2F3E
            level: -40 dBm
        """;

    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-sites-").FullName;

    private string Database => Path.Combine(_folder, "r.db");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private void Import(string rows)
    {
        string input = Directory.CreateDirectory(Path.Combine(_folder, "in")).FullName;
        File.WriteAllText(Path.Combine(input, "a.columns.yaml"), Mapping);
        File.WriteAllText(Path.Combine(input, "a.csv"), "L,C,E,F,P,Lat,Lon,H,G,B,W\n" + rows);
        Assert.NotNull(
            RegisterImport.Run(new ImportQuestion { Files = [input], Database = Database, AsOf = new DateOnly(2031, 3, 4) }).Answer);
    }

    private NearAnswer Near(string text, double radius = 30_000)
    {
        DiagnosticBag bag = new();
        SiteDocument site = SiteReader.Read(text, "a.site.yaml", new NoFiles()).Document!;
        NearAnswer? answer = NearService.Run(site, new NearQuestion { Database = Database, RadiusM = radius }, bag);
        Assert.True(answer is not null, string.Join('\n', bag.InOrder()));
        return answer;
    }

    [Fact]
    public void Near_predicts_free_space_without_heights_and_plane_earth_with_them()
    {
        Import(
            "1,AA,11K2F3E,160000000,100,50.1,0,,,,\n2,BB,11K2F3E,160000000,100,50.1,0,30,80,,\n3,CC,11K2F3E,160000000,,50.1,0,30,80,,\n");

        NearAnswer answer = Near(Site);

        Assert.True(Geodesic.TryBetween(GeoPoint.Of(50, 0), GeoPoint.Of(50.1, 0), out GeodesicLine line, out _));

        // 100 W ERP: 50 + 2.15 dBm; antenna 2.15 dBi; ITU-R P.525. Plane earth over the lower ground, 80 m: heights 30 and 40 m.
        double free = 50 + 2.15 + 2.15 - FreeSpace.LossDb(line.DistanceM, 160e6);
        double plane = 50 + 2.15 + 2.15 - PlaneEarth.LossDb(line.DistanceM, 30, 40);
        Assert.Equal(["AA 160 MHz", "BB 160 MHz", "CC 160 MHz"], answer.Emitters.Select(static e => e.Name));
        Assert.Equal(free, answer.Emitters[0].LevelDbm!.Value, 1e-6);
        // 160 MHz is 10.3 % off 145.05 MHz: 10 dB more for the receive antenna, in squares.
        Assert.Equal(Math.Sqrt(100 + 100), answer.Emitters[0].SigmaDb!.Value, 1e-9);
        Assert.Equal(plane, answer.Emitters[1].LevelDbm!.Value, 1e-6);
        Assert.Equal(Math.Sqrt(64 + 100), answer.Emitters[1].SigmaDb!.Value, 1e-9);
        Assert.Null(answer.Emitters[2].LevelDbm);
        Assert.IsType<LevelNote.NoPowerInRegister>(answer.Emitters[2].Assumed[0]);
    }

    /// <summary>
    /// A receiver of 145.05 MHz and a transmitter of 170: the antenna's gain tells nothing there unless its response is stated, as in a
    /// study.
    /// </summary>
    [Fact]
    public void Near_counts_the_receive_antenna_s_response_and_tilt_and_marks_what_is_out_of_its_band()
    {
        Import("1,AA,11K2F3E,170000000,100,50.1,0,,,,\n2,BB,11K2F3E,150000000,100,50.1,0,20,100,,\n");
        NearEmitter[] bare = [.. Near(Site).Emitters];
        NearEmitter[] With(string more) =>
            [.. Near(Site.Replace("height: 20 m }", $"height: 20 m, {more} }}", StringComparison.Ordinal)).Emitters];
        NearEmitter[] stated = With("response: [0 dB at 145.05 MHz, -12 dB at 170 MHz]");
        static NearEmitter Of(NearEmitter[] all, string call) => all.Single(e => e.Name.StartsWith(call, StringComparison.Ordinal));
        Assert.Equal(12, Of(bare, "AA").LevelDbm!.Value - Of(stated, "AA").LevelDbm!.Value, 1e-9);
        Assert.Equal(Math.Sqrt(200), Of(bare, "AA").SigmaDb!.Value, 1e-9);
        Assert.Equal(10, Of(stated, "AA").SigmaDb!.Value, 1e-9);
        Assert.Contains(Of(bare, "AA").Assumed, static a => a is LevelNote.GainOutOfBand);
        Assert.DoesNotContain(Of(stated, "AA").Assumed, static a => a is LevelNote.GainOutOfBand);
        Assert.DoesNotContain(Of(bare, "BB").Assumed, static a => a is LevelNote.GainOutOfBand);

        // Both 20 m over grounds of 100 m: the horizon, 3 dB down in a lobe of 16 degrees tilted by 8.
        NearEmitter[] tilted = With("tilt: 8, vertical_beamwidth: 16, polarisation: vertical");
        Assert.Equal(3, Of(bare, "BB").LevelDbm!.Value - Of(tilted, "BB").LevelDbm!.Value, 0.01);
        Assert.Contains(Of(tilted, "BB").Assumed, static a => a is LevelNote.NoPolarisationInRegister);
    }

    [Fact]
    public void Near_takes_the_beam_of_the_transmitter_off()
    {
        // 120 degrees beside a beam of 65: 12 (120/65)^2 is over the floor of 20 dB.
        Import("1,AA,11K2F3E,160000000,100,50.1,0,,,180,65\n2,BB,11K2F3E,160000000,100,50.1,0,,,60,65\n");

        NearAnswer answer = Near(Site);

        Assert.Equal(20, answer.Emitters[0].LevelDbm!.Value - answer.Emitters[1].LevelDbm!.Value, 1e-6);
    }

    [Fact]
    public void Additions_stand_in_the_file_once_with_their_comment_and_the_rest_as_it_was()
    {
        Import("1,AA,11K2F3E,160000000,100,50.1,0,30,80,,\n2,,,161000000,50,50.05,0.01,,,,\n");
        SiteDocument site = SiteReader.Read(Site, "a.site.yaml", new NoFiles()).Document!;
        SiteAddition[] additions = [.. Near(Site).Emitters.Select(NearService.Addition)];
        DiagnosticBag bag = new();

        static string Comment(AdditionOrigin origin) =>
            origin is AdditionOrigin.Licensed { AssumedWidthHz: null } from ? "licence " + from.Licence : "its bandwidth is assumed";
        Assert.True(SiteAdditions.TryAdd(
            Site, "a.site.yaml", site, additions, Comment, out string? edited, out IReadOnlyList<string> added, bag));

        Assert.Equal(2, added.Count);
        Assert.StartsWith(Site, edited, StringComparison.Ordinal);
        Assert.Contains("- name: AA 160 MHz    # licence 1\n", edited, StringComparison.Ordinal);
        Assert.Contains("# its bandwidth is assumed", edited, StringComparison.Ordinal);
        SiteReading again = SiteReader.Read(edited, "a.site.yaml", new NoFiles());
        Assert.True(again.Document is not null, string.Join('\n', again.Diagnostics));
        Assert.Equal(3, again.Document.Emitters.Count);

        // A second time nothing is added, whatever the register says of them.
        Assert.True(SiteAdditions.TryAdd(edited, "a.site.yaml", again.Document, additions, Comment, out string? twice, out added, bag));
        Assert.Empty(added);
        Assert.Equal(edited, twice);
        Assert.All(Near(edited).Emitters, static e => Assert.True(e.InSite));
    }

    [Fact]
    public void Additions_go_into_a_file_without_emitters()
    {
        string bare = Site[..Site.IndexOf("emitters:", StringComparison.Ordinal)];
        Import("1,AA,11K2F3E,160000000,100,50.1,0,30,80,,\n");
        SiteDocument site = SiteReader.Read(bare, "a.site.yaml", new NoFiles()).Document!;

        Assert.True(SiteAdditions.TryAdd(
            bare,
            "a.site.yaml",
            site,
            [.. Near(bare).Emitters.Select(NearService.Addition)],
            static _ => "from somewhere",
            out string? edited,
            out _,
            new DiagnosticBag()));

        Assert.Single(SiteReader.Read(edited, "a.site.yaml", new NoFiles()).Document!.Emitters);
    }

    [Fact]
    public void Near_of_a_site_without_a_place_says_how_to_write_one()
    {
        Import("1,AA,11K2F3E,160000000,100,50.1,0,30,80,,\n");
        string text = Site.Replace("place: { latitude: 50, longitude: 0, ground: 100 m }\n", "", StringComparison.Ordinal);
        DiagnosticBag bag = new();

        Assert.Null(
            NearService.Run(SiteReader.Read(text, "a.site.yaml", new NoFiles()).Document!, new NearQuestion { Database = Database }, bag));
        Assert.Contains("has no place", bag.InOrder()[0].What, StringComparison.Ordinal);
    }

    private async Task<string> ScreenedAsync(
        string name, (int First, int Last)? tiles = null, Func<ScreenRow, string>? write = null, CancellationToken cancel = default)
    {
        string path = Path.Combine(_folder, name);
        DiagnosticBag bag = new();
        ScreenAnswer? answer = await ScreenService.RunAsync(
            new ScreenQuestion
            {
                Database = Database,
                Receivers = Path.Combine(_folder, "rx.csv"),
                Out = path,
                TileSize = 5,
                Tiles = tiles,
            },
            "head",
            write ?? Line,
            null,
            bag,
            null,
            cancel);
        Assert.True(answer is not null, string.Join('\n', bag.InOrder()));
        return File.ReadAllText(path);
    }

    private static string Line(ScreenRow row) => string.Create(
        CultureInfo.InvariantCulture,
        $"{row.Name} {row.Harmful} {row.Marginal} {row.WorstOverNoiseDb:F6} {string.Join('+', row.Terms.Select(static t => t.Name))}");

    private void ManyEmitters(int count)
    {
        Random random = new(3);
        Import(string.Concat(Enumerable.Range(0, count).Select(i => string.Create(
            CultureInfo.InvariantCulture,
            $"{i},,11K2F3E,{150_000_000 + (random.Next(800) * 12_500L)},100,"
                + $"{50 + (random.NextDouble() / 5):0.000000},{random.NextDouble() / 5:0.000000},30,80,,\n"))));
        File.WriteAllText(
            Path.Combine(_folder, "rx.csv"),
            "name,latitude,longitude,ground,frequency,channel,noise_figure,iip3,antenna.gain,antenna.height\n"
                + string.Concat(Enumerable.Range(0, 23).Select(i => string.Create(
                CultureInfo.InvariantCulture,
                $"r{i},{50 + (random.NextDouble() / 5):0.0000},{random.NextDouble() / 5:0.0000},90 "
                    + $"m,{150 + (random.Next(800) * 0.0125):0.0000} MHz,12.5 kHz,6 dB,-10 dBm,2.15 dBi,15 m\n"))));
    }

    [Fact]
    public async Task Screen_counts_what_the_study_of_each_receiver_counts()
    {
        ManyEmitters(40);
        string[] rows = (await ScreenedAsync("all.csv")).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        string[] receivers = File.ReadAllLines(Path.Combine(_folder, "rx.csv"));
        Assert.Equal(24, rows.Length);
        long seen = 0;
        for (int i = 1; i < receivers.Length; i++)
        {
            string[] cells = receivers[i].Split(',');
            string text = $$"""
                spurless: 1
                site: one
                place: { latitude: {{cells[1]}}, longitude: {{cells[2]}}, ground: {{cells[3]}} }
                receivers:
                  - { name: input, frequency: {{cells[4]}}, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -10 dBm,
                      antenna: { gain: 2.15 dBi, height: 15 m } }
                """;
            NearAnswer near = Near(text, 100_000);

            // The predicted levels put in as measured ones: the study of the same carriers.
            string emitters = string.Concat(near.Emitters.Select(static e => string.Create(
                CultureInfo.InvariantCulture,
                $"  - {{ name: \"{e.Name}\", frequency: {e.Record.FrequencyHz / 1e6} MHz, "
                    + $"emission: 11K2F3E, level: {e.LevelDbm:F9} dBm }}\n")));
            LoadedSite site = SiteLoader.Load(
                text + "\nemitters:\n" + emitters, "one.site.yaml", new NoFiles(), out IReadOnlyList<Diagnostic> findings)
                ?? throw new InvalidOperationException(string.Join('\n', findings));
            int harmful = 0;
            int marginal = 0;
            foreach (int order in (int[])[2, 3, 5])
            {
                StudyResult study = StudyService.Run(site, new StudyOptions { Orders = (order, order) });
                ProductFinding[] made = [.. study.Receivers[0].Products.Where(static p => p.Mechanism == Mechanism.Receiver)];
                harmful += made.Count(static p => p.Verdict == Verdict.Harmful);
                marginal += made.Count(static p => p.Verdict == Verdict.Marginal);
            }

            seen += harmful + marginal;
            Assert.StartsWith(
                string.Create(CultureInfo.InvariantCulture, $"{cells[0]} {harmful} {marginal} "), rows[i], StringComparison.Ordinal);
        }

        Assert.True(seen > 5, "too few mixtures to prove anything");
    }

    [Fact]
    public async Task Screen_by_four_ranges_of_tiles_is_the_screen_in_one()
    {
        ManyEmitters(150);
        string whole = await ScreenedAsync("whole.csv");

        string[] parts =
        [
            await ScreenedAsync("1.csv", (1, 1)), await ScreenedAsync("2.csv", (2, 3)), await ScreenedAsync("3.csv", (4, 4)),
            await ScreenedAsync("4.csv", (5, 5)),
        ];

        Assert.Equal(whole, string.Concat(parts.Select(static (p, i) => i == 0 ? p : p["head\n".Length..])));
    }

    [Fact]
    public async Task Screen_that_was_cut_short_goes_on_and_ends_alike()
    {
        ManyEmitters(150);
        string whole = await ScreenedAsync("whole.csv");
        using CancellationTokenSource stop = new();
        int rows = 0;
        string Stopping(ScreenRow row)
        {
            if (++rows == 8)
            {
                stop.Cancel();
            }

            return Line(row);
        }

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => ScreenedAsync("cut.csv", null, Stopping, stop.Token));
        Assert.False(File.Exists(Path.Combine(_folder, "cut.csv")));

        int again = 0;
        string end = await ScreenedAsync("cut.csv", null, row =>
        {
            again++;
            return Line(row);
        });

        Assert.Equal(whole, end);
        Assert.True(again < 23, "nothing of the first run was kept");
    }

    [Fact]
    public async Task Screen_of_a_bad_table_gives_line_and_column()
    {
        ManyEmitters(3);
        File.WriteAllText(
            Path.Combine(_folder, "rx.csv"),
            "name,latitude,longitude,frequency,channel,noise_figure,iip3\na,50,0,145.05 MHz,12.5 kHz,6 "
                + "dB,-10 dBm\nb,north,0,145.05,12.5 kHz,6 dB,-10 dBm\n");
        DiagnosticBag bag = new();

        Assert.Null(await ScreenService.RunAsync(
            new ScreenQuestion { Database = Database, Receivers = Path.Combine(_folder, "rx.csv"), Out = Path.Combine(_folder, "o.csv") },
            "",
            Line,
            null,
            bag));

        string all = string.Join('\n', bag.InOrder());
        Assert.Contains("rx.csv:3:3: 'north' is no position", all, StringComparison.Ordinal);
        Assert.Contains("rx.csv:3:11:", all, StringComparison.Ordinal);
    }

    private sealed class NoFiles : ISiteFiles
    {
        public bool Exists(string path) => false;

        public byte[]? Read(string path) => null;

        public string NameOf(string path) => path;
    }
}
