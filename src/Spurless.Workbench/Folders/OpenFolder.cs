using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Workbench.Folders;

/// <summary>What changed in an open folder.</summary>
/// <param name="Names">The files.</param>
/// <param name="Here">Whether a page of this program changed them; else an editor or another program did.</param>
public sealed record FolderChange(IReadOnlyList<string> Names, bool Here);

/// <summary>
/// A folder that pages show: its files, its sites as they stand on disk, its steps that can be undone, and word of every change, whoever
/// made it. One for the whole program, shared by all tabs. Safe for use by several threads.
/// </summary>
public sealed class OpenFolder : IDisposable
{
    private readonly Lock _gate = new();
    private readonly Dictionary<string, FolderSite> _sites = new(StringComparer.Ordinal);
    private readonly FolderWatch _watch;
    private readonly TimeProvider _time;
    private IReadOnlyList<FolderFile>? _files;
    private int _revision;
    private FolderDrafts? _drafts;

    /// <param name="folder">The folder; must exist.</param>
    /// <param name="time">The clock.</param>
    public OpenFolder(string folder, TimeProvider time)
    {
        _time = time;
        Session = new FolderSession(folder);
        Session.Changed += OnSaved;
        Name = Path.GetFileName(Paths.Root) is { Length: > 0 } last ? last : Paths.Root;
        _watch = new FolderWatch(Paths, time, names => Forget(new FolderChange(names, Here: false)));
    }

    /// <summary>
    /// Told after every change. Comes on any thread, and may name a file twice (once when saved, once when seen on disk).
    /// </summary>
    public event Action<FolderChange>? Changed;

    /// <summary>The folder's own name.</summary>
    public string Name { get; }

    /// <summary>Reading, saving, undo and redo.</summary>
    public FolderSession Session { get; }

    /// <summary>What was typed and is in no file yet.</summary>
    public FolderDrafts Drafts => _drafts ??= new FolderDrafts(Paths);

    /// <summary>The names of the folder.</summary>
    public FolderPaths Paths => Session.Paths;

    /// <summary>What was saved last by a page, and when; null before the first time.</summary>
    public (string Name, DateTimeOffset At)? LastSaved { get; private set; }

    /// <summary>Grows with every change.</summary>
    public int Revision => Volatile.Read(ref _revision);

    /// <summary>The files that the program can read, by name.</summary>
    public IReadOnlyList<FolderFile> Files
    {
        get
        {
            lock (_gate)
            {
                return _files ??= FolderScan.Of(Paths);
            }
        }
    }

    /// <summary>The files of a kind.</summary>
    public IReadOnlyList<FolderFile> FilesOf(FileKind kind) => [.. Files.Where(f => f.Kind == kind)];

    /// <summary>A site file as it stands on disk, read and checked; kept until anything in the folder changes.</summary>
    /// <param name="name">Its name within the folder.</param>
    /// <returns>The site with its findings; null where there is no such file or its name leads out.</returns>
    public FolderSite? Site(string name)
    {
        int revision;
        lock (_gate)
        {
            revision = _revision;
            if (_sites.TryGetValue(name, out FolderSite? kept))
            {
                return kept;
            }
        }

        if (Session.Read(name) is not { } file)
        {
            return null;
        }

        FolderSite site = file.IsUtf8 ? SiteOf(file) : InAnotherEncoding(file);
        lock (_gate)
        {
            if (revision == _revision)
            {
                _sites[name] = site;
            }
        }

        return site;
    }

    // Read from its bytes, so that the reader's own finding about the encoding comes out.
    private FolderSite InAnotherEncoding(FolderText file)
    {
        FilesBeside beside = new(Paths, file.Name);
        byte[] bytes = Paths.TryResolve(file.Name, out string path) ? SiteFolder.ReadFile(path) ?? [] : [];
        LoadedSite? site = SiteLoader.Load(new SourceFile(file.Name, bytes, beside), out IReadOnlyList<Diagnostic> findings);
        return new FolderSite(file, site, findings) { Asked = beside.Asked };
    }

    /// <summary>
    /// A site of a text that is not, or not yet, on disk: with a slider moved, say. Its circuits and sweeps are those of the folder.
    /// </summary>
    /// <param name="file">Name and text.</param>
    public FolderSite SiteOf(FolderText file)
    {
        FilesBeside beside = new(Paths, file.Name);
        LoadedSite? site = SiteLoader.Load(SourceFile.OfText(file.Name, file.Text, beside), out IReadOnlyList<Diagnostic> findings);
        return new FolderSite(file, site, findings) { Asked = beside.Asked };
    }

    /// <summary>The files beside a document of the folder: none outside the folder is read, whatever the document names.</summary>
    /// <param name="name">The document's name within the folder.</param>
    public ISiteFiles Beside(string name) => new FilesBeside(Paths, name);

    /// <summary>
    /// Writes one field of a file at once. What others changed elsewhere in the file meanwhile stays; the same field changed by others is a
    /// conflict.
    /// </summary>
    /// <param name="file">The file's name within the folder.</param>
    /// <param name="field">The field, as <see cref="FieldText"/> names them.</param>
    /// <param name="value">The value as typed; null or blank takes the field away.</param>
    /// <param name="seen">The value that the user saw when he began; null where the field was not written.</param>
    /// <param name="what">What the step does, in words, for undo.</param>
    public FieldOutcome Set(string file, string field, string? value, string? seen, string what)
    {
        string? there = null;
        bool conflict = false;
        FieldOutcome outcome = Edit(file, what, text =>
        {
            YamlMapping? root = FieldText.Parse(text);
            there = root is null ? null : FieldText.ValueOf(root, field);
            conflict = (there ?? "") != (seen ?? "") && (there ?? "") != (value?.Trim() ?? "");
            return conflict ? (null, "changed meanwhile")
                : FieldText.TrySet(text, root, field, value, out string? edited, out string? problem) ? (edited, null) : (null, problem);
        });
        return conflict ? new FieldOutcome(FieldResult.Conflict, there) : outcome;
    }

    /// <summary>Changes a file's text at once, as one step for undo.</summary>
    /// <param name="file">The file's name within the folder; must be there.</param>
    /// <param name="what">What the step does, in words, for undo.</param>
    /// <param name="splice">Makes the new text of the one that stands there now, or says why not ('what; what to do instead'). May be
    /// called more than once.</param>
    public FieldOutcome Edit(string file, string what, Func<string, (string? Text, string? Problem)> splice)
    {
        ArgumentNullException.ThrowIfNull(splice);
        // Someone may write between our reading and our writing, but not for ever. Another page of ours gets on with each of its saves, so
        // that it is waited for longer.
        const int Tries = 5;
        const int MostTries = 500;
        int others = 0;
        for (int i = 0; others < Tries && i < MostTries; i++)
        {
            int written = Session.Written;
            if (Session.Read(file) is not { } now)
            {
                return new FieldOutcome(
                    FieldResult.Refused, Problem: $"'{file}' is not in the folder any more; put it back or choose another");
            }

            if (!now.IsUtf8)
            {
                return new FieldOutcome(
                    FieldResult.Refused,
                    Problem: $"'{file}' is not in UTF-8, and part of it would be lost; save it as UTF-8 in a text editor first");
            }

            (string? text, string? problem) = splice(now.Text);
            if (text is null)
            {
                return new FieldOutcome(FieldResult.Refused, Problem: problem);
            }

            if (text == now.Text)
            {
                return new FieldOutcome(FieldResult.Saved);
            }

            switch (Session.Save(file, text, now.Version, what))
            {
                case SaveOutcome.Saved:
                    return new FieldOutcome(FieldResult.Saved);
                case SaveOutcome.Refused:
                    return new FieldOutcome(FieldResult.Refused, Problem: $"'{file}' cannot be written; see to its permissions");
            }

            others += Session.Written == written ? 1 : 0;
        }

        return new FieldOutcome(FieldResult.Refused, Problem: $"'{file}' is being changed by another program; try again");
    }

    /// <summary>Looks for changes now instead of at the next notice.</summary>
    public void Look() => _watch.Look();

    /// <inheritdoc/>
    public void Dispose()
    {
        Session.Changed -= OnSaved;
        _watch.Dispose();
    }

    private void OnSaved(string name)
    {
        _watch.Accept(name);
        LastSaved = (name, _time.GetLocalNow());
        Forget(new FolderChange([name], Here: true));
    }

    private void Forget(FolderChange change)
    {
        lock (_gate)
        {
            _files = null;
            _sites.Clear();
            _revision++;
        }

        Changed?.Invoke(change);
    }
}
