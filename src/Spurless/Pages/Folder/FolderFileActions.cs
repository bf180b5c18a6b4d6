using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Folder;

/// <summary>What is done to a whole file from the folder's page. Each says why not, or null.</summary>
internal static class FolderFileActions
{
    /// <summary>A copy beside it, under a free name.</summary>
    public static string? Copy(OpenFolder folder, string name)
    {
        (string stem, string ending) = Parts(name);
        if (folder.Session.Read(name) is not { } file)
        {
            return $"'{name}' is not there any more";
        }

        string copy = FolderIntake.FreeName(folder, NamesInFolder.Beside(name) + stem + "-copy", ending);
        return !file.IsUtf8 ? $"'{name}' is not in UTF-8 and would not come out the same; copy it outside the program"
            : folder.Session.Save(copy, file.Text, null, $"{copy} copied from {name}") == SaveOutcome.Saved ? null
            : $"'{copy}' cannot be written; see to the permissions of the folder";
    }

    /// <summary>Another name in the same folder; its ending, which says what it is, stays.</summary>
    public static string? Rename(OpenFolder folder, string name, string stem)
    {
        string ending = Parts(name).Ending;
        string plain = stem.Trim();
        plain = plain.EndsWith(ending, StringComparison.OrdinalIgnoreCase) ? plain[..^ending.Length] : plain;
        string to = NamesInFolder.Beside(name) + plain + ending;
        if (to == name)
        {
            return null;
        }

        string path = "";
        return plain.Length == 0 || plain[0] == '.' || "/\\:*?\"<>|".Any(plain.Contains) || !folder.Paths.TryResolve(to, out path)
            ? $"'{Spurless.Files.Quote.Short(stem)}' is no name for a file; write a plain one such as {Parts(name).Stem}"
            : File.Exists(path) ? $"'{to}' is there already; choose another name"
            : folder.Session.Rename(name, to, $"{name} renamed {to}") == SaveOutcome.Saved ? null
            : $"'{name}' cannot be renamed; see to the permissions of the folder";
    }

    /// <summary>Into the hidden trash.</summary>
    public static string? Delete(OpenFolder folder, string name) => folder.Session.Remove(name) == SaveOutcome.Saved
        ? null
        : $"'{name}' cannot be taken away; see to the permissions of the folder";

    /// <summary>The sites that name a file, in words; null where none does.</summary>
    public static string? NamedBy(OpenFolder folder, string name)
    {
        string[] sites = [.. folder.FilesOf(FileKind.Site).Select(static f => f.Name).Where(s => s != name
            && folder.Site(s)?.Asked.Contains(name) == true)];
        return sites.Length == 0 ? null
            : $"{string.Join(" and ", sites)} {(sites.Length == 1 ? "names" : "name")} it and will say that it is missing";
    }

    /// <summary>A file's name without its folder and ending, and its ending with the first dot.</summary>
    public static (string Stem, string Ending) Parts(string name)
    {
        string file = name[(name.LastIndexOf('/') + 1)..];
        int dot = file.IndexOf('.', StringComparison.Ordinal);
        return dot <= 0 ? (file, "") : (file[..dot], file[dot..]);
    }
}
