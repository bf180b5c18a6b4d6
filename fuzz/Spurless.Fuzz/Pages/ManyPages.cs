using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Pages.Study;
using Spurless.Sites.Studies;
using Spurless.Workbench.Desk;
using Spurless.Workbench.Folders;

namespace Spurless.Fuzz.Pages;

/// <summary>What many pages on one folder came to.</summary>
/// <param name="Pages">Pages at once.</param>
/// <param name="Moves">Moves of sliders, each to its picture.</param>
/// <param name="MedianMs">Half of them took no longer.</param>
/// <param name="P95Ms">95 of 100 took no longer.</param>
/// <param name="P99Ms">99 of 100 took no longer.</param>
/// <param name="Edits">Cells that were written and told as saved.</param>
/// <param name="Refused">Those that were told as not saved.</param>
/// <param name="Lost">Those that were told as saved and are not in the file.</param>
internal sealed record PagesReport(int Pages, int Moves, double MedianMs, double P95Ms, double P99Ms, int Edits, int Refused, int Lost);

/// <summary>
/// Pages that move sliders of one large site at once and write cells of it meanwhile: what a page does from the move to the scene of its
/// picture, without the browser and the connection to it.
/// </summary>
internal sealed class ManyPages : IDisposable
{
    private const string File = "large.site.yaml";
    private const int MovesBetweenEdits = 8;
    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-pages-").FullName;
    private readonly OpenFolder _open;
    private readonly DeskShelf _shelf;
    private readonly ConcurrentBag<double> _ms = [];
    private int _edits;
    private int _refused;

    /// <summary>A folder with a site of so many emitters.</summary>
    public ManyPages(int emitters)
    {
        Directory.CreateDirectory(Path.Combine(_folder, "filters"));
        System.IO.File.Copy(
            Places.Of("demo", "filters", "three-tank.circuit.yaml"), Path.Combine(_folder, "filters", "three-tank.circuit.yaml"));
        System.IO.File.WriteAllText(Path.Combine(_folder, File), Site(emitters));
        _open = new OpenFolder(_folder, TimeProvider.System);
        _shelf = new DeskShelf(_open, TimeProvider.System);
    }

    /// <summary>Runs.</summary>
    /// <param name="pages">Pages at once.</param>
    /// <param name="moves">Moves of each.</param>
    /// <param name="pauseS">Between a picture and the next move on its page, on the mean, in seconds; 0: as fast as pictures come.</param>
    /// <param name="seed">Of all that is random.</param>
    public async Task<PagesReport> RunAsync(int pages, int moves, double pauseS, int seed)
    {
        string[] written = await Task.WhenAll(Enumerable.Range(0, pages).Select(p => PageAsync(p, moves, pauseS, new Random(seed + p))))
            .ConfigureAwait(false);
        string text = await System.IO.File.ReadAllTextAsync(Path.Combine(_folder, File)).ConfigureAwait(false);
        int lost = written.Where((value, p) => value.Length > 0 && FieldText.ValueOf(text, Field(p)) != value).Count();
        double[] sorted = [.. _ms.Order()];
        double At(double share) => sorted[(int)Math.Min(sorted.Length - 1, share * sorted.Length)];
        return new PagesReport(pages, sorted.Length, At(0.5), At(0.95), At(0.99), _edits, _refused, lost);
    }

    public void Dispose()
    {
        _open.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>A large invented site.</summary>
    public static string Site(int emitters)
    {
        StringBuilder text = new("""
            spurless: 1
            site: large (invented)
            receivers:
              - name: input
                frequency: 145.050 MHz
                channel: 12.5 kHz
                noise_figure: 6 dB
                iip2: 30 dBm
                iip3: -2 dBm
                chain:
                  - feedline: { loss: 1.2 dB at 145 MHz }
                  - circuit: filters/three-tank.circuit.yaml
                  - attenuator: 2 dB
            emitters:

            """);
        for (int i = 0; i < emitters; i++)
        {
            double mhz = 146 + i * 0.0625 + i / 20 * 3;
            text.Append(CultureInfo.InvariantCulture,
                $"  - {{ name: e{i}, frequency: {mhz:0.0000} MHz, emission: 11K2F3E, level: {-30 - i % 40} dBm }}\n");
        }

        return text.ToString();
    }

    // Returns the last value of its own cell that was told as saved.
    private async Task<string> PageAsync(int page, int moves, double pauseS, Random random)
    {
        string kept = "";
        string seen = FieldText.ValueOf(_open.Session.Read(File)!.Text, Field(page))!;
        Dictionary<ProductRow, int> numbers = [];

        // The page's opening is no move.
        DeskSettings settings = await MoveAsync(DeskSettings.None, numbers, random, counted: false).ConfigureAwait(false);
        for (int i = 0; i < moves; i++)
        {
            // Pages move at any time, not in step: pauses from none to twice the mean.
            await Task.Delay(TimeSpan.FromSeconds(2 * pauseS * random.NextDouble())).ConfigureAwait(false);
            settings = await MoveAsync(settings, numbers, random, counted: true).ConfigureAwait(false);
            if (i % MovesBetweenEdits == page % MovesBetweenEdits)
            {
                string value = string.Create(CultureInfo.InvariantCulture, $"-{30 + i % 60}.{page:00} dBm");
                FieldOutcome outcome = _open.Set(File, Field(page), value, seen, "level");
                _ = outcome.Ok ? Interlocked.Increment(ref _edits) : Interlocked.Increment(ref _refused);
                (kept, seen) = outcome.Ok ? (value, value) : (kept, seen);
            }
        }

        return kept;
    }

    private async Task<DeskSettings> MoveAsync(
        DeskSettings settings, Dictionary<ProductRow, int> numbers, Random random, bool counted)
    {
        Stopwatch clock = Stopwatch.StartNew();
        ShelvedDesk shelved = _shelf.Of(File)!;
        StudyDesk desk = shelved.Desk!;
        DeskItem[] items = [.. desk.Items.Where(static i => !i.IsSwitch)];
        DeskItem item = items[random.Next(items.Length)];
        DeskSettings moved = settings.Known(desk.Items).With(item, item.Snapped(item.Low + random.NextDouble() * (item.High - item.Low)));
        DeskStudy study = shelved.Study(0, moved);
        study.Follow();
        DeskOutcome outcome = await study.Outcome.ConfigureAwait(false);
        study.Leave();
        if (outcome.Findings is { } now)
        {
            StudyPictureModel model = StudyShown.Of(now, null, ComparisonWords.Filter, shelved.Options, numbers, null);
            _ = StudyPictureScene.Draw(model, 900, null);
        }

        if (counted)
        {
            _ms.Add(clock.Elapsed.TotalMilliseconds);
        }

        return random.Next(6) == 0 ? DeskSettings.None : moved;
    }

    private static string Field(int page) => string.Create(CultureInfo.InvariantCulture, $"emitters[{page}].level");
}
