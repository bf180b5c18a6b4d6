using System.Globalization;
using Spurless.Workbench.Desk;
using Spurless.Workbench.Folders;

namespace Spurless.Bench.Studies;

/// <summary>
/// The rows 'Behind the pages': what the server does for a site of 300 emitters while one works on it, each against doing it anew. What
/// the browser adds is timed by tests/Spurless.Browser.
/// </summary>
public static class PageRows
{
    private const string Subject = "Behind the pages";
    private const int Emitters = 300;
    private static readonly TimeSpan Budget = TimeSpan.FromSeconds(2);

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(
            Subject, "a slider's step, 300 emitters that state a power, vs the site's study anew", ">= 3 x", static _ => Step()),
        new BenchRow(Subject, "a cell saved, 300 emitters: spliced, read and checked again", "<= 30 ms", static _ => Cell()),
        new BenchRow(
            Subject, "300 rows pasted in one splice, vs cell by cell (30 rows, extrapolated)", ">= 50 x", static _ => Paste()),
    ];

    private static BenchResult Step()
    {
        using Scratch scratch = new(Text());
        ShelvedDesk desk = new DeskShelf(scratch.Folder, TimeProvider.System).Of(Scratch.Name)!;
        DeskItem pad = desk.Desk!.Receivers[0].First(static s => s.Kind == DeskStageKind.Attenuator).Items[0];
        int at = 0;
        DeskSettings Next() => DeskSettings.None.With(pad, pad.Snapped(1 + (at++ % 20)));
        (double ours, double baseline, double ratio, _) = Timing.ByTurns(
            () => desk.Desk.StudyOneAsync(0, Next(), desk.Options).GetAwaiter().GetResult(),
            () => desk.Desk.Study(Next(), desk.Options), Budget);
        return new BenchResult(
            Timing.Text(ours), Timing.Text(baseline), Timing.Times(ratio), ratio >= 3,
            "what arrives at each transmitter from every other is kept from step to step");
    }

    private static BenchResult Cell()
    {
        using Scratch scratch = new(Text());
        OpenFolder folder = scratch.Folder;
        string seen = FieldText.ValueOf(folder.Session.Read(Scratch.Name)!.Text, "emitters[7].level")!;
        int n = 0;
        double seconds = Timing.Best(
            () =>
            {
                string value = string.Create(CultureInfo.InvariantCulture, $"-{40 + (n++ % 9)} dBm");
                folder.Set(Scratch.Name, "emitters[7].level", value, seen, "level");
                seen = value;
                _ = SiteFields.Of(folder.Site(Scratch.Name)!).Count("emitters");
            },
            Budget);
        return new BenchResult(Timing.Text(seconds), "", "", seconds <= 0.030, "the file brought to the disk included");
    }

    private static BenchResult Paste()
    {
        string text = Text();
        List<(string, string)> Rows(int count) =>
        [
            .. Enumerable.Range(0, count).SelectMany(static i => ((string, string)[])
            [
                (At(i, "name"), $"pasted {i}"), (At(i, "frequency"), string.Create(CultureInfo.InvariantCulture, $"{200 + i} MHz")),
                (At(i, "bandwidth"), "16 kHz"), (At(i, "level"), "-50 dBm"),
            ]),
        ];
        List<(string Field, string Value)> few = Rows(30), all = Rows(300);
        double ours = Timing.Best(() => FieldText.TrySetAll(text, all, out _, out _), Budget);
        double one = Timing.Once(() =>
        {
            string now = text;
            foreach ((string field, string value) in few)
            {
                now = FieldText.TrySet(now, field, value, out string? edited, out _) ? edited : now;
            }
        });
        double ratio = one * 10 / ours;
        return new BenchResult(Timing.Text(ours), Timing.Text(one * 10), Timing.Times(ratio), ratio >= 50, "");
    }

    private static string At(int row, string key) => string.Create(CultureInfo.InvariantCulture, $"emitters[{Emitters + row}].{key}");

    // The plan's carriers, each with a power, so that each transmitter is a place where mixing could happen.
    private static string Text() => StudySite.Text(Emitters, 1)
        .Replace("search: { orders: 2-7, signals: 3 }", "search: { orders: 2-5, signals: 3 }", StringComparison.Ordinal)
        .Replace(", level: ", ", power: 5 W, level: ", StringComparison.Ordinal)
        .Replace("    chain:\n", "    chain:\n      - attenuator: 1 dB\n", StringComparison.Ordinal)
        .Replace("    chain:\r\n", "    chain:\r\n      - attenuator: 1 dB\r\n", StringComparison.Ordinal);

    private sealed class Scratch : IDisposable
    {
        public const string Name = "plan.site.yaml";
        private readonly string _path = Directory.CreateTempSubdirectory("spurless-bench-").FullName;

        public Scratch(string text)
        {
            File.WriteAllText(Path.Combine(_path, Name), text);
            Folder = new OpenFolder(_path, TimeProvider.System);
        }

        public OpenFolder Folder { get; }

        public void Dispose()
        {
            Folder.Dispose();
            Directory.Delete(_path, recursive: true);
        }
    }
}
