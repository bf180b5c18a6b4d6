namespace Spurless.Sites.Folders;

/// <summary>Keeps names that come from a page inside one folder: no way up, no absolute path, no link that leads out.</summary>
public sealed class FolderPaths
{
    private readonly string _root;

    /// <param name="root">The folder; must exist.</param>
    public FolderPaths(string root) => _root = RealPath(Path.GetFullPath(root));

    /// <summary>The folder with its links resolved.</summary>
    public string Root => _root;

    /// <summary>The full path of a file of the folder.</summary>
    /// <param name="name">Relative, with <c>/</c> between folders.</param>
    /// <param name="fullPath">The full path where the answer is yes.</param>
    /// <returns>Whether the name stays inside the folder; whether the file exists is not asked.</returns>
    public bool TryResolve(string name, out string fullPath)
    {
        fullPath = "";
        if (name.Length is 0 or > 400 || Path.IsPathRooted(name) || name.AsSpan().IndexOfAny('\0', '\\', ':') >= 0)
        {
            return false;
        }

        string[] steps = name.Split('/');
        if (Array.Exists(steps, static s => s is "" or "." or ".." || s[0] == '.'))
        {
            return false;
        }

        string candidate = Path.Combine([_root, .. steps]);
        if (!IsInside(RealPath(candidate)))
        {
            return false;
        }

        fullPath = candidate;
        return true;
    }

    /// <summary>The name of a file of the folder, with <c>/</c> between folders.</summary>
    public string NameOf(string fullPath) => Path.GetRelativePath(_root, fullPath).Replace(Path.DirectorySeparatorChar, '/');

    private bool IsInside(string real) => real == _root || real.StartsWith(_root + Path.DirectorySeparatorChar, StringComparison.Ordinal);

    /// <summary>The path with every link on the way resolved, as far as it exists.</summary>
    private static string RealPath(string fullPath)
    {
        string real = Path.GetPathRoot(fullPath) ?? "/";
        foreach (string step in fullPath[real.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries))
        {
            string next = Path.Combine(real, step);
            FileSystemInfo info = Directory.Exists(next) ? new DirectoryInfo(next) : new FileInfo(next);
            real = info.LinkTarget is null ? next : info.ResolveLinkTarget(returnFinalTarget: true)?.FullName ?? next;
        }

        return real;
    }
}
