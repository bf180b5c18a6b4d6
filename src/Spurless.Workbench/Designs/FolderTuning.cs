using Spurless.Files.Diagnostics;
using Spurless.Sites.Designs;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Designs;

/// <summary>Asks what to turn next on a filter that was built, of the files of an open folder.</summary>
public static class FolderTuning
{
    /// <summary>The requirement that a circuit file of the folder names; null where it names none that is there.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="circuit">The circuit file's name within it.</param>
    public static string? RequirementOf(OpenFolder folder, string circuit)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(circuit);
        if (folder.Session.Read(circuit) is not { } text || TuneFiles.RequirementIn(text.Text.Split('\n')) is not { Length: > 0 } named)
        {
            return null;
        }

        // As a name within the folder, whatever a system puts before the roots of its paths.
        string path = folder.Beside(circuit).NameOf(named.Replace('\\', '/'));
        return folder.FilesOf(FileKind.Requirement).Any(f => f.Name == path) ? path : null;
    }

    /// <summary>Names of the parts whose comment says that they can be turned; empty where none does, or the file has an error.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="circuit">The circuit file's name within it.</param>
    public static IReadOnlyList<string> Turnable(OpenFolder folder, string circuit)
    {
        ArgumentNullException.ThrowIfNull(folder);
        return Source(folder, circuit) is { } source && SourceReader.TracedCircuit(source, new DiagnosticBag()) is { } drawn
            ? TuneFiles.Turnable(drawn)
            : [];
    }

    /// <summary>The question; null where there is an error among the findings.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="circuit">The circuit as drawn.</param>
    /// <param name="sweep">The sweep of what was built.</param>
    /// <param name="requirement">The requirement that it shall meet.</param>
    /// <param name="turn">Names of the parts that can be turned.</param>
    /// <param name="findings">All that is wrong.</param>
    public static TuneQuestion? Question(
        OpenFolder folder,
        string circuit,
        string sweep,
        string requirement,
        IReadOnlyList<string> turn,
        out IReadOnlyList<Diagnostic> findings)
    {
        ArgumentNullException.ThrowIfNull(folder);
        DiagnosticBag bag = new();
        TuneQuestion? question = Source(folder, requirement) is { } asked
            && SourceReader.Requirement(asked, bag) is { } file
            && DesignBrief.Of(file, new DesignOptions(), bag) is { } brief
            ? TuneFiles.Load(brief.Question, Source(folder, circuit), Source(folder, sweep), turn.Count > 0 ? turn : null, bag)
            : null;
        findings = bag.InOrder();
        return question;
    }

    // Bytes, not text: a sweep may be in another encoding.
    private static SourceFile? Source(OpenFolder folder, string name) =>
        folder.Beside("").Read(name) is { } bytes ? new SourceFile(name, bytes, folder.Beside(name)) : null;
}
