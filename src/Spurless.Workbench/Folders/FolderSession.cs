using System.Text;
using Spurless.Sites.Storage;

namespace Spurless.Workbench.Folders;

/// <summary>How a file was saved.</summary>
public enum SaveOutcome
{
    /// <summary>It was written.</summary>
    Saved,

    /// <summary>The file on disk is not the version the edit began from; nothing was written.</summary>
    ChangedMeanwhile,

    /// <summary>The name leads out of the folder, the file is not in UTF-8, or it could not be written; nothing was written.</summary>
    Refused,
}

/// <summary>A file's text and what tells its versions apart.</summary>
/// <param name="Name">Name within the folder.</param>
/// <param name="Text">Its text, as read in UTF-8.</param>
/// <param name="Version">SHA-256 of its bytes, in lower-case hexadecimal.</param>
public sealed record FolderText(string Name, string Text, string Version)
{
    /// <summary>
    /// Whether the bytes are UTF-8. If not, the text is not the whole truth, and saving it would lose what it does not show.
    /// </summary>
    public bool IsUtf8 { get; init; } = true;
}

/// <summary>One step that can be undone.</summary>
/// <param name="What">What it did, in words: 'filter out'.</param>
/// <param name="Name">The file.</param>
public sealed record FolderStep(string What, string Name)
{
    /// <summary>What it changed in the file's text; null where it moved the file.</summary>
    internal TextDifference? Difference { get; init; }

    /// <summary>How much text it keeps, in UTF-16 units.</summary>
    internal int Size => Difference?.Size ?? 0;

    /// <summary>Where the step moved the file, within the folder or into its hidden trash; null for a change of its text.</summary>
    public string? MovedTo { get; init; }
}

/// <summary>
/// A folder of the user's files that is open in pages: reading, saving without losing what an editor wrote meanwhile, undo and redo across
/// all files. The files are the truth; nothing is kept elsewhere. Safe for use by several threads.
/// </summary>
public sealed class FolderSession
{
    /// <summary>Largest file taken, in bytes.</summary>
    public const int LargestFile = 10 * 1024 * 1024;

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    private const string Trash = ".spurless/trash/";

    private readonly Lock _gate = new();
    private readonly StepList _done = new();
    private readonly StepList _undone = new();
    private int _written;

    /// <param name="folder">The folder; must exist.</param>
    public FolderSession(string folder) => Paths = new FolderPaths(folder);

    /// <summary>Told after every change that this session made: the file's name.</summary>
    public event Action<string>? Changed;

    /// <summary>The names of the folder.</summary>
    public FolderPaths Paths { get; }

    /// <summary>What the next undo would take back, or null.</summary>
    public FolderStep? NextUndo
    {
        get
        {
            lock (_gate)
            {
                return _done.Last;
            }
        }
    }

    /// <summary>What the next redo would bring back, or null.</summary>
    public FolderStep? NextRedo
    {
        get
        {
            lock (_gate)
            {
                return _undone.Last;
            }
        }
    }

    /// <summary>How often this session has written: whether a change that comes between is one of its own pages'.</summary>
    internal int Written => Volatile.Read(ref _written);

    /// <summary>Reads a file; null where the name leads out of the folder, there is no such file, or it is too large.</summary>
    public FolderText? Read(string name)
    {
        if (!Paths.TryResolve(name, out string path))
        {
            return null;
        }

        try
        {
            FileInfo info = new(path);
            if (!info.Exists || info.Length > LargestFile || !FileFacts.IsFile(path))
            {
                return null;
            }

            byte[] bytes = File.ReadAllBytes(path);
            return new FolderText(name, Utf8.GetString(bytes), TextDifference.VersionOf(bytes))
            {
                IsUtf8 = System.Text.Unicode.Utf8.IsValid(bytes),
            };
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Saves a file, unless it changed on disk since it was read.</summary>
    /// <param name="name">Name within the folder.</param>
    /// <param name="text">The new text.</param>
    /// <param name="fromVersion">The version that the edit began from; null for a file that must not exist yet.</param>
    /// <param name="what">What the step does, for undo.</param>
    public SaveOutcome Save(string name, string text, string? fromVersion, string what)
    {
        lock (_gate)
        {
            using FileStream? turn = Turn();
            FolderText? now = Read(name);
            if (now?.Version != fromVersion)
            {
                return SaveOutcome.ChangedMeanwhile;
            }

            if (now is { IsUtf8: false })
            {
                return SaveOutcome.Refused;
            }

            if (Write(name, text, fromVersion) is var written and not SaveOutcome.Saved)
            {
                return written;
            }

            _done.Add(new FolderStep(what, name) { Difference = TextDifference.Of(now?.Text, text) });
            _undone.Clear();
        }

        Changed?.Invoke(name);
        return SaveOutcome.Saved;
    }

    /// <summary>Takes the last step back, unless the file changed on disk since.</summary>
    /// <returns>The outcome; null where there is nothing to undo.</returns>
    public SaveOutcome? Undo() => Move(_done, _undone, static d => d.After, static d => d.Before, static (d, text) => d.Earlier(text!));

    /// <summary>Brings the last step that was undone back, unless the file changed on disk since.</summary>
    /// <returns>The outcome; null where there is nothing to redo.</returns>
    public SaveOutcome? Redo() => Move(_undone, _done, static d => d.Before, static d => d.After, static (d, text) => d.Later(text));

    /// <summary>
    /// Takes a file out of the folder, into its hidden trash, where it lies until it is taken back or the trash is emptied by hand.
    /// </summary>
    /// <param name="name">Its name within the folder.</param>
    public SaveOutcome Remove(string name)
    {
        // No name in the trash is used twice, so that every removal can be taken back.
        for (int i = 1; ; i++)
        {
            string trash = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Trash}{i}/{name}");
            if (!File.Exists(Path.Combine(Paths.Root, trash)))
            {
                return Rename(name, trash, $"deleted {name}");
            }
        }
    }

    /// <summary>Gives a file another name; one that is in use is refused.</summary>
    /// <param name="name">Its name within the folder.</param>
    /// <param name="to">Its new name within the folder.</param>
    /// <param name="what">What the step does, for undo.</param>
    public SaveOutcome Rename(string name, string to, string what)
    {
        lock (_gate)
        {
            if (!MoveFile(name, to))
            {
                return SaveOutcome.Refused;
            }

            _done.Add(new FolderStep(what, name) { MovedTo = to });
            _undone.Clear();
        }

        Tell(name, to);
        return SaveOutcome.Saved;
    }

    // The trash is hidden, so that its names are none of the folder's; within it they are held to the same rules.
    private bool TryPlace(string name, out string path)
    {
        if (!name.StartsWith(Trash, StringComparison.Ordinal))
        {
            return Paths.TryResolve(name, out path);
        }

        path = "";
        if (!Paths.TryResolve(name[Trash.Length..], out _))
        {
            return false;
        }

        path = Path.Combine(Paths.Root, name);
        return true;
    }

    // What lies in the trash is no file of the folder.
    private void Tell(string name, string? other)
    {
        Changed?.Invoke(name);
        if (other is not null && !other.StartsWith('.'))
        {
            Changed?.Invoke(other);
        }
    }

    private bool MoveFile(string name, string to)
    {
        if (!TryPlace(name, out string from) || !TryPlace(to, out string path) || !File.Exists(from) || File.Exists(path))
        {
            return false;
        }

        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.Move(from, path);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private SaveOutcome? Move(
        StepList from,
        StepList to,
        Func<TextDifference, string?> expected,
        Func<TextDifference, string?> wanted,
        Func<TextDifference, string?, string?> made)
    {
        FolderStep? step;
        lock (_gate)
        {
            using FileStream? turn = Turn();
            step = from.Last;
            if (step is null)
            {
                return null;
            }

            SaveOutcome outcome = step.Difference is { } difference
                ? Step(step.Name, difference, expected(difference), wanted(difference), made)
                : Step(step, back: ReferenceEquals(from, _done));
            if (outcome != SaveOutcome.Saved)
            {
                return outcome;
            }

            from.RemoveLast();
            to.Add(step);
        }

        Tell(step.Name, step.MovedTo);
        return SaveOutcome.Saved;
    }

    private SaveOutcome Step(FolderStep step, bool back)
    {
        (string at, string to) = back ? (step.MovedTo!, step.Name) : (step.Name, step.MovedTo!);
        return MoveFile(at, to) ? SaveOutcome.Saved : SaveOutcome.ChangedMeanwhile;
    }

    private SaveOutcome Step(
        string name,
        TextDifference difference,
        string? expected,
        string? wanted,
        Func<TextDifference, string?, string?> made)
    {
        FolderText? now = Read(name);
        if (now?.Version != expected)
        {
            return SaveOutcome.ChangedMeanwhile;
        }

        return wanted is not null ? Write(name, made(difference, now?.Text)!, expected)
            : Delete(name) ? SaveOutcome.Saved : SaveOutcome.Refused;
    }

    // Beside the file and then renamed over it: a reader sees the old text or the new one, never half. What stood there is looked at
    // once more in the moment of its replacing: another program may have written since it was read.
    private SaveOutcome Write(string name, string text, string? fromVersion)
    {
        if (!Paths.TryResolve(name, out string path))
        {
            return SaveOutcome.Refused;
        }

        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            bool written = WholeFile.TryReplace(
                FolderPaths.Followed(path),
                to => to.Write(Utf8.GetBytes(text)),
                fromVersion is null ? null : there => TextDifference.VersionOf(File.ReadAllBytes(there)) == fromVersion);
            if (written)
            {
                _ = Interlocked.Increment(ref _written);
            }

            return written ? SaveOutcome.Saved : SaveOutcome.ChangedMeanwhile;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return SaveOutcome.Refused;
        }
    }

    // One of our programs saves at a time. Editors keep no turns, and so what is replaced is looked at all the same. The hidden folder is
    // there wherever pages are served.
    private FileStream? Turn()
    {
        string folder = Path.Combine(Paths.Root, FolderLock.Hidden);
        string path = Path.Combine(folder, "save.lock");
        const int Tries = 400;
        for (int i = 0; i < Tries && Directory.Exists(folder) && FolderPaths.Followed(path) == path; i++)
        {
            try
            {
                return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException)
            {
                Thread.Sleep(5);
            }
            catch (UnauthorizedAccessException)
            {
                return null;
            }
        }

        return null; // who holds it for 2 s is no save of ours
    }

    private bool Delete(string name)
    {
        if (!Paths.TryResolve(name, out string path))
        {
            return false;
        }

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
