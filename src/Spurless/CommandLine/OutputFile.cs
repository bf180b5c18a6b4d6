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

        string part = $"{target}.{Environment.ProcessId}.part";
        try
        {
            using (FileStream file = Open(path, part, FileMode.Create))
            {
                write(file);
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
