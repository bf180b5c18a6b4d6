using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.JSInterop;
using Spurless.Pages.Shell;
using Spurless.Reports.Recordings;
using Spurless.Signals.Recognition;
using Spurless.Sites.Recordings;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Recordings;

namespace Spurless.Pages.Listen;

/// <summary>What kind of transmission is on a recording, or on the sound that comes in now.</summary>
public partial class ListenView
{
    private const string DroppedMark = "dropped:";
    private const int MostRecordings = 500;
    private const int MostLately = 12;

    private readonly List<(DateTimeOffset At, Finding Kind)> _lately = [];
    private IReadOnlyList<string> _recordings = [];
    private IReadOnlyList<Finding> _now = [];
    private ShelvedRecording? _shelved;
    private Finding? _picked;
    private LiveEar? _ear;
    private DotNetObjectReference<ListenView>? _self;
    private string? _problem;
    private string? _kept;
    private bool _busy;
    private bool _there;

    /// <summary>The recording's name within the folder, or that of a dropped one.</summary>
    [Parameter]
    public string? File { get; set; }

    /// <summary>The site that it is held against; 'none' for none, nothing for the folder's own.</summary>
    [SupplyParameterFromQuery(Name = "site")]
    public string? Asked { get; set; }

    /// <summary>The site's receiver on whose channel it was made; the first where nothing is asked.</summary>
    [SupplyParameterFromQuery(Name = "receiver")]
    public string? Receiver { get; set; }

    [Inject]
    private RecordingShelf Shelf { get; set; } = null!;

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    [Inject]
    private TimeProvider Time { get; set; } = null!;

    private bool Dropped => File?.StartsWith(DroppedMark, StringComparison.Ordinal) == true;

    private string? Name => string.IsNullOrEmpty(File) ? null : Path.GetFileName(File);

    private string? SiteName => Asked == "none" ? null
        : Folder.FilesOf(FileKind.Site) is var sites && sites.FirstOrDefault(f => f.Name == (Asked ?? Tab.Site)) is { } site ? site.Name
        : sites.Count > 0 ? sites[0].Name : null;

    private LoadedSite? Site => SiteName is { } name ? Folder.Site(name)?.Site : null;

    private string Says => _shelved switch
    {
        { Answer: { } answer } => ListenWords.Answer(answer.Heard)
            + (answer.Fits.Count > 0 ? " " + ListenWords.Fit(answer.Fits[0]) : ""),
        { IsWorking: true } => $"{Name} is being listened to.",
        not null => $"{Name} could not be used.",
        _ when _there => $"{Name} is being listened to.",
        _ when Name is not null => $"There is no recording ‘{Name}’ here: choose another, or drop it again.",
        _ => "Which transmission is it? Drop a recording, choose one of the folder, or listen live.",
    };

    /// <inheritdoc/>
    protected override void OnInitialized()
    {
        base.OnInitialized();
        Shelf.Changed += OnShelf;
    }

    /// <inheritdoc/>
    protected override void OnParametersSet()
    {
        _recordings = Recordings();
        Begin();
    }

    /// <inheritdoc/>
    protected override void OnFolderChanged(FolderChange change) => _recordings = Recordings();

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            Shelf.Changed -= OnShelf;
            _self?.Dispose();
        }

        base.Dispose(disposing);
    }

    /// <summary>Called by the browser with what its sound input gave since.</summary>
    [JSInvokable]
    public async Task LiveSound(byte[] octets, int rateHz)
    {
        if (_ear is not { } ear)
        {
            return;
        }

        IReadOnlyList<Finding> now = await Task.Run(() => ear.Take(octets, rateHz));
        foreach (Finding fresh in now.Where(n => !_now.Any(o => ListenWords.Name(o) == ListenWords.Name(n))))
        {
            _lately.Add((Time.GetLocalNow(), fresh));
        }

        _lately.RemoveRange(0, Math.Max(0, _lately.Count - MostLately));
        _now = now;
        StateHasChanged();
    }

    /// <summary>Called by the browser where it gives no sound.</summary>
    [JSInvokable]
    public void LiveEnded(string why)
    {
        _ear = null;
        _problem = why;
        StateHasChanged();
    }

    private static string Far(ShelvedRecording recording) => HowFar.Says(recording.Fraction, recording.Left);

    private List<string> Recordings()
    {
        string root = Folder.Paths.Root;
        return [.. Directory.EnumerateFiles(root, "*", new EnumerationOptions { RecurseSubdirectories = true, MaxRecursionDepth = 3 })
            .Where(static p => p.EndsWith(".wav", StringComparison.OrdinalIgnoreCase)
                || p.EndsWith(".sigmf-meta", StringComparison.OrdinalIgnoreCase))
            .Take(MostRecordings).Select(p => Path.GetRelativePath(root, p).Replace('\\', '/')).Order(StringComparer.Ordinal)];
    }

    private void Begin()
    {
        string? path = Dropped ? Shelf.PathOf(File!)
            : Name is not null && Folder.Paths.TryResolve(File!, out string full) && System.IO.File.Exists(full) ? full : null;
        _there = path is not null;
        if (path is null || !Live)
        {
            _shelved = null;
            return;
        }

        LoadedSite? site = Site;
        string? receiver = ReceiverChoice.Of(site, Receiver);
        string stamp = FormattableString.Invariant($"{new FileInfo(path).LastWriteTimeUtc.Ticks}");
        ShelvedRecording before = Shelf.Listen(
            Name!, new ListenQuestion { Path = path, Site = site, Receiver = receiver },
            $"{File}?{SiteName}&{receiver}#{stamp}{site?.GetHashCode()}");
        if (!ReferenceEquals(before, _shelved))
        {
            (_shelved, _picked, _kept) = (before, null, null);
        }
    }

    private void OnShelf() => _ = InvokeAsync(StateHasChanged);

    private void Pick(Finding finding)
    {
        _picked = ReferenceEquals(_picked, finding) ? null : finding;
        _ = Script.InvokeVoidAsync("spurless.seek", "sound", finding.StartS).AsTask();
    }

    /// <summary>Writes when what was on beside the site file, and names it there: two steps for undo.</summary>
    private void KeepLog()
    {
        if (_shelved?.Answer is not { } answer || SiteName is not { } site)
        {
            return;
        }

        using StringWriter text = new(CultureInfo.InvariantCulture) { NewLine = "\n" };
        ListenWriter.WriteLog(answer, text);
        _problem = RecordedEvidence.Take(Folder, site, Path.GetFileNameWithoutExtension(Name!), answer, text.ToString(), out string log);
        _kept = _problem is null ? log : null;
    }

    private void Choose(ChangeEventArgs e) =>
        Navigation.NavigateTo(e.Value is string { Length: > 0 } name ? PageLinks.AddressOf("listen", name) : "/listen");

    private void ChooseSite(ChangeEventArgs e) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameters(
            new Dictionary<string, object?> { ["site"] = (string?)e.Value, ["receiver"] = null }), replace: true);

    private void ChooseReceiver(string receiver) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("receiver", receiver), replace: true);

    private async Task TakeAsync(InputFileChangeEventArgs e)
    {
        (_busy, _problem) = (true, null);
        StateHasChanged();
        RecordingIntake intake = await RecordingIntake.TakeAsync(Shelf, e);
        _busy = false;
        _problem = intake.Problem;
        if (intake.Path is { } path)
        {
            string id = DroppedMark + Path.GetFileName(Path.GetDirectoryName(path)) + "/" + Path.GetFileName(path);
            Shelf.Keep(id, Path.GetFileName(path), path);
            Navigation.NavigateTo(PageLinks.AddressOf("listen", id));
        }
    }

    private async Task LiveAsync()
    {
        _problem = null;
        if (_ear is null)
        {
            _ear = new LiveEar();
            _self ??= DotNetObjectReference.Create(this);
            await Script.InvokeVoidAsync("spurless.hear", _self);
        }
        else
        {
            _ear = null;
            _now = [];
            await Script.InvokeVoidAsync("spurless.deaf");
        }
    }
}
