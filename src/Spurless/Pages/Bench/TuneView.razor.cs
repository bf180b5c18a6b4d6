using System.Globalization;
using Microsoft.AspNetCore.Components;
using Spurless.Circuits.Parts;
using Spurless.Files.Diagnostics;
using Spurless.Fit;
using Spurless.Pages.Shell;
using Spurless.Reports.Designs;
using Spurless.Sites.Designs;
using Spurless.Sites.Sources;
using Spurless.Workbench.Bench;
using Spurless.Workbench.Designs;

namespace Spurless.Pages.Bench;

/// <summary>The bench's step of tuning: sweep after sweep of a built filter, and what to turn next.</summary>
public sealed partial class TuneView
{
    private readonly OwnSteps _own = new();
    private readonly List<(string Sweep, string Says)> _past = [];
    private readonly HashSet<string> _turn = new(StringComparer.Ordinal);
    private CancellationTokenSource? _run;
    private TuneQuestion? _question;
    private TuneAnswer? _answer;
    private string? _sweep, _mask, _added, _problem, _shown;
    private IReadOnlyList<string> _refused = [];
    private double _share;
    private bool _marked, _gone;

    /// <summary>The circuit file's name within the folder.</summary>
    [Parameter]
    public string File { get; set; } = "";

    [Inject]
    private BenchShelf Bench { get; set; } = null!;

    private IEnumerable<string> Requirements => Folder.FilesOf(FileKind.Requirement).Select(static f => f.Name);

    private string? Mask => _mask is { } asked && Requirements.Contains(asked) ? asked
        : FolderTuning.RequirementOf(Folder, File) ?? Requirements.FirstOrDefault();

    private string Said =>
        _problem is not null ? _problem
        : _run is not null ? $"Looking at {_sweep}."
        : _answer is { } answer ? TuneWriter.Answer(answer)
        : Mask is null ? "There is no requirement in this folder to tune within. Design one, or write one, first."
        : _turn.Count == 0 ? "Tick what can be turned; then drop a sweep of what you built."
        : "Drop a sweep of what you built; it says what to turn, which way and by how much.";

    /// <inheritdoc/>
    protected override async Task OnParametersSetAsync()
    {
        Tab.Circuit = File;
        if (_own.Heard(Navigation))
        {
            return;
        }

        Dictionary<string, Microsoft.Extensions.Primitives.StringValues> query = Microsoft.AspNetCore.WebUtilities.QueryHelpers.ParseQuery(
            new Uri(Navigation.Uri).Query);
        string? Of(string key) => query.TryGetValue(key, out var value) && value.ToString() is { Length: > 0 } text ? text : null;
        if (_shown != File)
        {
            _past.Clear();
            (_answer, _question, _added, _problem, _refused, _shown) = (null, null, null, null, [], File);
        }

        (_mask, _sweep) = (Of("within"), Of("sweep"));
        _turn.Clear();
        IReadOnlyList<string> marked = FolderTuning.Turnable(Folder, File);
        _marked = marked.Count > 0;
        _turn.UnionWith(Of("turn")?.Split(',') ?? [.. marked]);
        if (Live && _sweep is not null && _answer is null && _turn.Count > 0)
        {
            await RunAsync();
        }
    }

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        _gone = true;
        _run?.Cancel();
    }

    private async Task RunAsync()
    {
        _run?.Cancel();
        (_problem, _answer) = (null, null);
        if (Mask is not { } mask || _sweep is not { } sweep || _turn.Count == 0)
        {
            return;
        }

        _question = FolderTuning.Question(Folder, File, sweep, mask, [.. _turn.Order(StringComparer.Ordinal)],
            out IReadOnlyList<Diagnostic> findings);
        if (_question is not { } question)
        {
            _refused = [.. findings.Select(static f => f.ToString())];
            _problem = "Nothing can be said of this sweep before what stands below is corrected.";
            return;
        }

        using CancellationTokenSource run = _run = new CancellationTokenSource();
        _share = 0;
        Progress<FitProgress> progress = new(step => _share = Math.Max(_share, step.Fraction));
        Refusal? refusal = null;
        Task<TuneAnswer?> work = Task.Run(() => TuneService.TryRun(question, out refusal, progress, run.Token));
        while (await Task.WhenAny(work, Task.Delay(200)) != work && !_gone)
        {
            StateHasChanged();
        }

        TuneAnswer? answer = await work;
        if (_gone || _run != run)
        {
            return;
        }

        bool stopped = run.IsCancellationRequested;
        _run = null;
        if (stopped)
        {
            _problem = "Stopped before the sweep was understood. Choose it again to go on.";
        }
        else if (answer is null)
        {
            _problem = refusal is { } why ? $"{DesignWords.Capital(why.What)}: {why.Remedy}." : "Nothing can be said of this sweep.";
        }
        else
        {
            _answer = answer;
            _past.RemoveAll(p => p.Sweep == sweep);
            _past.Add((sweep, TuneWriter.Stands(answer)));
        }
    }

    private void Stop() => _run?.Cancel();

    private async Task Added(Uploads uploads)
    {
        (_added, _refused) = (uploads.Says, uploads.Problems);
        if (uploads.Taken is [.., var last])
        {
            await SweepAsync(last);
        }
    }

    private Task ChooseSweep(ChangeEventArgs e)
    {
        (_added, _refused) = (null, []);
        return SweepAsync((string?)e.Value is { Length: > 0 } name ? name : null);
    }

    private async Task SweepAsync(string? sweep)
    {
        _sweep = sweep;
        Address();
        await RunAsync();
    }

    private async Task ChooseMask(ChangeEventArgs e)
    {
        _mask = (string?)e.Value;
        Address();
        await RunAsync();
    }

    private void ChooseCircuit(ChangeEventArgs e) => Navigation.NavigateTo(PageLinks.AddressOf("tune", (string)e.Value!));

    private async Task Tick(string part, bool ticked)
    {
        _ = ticked ? _turn.Add(part) : _turn.Remove(part);
        Address();
        await RunAsync();
    }

    private void Address() => _own.Take(Navigation, Navigation.GetUriWithQueryParameters(new Dictionary<string, object?>
    {
        ["within"] = _mask,
        ["sweep"] = _sweep,
        ["turn"] = _turn.SetEquals(FolderTuning.Turnable(Folder, File)) ? null : string.Join(',', _turn.Order(StringComparer.Ordinal)),
    }));

    private static IEnumerable<string> Parts(Circuit circuit) =>
        circuit.Parts.Where(static p => p is Capacitor or Inductor or Coupling or Line or Stub).Select(static p => p.Name);

    private static string One(double db) => db.ToString("0.00", CultureInfo.InvariantCulture);
}
