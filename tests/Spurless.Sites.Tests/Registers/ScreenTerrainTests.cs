using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Terrain;
using Spurless.Register.Importing;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;
using Spurless.Sites.Registers;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Terrain;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Registers;

/// <summary>Screening over the demo's invented hill.</summary>
public sealed class ScreenTerrainTests : IDisposable
{
    private const string Mapping = """
        spurless_columns: 1
        register: invented
        columns:
          licence: L
          emission: E
          latitude: Lat
          longitude: Lon
          frequency: { column: F, unit: Hz }
          erp: { column: P, unit: W }
          height: { column: H, unit: m }
        """;

    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-terrain-").FullName;

    private string Database => Path.Combine(_folder, "r.db");

    private string Receivers => Path.Combine(_folder, "rx.csv");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private void Make(int emitters, string beyond = "")
    {
        Random random = new(5);
        string input = Directory.CreateDirectory(Path.Combine(_folder, "in")).FullName;
        File.WriteAllText(Path.Combine(input, "a.columns.yaml"), Mapping);
        File.WriteAllText(Path.Combine(input, "a.csv"), "L,E,F,P,Lat,Lon,H\n" + beyond
            + string.Concat(Enumerable.Range(0, emitters).Select(i => string.Create(
                CultureInfo.InvariantCulture,
                $"{i},11K2F3E,{150_000_000 + (random.Next(200) * 12_500L)},100,"
                    + $"{40.45 + (random.NextDouble() / 5):0.000000},{-35.45 + (random.NextDouble() / 3):0.000000},30\n"))));
        File.WriteAllText(
            Receivers,
            "name,latitude,longitude,frequency,channel,noise_figure,iip3,antenna.gain,antenna.height\n"
                + string.Concat(Enumerable.Range(0, 5).Select(i => string.Create(
                    CultureInfo.InvariantCulture,
                    $"r{i},{40.45 + (random.NextDouble() / 5):0.0000},{-35.45 + (random.NextDouble() / 3):0.0000},"
                        + $"{150 + (random.Next(200) * 0.0125):0.0000} MHz,12.5 kHz,6 dB,-20 dBm,2.15 dBi,15 m\n"))));
        Assert.NotNull(
            RegisterImport.Run(new ImportQuestion { Files = [input], Database = Database, AsOf = new DateOnly(2031, 3, 4) }).Answer);
    }

    private static SiteTerrain Terrain() => SiteTerrain.Of(TestData.Demo("elevation"), new DiagnosticBag())!;

    private async Task<(string[] Rows, ScreenAnswer Answer)> ScreenedAsync(SiteTerrain? terrain, string name = "out.csv")
    {
        DiagnosticBag bag = new();
        ScreenAnswer? answer = await ScreenService.RunAsync(
            new ScreenQuestion { Database = Database, Receivers = Receivers, Out = Path.Combine(_folder, name), Terrain = terrain },
            "head",
            static r => string.Create(CultureInfo.InvariantCulture, $"{r.Name} {r.Harmful} {r.Marginal} {r.WorstOverNoiseDb:F3}"),
            null,
            bag);
        Assert.True(answer is not null, string.Join('\n', bag.InOrder()));
        return ([.. File.ReadAllLines(Path.Combine(_folder, name)).Skip(1)], answer);
    }

    /// <summary>The same carriers with the levels that 'near' predicts over the ground, put in as measured: the study's counts.</summary>
    [Fact]
    public async Task Screen_over_the_ground_counts_what_the_study_of_each_receiver_counts()
    {
        Make(30);
        (string[] rows, ScreenAnswer answer) = await ScreenedAsync(Terrain());
        string[] receivers = File.ReadAllLines(Receivers);
        long seen = 0;
        for (int i = 1; i < receivers.Length; i++)
        {
            string[] cells = receivers[i].Split(',');
            string text = $$"""
                spurless: 1
                site: one
                place: { latitude: {{cells[1]}}, longitude: {{cells[2]}} }
                receivers:
                  - { name: input, frequency: {{cells[3]}}, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -20 dBm,
                      antenna: { gain: 2.15 dBi, height: 15 m } }
                """;
            DiagnosticBag bag = new();
            NearAnswer near = NearService.Run(
                SiteReader.Read(text, "a.site.yaml", new StubFiles()).Document!,
                new NearQuestion { Database = Database, RadiusM = 100_000, Terrain = Terrain() },
                bag)!;
            Assert.All(
                near.Emitters,
                static e => Assert.IsType<TerrainBasis.OverGround>(Assert.IsType<LevelNote.Predicted>(e.Assumed[0]).Basis));
            Assert.All(near.Emitters, static e => Assert.False(e.IsMost));
            string emitters = string.Concat(near.Emitters.Select(static e => string.Create(
                CultureInfo.InvariantCulture,
                $"  - {{ name: \"{e.Name}\", frequency: {e.Record.FrequencyHz / 1e6} MHz, "
                    + $"emission: 11K2F3E, level: {e.LevelDbm:F9} dBm }}\n")));
            LoadedSite site = SiteLoader.Load(
                text + "\nemitters:\n" + emitters, "one.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings)
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
                string.Create(CultureInfo.InvariantCulture, $"{cells[0]} {harmful} {marginal} "), rows[i - 1], StringComparison.Ordinal);
        }

        Assert.True(seen > 5, "too few mixtures to prove anything");
        Assert.Equal(0, answer.Ground!.Without);
        Assert.True(answer.Ground.Paths > 0);
        Assert.NotEqual(rows, (await ScreenedAsync(null, "free.csv")).Rows);
    }

    [Fact]
    public async Task Screen_beyond_the_tiles_names_what_is_missing()
    {
        Make(3, "x,11K2F3E,151000000,5000,41.2,-35.3,30\n");

        ScreenGroundSum ground = (await ScreenedAsync(Terrain())).Answer.Ground!;

        Assert.True(ground.Without > 0);
        Assert.Contains("N41W036", Assert.Single(ground.Missing), StringComparison.Ordinal);
    }

    [Fact]
    public void Terrain_of_a_folder_without_files_says_so()
    {
        DiagnosticBag bag = new();
        Assert.Null(SiteTerrain.Of(_folder, bag));
        Assert.Null(SiteTerrain.Of(Path.Combine(_folder, "none"), bag));
        Assert.Contains("holds no elevation file", bag.InOrder()[0].What, StringComparison.Ordinal);
        Assert.Contains("there is no such folder", bag.InOrder()[1].What, StringComparison.Ordinal);
    }
}
