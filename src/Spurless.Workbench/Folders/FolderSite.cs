using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;

namespace Spurless.Workbench.Folders;

/// <summary>A site file of an open folder as it stands on disk.</summary>
/// <param name="File">Its name, text and version.</param>
/// <param name="Site">The site with its circuits and sweeps; null where there is an error.</param>
/// <param name="Findings">All that is wrong with it and with the files it names.</param>
public sealed record FolderSite(FolderText File, LoadedSite? Site, IReadOnlyList<Diagnostic> Findings)
{
    /// <summary>The files of the folder that it names, whether there or not.</summary>
    public required IReadOnlyCollection<string> Asked { get; init; }

    /// <summary>The errors alone.</summary>
    public IEnumerable<Diagnostic> Errors => Findings.Where(static f => f.Severity == Severity.Error);
}
