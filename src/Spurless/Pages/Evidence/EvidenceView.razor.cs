using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Evidence;
using Spurless.Pages.Shell;
using Spurless.Reports.Locating;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Locating;

namespace Spurless.Pages.Evidence;

/// <summary>
/// The evidence page: which mixture it is and where it is made, what to look at next. A reading that is typed is weighed at once and
/// written on 'Keep this'; moments and logs are written as they come.
/// </summary>
public sealed partial class EvidenceView
{
    private const int MostUnused = 8;

    private IReadOnlyList<(string Name, long Hertz)> _receivers = [];
    private IReadOnlyList<Diagnostic> _findings = [];
    private IReadOnlyList<string> _emitters = [];
    private FileReading? _reading;
    private LocateAnswer? _answer;
    private LocatedReceiver? _kept;
    private LocatedReceiver? _located;
    private LocatedReceiver? _trial;
    private NextReadings? _next;
    private StudyResult? _weighed;
    private CancellationTokenSource? _cancel;
    private string? _problem;
    private string? _wrote;
    private bool _weighing;
    private int _turn;

    /// <summary>The site file's name within the folder.</summary>
    [Parameter]
    public string File { get; set; } = "";

    /// <summary>Name of the receiver shown; the first where nothing is said.</summary>
    [SupplyParameterFromQuery(Name = "receiver")]
    public string? Receiver { get; set; }

    [Inject]
    private FolderReadings Readings { get; set; } = null!;

    [Inject]
    private TimeProvider Time { get; set; } = null!;

    private string Says => _located is { } located ? LocateWords.Answer(located, Typography.Fine)
        : _findings.Any(static f => f.Severity == Severity.Error)
            ? $"‘{File}’ cannot be weighed before its mistakes are corrected. Each leads to its cell."
        : _reading?.Problem is { } problem ? StudyWords.Capital(problem) + "."
        : "Looking for what it could be, and weighing what was observed.";

    private string Sheet => PageLinks.AddressOf("reports/evidence", File);

    /// <inheritdoc/>
    protected override void OnInitialized()
    {
        base.OnInitialized();
        Readings.Changed += OnRead;
    }

    /// <inheritdoc/>
    protected override Task OnParametersSetAsync()
    {
        if (_answer is not null && _reading?.File.Name == File)
        {
            Show(_answer); // another receiver
        }

        return LookAsync();
    }

    /// <inheritdoc/>
    protected override void OnFolderChanged(FolderChange change) => Begin();

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            Readings.Changed -= OnRead;
            _cancel?.Cancel();
            _cancel?.Dispose();
        }

        base.Dispose(disposing);
    }

    private void OnRead(string name)
    {
        if (name == File)
        {
            _ = InvokeAsync(() =>
            {
                Begin();
                StateHasChanged();
            });
        }
    }

    private void Begin() => _ = InvokeAsync(async () =>
    {
        try
        {
            await LookAsync();
        }
        catch (Exception e)
        {
            await DispatchExceptionAsync(e);
        }
    });

    /// <summary>Takes what is known of the file by now; weighs it once its study is there.</summary>
    private async Task LookAsync()
    {
        string? before = _reading?.File.Name;
        _reading = Readings.Of(File) is { File.Kind: FileKind.Site } reading ? reading : null;
        if (before is not null && before != File)
        {
            (_answer, _kept, _located, _trial, _weighed) = (null, null, null, null, null);
        }

        if (_reading is null)
        {
            return;
        }

        Tab.Site = File;
        FolderSite? there = Folder.Site(File);
        _findings = there is null ? [] : [.. there.Errors];
        if (there?.Site is not { } site)
        {
            return;
        }

        _receivers = [.. site.Document.Receivers.Select(static r => (r.Name, r.Frequency.Hertz))];
        if (Live && _reading is { Stage: ReadingStage.Done, IsBefore: false, Study: { } study } && !ReferenceEquals(study, _weighed))
        {
            _weighed = study;
            await WeighAsync(site, study);
        }
    }

    private async Task WeighAsync(LoadedSite site, StudyResult study)
    {
        _cancel?.Cancel();
        CancellationTokenSource cancel = _cancel = new CancellationTokenSource();
        _weighing = true;
        StateHasChanged();
        try
        {
            LocateAnswer answer = await Task.Run(
                () => LocateService.Weigh(FolderEvidence.Question(Folder, File, site, study.Options), study, cancel.Token), cancel.Token);
            if (!cancel.IsCancellationRequested)
            {
                (_trial, _weighing) = (null, false);
                Show(answer);
                StateHasChanged();
            }
        }
        catch (OperationCanceledException)
        {
            // A newer state is being weighed, or the page was left.
        }
    }

    private void Show(LocateAnswer answer)
    {
        _answer = answer;
        LocatedReceiver kept = answer.Receivers.FirstOrDefault(r => r.Findings.Name == Receiver) ?? answer.Receivers[0];
        if (_kept?.Findings.Name != kept.Findings.Name)
        {
            _trial = null;
            _next?.Clear();
        }

        _kept = kept;
        _located = _trial ?? kept;

        // Once they stand they keep their places: nothing moves under a thumb.
        IReadOnlyList<string> emitters = kept.EmittersLikeliestFirst;
        _emitters = _emitters.Order().SequenceEqual(emitters.Order()) ? _emitters : emitters;
    }

    /// <summary>Weighs what is typed with what is kept; nothing is written.</summary>
    private async Task<string?> TypedAsync(Observation? ask, TypedReading? reading)
    {
        int turn = ++_turn;
        (_located, _trial) = (_kept, null);
        if (ask is null || reading is null || _answer is not { } answer || _kept is not { } kept
            || Folder.Session.Read(File) is not { } text)
        {
            StateHasChanged();
            return null;
        }

        (LocatedReceiver? trial, string? problem) = await Task.Run(() => FolderEvidence.Try(Folder, text, answer, kept, ask, reading));
        if (turn == _turn && trial is not null && ReferenceEquals(kept, _kept))
        {
            _located = _trial = trial;
        }

        StateHasChanged();
        return problem;
    }

    private void Keep((Observation Ask, TypedReading Reading) kept)
    {
        if (_kept is not { } located)
        {
            return;
        }

        FieldOutcome outcome = Folder.Edit(File, "reading kept", text =>
            EvidenceEdits.TryAdd(text, located, kept.Ask, kept.Reading, out string? edited, out string? problem)
                ? (edited, null)
                : (null, problem));
        _problem = outcome.Problem;
        if (outcome.Result == FieldResult.Saved)
        {
            _next?.Clear();
        }
    }

    private void WriteMoment(IReadOnlyDictionary<string, bool> states)
    {
        DateTimeOffset now = Time.GetLocalNow();
        _problem = LiveLog.Write(Folder, File, [_kept!.Findings.Name, .. _emitters], now, states, out string log);
        if (_problem is null)
        {
            string clock = now.ToString("HH:mm:ss", CultureInfo.InvariantCulture);
            _wrote = $"{clock} {(states[_kept.Findings.Name] ? "heard" : "not heard")}, "
                + $"{Figures.CountInWords(states.Count - 1)} looked at: written into {log}.";
            Weigh([log]);
        }
    }

    private async Task TakeLogsAsync(InputFileChangeEventArgs e)
    {
        Uploads taken = await Uploads.TakeAsync(
            Folder, e, File, static name => name.EndsWith(".log.csv", StringComparison.OrdinalIgnoreCase)
                ? null
                : $"'{name}' is not named as a log; name it *.log.csv");
        Weigh(taken.Taken);
        _problem = taken.Problems.Count > 0 ? string.Join("; ", [.. taken.Problems, _problem]) : _problem;
    }

    /// <summary>Names logs in the site file, where they are not yet and can be read.</summary>
    private void Weigh(IReadOnlyList<string> logs)
    {
        List<string> problems = [];
        foreach (string log in logs)
        {
            string path = NamesInFolder.From(File, log);
            if (Folder.Site(File)?.Asked.Contains(log) == true || Folder.Session.Read(File) is not { } text)
            {
                continue;
            }

            if (EvidenceEdits.TryAddLog(text.Text, path, out string? edited, out string? problem)
                && Folder.SiteOf(text with { Text = edited }) is { Site: null } tried)
            {
                problem = $"{log} is not weighed: " + string.Join(" ", tried.Errors.Take(3).Select(static f => $"{f}."));
            }

            problem ??= Folder.Edit(File, "log taken in", now =>
                EvidenceEdits.TryAddLog(now, path, out string? added, out string? why) ? (added, null) : (null, why)).Problem;
            problems.AddRange(problem is null ? [] : [problem]);
        }

        _problem = problems.Count > 0 ? string.Join(" ", problems) : null;
    }

    private IEnumerable<string> UnusedLogs()
    {
        IReadOnlyCollection<string> asked = Folder.Site(File)?.Asked ?? [];
        return Folder.FilesOf(FileKind.ObservationLog).Select(static f => f.Name).Where(n => !asked.Contains(n)).Take(MostUnused);
    }

    private void ChooseReceiver(ChangeEventArgs e) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("receiver", (string?)e.Value), replace: true);
}
