namespace Spurless.Workbench.Folders;

/// <summary>Keeps names that come from a page inside one folder: no way up, no absolute path, no link that leads out.</summary>
public sealed class FolderPaths
{
    private readonly string _root;

    /// <param name="root">The folder; must exist.</param>
    public FolderPaths(string root) => _root = Followed(Path.GetFullPath(root));

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
        if (!TryFollow(candidate, out string real) || !IsInside(real))
        {
            return false;
        }

        fullPath = candidate;
        return true;
    }

    /// <summary>The name of a file of the folder, with <c>/</c> between folders.</summary>
    public string NameOf(string fullPath) => Path.GetRelativePath(_root, fullPath).Replace(Path.DirectorySeparatorChar, '/');

    private bool IsInside(string real) => real == _root || real.StartsWith(_root + Path.DirectorySeparatorChar, StringComparison.Ordinal);

    /// <summary>The path with every link on the way followed, as far as it exists; the path itself where its links have no end.</summary>
    internal static string Followed(string fullPath) => TryFollow(fullPath, out string real) ? real : fullPath;

    /// <summary>
    /// Follows every link of a path, those within the targets of links too, one step at a time. What exists of a link's target is never
    /// taken as it is written.
    /// </summary>
    private static bool TryFollow(string fullPath, out string real)
    {
        const int MostLinks = 40; // as many as the systems follow
        int links = 0;
        string root = Path.GetPathRoot(fullPath) ?? "/";
        real = root;
        Stack<string> left = new(Steps(fullPath[root.Length..]).Reverse());
        while (left.TryPop(out string? step))
        {
            if (step == "..")
            {
                real = Path.GetDirectoryName(real) ?? real;
                continue;
            }

            string next = Path.Combine(real, step);
            if (LinkOf(next) is not { } target)
            {
                real = next;
                continue;
            }

            if (++links > MostLinks)
            {
                return false;
            }

            if (Path.IsPathRooted(target))
            {
                real = Path.GetPathRoot(target)!;
                target = target[real.Length..];
            }

            foreach (string inner in Steps(target).Reverse())
            {
                left.Push(inner);
            }
        }

        return true;
    }

    private static IEnumerable<string> Steps(string path) => path
        .Split([Path.DirectorySeparatorChar, Path.AltDirectorySeparatorChar], StringSplitOptions.RemoveEmptyEntries)
        .Where(static s => s != ".");

    private static string? LinkOf(string path)
    {
        try
        {
            return new FileInfo(path).LinkTarget; // of a folder too, and of a link that leads nowhere
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
