using System.Buffers;
using System.Security.Cryptography;
using Spurless.Sites.Storage;

namespace Spurless.Workbench.Folders;

/// <summary>
/// The secret of a folder's pages. It lies in the hidden folder <c>.spurless</c>, readable by its owner alone, so that an address and a
/// browser that were let in once hold from one run to the next.
/// </summary>
public static class FolderKey
{
    /// <summary>How many digits (hexadecimal) it has: 128 random bits.</summary>
    public const int Digits = 32;

    private static readonly SearchValues<char> Hexadecimal = SearchValues.Create("0123456789abcdef");

    /// <summary>A secret that nobody knows yet.</summary>
    public static string Fresh() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(Digits / 2));

    /// <summary>
    /// The folder's secret. It is made anew where there is none, and where another user could have read it or put it there; where nothing
    /// can be written it holds for this run alone.
    /// </summary>
    /// <param name="folder">The folder; its lock must be held.</param>
    public static string Of(string folder)
    {
        if (Known(folder) is { } known)
        {
            return known;
        }

        string key = Fresh();
        string path = PathOf(folder);
        try
        {
            File.Delete(path); // a link is removed, not followed
            FileStreamOptions own = new() { Mode = FileMode.CreateNew, Access = FileAccess.Write, Share = FileShare.None };
            if (!OperatingSystem.IsWindows())
            {
                own.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            }

            using FileStream file = new(path, own);
            file.Write(System.Text.Encoding.ASCII.GetBytes(key));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // This run has its secret all the same.
        }

        return key;
    }

    /// <summary>The folder's secret where it has one that only its owner knows; else null.</summary>
    /// <param name="folder">The folder.</param>
    public static string? Known(string folder)
    {
        string path = PathOf(folder);
        try
        {
            if (FolderPaths.Followed(path) != path || !FileFacts.IsFile(path) || new FileInfo(path).Length != Digits || !IsPrivate(path))
            {
                return null;
            }

            string key = File.ReadAllText(path);
            return key.Length == Digits && !key.AsSpan().ContainsAnyExcept(Hexadecimal) ? key : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static string PathOf(string folder) =>
        Path.Combine(FolderPaths.Followed(Path.GetFullPath(folder)), FolderLock.Hidden, "serve.key");

    private static bool IsPrivate(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            return true; // there the rights of the folder decide
        }

        const UnixFileMode Others = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.OtherRead | UnixFileMode.OtherWrite;
        bool ours = FileFacts.Of(path) is not { } key || FileFacts.Of("/proc/self") is not { } self || key.Owner == self.Owner;
        return ours && (File.GetUnixFileMode(path) & Others) == 0;
    }
}
