using System.Globalization;
using Microsoft.AspNetCore.Components;
using Spurless.Circuits.Tolerance;
using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Pages.Shell;
using Spurless.Radio.Quantities;
using Spurless.Reports.Bench;
using Spurless.Workbench.Bench;
using Spurless.Workbench.Desk;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Bench;

/// <summary>
/// The bench page: a circuit as schematic, table and response, its values moved without writing, held against what a site needs and a
/// sweep.
/// </summary>
public sealed partial class BenchView
{
    internal const double WideHeight = 126;
    internal const double CloseHeight = 94;
    internal const double LossHeight = 54;
    internal const double SmithWidth = 380;
    private const int TableRows = 14;

    private const double OwnSpread = 5;

    private ShelvedBench? _shelved;
    private BenchState? _state;
    private BenchAddress _view = BenchAddress.Of(static _ => null);
    private SiteNeeds? _needs;
    private string? _part;
    private string? _kept;
    private string? _added;
    private IReadOnlyList<string> _refused = [];
    private string? _external;
    private bool _waiting;
    private bool _table;
    private string _tab = "needs";
    private ControlSteps? _steps;
    private DeskSettings _settled = DeskSettings.None;
    private IReadOnlyList<string> _settledWords = [];
    private IReadOnlyList<Diagnostic> _faults = [];

    /// <summary>The circuit file's name within the folder.</summary>
    [Parameter]
    public string File { get; set; } = "";

    [Inject]
    private BenchShelf Shelf { get; set; } = null!;

    /// <summary>Whether every part states its tolerance, so that none has to be chosen.</summary>
    private bool AllStated =>
        _state!.Bench.Circuit.Parts.All(
            static p =>
                p.Tolerance is not null || p is Circuits.Parts.Transformer or Circuits.Parts.TwoPortBlock or Circuits.Parts.Coupling);

    private double[] Spreads => AllStated ? [0, OwnSpread] : [0, 2, 5, 10];

    private int _receiver => _view.Receiver;

    private double TransmitHz => _view.TransmitHz ?? _state!.TransmitHz;

    private DeskItem? Moved => _state!.Bench.Items.FirstOrDefault(i => i.Name == _part);

    private string Said => _state!.Picture is { } picture
        ? BenchWords.Answer(picture, _state.Stress)
        : _state.Bench.Unknown is { Count: > 0 } unknown
            ? $"{unknown.Count} of the {_state.Bench.Circuit.Parts.Count} parts have a value that is not known yet: "
                + $"{string.Join(", ", unknown)}. Type them, or let a sweep tell."
            : "It lets nothing through that could be drawn.";

    private IEnumerable<string> Changes =>
        _state!.Bench.Items
            .Where(i => _view.Settings.Has(i.Id))
            .Select(i => $"{i.Name} {i.Text(_view.Settings.Of(i))} (file {i.Text(i.FileValue)})");

    private IEnumerable<(string Site, int Receiver, string Words)> Receivers => Shelf.Sites.SelectMany(s =>
        Folder.Site(s)?.Site?.Document is { } d
        ? d.Receivers.Select((r, i) => (s, i, $"{s}: {r.Name}, {Figures.MegahertzExact(r.Frequency.Hertz)} MHz"))
        : []);

    /// <inheritdoc/>
    private protected override bool HasPicture => _state?.Picture is not null;

    /// <inheritdoc/>
    protected override async Task OnParametersSetAsync()
    {
        Tab.Circuit = File;
        Dictionary<string, Microsoft.Extensions.Primitives.StringValues> query = Microsoft.AspNetCore.WebUtilities.QueryHelpers.ParseQuery(
            new Uri(Navigation.Uri).Query);
        BenchAddress asked = BenchAddress.Of(key => query.TryGetValue(key, out var value) ? value.ToString() : null);
        bool own = OwnSteps.Heard(Navigation);
        if (_state is not null && _shelved?.File.Name == File && (own || asked.Equals(_view)))
        {
            return; // our own step of the address
        }

        Open(asked);
        Tab.Steps = _steps ??= new ControlSteps(Tab, ApplyAsync);
        (_settled, _settledWords) = (_view.Settings, Words());
        await FollowNeedsAsync();
        if (Live && _view.SpreadPercent > 0)
        {
            await DrawSpreadAsync();
        }
    }

    /// <inheritdoc/>
    protected override void OnFolderChanged(FolderChange change)
    {
        ShelvedBench? before = _shelved;
        Open(_view);
        if (!change.Here && before is not null && _shelved is not null && _faults.Count == 0 && before.File.Text != _shelved.File.Text)
        {
            _external = $"{File} was changed by an editor; this is the file as it stands now.";
        }

        _ = FollowNeedsAsync();
    }

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        _scatter?.Cancel();
        if (Tab.Steps == _steps)
        {
            Tab.Steps = null;
        }
    }

    private void Open(BenchAddress asked)
    {
        if (_shelved?.File.Name != File)
        {
            (_external, _needs, _kept, _added, _refused) = (null, null, null, null, []);
            _steps?.Clear();
        }

        // A file with a mistake keeps its last good state on the bench, the mistakes beside it.
        _shelved = Shelf.Of(File);
        _faults = _shelved is { Bench: null } ? _shelved.Findings : [];
        _shelved = _faults.Count > 0 ? Shelf.LastGood(File) ?? _shelved : _shelved;
        _state = _shelved?.Bench is { } bench ? BenchState.Of(Shelf, bench, Folder, asked, _needs, Tab.Site) : null;
        _view = _state?.Address ?? asked;
        Tab.Site = _state?.Site ?? Tab.Site;
        _part = _view.Part is { } part && _state?.Bench.Circuit.Parts.Any(p => p.Name == part) == true
            ? part
            : _state?.Bench.Items is [var first, ..] ? first.Name : null;
    }

    /// <summary>Asks what the site needs, beside the page, and lays it in when it is known.</summary>
    private async Task FollowNeedsAsync()
    {
        if (_state?.Site is not { } site)
        {
            if (_needs is not null)
            {
                _needs = null;
                Open(_view);
            }

            return;
        }

        Task<SiteNeeds?> asked = Shelf.NeedsAsync(site, _view.Receiver);
        if (!asked.IsCompleted)
        {
            _waiting = true;
            if (Live && !Gone)
            {
                StateHasChanged();
            }
        }

        SiteNeeds? needs = await asked;
        _waiting = false;
        if (Gone || _state?.Site != site || ReferenceEquals(needs, _needs))
        {
            return;
        }

        _needs = needs;
        ToleranceResult? spread = _state.Spread;
        Open(_view);
        _state?.Lay(spread);
        if (Live)
        {
            StateHasChanged();
        }
    }

    /// <summary>A slider of a part moves: pictures follow at once, nothing is written, the address stands still.</summary>
    private void Slide(DeskItem item, string? value)
    {
        if (double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number))
        {
            Move(_view with { Settings = _view.Settings.With(item, item.Snapped(number)) });
        }
    }

    private void Move(BenchAddress view)
    {
        _kept = null;
        _view = view;
        _state!.Move(view);
    }

    /// <summary>A control was let go: what takes longer follows, and the address.</summary>
    private async Task Settle()
    {
        IReadOnlyList<string> words = Words();
        _steps?.Take(_settled, _view.Settings, _settledWords, words);
        (_settled, _settledWords) = (_view.Settings, words);
        _state!.Load();
        Address();
        if (_view.SpreadPercent > 0 && _state.Spread is null)
        {
            await DrawSpreadAsync();
        }
    }

    /// <summary>A step of the controls was taken back, or brought again.</summary>
    private async Task ApplyAsync(DeskSettings settings)
    {
        Move(_view with { Settings = settings });
        (_settled, _settledWords) = (settings, Words());
        await Settle();
        StateHasChanged();
    }

    private string[] Words() =>
        _state is null
            ? []
            : [.. _state.Bench.Items.Where(i => _view.Settings.Has(i.Id)).Select(i => $"{i.Name} {i.Text(_view.Settings.Of(i))}")];

    private void Address() => OwnSteps.Take(Navigation, Navigation.GetUriWithQueryParameters(_view.Query()));

    private Task Type((DeskItem Item, double Value) typed)
    {
        _part = typed.Item.Name;
        Move(_view with { Settings = _view.Settings.With(typed.Item, typed.Value), Part = _part });
        return Settle();
    }

    private void PickTarget(string target) => PickPart(target["part ".Length..]);

    private void PickPart(string part)
    {
        _part = part;
        _view = _view with { Part = part };
        _state!.Move(_view);
        Address();
    }

    private Task Forget()
    {
        Move(_view with { Settings = DeskSettings.None });
        return Settle();
    }

    /// <summary>
    /// Writes what was moved; what an editor changed elsewhere in the file stays, a value that he changed too is shown and not overwritten.
    /// </summary>
    private async Task Keep()
    {
        CircuitBench bench = _state!.Bench;
        string? problem = null;
        FieldOutcome outcome = Folder.Edit(File, string.Join(", ", Changes), text =>
            text == bench.Text ? (bench.Keep(text, _view.Settings, out problem), problem)
                : (null, $"'{File}' was changed meanwhile; look at it as it stands now, then keep again"));
        _kept = outcome.Result == FieldResult.Saved ? null : problem ?? outcome.Problem;
        if (_kept is null)
        {
            _view = _view with { Settings = DeskSettings.None };
            (_settled, _settledWords) = (_view.Settings, []);
            _steps?.Clear();
        }

        Open(_view);
        await Settle();
    }

    /// <summary>A value that was unknown is written at once: without it there is nothing to show.</summary>
    private void Find((string Part, string Key, string Text) found)
    {
        CircuitBench bench = _state!.Bench;
        FieldOutcome outcome = Folder.Edit(
            File,
            $"{found.Part} {found.Text}",
            text => (bench.Found(text, found.Part, found.Key, found.Text, out string? problem), problem));
        _kept = outcome.Result == FieldResult.Saved ? null : outcome.Problem;
        Open(_view);
    }

    private void ChooseCircuit(ChangeEventArgs e) => Navigation.NavigateTo(PageLinks.AddressOf("bench", (string)e.Value!));

    private async Task ChooseSite(ChangeEventArgs e)
    {
        string[] parts = ((string)e.Value!).Split('|', 2);
        _view = _view with { Site = parts[1], Receiver = int.Parse(parts[0], CultureInfo.InvariantCulture) };
        _needs = null;
        Open(_view);
        Address();
        await FollowNeedsAsync();
    }

    private void ChooseSweep(ChangeEventArgs e)
    {
        (_added, _refused) = (null, []);
        Open(_view with { Sweep = (string)e.Value! is { Length: > 0 } name ? name : null });
        Address();
    }

    private void ChooseBeside(ChangeEventArgs e)
    {
        Open(_view with { Beside = (string)e.Value! is { Length: > 0 } name ? name : null });
        Address();
    }

    /// <summary>Sweeps were added: the last that can be is laid over.</summary>
    private void Added(Uploads uploads)
    {
        (_added, _refused) = (uploads.Says, uploads.Problems);
        if (uploads.Taken.LastOrDefault(name => Shelf.Sweep(name) is not null) is { } laid)
        {
            Open(_view with { Sweep = laid });
            Address();
            _added += $"; {laid} is laid over";
        }
        else if (uploads.Taken.Count > 0)
        {
            string last = uploads.Taken[^1];
            bool fits = Shelf.ForFit(File, last, out var findings) is not null;
            _added += fits ? $"; it has no two ports to lay over here, the fit takes it" : "; it cannot be laid over";
            _refused = fits ? _refused : [.. _refused, .. findings.Select(static f => f.ToString())];
        }
    }

    private string Download(string kind) => Navigation.GetUriWithQueryParameters(
        $"{Navigation.BaseUri}{kind}/{string.Join('/', File.Split('/').Select(Uri.EscapeDataString))}",
        (_view with { Site = _state!.Site ?? "" }).Query());

    private static string Step(DeskItem item) => item.Step.ToString("0.############", CultureInfo.InvariantCulture);

    private static string Place(DeskItem item) =>
        (item.High > item.Low
            ? 100 * (item.FileValue - item.Low) / (item.High - item.Low)
            : 0).ToString("0.##", CultureInfo.InvariantCulture);

    private static string Two(double value) =>
        double.IsFinite(value) ? (value < -0.005 ? "\u2212" : "") + Math.Abs(value).ToString("0.00", CultureInfo.InvariantCulture) : "";

    private static string Percent(double percent) => percent.ToString("0.#", CultureInfo.InvariantCulture) + " %";

    private static string Mhz(double hertz) => MegahertzText.Of(hertz, 4, 6) + " MHz";
}
