using System.Security.Cryptography;
using System.Text;

namespace Spurless.Sites.Folders;

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
    /// <summary>Whether the bytes are UTF-8. If not, the text is not the whole truth, and saving it would lose what it does not show.</summary>
    public bool IsUtf8 { get; init; } = true;
}

/// <summary>One step that can be undone.</summary>
/// <param name="What">What it did, in words: 'filter out'.</param>
/// <param name="Name">The file.</param>
/// <param name="Before">Its text before; null where the step made the file.</param>
/// <param name="After">Its text after.</param>
public sealed record FolderStep(string What, string Name, string? Before, string After);

/// <summary>
/// A folder of the user's files that is open in pages: reading, saving without losing what an editor wrote meanwhile, undo and redo across all files.
/// The files are the truth; nothing is kept elsewhere. Safe for use by several threads.
/// </summary>
public sealed class FolderSession
{
    /// <summary>Largest file taken, in bytes.</summary>
    public const int LargestFile = 10 * 1024 * 1024;

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    private readonly Lock _gate = new();
    private readonly List<FolderStep> _done = [];
    private readonly List<FolderStep> _undone = [];

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
                return _done.Count == 0 ? null : _done[^1];
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
                return _undone.Count == 0 ? null : _undone[^1];
            }
        }
    }

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
            if (!info.Exists || info.Length > LargestFile)
            {
                return null;
            }

            byte[] bytes = File.ReadAllBytes(path);
            return new FolderText(name, Utf8.GetString(bytes), VersionOf(bytes)) { IsUtf8 = System.Text.Unicode.Utf8.IsValid(bytes) };
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
            FolderText? now = Read(name);
            if (now?.Version != fromVersion)
            {
                return SaveOutcome.ChangedMeanwhile;
            }

            if (now is { IsUtf8: false } || !Write(name, text))
            {
                return SaveOutcome.Refused;
            }

            _done.Add(new FolderStep(what, name, now?.Text, text));
            _undone.Clear();
        }

        Changed?.Invoke(name);
        return SaveOutcome.Saved;
    }

    /// <summary>Takes the last step back, unless the file changed on disk since.</summary>
    /// <returns>The outcome; null where there is nothing to undo.</returns>
    public SaveOutcome? Undo() => Move(_done, _undone, static s => s.After, static s => s.Before);

    /// <summary>Brings the last step that was undone back, unless the file changed on disk since.</summary>
    /// <returns>The outcome; null where there is nothing to redo.</returns>
    public SaveOutcome? Redo() => Move(_undone, _done, static s => s.Before, static s => s.After);

    private SaveOutcome? Move(List<FolderStep> from, List<FolderStep> to, Func<FolderStep, string?> expected, Func<FolderStep, string?> wanted)
    {
        FolderStep step;
        lock (_gate)
        {
            if (from.Count == 0)
            {
                return null;
            }

            step = from[^1];
            if (Read(step.Name)?.Text != expected(step))
            {
                return SaveOutcome.ChangedMeanwhile;
            }

            if (wanted(step) is { } text ? !Write(step.Name, text) : !Delete(step.Name))
            {
                return SaveOutcome.Refused;
            }

            from.RemoveAt(from.Count - 1);
            to.Add(step);
        }

        Changed?.Invoke(step.Name);
        return SaveOutcome.Saved;
    }

    private bool Write(string name, string text)
    {
        if (!Paths.TryResolve(name, out string path))
        {
            return false;
        }

        // Beside the file and then renamed over it: a reader sees the old text or the new one, never half.
        string beside = path + ".saving";
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(beside, Utf8.GetBytes(text));
            File.Move(beside, path, overwrite: true);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
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

    private static string VersionOf(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));
}
