using System.Text;
using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Search;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Workbench.Desk;

/// <summary>A file's text as settings would write it.</summary>
/// <param name="Path">The path that names the file in the site file; empty for the site file itself.</param>
/// <param name="From">The text that it is made of.</param>
/// <param name="Text">Its new text.</param>
public sealed record KeptFile(string Path, string From, string Text);

/// <summary>
/// A site on the desk: what can be changed along its chains, and what a change does, computed without writing anything. The figures are
/// those that <see cref="StudyService"/> gives for the files as <see cref="Keep"/> would write them, to the last bit. Safe for use by
/// several threads.
/// </summary>
public sealed class StudyDesk
{
    private readonly ISiteFiles _files;
    private readonly string _text;
    private readonly Dictionary<string, Network> _networks;
    private readonly Dictionary<string, DeskItem> _items = new(StringComparer.Ordinal);
    private readonly DeskMemories _memories = new();

    private StudyDesk(LoadedSite site, string text, ISiteFiles files, IReadOnlyDictionary<string, Network> offered)
    {
        (Site, _text, _files) = (site, text, files);
        _networks = new Dictionary<string, Network>(site.Networks, StringComparer.Ordinal);
        foreach ((string path, Network network) in offered)
        {
            _networks.TryAdd(path, network);
        }

        Receivers = [.. Enumerable.Range(0, site.Document.Receivers.Count).Select(r => DeskInventory.Of(site, offered, r))];
        foreach (DeskItem item in Receivers.SelectMany(static r => r).SelectMany(static s => s.Items.Prepend(s.Switch).OfType<DeskItem>()))
        {
            _items.TryAdd(item.Id, item);
        }
    }

    /// <summary>The site as its files have it.</summary>
    public LoadedSite Site { get; }

    /// <summary>What can be changed, per receiver in the order of the site file.</summary>
    public IReadOnlyList<IReadOnlyList<DeskStage>> Receivers { get; }

    /// <summary>All items of all receivers.</summary>
    public IReadOnlyCollection<DeskItem> Items => _items.Values;

    /// <summary>Puts a site on the desk.</summary>
    /// <param name="text">The site file's text.</param>
    /// <param name="fileName">Its name as the user gave it.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="offered">Paths of circuits and two-port sweeps that may be put into a chain, relative to the site file; one with an
    /// error is left out.</param>
    /// <param name="diagnostics">All findings of the reading.</param>
    /// <returns>The desk; null where there is an error.</returns>
    public static StudyDesk? Open(
        string text, string fileName, ISiteFiles files, IEnumerable<string> offered, out IReadOnlyList<Diagnostic> diagnostics)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(files);
        return SiteLoader.Load(text, fileName, files, out diagnostics) is { } site
            ? new StudyDesk(site, text, files, SiteLoader.LoadNetworks(site.Document, files, offered))
            : null;
    }

    /// <summary>
    /// Studies the whole site with settings, as
    /// <see cref="StudyService.Run(LoadedSite, StudyOptions, IProgress{SearchProgress}?, CancellationToken)"/> does.
    /// </summary>
    /// <exception cref="CircuitException">A changed circuit cannot be solved.</exception>
    public StudyResult Study(
        DeskSettings settings,
        StudyOptions options,
        IProgress<SearchProgress>? progress = null,
        CancellationToken cancellationToken = default) =>
        StudyService.Run(With(settings), options, progress, cancellationToken);

    /// <summary>Studies one receiver with settings, its chain without filters left out: as little as a moving slider needs.</summary>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="settings">What was changed.</param>
    /// <param name="options">Limits and thresholds.</param>
    /// <param name="progress">Told how far the search has come, or null.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>What lands on the receiver: equal to that of <see cref="Study"/>, but for what it says of the chain without its
    /// filters and of what one signal more would add.</returns>
    /// <exception cref="CircuitException">A changed circuit cannot be solved.</exception>
    public async Task<ReceiverFindings> StudyOneAsync(
        int receiver,
        DeskSettings settings,
        StudyOptions options,
        IProgress<SearchProgress>? progress = null,
        CancellationToken cancellationToken = default)
    {
        StudyMemory memory = await _memories.TakeAsync(cancellationToken).ConfigureAwait(false);
        try
        {
            return StudyService.RunOne(With(settings), receiver, options, memory, progress, cancellationToken);
        }
        finally
        {
            _memories.GiveBack(memory);
        }
    }

    /// <summary>The settings that make the before of a receiver: as the file stands, every filter of its chain taken out.</summary>
    public DeskSettings WithoutFilters(int receiver) => Receivers[receiver]
        .Select(static s => s.Switch)
        .OfType<DeskItem>()
        .Where(static i => i.FileValue > 0)
        .Aggregate(DeskSettings.None, static (s, i) => s.With(i, 0));

    /// <summary>Paths of the files that <see cref="Keep"/> would write, the site file's empty; nothing is read or made for it.</summary>
    /// <param name="settings">What was changed.</param>
    public IReadOnlyList<string> Written(DeskSettings settings) =>
        [.. new DeskChange(Site, _networks, settings, _items).Edits().Select(static e => e.Path)];

    /// <summary>The files as the settings would write them; comments and everything else in them stay.</summary>
    /// <param name="settings">What was changed.</param>
    /// <param name="problem">Why a file cannot be written so; null where all can.</param>
    /// <returns>The changed files; empty where nothing changed or a problem stands.</returns>
    public IReadOnlyList<KeptFile> Keep(DeskSettings settings, out string? problem)
    {
        problem = null;
        List<KeptFile> kept = [];
        foreach ((string path, IReadOnlyList<DeskEdit> edits) in new DeskChange(Site, _networks, settings, _items).Edits())
        {
            string? text = path.Length == 0 ? _text : TextOf(path);
            if (text is null)
            {
                problem = $"{path} cannot be read any more; read the folder again";
                return [];
            }

            string from = text;
            foreach (DeskEdit edit in edits)
            {
                text = edit.Apply(text, out problem);
                if (text is null)
                {
                    return [];
                }
            }

            kept.Add(new KeptFile(path, from, text));
        }

        return kept;
    }

    /// <summary>The site with settings in force.</summary>
    /// <exception cref="CircuitException">A changed circuit cannot be solved.</exception>
    public LoadedSite With(DeskSettings settings) => new DeskChange(Site, _networks, settings, _items).Site();

    private string? TextOf(string path) => _files.Read(path) is { } bytes ? Encoding.UTF8.GetString(bytes) : null;
}
