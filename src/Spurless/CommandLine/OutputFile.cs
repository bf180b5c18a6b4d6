using System.Text;

namespace Spurless.CommandLine;

/// <summary>Files that commands write: each appears under its name only when it is whole.</summary>
internal static class OutputFile
{
    /// <summary>Writes a text in UTF-8 beside the file's place, then puts it there.</summary>
    /// <param name="path">The file's name; what it held before stays until the new text is whole.</param>
    /// <param name="write">Writes the text.</param>
    /// <exception cref="UsageException">The place cannot be written to.</exception>
    public static void Write(string path, Action<TextWriter> write)
    {
        string target = Target(path);
        if (IsDevice(target))
        {
            using StreamWriter device = new(Open(path, target, FileMode.Open));
            write(device);
            return;
        }

        string part = $"{target}.{Environment.ProcessId}.part";
        try
        {
            using (StreamWriter text = new(Open(path, part, FileMode.Create), new UTF8Encoding(encoderShouldEmitUTF8Identifier: false)) { NewLine = "\n" })
            {
                write(text);
            }

            File.Move(part, target, overwrite: true);
        }
        catch
        {
            Discard(part);
            throw;
        }
    }

    // Through a link the file it leads to is replaced, not the link.
    private static string Target(string path)
    {
        string full;
        try
        {
            full = Path.GetFullPath(path);
            full = File.ResolveLinkTarget(full, returnFinalTarget: true)?.FullName ?? full;
        }
        catch (Exception e) when (e is IOException or ArgumentException or UnauthorizedAccessException)
        {
            throw new UsageException($"--out: '{path}' cannot be a file's name; write another");
        }

        if (Directory.Exists(full))
        {
            throw new UsageException($"--out: '{path}' is a folder; write the name of a file");
        }

        if (Path.GetDirectoryName(full) is { } folder && !Directory.Exists(folder))
        {
            throw new UsageException($"--out: there is no folder '{Path.GetDirectoryName(path)}'; make it first, or write another name");
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
            throw new UsageException($"--out: '{path}' cannot be written; write the name of a file in a folder of yours");
        }
    }

    private static void Discard(string part)
    {
        try
        {
            File.Delete(part);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The first failure is the one to tell.
        }
    }
}
