using System.Globalization;
using Microsoft.AspNetCore.Components;
using Spurless.Circuits.Parts;
using Spurless.Design.Designing;
using Spurless.Design.Questions;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Files.Diagnostics;
using Spurless.Pages.Shell;
using Spurless.Reports.Designs;
using Spurless.Sites.Designs;
using Spurless.Workbench.Bench;
using Spurless.Workbench.Designs;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Bench;

/// <summary>The bench's step of design: mask, candidates, and what the chosen one is made of.</summary>
public sealed partial class DesignView
{
    private const double BoardWidth = 396;
    private const double NarrowWidth = 358;
    private const double BoardHeight = 178;
    private const int DrawnEveryMs = 200;

    private readonly OwnSteps _own = new();
    private DesignWish _wish = new();
    private DesignBrief? _of;
    private DesignBrief? _brief;
    private DesignReading? _reading;
    private DesignPicture? _picture;
    private IReadOnlyList<Diagnostic> _findings = [];
    private IReadOnlyList<string> _receivers = [];
    private IReadOnlyList<string?> _names = [];
    private IReadOnlyList<DesignCandidate> _soFar = [];
    private CancellationTokenSource? _run;
    private (string Target, string Says)? _held;
    private DesignQuestion? _drawing;
    private string? _problem, _told, _missing;
    private int _rank = 1;
    private int? _bar;
    private double _share;
    private bool _edited, _asked, _gone, _waiting;

    /// <summary>The requirement or site within the folder; empty for a mask of one's own.</summary>
    [Parameter]
    public string File { get; set; } = "";

    [Inject]
    private DesignShelf Shelf { get; set; } = null!;

    [Inject]
    private BenchShelf Bench { get; set; } = null!;

    private string? Circuit => Bench.Circuits is var all && all.Contains(Tab.Circuit) ? Tab.Circuit : all.Count > 0 ? all[0] : null;

    private DesignedFile? Chosen => _reading is { Files.Count: > 0 } r ? r.Files[Math.Clamp(_rank, 1, r.Files.Count) - 1] : null;

    // What the mask is drawn over while nothing is designed: the circuit that was on the bench.
    private (string Name, Circuit Circuit)? Beside =>
        Chosen is null && Tab.Circuit is { } name && Bench.Of(name)?.Bench?.Circuit is { } circuit ? (name, circuit) : null;

    private IReadOnlyList<DesignCandidate> Candidates =>
        _run is not null ? _soFar : [.. (_reading?.Files ?? []).Select(static f => f.Candidate)];

    private bool Stale => _reading is { } r && _brief is { } b && _run is null && !ReferenceEquals(Shelf.Known(b), r) && r.Answer.IsComplete
        || _reading is { Answer.IsComplete: false } s && _brief is { } c && !ReferenceEquals(s.Brief, c);

    private bool CanRun => _brief is { Faults.Count: 0 };

    private string Found => _soFar.Count switch
    {
        0 => "none found yet",
        1 => "one circuit so far",
        _ => $"{_soFar.Count.ToString(CultureInfo.InvariantCulture)} circuits so far",
    };

    private string? MarginText => _of?.Needs is null ? null : Short(_wish.MarginDb ?? new SiteDesignOptions().MarginDb);

    private string SheetAddress => Navigation.GetUriWithQueryParameters(
        $"{Navigation.BaseUri}design-sheet/{string.Join('/', File.Split('/').Select(Uri.EscapeDataString))}",
        new Dictionary<string, object?>(_wish.Query()) { ["rank"] = _rank, ["run"] = null });

    private string Said =>
        _missing is not null ? _missing
        : _findings.Any(static f => f.Severity == Severity.Error)
            ? $"Nothing can be designed for ‘{File}’ before its mistakes are corrected."
        : _waiting ? "Looking for what the site needs."
        : _brief is null ? "Say what must pass; then type or draw what must be kept out."
        : _brief.Faults is [var first, ..] ? Capital(first) + "."
        : _run is not null && _soFar.Count == 0 ? "Designing: families are synthesised and optimised."
        : _run is not null ? $"Designing: the newest is {_soFar[^1].Family}, {DesignWords.Short(_soFar[^1])}."
        : _reading is { } found ? DesignWords.Answer(found)
        : DesignWords.Asked(_brief);

    /// <inheritdoc/>
    protected override async Task OnParametersSetAsync()
    {
        Dictionary<string, Microsoft.Extensions.Primitives.StringValues> query = Microsoft.AspNetCore.WebUtilities.QueryHelpers.ParseQuery(
            new Uri(Navigation.Uri).Query);
        if (_own.Heard(Navigation))
        {
            return;
        }

        File ??= ""; // '/design' without a file
        string? Of(string key) => query.TryGetValue(key, out var value) ? value.ToString() : null;
        _wish = DesignWish.Of(Of);
        _rank = int.TryParse(Of("rank"), NumberStyles.None, CultureInfo.InvariantCulture, out int rank) && rank > 0 ? rank : 1;
        _asked = Of("run") == "yes";
        (_reading, _soFar, _problem, _told) = (null, [], null, null);
        _missing = File.Length > 0 && !Shelf.Sources.Contains(File)
            ? $"There is no requirement and no site ‘{File}’ in this folder."
            : null;
        if (_missing is null)
        {
            Tab.Design = File.Length > 0 ? File : Tab.Design;
            await FollowAsync();
        }
    }

    /// <inheritdoc/>
    protected override void OnFolderChanged(FolderChange change) => _ = FollowAsync();

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        _gone = true;
        _run?.Cancel();
    }

    /// <summary>Reads what is asked, and finds what was designed for it.</summary>
    private async Task FollowAsync()
    {
        FolderSite? site = Folder.FilesOf(Sites.Sources.FileKind.Site).Any(f => f.Name == File) ? Folder.Site(File) : null;
        _receivers = site?.Site is { } loaded ? [.. loaded.Document.Receivers.Select(static r => r.Name)] : [];
        if (site is not null && !Live)
        {
            _waiting = true; // a site is studied once, when the page hears
            return;
        }

        DesignWish wish = _wish;
        Task<FolderBrief> asked = Shelf.BriefAsync(File, wish);
        _waiting = !asked.IsCompleted;
        FolderBrief brief = await asked;
        if (_gone || wish != _wish)
        {
            return;
        }

        _waiting = false;
        Take(brief);
        if (_asked && Live && _reading is null && _run is null && CanRun)
        {
            await RunAsync();
        }

        if (Live)
        {
            StateHasChanged();
        }
    }

    private void Take(FolderBrief brief)
    {
        (_of, _brief, _edited, _findings) = (brief.OfFile, brief.Brief, brief.IsEdited, brief.Findings);
        _names = _brief is null
            ? []
            : [.. _brief.Question.Reject.Select(r => _brief.Needs?.Carriers.FirstOrDefault(c => r.FromHz.Equals(c.FrequencyHz))?.Emitter)];
        if (_brief is { } b && Shelf.Known(b) is { } known)
        {
            _reading = known;
        }

        Show();
    }

    private void Show()
    {
        DesignQuestion? question = _drawing ?? _brief?.Question;
        _picture = question is null || !(question.PassToHz > question.PassFromHz)
            ? null
            : DesignPicture.Of(
                question, _names, Chosen?.Candidate.Circuit ?? (_soFar.Count > 0 ? _soFar[^1].Circuit : null), Beside);
    }

    private Scene Board(ResponsePlotModel model, double width) => MaskScene.Draw(model, width, BoardHeight, _picture!.Bars, _held);

    private async Task RunAsync()
    {
        if (_brief is not { } brief || _run is not null)
        {
            return;
        }

        (_problem, _told, _share, _soFar) = (null, null, 0, []);
        using CancellationTokenSource run = _run = new CancellationTokenSource();
        Progress<DesignProgress> progress = new(step =>
        {
            _share = Math.Max(_share, step.Fraction);
            _soFar = step.Newest is { } newest ? [.. _soFar, newest] : _soFar;
        });
        Task<DesignReading> work = Task.Run(() => DesignService.Run(brief, progress, run.Token));
        int shown = 0;
        while (await Task.WhenAny(work, Task.Delay(DrawnEveryMs)) != work && !_gone)
        {
            if (shown != _soFar.Count)
            {
                shown = _soFar.Count;
                _reading = null;
                Show();
            }

            StateHasChanged();
        }

        DesignReading reading = await work;
        _run = null;
        if (_gone)
        {
            return;
        }

        if (reading.Answer.IsComplete)
        {
            Shelf.Keep(reading);
        }

        (_reading, _rank, _asked) = (reading, Math.Clamp(_rank, 1, Math.Max(1, reading.Files.Count)), true);
        Show();
        Address();
    }

    private void Stop() => _run?.Cancel();

    private void Choose(int rank)
    {
        _rank = rank;
        Show();
        Address();
    }

    private void Open()
    {
        if (_reading is not { } reading || Chosen is not { } chosen)
        {
            return;
        }

        if (Shelf.Write(reading, chosen, out string? problem) is { } name)
        {
            Navigation.NavigateTo(PageLinks.AddressOf("bench", name));
        }
        else
        {
            _problem = problem;
        }
    }

    private void WriteMask()
    {
        string? name = Shelf.WriteRequirement(_brief!, out _problem);
        if (name is not null)
        {
            Navigation.NavigateTo(PageLinks.AddressOf("design", name));
        }
    }

    private Task ForgetMask() => WishAsync(_wish with { Mask = null });

    private Task TakeMask(DesignQuestion question) => WishAsync(_wish with { Mask = DesignWish.MaskOf(question) });

    private async Task WishAsync(DesignWish wish)
    {
        (_wish, _problem) = (wish, null);
        Address();
        await FollowAsync();
    }

    /// <summary>A place of the boards was told: of a bar's foot, or of a bar that is being drawn.</summary>
    private async Task Draw(ChangeEventArgs e, bool done)
    {
        string[] words = (e.Value as string ?? "").Split('\t');
        DesignQuestion? drawn = _picture is { } picture && _brief is { } brief && words.Length == 7
            ? BoardMark.Of(words, picture, brief.Question, BoardHeight, out _held)
            : null;
        if (!done || drawn is null)
        {
            _drawing = done ? null : drawn;
            _held = _drawing is null ? null : _held;
            Show();
            return;
        }

        (_drawing, _held) = (null, null);
        await TakeMask(drawn);
    }

    private void Pick(string target) =>
        _bar = int.TryParse(target.AsSpan(target.IndexOf(' ', StringComparison.Ordinal) + 1), out int bar) ? bar : null;

    private Task TypeMargin((string Value, string Seen) typed) =>
        Typed(typed.Value, 0, 40, "a margin in dB from 0 to 40", v => _wish with { MarginDb = v, Mask = null });

    private Task TypeQ((string Value, string Seen) typed) =>
        Typed(typed.Value, 1, 100_000, "an unloaded Q such as 180", v => _wish with { InductorQ = v });

    private Task TypePower((string Value, string Seen) typed) =>
        Typed(typed.Value, 1e-3, 1e6, "a power in watts such as 25", v => _wish with { TransmitW = v });

    private async Task Typed(string text, double least, double most, string wanted, Func<double?, DesignWish> wish)
    {
        string bare = text.Replace("dB", "", StringComparison.Ordinal).Replace("W", "", StringComparison.Ordinal).Trim();
        if (bare.Length == 0)
        {
            await WishAsync(wish(null));
        }
        else if (double.TryParse(bare, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value)
            && value >= least && value <= most)
        {
            await WishAsync(wish(value));
        }
        else
        {
            _problem = $"‘{text.Trim()}’ is not {wanted}; write {wanted}.";
        }
    }

    private void ChooseFile(ChangeEventArgs e) => Navigation.NavigateTo(PageLinks.AddressOf("design", (string)e.Value!));

    private Task ChooseReceiver(ChangeEventArgs e) => WishAsync(_wish with { Receiver = (string?)e.Value, Mask = null });

    private void Address() => _own.Take(Navigation, Navigation.GetUriWithQueryParameters(
        new Dictionary<string, object?>(_wish.Query()) { ["rank"] = _rank == 1 ? null : _rank, ["run"] = _asked ? "yes" : null }));

    private static string Short(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    private static string Capital(string text) => DesignWords.Capital(text);
}
