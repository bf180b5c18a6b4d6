using System.Diagnostics;
using System.Globalization;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Pages.Study;
using Spurless.Workbench.Desk;
using Spurless.Workbench.Folders;

namespace Spurless.Fuzz.Pages;

/// <summary>What a long time of random clicks came to.</summary>
/// <param name="Clicks">How many.</param>
/// <param name="Seconds">How long.</param>
/// <param name="FirstMb">Memory in use after a full collection, middle value of the second quarter (the first fills the caches).</param>
/// <param name="LastMb">The same of the last quarter.</param>
internal sealed record ClicksReport(int Clicks, double Seconds, double FirstMb, double LastMb)
{
    /// <summary>Whether memory did not grow: a tenth and 5 MB are taken for chance.</summary>
    public bool IsFlat => LastMb <= FirstMb * 1.1 + 5;
}

/// <summary>One user who clicks at random: moves, keeps, types cells, undoes, redoes, opens another site, for minutes.</summary>
internal sealed class Clicks : IDisposable
{
    private static readonly string[] Files = ["one.site.yaml", "two.site.yaml", "three.site.yaml"];
    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-clicks-").FullName;
    private readonly OpenFolder _open;
    private readonly DeskShelf _shelf;
    private readonly FolderReadings _readings;
    private readonly Random _random;
    private string _file = Files[0];
    private DeskSettings _settings = DeskSettings.None;

    public Clicks(int seed)
    {
        _random = new Random(seed);
        Directory.CreateDirectory(Path.Combine(_folder, "filters"));
        File.Copy(Places.Of("demo", "filters", "three-tank.circuit.yaml"), Path.Combine(_folder, "filters", "three-tank.circuit.yaml"));
        foreach ((string file, int emitters) in Files.Zip([40, 100, 300]))
        {
            File.WriteAllText(Path.Combine(_folder, file), ManyPages.Site(emitters));
        }

        _open = new OpenFolder(_folder, TimeProvider.System);
        _shelf = new DeskShelf(_open, TimeProvider.System);
        _readings = new FolderReadings(_open, TimeProvider.System);
    }

    /// <summary>Clicks for so long.</summary>
    public async Task<ClicksReport> RunAsync(double seconds, Action<double, double>? sampled = null)
    {
        List<double> memory = [];
        Stopwatch clock = Stopwatch.StartNew();
        int clicks = 0;
        for (double next = 0; clock.Elapsed.TotalSeconds < seconds; clicks++)
        {
            await ClickAsync().ConfigureAwait(false);
            if (clock.Elapsed.TotalSeconds >= next)
            {
                next += seconds / 40;
                memory.Add(GC.GetTotalMemory(forceFullCollection: true) / 1e6);
                sampled?.Invoke(clock.Elapsed.TotalSeconds, memory[^1]);
            }
        }

        int quarter = Math.Max(1, memory.Count / 4);
        return new ClicksReport(
            clicks, clock.Elapsed.TotalSeconds, Middle(memory.Skip(quarter).Take(quarter)), Middle(memory.TakeLast(quarter)));
    }

    public void Dispose()
    {
        _readings.Dispose();
        _open.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private async Task ClickAsync()
    {
        switch (_random.Next(12))
        {
            case 0:
                _file = Files[_random.Next(Files.Length)];
                break;
            case 1:
                _ = _open.Session.Undo();
                break;
            case 2:
                _ = _open.Session.Redo();
                break;
            case 3 or 4:
                Cell();
                break;
            case 5:
                Keep();
                break;
            case 6:
                _settings = DeskSettings.None;
                break;
            case 7:
                _ = _readings.All;
                break;
            default:
                await MoveAsync().ConfigureAwait(false);
                break;
        }
    }

    private void Cell()
    {
        string field = string.Create(CultureInfo.InvariantCulture, $"emitters[{_random.Next(40)}].level");
        string? seen = FieldText.ValueOf(_open.Session.Read(_file)!.Text, field);
        _ = _open.Set(_file, field, string.Create(CultureInfo.InvariantCulture, $"-{_random.Next(30, 90)} dBm"), seen, "level");
    }

    private void Keep()
    {
        if (_shelf.Of(_file)?.Desk is not { } desk)
        {
            return;
        }

        foreach (KeptFile file in desk.Keep(_settings.Known(desk.Items), out _))
        {
            string name = file.Path.Length == 0 ? _file : file.Path;
            _ = _open.Edit(name, "kept", text => text == file.From ? (file.Text, null) : (null, "changed meanwhile"));
        }

        _settings = DeskSettings.None;
    }

    private async Task MoveAsync()
    {
        ShelvedDesk shelved = _shelf.Of(_file)!;
        if (shelved.Desk is not { } desk)
        {
            throw new Violation($"{_file} has an error after clicks: {shelved.Findings[0]}");
        }

        DeskItem[] items = [.. desk.Items];
        DeskItem item = items[_random.Next(items.Length)];
        _settings = _settings.Known(desk.Items).With(item, item.Snapped(item.Low + _random.NextDouble() * (item.High - item.Low)));
        DeskStudy study = shelved.Study(0, _settings);
        study.Follow();
        if (_random.Next(8) == 0)
        {
            study.Leave(); // the page is closed before it is drawn
            return;
        }

        if ((await study.Outcome.ConfigureAwait(false)).Findings is { } now)
        {
            _ = StudyPictureScene.Draw(StudyShown.Of(now, null, ComparisonWords.Filter, shelved.Options, [], null), 900, null);
        }

        study.Leave();
    }

    private static double Middle(IEnumerable<double> values) =>
        values.Order().ToArray() is { Length: > 0 } sorted ? sorted[sorted.Length / 2] : 0;
}
