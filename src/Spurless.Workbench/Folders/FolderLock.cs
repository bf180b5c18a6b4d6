using Spurless.Sites.Storage;

namespace Spurless.Workbench.Folders;

/// <summary>
/// One program writes to a folder at a time: two that do not know of each other would overwrite each other's edits. The lock is the
/// system's own on a file of the hidden folder <c>.spurless</c>, so it ends with the program, however that ends.
/// </summary>
public sealed class FolderLock : IDisposable
{
    internal const string Hidden = ".spurless";

    private readonly string _folder;
    private readonly FileStream _held;

    private FolderLock(string folder, FileStream held) => (_folder, _held) = (folder, held);

    private static string AddressOf(string folder) => Path.Combine(folder, Hidden, "serve.address");

    /// <summary>Takes the lock.</summary>
    /// <param name="folder">The folder; must exist.</param>
    /// <param name="taken">The lock; null where another program holds it, and where nothing can be written to the folder at all.</param>
    /// <returns>False where another program holds it.</returns>
    public static bool TryTake(string folder, out FolderLock? taken)
    {
        string root = FolderPaths.Followed(Path.GetFullPath(folder));
        taken = null;
        try
        {
            Directory.CreateDirectory(Path.Combine(root, Hidden));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return true;
        }

        string path = Path.Combine(root, Hidden, "serve.lock");
        if (FolderPaths.Followed(path) != path)
        {
            return true; // somebody prepared a link there: nothing is opened through it
        }

        try
        {
            // Not deleted when it is closed: one who waits at a name that is gone would hold another lock than the next to come.
            taken = new FolderLock(root, new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
            return true;
        }
        catch (UnauthorizedAccessException)
        {
            return true;
        }
        catch (IOException)
        {
            return !File.Exists(path);
        }
    }

    /// <summary>The address that the holder of the lock told; null where it told none yet.</summary>
    public static string? Address(string folder)
    {
        string path = AddressOf(FolderPaths.Followed(Path.GetFullPath(folder)));
        try
        {
            const int Longest = 200;
            return FileFacts.IsFile(path)
                && new FileInfo(path).Length <= Longest
                && Uri.TryCreate(File.ReadAllText(path), UriKind.Absolute, out Uri? address)
                && address is { Scheme: "http", Host: "127.0.0.1" }
                    ? address.AbsoluteUri
                    : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Leaves word for the next program where the pages are.</summary>
    public void Tell(Uri address)
    {
        ArgumentNullException.ThrowIfNull(address);
        try
        {
            WholeFile.Write(AddressOf(_folder), to => to.Write(System.Text.Encoding.UTF8.GetBytes(address.AbsoluteUri)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The next one is told without it.
        }
    }

    /// <summary>
    /// Clears away what programs that were killed while saving left behind. The file itself was whole all the time; a whole new text that
    /// had not found its place yet is kept.
    /// </summary>
    /// <param name="now">The time.</param>
    /// <returns>What was removed, and what is kept for the user to look at, by name within the folder.</returns>
    public (IReadOnlyList<string> Removed, IReadOnlyList<string> Kept) ClearAway(DateTimeOffset now)
    {
        List<string> removed = [];
        List<string> kept = [];
        EnumerationOptions within = new()
        {
            RecurseSubdirectories = true,
            MaxRecursionDepth = FolderScan.Deepest,
            AttributesToSkip = FileAttributes.ReparsePoint,
            IgnoreInaccessible = true,
        };
        foreach (
            FileInfo file in new DirectoryInfo(_folder).EnumerateFiles(".*", within).OrderBy(
                static f => f.FullName, StringComparer.Ordinal))
        {
            string name = Path.GetRelativePath(_folder, file.FullName).Replace(Path.DirectorySeparatorChar, '/');
            if (WholeFile.IsLeftOver(file.Name, WholeFile.Kept))
            {
                kept.Add(name);
            }
            else if (WholeFile.IsLeftOver(file.Name, WholeFile.Making)
                && now - file.LastWriteTimeUtc > WholeFile.Forgotten
                && Delete(file.FullName))
            {
                removed.Add(name);
            }
        }

        return (removed, kept);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Delete(AddressOf(_folder));
        _held.Dispose();
    }

    private static bool Delete(string path)
    {
        try
        {
            File.Delete(path);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }
}
