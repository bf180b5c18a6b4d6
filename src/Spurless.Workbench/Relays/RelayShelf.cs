using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Relays;

/// <summary>A bypass relay of an open folder.</summary>
/// <param name="File">Its name, text and version.</param>
/// <param name="Bypass">The relay with the files that it names; null where one has an error.</param>
/// <param name="Findings">All that is wrong with it and with them.</param>
public sealed record ShelvedRelay(FolderText File, LoadedBypass? Bypass, IReadOnlyList<Diagnostic> Findings);

/// <summary>The bypass relays of an open folder, each kept until anything in the folder changes. Safe for use by several threads.</summary>
public sealed class RelayShelf
{
    private readonly OpenFolder _folder;
    private readonly KeptUntilChanged<ShelvedRelay> _relays;

    /// <param name="folder">The folder.</param>
    public RelayShelf(OpenFolder folder) => (_folder, _relays) = (folder, new KeptUntilChanged<ShelvedRelay>(folder));

    /// <summary>Names of the folder's bypass relays.</summary>
    public IReadOnlyList<string> Relays => [.. _folder.FilesOf(FileKind.Bypass).Select(static f => f.Name)];

    /// <summary>A relay as it stands on disk; null where there is no such file.</summary>
    /// <param name="name">Its name within the folder.</param>
    public ShelvedRelay? Of(string name) => _relays.Of(name, () => Read(name));

    private ShelvedRelay? Read(string name)
    {
        if (FileKinds.Of(name, []) != FileKind.Bypass || _folder.Session.Read(name) is not { } file)
        {
            return null;
        }

        DiagnosticBag findings = new();
        LoadedBypass? bypass = SourceReader.Bypass(SourceFile.OfText(name, file.Text, _folder.Beside(name)), findings);
        return new(file, bypass, findings.InOrder());
    }
}
