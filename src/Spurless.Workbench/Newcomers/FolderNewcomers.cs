using Spurless.Files.Diagnostics;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Newcomers;

/// <summary>Reads a site of an open folder and the file of a newcomer to it.</summary>
public static class FolderNewcomers
{
    /// <summary>Both, as they stand on disk: the same as the command's on the same files.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="file">The site file's name within it.</param>
    /// <param name="newcomer">The newcomer's file's name within it.</param>
    /// <returns>Both with what is wrong with them; null where a file is not there.</returns>
    public static AskedNewcomer? Read(OpenFolder folder, string file, string newcomer)
    {
        ArgumentNullException.ThrowIfNull(folder);
        if (folder.Session.Read(file) is not { } site || folder.Session.Read(newcomer) is not { } comes)
        {
            return null;
        }

        DiagnosticBag findings = new();
        NewcomerSites? sites = NewcomerReader.Read(
            SourceFile.OfText(file, site.Text, folder.Beside(file)),
            SourceFile.OfText(newcomer, comes.Text, folder.Beside(newcomer)),
            findings);
        return new AskedNewcomer(site.Text, comes.Text, sites, findings.InOrder());
    }
}
