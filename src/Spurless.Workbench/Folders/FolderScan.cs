using Spurless.Sites.Sources;
using Spurless.Sites.Storage;

namespace Spurless.Workbench.Folders;

/// <summary>Finds the files of a folder that the program can read.</summary>
internal static class FolderScan
{
    /// <summary>How many folders deep it looks.</summary>
    public const int Deepest = 4;

    /// <summary>How many files it takes at most.</summary>
    public const int Most = 2000;

    /// <summary>
    /// All files of a known kind, by folder and name; links that lead out, hidden files and what cannot be read are left out.
    /// </summary>
    public static IReadOnlyList<FolderFile> Of(FolderPaths paths)
    {
        List<FolderFile> found = [];
        Walk(paths, new DirectoryInfo(paths.Root), 0, found);
        found.Sort(static (a, b) => string.CompareOrdinal(a.Name, b.Name));
        return found;
    }

    /// <summary>One file; null where it is not there or of no kind the program knows.</summary>
    public static FolderFile? One(FolderPaths paths, string name) =>
        paths.TryResolve(name, out string path)
            && new FileInfo(path) is { Exists: true } file
            && FileFacts.IsFile(path)
            && FileKinds.Of(file.Name, []) is var kind and not (FileKind.Unknown or FileKind.Recording or FileKind.Elevation)
            ? new FolderFile(name, kind, file.Length, file.LastWriteTimeUtc)
            : null;

    private static void Walk(FolderPaths paths, DirectoryInfo folder, int depth, List<FolderFile> found)
    {
        IEnumerable<FileSystemInfo> entries;
        try
        {
            entries = [.. folder.EnumerateFileSystemInfos().OrderBy(static e => e.Name, StringComparer.Ordinal)];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return;
        }

        foreach (FileSystemInfo entry in entries)
        {
            if (found.Count >= Most || entry.Name.StartsWith('.'))
            {
                continue;
            }

            if (entry is DirectoryInfo inner)
            {
                if (depth + 1 < Deepest && inner.LinkTarget is null)
                {
                    Walk(paths, inner, depth + 1, found);
                }
            }
            else if (One(paths, paths.NameOf(entry.FullName)) is { } file)
            {
                found.Add(file);
            }
        }
    }
}
