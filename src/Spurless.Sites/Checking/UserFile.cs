using Spurless.Files.Diagnostics;

namespace Spurless.Sites.Checking;

/// <summary>Files that a user names on a command line.</summary>
public static class UserFile
{
    /// <summary>Reads a whole file. That it is not there, cannot be read or is too large is a finding, not an exception.</summary>
    /// <param name="path">Its path.</param>
    /// <param name="largest">The most bytes taken.</param>
    /// <param name="diagnostics">Takes the finding.</param>
    /// <returns>Its bytes; null where there is a finding.</returns>
    public static byte[]? Read(string path, long largest, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        void Fault(string what, string remedy) => diagnostics.Error(path, 0, 0, what, remedy);
        try
        {
            if (Directory.Exists(path))
            {
                Fault("this is a folder", "name a file in it");
                return null;
            }

            using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            using MemoryStream memory = new();
            byte[] block = new byte[65536];
            for (int read; (read = stream.Read(block)) > 0;)
            {
                memory.Write(block, 0, read);
                if (memory.Length > largest)
                {
                    Fault(FormattableString.Invariant($"the file is larger than {largest / 1_000_000} MB"), "no file of this program is; name another");
                    return null;
                }
            }

            return memory.ToArray();
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            Fault("there is no such file", "check the name, and the folder you are in");
        }
        catch (UnauthorizedAccessException)
        {
            Fault("the file cannot be read", "see to its permissions");
        }
        catch (Exception e) when (e is IOException or ArgumentException or NotSupportedException)
        {
            Fault("this cannot be opened as a file", "check the name");
        }

        return null;
    }
}
