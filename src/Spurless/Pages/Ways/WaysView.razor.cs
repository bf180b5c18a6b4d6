using System.Globalization;
using Microsoft.AspNetCore.Components;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Pages.Shell;
using Spurless.Reports.Cures;
using Spurless.Sites;
using Spurless.Sites.Cures;
using Spurless.Sites.Sources;
using Spurless.Workbench.Cures;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Ways;

/// <summary>What would end it: the ways out of a receiver, each with its picture before and after; 'Keep' writes one.</summary>
public sealed partial class WaysView
{
    private const int FirstShown = 8;
    private const int MostLeft = 4;
    private const int ShownEveryMs = 150;

    // The list so far stands after a second at the latest, and is drawn anew less often than the count: it is read, not watched.
    private const int FirstListMs = 700;
    private const int ListEveryMs = 900;

    private IReadOnlyList<(string Name, long Hertz)> _receivers = [];
    private IReadOnlyList<Diagnostic> _findings = [];
    private FileReading? _reading;
    private CureQuestion? _question;
    private CuredReceiver? _cured;
    private Cure? _way;
    private StudyPictureModel? _model;
    private string? _problem;
    private bool _all, _picked;
    private int _tried, _of, _quiet;

    /// <summary>The site file's name within the folder.</summary>
    [Parameter]
    public string File { get; set; } = "";

    /// <summary>Name of the receiver shown; the first where nothing is said.</summary>
    [SupplyParameterFromQuery(Name = "receiver")]
    public string? Receiver { get; set; }

    /// <summary>Rank of the way that is chosen; the first where nothing is said.</summary>
    [SupplyParameterFromQuery(Name = "way")]
    public string? Way { get; set; }

    [Inject]
    private FolderReadings Readings { get; set; } = null!;

    [Inject]
    private TimeProvider Time { get; set; } = null!;

    private string? Shown => _receivers.Any(r => r.Name == Receiver) ? Receiver : (_receivers.Count > 0 ? _receivers[0].Name : null);

    // Before the page is live nothing is tried yet; the place of the progress is kept for it.
    private bool Waiting => _cured is null && !Working && !Stopped && _problem is null
        && !_findings.Any(static f => f.Severity == Severity.Error);

    private bool IsWhole => !Working && !Stopped;

    private string Fraction => (_of == 0 ? 0 : (double)_tried / _of).ToString("0.###", CultureInfo.InvariantCulture);

    // Nothing is concluded of a part of the list but what it holds.
    private string Says => _cured is { } cured
        ? IsWhole ? CureWords.BesideList(cured, Typography.Fine) : CureWords.SoFar(cured, Typography.Fine)
        : _findings.Any(static f => f.Severity == Severity.Error)
            ? $"Nothing can be tried in ‘{File}’ before its mistakes are corrected. Each leads to its cell."
        : "Trying what would end it.";

    /// <inheritdoc/>
    protected override Task OnParametersSetAsync()
    {
        Begin();
        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    protected override void OnFolderChanged(FolderChange change) => Begin();

    private string ReportOf(Cure cure) => PageLinks.AddressOf("report", File)
        + (_receivers.Count > 1 ? $"?ways={Rank(cure)}&receiver={Uri.EscapeDataString(Shown!)}" : $"?ways={Rank(cure)}");

    // A rank of a part of the list is no name: it changes while one reads.
    private string Name(Cure cure) => IsWhole ? "way " + Rank(cure) : "this way";

    private string Rank(Cure cure) => ((_cured?.Cures.ToList().IndexOf(cure) ?? 0) + 1).ToString(CultureInfo.InvariantCulture);

    /// <summary>Reads the file, and asks anew where it says something else than the list was made of.</summary>
    private void Begin()
    {
        _reading = Readings.Of(File) is { File.Kind: FileKind.Site } reading ? reading : null;
        if (_reading is null)
        {
            return;
        }

        Tab.Site = File;
        FolderSite? there = Folder.Site(File);
        _findings = there is null ? [] : [.. there.Errors];
        _receivers = there?.Site is { } site ? [.. site.Document.Receivers.Select(static r => (r.Name, r.Frequency.Hertz))] : [];
        CureQuestion? question = Live && Shown is { } shown ? FolderCures.Question(Folder, File, shown) : null;
        bool same = question is not null && _question is { } before && !Stopped
            && before.Receiver == question.Receiver && before.Source.Sha256 == question.Source.Sha256
            && before.Filters.Keys.SequenceEqual(question.Filters.Keys);
        if (question is not null && !same)
        {
            _question = question;
            _ = InvokeAsync(AskAsync);
        }
        else if (IsWhole && Asked is { } asked && asked != _way)
        {
            _ = InvokeAsync(() => ShowAsync(asked));
        }
    }

    // The way of the address; null where it names none.
    private Cure? Asked => _cured?.Cures.ElementAtOrDefault((AddressNumber.Of(Way) ?? 0) - 1);

    private Task AskAsync()
    {
        CureQuestion question = _question!;
        (_tried, _of, _quiet) = (0, 0, 0);
        CureStepKey chosen = new(_way);
        return AskAsync(token => CureService.Ask(question, new Report(this, Time, token), token), outcome => TakeAsync(outcome, chosen));
    }

    /// <summary>The whole list: what was picked meanwhile stays so, else what was before, else what the address asks for.</summary>
    private async Task TakeAsync(Outcome<CureAnswer> outcome, CureStepKey before)
    {
        _problem = outcome.Answer is null ? outcome.Problem : null;
        CureStepKey chosen = _picked ? new CureStepKey(_way) : before;
        _cured = outcome.Answer?.Receivers[0];
        _picked = false;
        if (_cured?.Cures is { Count: > 0 } cures)
        {
            await ShowAsync(cures.FirstOrDefault(chosen.Is) ?? Asked ?? cures[0]);
        }
        else
        {
            (_way, _model) = (null, null);
        }
    }

    /// <summary>What was found until now; the best of it is shown where no other was picked.</summary>
    private async Task TakeAsync(CuredReceiver soFar)
    {
        CureStepKey before = new(_way);
        _cured = soFar;
        if (soFar.Cures is { Count: > 0 } cures)
        {
            Cure shown = (_picked ? cures.FirstOrDefault(before.Is) : null) ?? cures[0];
            if (_model is not null && before.Is(shown))
            {
                _way = shown;
            }
            else
            {
                await ShowAsync(shown);
            }
        }
        else
        {
            (_way, _model) = (null, null);
        }

        StateHasChanged();
    }

    private Task ChooseAsync(Cure cure)
    {
        if (IsWhole)
        {
            Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("way", Rank(cure)), replace: true);
            return Task.CompletedTask;
        }

        _picked = true;
        return ShowAsync(cure);
    }

    private async Task ShowAsync(Cure cure)
    {
        if (_cured is not { } cured || _question is not { } question)
        {
            return;
        }

        _way = cure;
        var after = await Task.Run(() => CureService.After(question, cured, cure));
        if (ReferenceEquals(_way, cure))
        {
            _model = StudyPictureModel.Of(after, question.Options) with { Words = ComparisonWords.WayOut };
            StateHasChanged();
        }
    }

    private void Keep()
    {
        if (_question is { } question && _way is { } way)
        {
            _problem = FolderCures.Keep(Folder, File, question, way);
        }
    }

    private void ChooseReceiver(ChangeEventArgs e) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("receiver", (string?)e.Value), replace: true);

    /// <summary>Shows how far it is and what was found until then, not more often than one can read.</summary>
    private sealed class Report(WaysView page, TimeProvider time, CancellationToken asked) : IProgress<CureProgress>
    {
        private readonly Lock _lock = new();
        private readonly long _begun = time.GetTimestamp();
        private long _last = time.GetTimestamp();
        private long? _listed;

        void IProgress<CureProgress>.Report(CureProgress value)
        {
            CuredReceiver? soFar = null;
            lock (_lock)
            {
                if (time.GetElapsedTime(_last).TotalMilliseconds < ShownEveryMs)
                {
                    return;
                }

                _last = time.GetTimestamp();
                if (_listed is { } before ? time.GetElapsedTime(before).TotalMilliseconds >= ListEveryMs
                    : time.GetElapsedTime(_begun).TotalMilliseconds >= FirstListMs)
                {
                    _listed = _last;
                    soFar = value.SoFar();
                }
            }

            _ = page.InvokeAsync(async () =>
            {
                // What comes late, of a question that is no more, is let go.
                if (!page.IsAsked(asked))
                {
                    return;
                }

                (page._tried, page._of, page._quiet) = (value.Tried, value.Of, value.Quiet);
                if (soFar is not null)
                {
                    await page.TakeAsync(soFar);
                }

                page.StateHasChanged();
            });
        }
    }

    /// <summary>Finds a way again in a list that was made anew.</summary>
    private sealed record CureStepKey(Cure? Before)
    {
        public bool Is(Cure cure) => Before is { } before && CureWords.Steps(cure) == CureWords.Steps(before);
    }
}
