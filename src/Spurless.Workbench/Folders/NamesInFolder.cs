namespace Spurless.Workbench.Folders;

/// <summary>Reckons with names of files within an open folder: relative to it, with <c>/</c> between folders.</summary>
public static class NamesInFolder
{
    /// <summary>What stands before a file's own name, with the last <c>/</c>; empty for a file at the top.</summary>
    /// <param name="file">The file's name within the folder.</param>
    public static string Beside(string file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return file[..(file.LastIndexOf('/') + 1)];
    }

    /// <summary>How one file of the folder names another: the way from the folder that it lies in.</summary>
    /// <param name="file">The file that names, within the folder.</param>
    /// <param name="named">The file that is named, within the folder.</param>
    public static string From(string file, string named) =>
        Path.GetRelativePath("/" + Beside(file), "/" + named).Replace('\\', '/');
}
