using System.Globalization;
using Microsoft.AspNetCore.Components;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Files.Diagnostics;
using Spurless.Pages.Shell;
using Spurless.Sites.Studies;
using Spurless.Workbench.Desk;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Study;

/// <summary>
/// The study page: what lands on a receiver, and what a change along its chain does. It asks the desk and shows what comes; the latest wish
/// wins, so that a slider never waits for pictures that nobody will see.
/// </summary>
public sealed partial class StudyView
{
    private readonly Dictionary<ProductRow, int> _numbers = [];
    private StudyAddress _view = new(0, null, false, null, FindingGrouping.Outcome, DeskSettings.None);
    private ShelvedDesk? _desk;
    private ReceiverFindings? _before;
    private ReceiverFindings? _now;
    private ReceiverFindings? _held;
    private StudyPictureModel? _model;
    private IReadOnlyList<FindingGroup> _groups = [];
    private IReadOnlyDictionary<int, string>? _placed;
    private IReadOnlyList<string> _changes = [];
    private string? _problem;
    private string? _external;
    private string? _kept;
    private ControlSteps? _steps;
    private DeskSettings _settled = DeskSettings.None;
    private IReadOnlyList<string> _settledWords = [];
    private IReadOnlyList<Diagnostic> _faults = [];
    private ProductRow? _selectedKey;
    private bool _moving;
    private bool _table;
    private bool _assumptions;
    private string? _search;

    /// <summary>The site file's name within the folder.</summary>
    [Parameter]
    public string File { get; set; } = "";

    /// <summary>Index of the receiver.</summary>
    [SupplyParameterFromQuery(Name = "receiver")]
    public string? ReceiverAsked { get; set; }

    /// <summary>Number of the picked mixture.</summary>
    [SupplyParameterFromQuery(Name = "finding")]
    public string? FindingAsked { get; set; }

    /// <summary><c>open</c> where the picked mixture shows its sum.</summary>
    [SupplyParameterFromQuery(Name = "sum")]
    public string? SumAsked { get; set; }

    /// <summary>Index of the picked carrier.</summary>
    [SupplyParameterFromQuery(Name = "carrier")]
    public string? CarrierAsked { get; set; }

    /// <summary><c>cure</c> where the list is parted by whose work the cure is.</summary>
    [SupplyParameterFromQuery(Name = "by")]
    public string? GroupingAsked { get; set; }

    /// <summary>What was changed and not kept.</summary>
    [SupplyParameterFromQuery(Name = "set")]
    public string? SettingsAsked { get; set; }

    [Inject]
    private DeskShelf Shelf { get; set; } = null!;

    [Inject]
    private TimeProvider Time { get; set; } = null!;

    private IReadOnlyList<DeskStage> Stages => _desk!.Desk!.Receivers[_view.Receiver];

    private string Answer =>
        Typography.Fine.Held(StudyWords.Answer(_model!.Receiver, _model.Findings, Typography.Fine, _model.Words));

    private int? Selected => _view.Finding is { } asked && _model!.Findings.Any(f => f.Number == asked)
        ? asked
        : (_model!.Findings.FirstOrDefault(static f => f.Either.OverNoiseDb is not null)
            ?? (_model.HasNoLevels ? _model.Findings[0] : null))?.Number;

    private int Mistakes => _faults.Count(static f => f.Severity == Severity.Error);

    private string KeptIn
    {
        get
        {
            string[] names = [.. _desk!.Desk!.Written(_view.Settings).Select(p => p.Length == 0 ? File : p)];
            return names.Length == 0 ? "the file" : string.Join(" and ", names);
        }
    }

    /// <inheritdoc/>
    private protected override bool HasPicture => _model is not null;

    /// <inheritdoc/>
    protected override async Task OnParametersSetAsync()
    {
        Tab.Site = File;
        StudyAddress asked = new(
            AddressNumber.Of(ReceiverAsked) ?? 0,
            AddressNumber.Of(FindingAsked),
            SumAsked == "open",
            AddressNumber.Of(CarrierAsked),
            GroupingAsked switch { "cure" => FindingGrouping.Cure, "emitter" => FindingGrouping.Emitter, _ => FindingGrouping.Outcome },
            DeskSettings.Parse(SettingsAsked));
        bool own = OwnSteps.Heard(Navigation);
        if (_desk is not null && _desk.File.Name == File && (own || asked == _view))
        {
            return; // our own step of the address
        }

        Open(asked);
        if (_desk?.Desk is null)
        {
            return;
        }

        Tab.Steps = _steps ??= new ControlSteps(Tab, ApplyAsync);
        (_settled, _settledWords) = (_view.Settings, Words(_view.Settings));

        // What is quick is there at the first painting; what is not goes on beside the page once it is live.
        Task study = RunAsync();
        await Task.WhenAny(study, Task.Delay(TimeSpan.FromMilliseconds(400), Time));
    }

    /// <inheritdoc/>
    protected override void OnFolderChanged(FolderChange change)
    {
        ShelvedDesk? before = _desk;
        Open(_view);
        if (!change.Here && before is not null && _desk is not null && _faults.Count == 0 && before.File.Text != _desk.File.Text)
        {
            _external = $"{File} was changed by an editor; this is the file as it stands now.";
        }

        if (_desk?.Desk is not null)
        {
            _ = GuardedAsync();
        }
    }

    private void Open(StudyAddress asked)
    {
        ShelvedDesk? was = _desk;
        _desk = Shelf.Of(File);

        // A file with a mistake keeps its last good study on show, the mistakes beside it.
        _faults = _desk is { Desk: null } ? _desk.Findings : [];
        _desk = _faults.Count > 0 ? Shelf.LastGood(File) ?? _desk : _desk;
        if (_desk?.Desk is not { } desk)
        {
            _model = null;
            return;
        }

        int receiver = Math.Clamp(asked.Receiver, 0, desk.Receivers.Count - 1);
        _view = asked with
        {
            Receiver = receiver,
            Settings = asked.Settings.Known(desk.Items),
            Carrier = asked.Carrier is { } c && c >= 0 && c < desk.Site.Document.Emitters.Count ? c : null,
        };
        if (was != _desk || receiver != asked.Receiver)
        {
            // Another file's mixtures are numbered anew, worst first; the one that is selected stays so under its new number.
            _selectedKey = _numbers.FirstOrDefault(n => n.Value == _view.Finding).Key;
            _before = null;
            _numbers.Clear();
        }

        if (was?.File.Name != File)
        {
            (_held, _now, _model, _external, _selectedKey) = (null, null, null, null, null);
            _steps?.Clear();
        }
    }

    private void Show(StudyAddress of)
    {
        IReadOnlyList<DeskStage> stages = _desk!.Desk!.Receivers[of.Receiver];
        ComparisonWords? words = _held is not null ? ComparisonWords.Held : StudyShown.Words(stages, of.Settings);
        _model = StudyShown.Of(
            _now!, words is null ? null : _held ?? _before, words ?? ComparisonWords.Filter, _desk.Options, _numbers, _view.Carrier);
        _changes = StudyShown.Changes(stages, of.Settings);
        Part();
    }

    private void Part()
    {
        _groups = FindingView.Groups(_model!, _view.Grouping, _moving ? _placed : null, _search);
        _placed = _moving ? _placed : FindingView.Places(_groups);
    }

    /// <summary>
    /// A control moves: the picture follows as fast as it can be computed, the list keeps its order, the address stands still.
    /// </summary>
    private void Move(DeskItem item, double value)
    {
        _moving = true;
        _kept = null;
        _view = _view with { Settings = _view.Settings.With(item, value) };
        _ = GuardedAsync();
    }

    /// <summary>A control was let go.</summary>
    private async Task Settle()
    {
        IReadOnlyList<string> words = Words(_view.Settings);
        _steps?.Take(_settled, _view.Settings, _settledWords, words);
        (_settled, _settledWords) = (_view.Settings, words);
        _moving = false;
        await RunAsync();
        if (_model is not null)
        {
            Part();
        }

        Address();
    }

    /// <summary>A step of the controls was taken back, or brought again.</summary>
    private async Task ApplyAsync(DeskSettings settings)
    {
        _kept = null;
        _view = _view with { Settings = settings };
        (_settled, _settledWords) = (settings, Words(settings));
        await Settle();
        StateHasChanged();
    }

    private IReadOnlyList<string> Words(DeskSettings settings) => StudyShown.Changes(Stages, settings);

    private void Address() => OwnSteps.Take(Navigation, Navigation.GetUriWithQueryParameters(_view.Query()));

    private void Change(StudyAddress view)
    {
        _view = view;
        if (_model is not null && _now is not null)
        {
            Show(_view);
        }

        Address();
    }

    private void PickFinding(int number) => Change(_view with { Finding = number, Open = Selected != number ? _view.Open : !_view.Open });

    private void PickCarrier(int carrier) => Change(_view with { Carrier = _view.Carrier == carrier ? null : carrier });

    private void PickInPicture(string target)
    {
        string[] parts = target.Split(' ');
        int number = int.Parse(parts[1], CultureInfo.InvariantCulture);
        if (parts[0] == "carrier")
        {
            PickCarrier(number);
        }
        else
        {
            Change(_view with { Finding = number });
        }
    }

    private void Search(ChangeEventArgs e)
    {
        _search = e.Value as string;
        Part();
    }

    private void PartBy(FindingGrouping grouping) => Change(_view with { Grouping = grouping });

    private async Task ChooseReceiver(ChangeEventArgs e)
    {
        _view = _view with { Receiver = int.Parse((string)e.Value!, CultureInfo.InvariantCulture), Finding = null, Carrier = null };
        (_before, _held, _model, _now) = (null, null, null, null);
        _numbers.Clear();
        await RunAsync();
        Address();
    }

    private async Task Forget()
    {
        _kept = null;
        _view = _view with { Settings = DeskSettings.None };
        await Settle();
    }

    private void Hold()
    {
        _held = _now;
        Show(_view);
    }

    private void Release()
    {
        _held = null;
        Show(_view);
    }

    /// <summary>Writes what was changed into the files; what an editor wrote meanwhile stays and is shown first.</summary>
    private async Task Keep()
    {
        _kept = null;
        string what = string.Join(", ", _changes);
        IReadOnlyList<KeptFile> files = _desk!.Desk!.Keep(_view.Settings, out string? problem);
        foreach (KeptFile file in files)
        {
            string name = file.Path.Length == 0 ? File : Beside(file.Path);
            FieldOutcome outcome = Folder.Edit(name, what, text => text == file.From
                ? (file.Text, null)
                : (null, $"'{name}' was changed meanwhile; look at it as it stands now, then keep again"));
            if (outcome.Result != FieldResult.Saved)
            {
                problem = outcome.Problem;
                break;
            }
        }

        _kept = problem;
        if (problem is null)
        {
            _view = _view with { Settings = DeskSettings.None };
            (_settled, _settledWords) = (_view.Settings, []);
            _steps?.Clear();
        }

        Open(_view);
        await Settle();
    }

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        if (Tab.Steps == _steps)
        {
            Tab.Steps = null;
        }
    }

    private string Beside(string path)
    {
        string folder = NamesInFolder.Beside(File);
        return folder + path;
    }

    private string Download(string kind) => Navigation.GetUriWithQueryParameters(
        $"{Navigation.BaseUri}study-{kind}/{string.Join('/', File.Split('/').Select(Uri.EscapeDataString))}",
        (_view with { Finding = Selected }).Query());
}
