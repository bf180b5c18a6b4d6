using System.Collections.Concurrent;
using Spurless.Sites.Documents;

namespace Spurless.Workbench.Folders;

/// <summary>The files beside a site file of an open folder: none outside the folder is read, whatever the site file names.</summary>
/// <param name="paths">The folder.</param>
/// <param name="siteFile">The site file's name within it.</param>
internal sealed class FilesBeside(FolderPaths paths, string siteFile) : ISiteFiles
{
    private readonly string _beside = NamesInFolder.Beside(siteFile);

    // Ways out are read by several threads at once.
    private readonly ConcurrentDictionary<string, bool> _asked = new(StringComparer.Ordinal);

    /// <summary>The names that were asked for, whether there or not.</summary>
    public IReadOnlyCollection<string> Asked => [.. _asked.Keys];

    /// <inheritdoc/>
    public bool Exists(string path) => Resolve(path) is { } full && File.Exists(full);

    /// <inheritdoc/>
    public byte[]? Read(string path) => Resolve(path) is { } full ? SiteFolder.ReadFile(full) : null;

    /// <inheritdoc/>
    public string? Folder(string path) => Resolve(path) is { } full && Directory.Exists(full) ? full : null;

    /// <summary>The name within the folder: <c>.</c> and <c>..</c> are taken out as far as they stay within.</summary>
    public string NameOf(string path)
    {
        if (Path.IsPathRooted(path))
        {
            return path;
        }

        List<string> steps = [];
        foreach (string step in (_beside + path).Split('/'))
        {
            if (step == ".." && steps.Count > 0 && steps[^1] != "..")
            {
                steps.RemoveAt(steps.Count - 1);
            }
            else if (step != ".")
            {
                steps.Add(step);
            }
        }

        return string.Join('/', steps);
    }

    private string? Resolve(string path)
    {
        string name = NameOf(path);
        _asked[name] = true;
        return paths.TryResolve(name, out string full) ? full : null;
    }
}
