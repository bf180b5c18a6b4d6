using System.Globalization;
using Microsoft.AspNetCore.Components;
using Spurless.Drawing.Plans;
using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Search;
using Spurless.Reports.Plans;
using Spurless.Sites;
using Spurless.Sites.Plans;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Plans;

namespace Spurless.Pages.Channels;

/// <summary>Quiet channels: the band as a strip, its channels as a list; 'Keep this' moves the receiver there.</summary>
public sealed partial class ChannelsView
{
    private const int FirstShown = 8;
    private const double StripWidth = 812;

    private IReadOnlyList<(string Name, long Hertz)> _receivers = [];
    private IReadOnlyList<Diagnostic> _findings = [];
    private IReadOnlyList<string> _faults = [];
    private FolderSite? _there;
    private AskedPlan? _asked;
    private TypedPlan? _typed;
    private PlanAnswer? _answer;
    private PlanChannel? _chosen;
    private PlanStripModel _strip = null!;
    private string[] _besides = [];
    private string? _problem;
    private bool _all;
    private int _percent;

    /// <summary>The site file's name within the folder.</summary>
    [Parameter]
    public string File { get; set; } = "";

    /// <summary>Name of the receiver that is moved; the first where nothing is said.</summary>
    [SupplyParameterFromQuery(Name = "receiver")]
    public string? Receiver { get; set; }

    /// <summary>The band as typed.</summary>
    [SupplyParameterFromQuery(Name = "band")]
    public string? Band { get; set; }

    /// <summary>The raster as typed.</summary>
    [SupplyParameterFromQuery(Name = "raster")]
    public string? Raster { get; set; }

    /// <summary>Transmit less receive frequency as typed.</summary>
    [SupplyParameterFromQuery(Name = "shift")]
    public string? Shift { get; set; }

    /// <summary>Number of channels side by side as typed.</summary>
    [SupplyParameterFromQuery(Name = "count")]
    public string? Count { get; set; }

    /// <summary>A band plan's name within the folder.</summary>
    [SupplyParameterFromQuery(Name = "plan")]
    public string? Plan { get; set; }

    /// <summary>The channel that is chosen, as MHz; the best where nothing is said.</summary>
    [SupplyParameterFromQuery(Name = "channel")]
    public string? Channel { get; set; }

    private string? Shown => _receivers.Any(r => r.Name == Receiver) ? Receiver : (_receivers.Count > 0 ? _receivers[0].Name : null);

    private string Fraction => (_percent / 100.0).ToString("0.##", CultureInfo.InvariantCulture);

    private string Says => _findings.Any(static f => f.Severity == Severity.Error)
        ? $"No channel of ‘{File}’ can be weighed before its mistakes are corrected. Each leads to its cell."
        : _answer is { } answer ? PlanWords.Answer(answer, Typography.Fine)
        : _faults.Count > 0 ? "Not asked yet: what was typed needs a correction."
        : "Weighing every channel of the band.";

    /// <inheritdoc/>
    protected override Task OnParametersSetAsync()
    {
        Begin();
        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    protected override void OnFolderChanged(FolderChange change) => Begin();

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Db(double? overNoiseDb) => overNoiseDb is { } db ? Figures.SignedDb(db, Typography.Fine) + " dB" : "none";

    private static bool IsThere(PlanAnswer answer, PlanChannel channel) => channel.FrequencyHz == answer.PresentHz
        && answer.Transmitters.All(t => t.PresentHz == channel.FrequencyHz + t.ShiftHz);

    private static string Transmits(PlanAnswer answer, PlanChannel channel) => answer.Transmitters is [var one]
        ? $", transmit {PlanWords.Megahertz(channel.FrequencyHz + one.ShiftHz)}"
        : "";

    private static IEnumerable<string> Besides(PlanAnswer answer, PlanChannel channel)
    {
        PlanLook? look = answer.Looks.FirstOrDefault(l => l.FrequencyHz == channel.FrequencyHz);
        if (look is null)
        {
            return [$"Only the first {answer.Looks.Count} of the list were looked at by a whole study: what transmitters make there, and "
                + "other causes, are not known of this one."];
        }

        return look.IsClear
            ? ["A whole study of it finds no harmful mixture from transmitters and no other harmful cause."]
            : PlanWords.Besides(look, Typography.Fine);
    }

    private string Shared() => PlanStripScene.Shared(_strip, StripWidth) is > 1 and var shared
        ? $" Each pole is the worst of {shared} channels."
        : "";

    private string More(PlanAnswer answer) => _all ? "Show the first only"
        : answer.Offered.Count > PlanTable.Most ? $"Show {PlanTable.Most - FirstShown} more of {answer.Offered.Count - FirstShown}"
        : $"Show {answer.Offered.Count - FirstShown} more";

    /// <summary>Reads the file and what is typed, and asks anew where either says something else than the list was made of.</summary>
    private void Begin()
    {
        _there = Folder.Site(File);
        _findings = _there is null ? [] : [.. _there.Errors];
        _receivers = _there?.Site is { } site ? [.. site.Document.Receivers.Select(static r => (r.Name, r.Frequency.Hertz))] : [];
        TypedPlan typed = new(Shown, Band, Raster, Shift, Count, Plan);
        AskedPlan? asked = _there?.Site is null ? null : FolderPlans.Question(Folder, File, typed);
        bool same = _asked is { } before && asked is not null && typed == _typed && before.Text == asked.Text && !Stopped;
        if (_there is not null)
        {
            Tab.Site = File;
        }

        if (same)
        {
            Show();
            return;
        }

        (_asked, _typed) = (asked, typed);
        _faults = asked is null ? [] : [.. asked.Faults.Select(static f => $"{f.Key}: {f.Value}")];
        if (asked?.Question is { } question && Live)
        {
            _ = InvokeAsync(() => AskAsync(question));
        }
        else
        {
            LetGo();
            (Working, _answer) = (asked?.Question is not null, null);
        }
    }

    private Task AskAsync(PlanQuestion question)
    {
        _percent = 0;
        Progress<SearchProgress> progress = new(p =>
        {
            _percent = (int)(100 * p.Fraction);
            StateHasChanged();
        });
        return AskAsync(token => PlanService.Ask(question, progress, token), Take);
    }

    private Task Take(Outcome<PlanAnswer> outcome)
    {
        _answer = outcome.Answer;
        _faults = outcome.Answer is not null ? []
            : [(FolderPlans.FieldOf(outcome.Refusal) is { } field ? field + ": " : "") + outcome.Problem];
        _besides = outcome.Answer is { } answer ? [.. PlanWriter.Besides(answer, Typography.Fine)] : [];
        Show();
        return Task.CompletedTask;
    }

    /// <summary>The channel of the address, and the strip with it.</summary>
    private void Show()
    {
        if (_answer is { } answer)
        {
            _chosen = answer.Offered.FirstOrDefault(c => PlanWords.Megahertz(c.FrequencyHz) == Channel)
                ?? (answer.Offered.Count > 0 ? answer.Offered[0] : null);
            _strip = PlanReport.Strip(answer, _chosen?.FrequencyHz);
        }
    }

    private void Again() => Begin();

    private void Choose(PlanChannel channel) => Navigation.NavigateTo(
        Navigation.GetUriWithQueryParameter("channel", PlanWords.Megahertz(channel.FrequencyHz)), replace: true);

    private void Ask(string key, ChangeEventArgs e)
    {
        string? typed = (e.Value as string)?.Trim();
        Navigation.NavigateTo(
            Navigation.GetUriWithQueryParameters(new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [key] = string.IsNullOrEmpty(typed) ? null : typed,
                ["channel"] = null,
            }),
            replace: true);
    }

    private void Keep()
    {
        if (_asked is { } asked && _chosen is { } chosen)
        {
            _problem = FolderPlans.Keep(Folder, File, asked, chosen.FrequencyHz);
        }
    }
}
