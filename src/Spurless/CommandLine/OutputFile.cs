using System.Text;
using Spurless.Sites.Sources;
using Spurless.Sites.Storage;

namespace Spurless.CommandLine;

/// <summary>Files that commands write: each appears under its name only when it is whole.</summary>
internal static class OutputFile
{
    /// <summary>Writes beside the file's place, then puts it there.</summary>
    /// <param name="path">The file's name; what it held before stays until the new file is whole.</param>
    /// <param name="write">Writes what it shall hold.</param>
    /// <exception cref="UsageException">The place cannot be written to.</exception>
    public static void Write(string path, Action<Stream> write)
    {
        string target = Target(path);
        if (IsDevice(target))
        {
            using FileStream device = Open(path, target, FileMode.Open);
            write(device);
            return;
        }

        try
        {
            WholeFile.Write(target, write);
        }
        catch (UnauthorizedAccessException)
        {
            throw Unwritable(path);
        }
        catch (IOException e) when (e is PathTooLongException or DirectoryNotFoundException || IsReadOnly(e))
        {
            throw Unwritable(path);
        }
    }

    /// <summary>Writes a changed text of a file in UTF-8, with the byte-order mark that the file has, if it has one.</summary>
    /// <param name="path">The file's name.</param>
    /// <param name="source">The file as it was read.</param>
    /// <param name="text">The text, without a mark.</param>
    /// <exception cref="UsageException">The place cannot be written to.</exception>
    public static void WriteChanged(string path, SourceFile source, string text)
    {
        byte[] mark = source.Bytes.AsSpan().StartsWith("\uFEFF"u8) ? [.. "\uFEFF"u8] : [];
        Write(path, to => to.Write([.. mark, .. Encoding.UTF8.GetBytes(text)]));
    }

    /// <summary>Clears away what runs that were ended while they wrote this file left beside it.</summary>
    /// <param name="path">The file's name.</param>
    /// <param name="now">The time.</param>
    /// <returns>How many half-written files were removed.</returns>
    public static int ClearAway(string path, DateTimeOffset now) => Target(path) is var target && !IsDevice(target)
        ? WholeFile.ClearAway(target, now)
        : 0;

    // Through a link the file it leads to is replaced, not the link.
    private static string Target(string path)
    {
        string full;
        try
        {
            full = Path.GetFullPath(path);
            if (Path.GetDirectoryName(full) is { } folder && !Directory.Exists(folder))
            {
                throw new UsageException($"--out: there is no folder '{folder}'; make it first, or write another name");
            }

            if (new FileInfo(full).LinkTarget is not null)
            {
                full = File.ResolveLinkTarget(full, returnFinalTarget: true)!.FullName;
            }
        }
        catch (Exception e) when (e is IOException or ArgumentException or UnauthorizedAccessException)
        {
            throw new UsageException($"--out: '{path}' cannot be a file's name; write another");
        }

        if (Directory.Exists(full))
        {
            throw new UsageException($"--out: '{path}' is a folder; write the name of a file");
        }

        return full;
    }

    private static bool IsDevice(string target) => !OperatingSystem.IsWindows()
        && (target.StartsWith("/dev/", StringComparison.Ordinal) || target.StartsWith("/proc/", StringComparison.Ordinal))
        && File.Exists(target);

    private static FileStream Open(string path, string name, FileMode mode)
    {
        try
        {
            return new FileStream(name, mode, FileAccess.Write, FileShare.Read);
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException)
        {
            throw Unwritable(path);
        }
    }

    // EROFS: the place is a medium that takes nothing.
    private static bool IsReadOnly(IOException e) => !OperatingSystem.IsWindows() && e.HResult == 30;

    private static UsageException Unwritable(string path) =>
        new($"--out: '{path}' cannot be written; write the name of a file in a folder of yours");
}
