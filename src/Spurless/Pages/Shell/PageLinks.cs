using Microsoft.AspNetCore.Components;
using Spurless.Sites.Checking;
using Spurless.Sites.Folders;

namespace Spurless.Pages.Shell;

/// <summary>One of the pages, as a word in the running head.</summary>
/// <param name="Word">The word.</param>
/// <param name="Address">Where it leads.</param>
/// <param name="Current">Whether it is the page shown.</param>
internal sealed record PageLink(string Word, string Address, bool Current);

/// <summary>The words of the running head. A page that has nothing to show has no word.</summary>
internal static class PageLinks
{
    /// <summary>The pages that the folder has something for.</summary>
    public static IEnumerable<PageLink> Of(OpenFolder folder, TabState tab, NavigationManager navigation)
    {
        string now = navigation.ToBaseRelativePath(navigation.Uri).Split('?', '#')[0];
        yield return new PageLink("Folder", "/", now.Length == 0);
        if (Chosen(folder, tab.Site, FileKind.Site) is { } site)
        {
            yield return Link("Site", "site", site);
            yield return Link("Study", "study", site);
        }

        if (Chosen(folder, tab.Circuit, FileKind.Circuit) is { } circuit)
        {
            bool step = now.StartsWith("fit/", StringComparison.Ordinal) || now == "coil"; // steps of the bench
            yield return Link("Bench", "bench", circuit) is var bench && step ? bench with { Current = true } : bench;
        }

        if ((Has(folder, tab.Report) ? tab.Report : Chosen(folder, tab.Site, FileKind.Site) ?? Chosen(folder, tab.Circuit, FileKind.Circuit)) is { } reported)
        {
            yield return Link("Report", "report", reported);
        }

        PageLink Link(string word, string page, string file) => new(word, AddressOf(page, file), now.StartsWith(page + "/", StringComparison.Ordinal));
    }

    /// <summary>The address of a page about a file: <c>/study/filters/a.site.yaml</c>.</summary>
    public static string AddressOf(string page, string file) => $"/{page}/{string.Join('/', file.Split('/').Select(Uri.EscapeDataString))}";

    private static bool Has(OpenFolder folder, string? name) => folder.Files.Any(f => f.Name == name);

    private static string? Chosen(OpenFolder folder, string? last, FileKind kind)
    {
        IReadOnlyList<FolderFile> files = folder.FilesOf(kind);
        return files.Any(f => f.Name == last) ? last : files.Count > 0 ? files[0].Name : null;
    }
}
