using System.Security.Cryptography;

namespace Spurless.Sites.Storage;

/// <summary>
/// Writes a file so that a reader, a crash or a lack of power finds the old text or the new one, never half of one. The new text is written
/// and brought to the disk beside the file, under a name that cannot be guessed and that was not there before, and then takes its place.
/// Rights, owner and further names (hard links) of a file that was there stay as they were.
/// </summary>
public static class WholeFile
{
    /// <summary>How the name of a text in the making ends.</summary>
    public const string Making = ".saving";

    /// <summary>How the name of a whole new text ends while it is copied into a file that keeps its place.</summary>
    public const string Kept = ".kept";

    /// <summary>What another run may be writing at this moment is no older than this.</summary>
    public static TimeSpan Forgotten { get; } = TimeSpan.FromMinutes(10);

    private const int Digits = 16;

    /// <summary>Writes a file, whatever stands there.</summary>
    /// <param name="path">Its full path; a link that leads to a file must have been followed.</param>
    /// <param name="write">Writes what it shall hold.</param>
    /// <exception cref="IOException">It cannot be written; the file is as it was.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written; the file is as it was.</exception>
    public static void Write(string path, Action<Stream> write) =>
        Made(path, write, beside =>
        {
            File.Move(beside, path, overwrite: true);
            return true;
        });

    /// <summary>
    /// Writes a file where what stands there is what the caller knows. That is asked of the very file that is replaced: on Linux both
    /// change places in one step and change back where the answer is no; elsewhere it is asked in the moment before.
    /// </summary>
    /// <param name="path">Its full path; a link that leads to a file must have been followed.</param>
    /// <param name="write">Writes what it shall hold.</param>
    /// <param name="isKnown">Whether the file of a path holds what the caller knows; null where no file may stand there.</param>
    /// <returns>False where something else stands there; it stays.</returns>
    /// <exception cref="IOException">It cannot be written; the file is as it was.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written; the file is as it was.</exception>
    public static bool TryReplace(string path, Action<Stream> write, Func<string, bool>? isKnown) =>
        Made(path, write, beside => isKnown is null ? TryPlace(beside, path) : TryExchange(beside, path, isKnown), isKnown);

    private static bool Made(string path, Action<Stream> write, Func<string, bool> place, Func<string, bool>? isKnown = null)
    {
        ArgumentNullException.ThrowIfNull(write);
        string folder = Path.GetDirectoryName(path)!;
        string beside = Path.Combine(folder, NameOf(path, Making));
        try
        {
            using (FileStream file = new(beside, FileMode.CreateNew, FileAccess.Write, FileShare.None))
            {
                if (!OperatingSystem.IsWindows() && File.Exists(path))
                {
                    File.SetUnixFileMode(file.SafeFileHandle, File.GetUnixFileMode(path));
                }

                write(file);
                file.Flush(flushToDisk: true);
            }

            if (KeepsItsPlace(path, beside))
            {
                if (isKnown is not null && !isKnown(path))
                {
                    Discard(beside);
                    return false;
                }

                CopyInto(path, beside, Path.Combine(folder, NameOf(path, Kept)));
            }
            else if (!place(beside))
            {
                Discard(beside);
                return false;
            }
        }
        catch
        {
            Discard(beside);
            throw;
        }

        Sync(folder);
        return true;
    }

    private static bool TryPlace(string beside, string path)
    {
        try
        {
            File.Move(beside, path, overwrite: false);
            return true;
        }
        catch (IOException) when (File.Exists(path))
        {
            return false;
        }
    }

    private static bool TryExchange(string beside, string path, Func<string, bool> isKnown)
    {
        if (!NativeMethods.TryExchange(beside, path))
        {
            if (!File.Exists(path) || !isKnown(path))
            {
                return false;
            }

            File.Move(beside, path, overwrite: true);
            return true;
        }

        bool known = false;
        try
        {
            known = isKnown(beside); // what stood there until now
        }
        finally
        {
            if (!known)
            {
                GiveBack(beside, path);
            }
        }

        if (known)
        {
            File.Delete(beside);
        }

        return known;
    }

    // What somebody else wrote goes back to its place. Should yet another text have come there meanwhile, that one is the latest.
    private static void GiveBack(string beside, string path)
    {
        const int Tries = 20;
        byte[] put = SHA256.HashData(File.ReadAllBytes(path));
        for (int i = 0; i < Tries; i++)
        {
            byte[] next = SHA256.HashData(File.ReadAllBytes(beside));
            if (!NativeMethods.TryExchange(beside, path) || SHA256.HashData(File.ReadAllBytes(beside)).AsSpan().SequenceEqual(put))
            {
                return;
            }

            put = next;
        }
    }

    /// <summary>Whether a name is that of a text in the making that nobody finished.</summary>
    /// <param name="name">A file's name without folders.</param>
    /// <param name="ending"><see cref="Making"/> or <see cref="Kept"/>.</param>
    public static bool IsLeftOver(string name, string ending)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(ending);
        int end = name.Length - ending.Length;
        return name.StartsWith('.')
            && end > Digits + 1
            && name.EndsWith(ending, StringComparison.Ordinal)
            && name[end - Digits - 1] == '.'
            && name.AsSpan(end - Digits, Digits).IndexOfAnyExceptInRange('0', 'f') < 0
            && name.AsSpan(end - Digits, Digits).IndexOfAnyInRange(':', '`') < 0;
    }

    /// <summary>
    /// Clears away what runs that were ended while they wrote a file left beside it. The file itself was whole all the time.
    /// </summary>
    /// <param name="path">The file's full path.</param>
    /// <param name="now">The time: what another run may be writing at this moment stays.</param>
    /// <returns>How many were removed.</returns>
    public static int ClearAway(string path, DateTimeOffset now)
    {
        string stem = StemOf(path);
        int removed = 0;
        try
        {
            foreach (string left in Directory.EnumerateFiles(Path.GetDirectoryName(path)!, "." + stem + ".*" + Making))
            {
                string name = Path.GetFileName(left);
                bool ours = IsLeftOver(name, Making) && name.Length == stem.Length + Digits + Making.Length + 2;
                if (ours && now - File.GetLastWriteTimeUtc(left) > Forgotten)
                {
                    File.Delete(left);
                    removed++;
                }
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // They lie there until the next time.
        }

        return removed;
    }

    private static string NameOf(string path, string ending) =>
        $".{StemOf(path)}.{Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(Digits / 2))}{ending}";

    private static string StemOf(string path)
    {
        const int LongestStem = 60; // in characters, so that the whole stays within the 255 bytes of a name
        string name = Path.GetFileName(path);
        return name.Length <= LongestStem ? name
            : name[..(char.IsHighSurrogate(name[LongestStem - 1]) ? LongestStem - 1 : LongestStem)];
    }

    // A new file in its place would part it from its other names, or make it ours.
    private static bool KeepsItsPlace(string path, string beside) =>
        FileFacts.Of(path) is { IsRegular: true } old
            && FileFacts.Of(beside) is { } made
            && (old.Names > 1 || old.Owner != made.Owner || old.Group != made.Group);

    private static void CopyInto(string path, string beside, string kept)
    {
        // From here on the text beside it is whole: what ends the program now leaves it under a name that is not cleared away.
        using (FileStream to = new(path, FileMode.Open, FileAccess.Write, FileShare.Read))
        {
            File.Move(beside, kept);
            using (FileStream from = File.OpenRead(kept))
            {
                from.CopyTo(to);
            }

            to.SetLength(to.Position);
            to.Flush(flushToDisk: true);
        }

        Discard(kept);
    }

    private static void Sync(string folder)
    {
        if (!OperatingSystem.IsLinux())
        {
            return; // elsewhere the move itself is what the system offers
        }

        const int ReadOnlyCloseOnExec = 0x80000;
        int descriptor = NativeMethods.Open(NativeMethods.PathOf(folder), ReadOnlyCloseOnExec);
        if (descriptor >= 0)
        {
            _ = NativeMethods.Fsync(descriptor);
            _ = NativeMethods.Close(descriptor);
        }
    }

    private static void Discard(string beside)
    {
        try
        {
            File.Delete(beside);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The first failure is the one to tell.
        }
    }
}
