using System.Text;
using Spurless.Sites.Sources;
using Spurless.Sites.Storage;

namespace Spurless.Workbench.Folders;

/// <summary>
/// Takes new files into an open folder: dropped ones, templates, the demonstration. What is there already is never written over.
/// </summary>
public static class FolderIntake
{
    /// <summary>The most files taken at once.</summary>
    public const int MostAtOnce = 50;

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Why a file of that name and size is not taken: 'what; what to do instead'. Null where it is.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="name">Its name.</param>
    /// <param name="bytes">Its size.</param>
    public static string? Refusal(OpenFolder folder, string name, long bytes)
    {
        ArgumentNullException.ThrowIfNull(folder);
        string shown = Files.Quote.Short(name);
        if (!folder.Paths.TryResolve(name, out string path))
        {
            return $"'{shown}' is no name for a file here; give it a plain name";
        }

        if (FileKinds.Of(name, []) is FileKind.Unknown or FileKind.Recording)
        {
            return $"'{shown}' is of no kind the program reads; name it *.site.yaml, *.circuit.yaml, *.requirement.yaml, *.s1p, "
                + $"*.s2p, *.log.csv, *.sweep.csv, *.columns.yaml or *.csv, after what it holds";
        }

        if (bytes > FolderSession.LargestFile)
        {
            return FormattableString.Invariant(
                $"'{shown}' is larger than {FolderSession.LargestFile / 1024 / 1024} MB; no file of this program is");
        }

        return File.Exists(path)
            ? $"'{shown}' is there already and would be lost; give yours another name, or take that one out of the folder"
            : null;
    }

    /// <summary>Takes a file.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="name">Its name within the folder.</param>
    /// <param name="bytes">What it holds.</param>
    /// <param name="undoable">Whether it becomes a step that can be undone.</param>
    /// <returns>Why it was not taken; null where it was.</returns>
    public static string? Take(OpenFolder folder, string name, byte[] bytes, bool undoable = true)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        if (Refusal(folder, name, bytes.Length) is { } why)
        {
            return why;
        }

        if (undoable && Text(bytes) is { } text)
        {
            return folder.Session.Save(name, text, null, $"added {name}") == SaveOutcome.Saved ? null : Unwritable(name);
        }

        // Not a text in UTF-8: taken as it is, byte by byte, and therefore not among the steps that can be undone.
        folder.Paths.TryResolve(name, out string path);
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            WholeFile.Write(path, to => to.Write(bytes));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Unwritable(name);
        }

        folder.Look();
        return null;
    }

    /// <summary>A name that is not in use: <c>new.site.yaml</c>, else <c>new-2.site.yaml</c>.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="stem">The name's beginning.</param>
    /// <param name="ending">Its end, with its first dot.</param>
    public static string FreeName(OpenFolder folder, string stem, string ending)
    {
        ArgumentNullException.ThrowIfNull(folder);
        for (int i = 1; ; i++)
        {
            string name = i == 1 ? stem + ending : FormattableString.Invariant($"{stem}-{i}{ending}");
            if (folder.Paths.TryResolve(name, out string path) && !File.Exists(path))
            {
                return name;
            }
        }
    }

    private static string Unwritable(string name) => $"'{name}' cannot be written; see to the permissions of the folder";

    private static string? Text(byte[] bytes)
    {
        try
        {
            return Utf8.GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            return null;
        }
    }
}
