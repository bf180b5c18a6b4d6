namespace Spurless.Workbench.Folders;

/// <summary>
/// Notices what others change in a folder: the system's own notices where it gives them, and a look every few seconds where it does not
/// (network folders, exhausted limits). Tells names only once a change has settled.
/// </summary>
internal sealed class FolderWatch : IDisposable
{
    private static readonly TimeSpan Settle = TimeSpan.FromMilliseconds(60);
    private static readonly TimeSpan Interval = TimeSpan.FromSeconds(2);

    private readonly FolderPaths _paths;
    private readonly Action<IReadOnlyList<string>> _tell;
    private readonly Lock _gate = new();
    private readonly ITimer _timer;
    private readonly FileSystemWatcher? _watcher;
    private Dictionary<string, FolderFile> _seen;

    /// <param name="paths">The folder.</param>
    /// <param name="time">The clock of the regular look.</param>
    /// <param name="tell">Told the names that appeared, went or were written; never two calls at once.</param>
    public FolderWatch(FolderPaths paths, TimeProvider time, Action<IReadOnlyList<string>> tell)
    {
        (_paths, _tell) = (paths, tell);
        _seen = Snapshot();
        _timer = time.CreateTimer(_ => Look(), null, Interval, Interval);
        _watcher = TryWatch();
    }

    public void Dispose()
    {
        _watcher?.Dispose();
        _timer.Dispose();
    }

    /// <summary>Looks now.</summary>
    public void Look()
    {
        lock (_gate)
        {
            Dictionary<string, FolderFile> now = Snapshot();
            string[] changed =
            [
                .. now.Values.Where(f => !_seen.TryGetValue(f.Name, out FolderFile? was) || was != f).Select(static f => f.Name),
                .. _seen.Keys.Where(n => !now.ContainsKey(n)),
            ];
            _seen = now;
            if (changed.Length > 0)
            {
                _tell(changed);
            }
        }
    }

    /// <summary>Takes a file as it is now: whoever changed it has told of it already.</summary>
    public void Accept(string name)
    {
        lock (_gate)
        {
            _seen.Remove(name);
            if (FolderScan.One(_paths, name) is { } file)
            {
                _seen[name] = file;
            }
        }
    }

    private Dictionary<string, FolderFile> Snapshot() => FolderScan.Of(_paths).ToDictionary(static f => f.Name, StringComparer.Ordinal);

    private FileSystemWatcher? TryWatch()
    {
        try
        {
            FileSystemWatcher watcher = new(_paths.Root)
            {
                IncludeSubdirectories = true,
                NotifyFilter = NotifyFilters.FileName | NotifyFilters.DirectoryName | NotifyFilters.LastWrite | NotifyFilters.Size,
            };
            FileSystemEventHandler soon = (_, _) => _timer.Change(Settle, Interval);
            watcher.Changed += soon;
            watcher.Created += soon;
            watcher.Deleted += soon;
            watcher.Renamed += (_, _) => _timer.Change(Settle, Interval);
            watcher.EnableRaisingEvents = true;
            return watcher;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or PlatformNotSupportedException or ArgumentException)
        {
            return null; // the regular look remains
        }
    }
}
