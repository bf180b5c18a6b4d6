using Microsoft.AspNetCore.Components;
using Spurless.Sites.Sources;
using Spurless.Workbench.Designs;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Shell;

/// <summary>One of the pages, as a word in the running head.</summary>
/// <param name="Word">The word.</param>
/// <param name="Address">Where it leads.</param>
/// <param name="Current">Whether it is the page shown.</param>
internal sealed record PageLink(string Word, string Address, bool Current);

/// <summary>The words of the running head. A page that has nothing to show has no word.</summary>
internal static class PageLinks
{
    private static readonly string[] StepsOfStudy = ["ways/", "channels/", "newcomer/"];

    /// <summary>The pages that the folder has something for.</summary>
    public static IEnumerable<PageLink> Of(OpenFolder folder, TabState tab, NavigationManager navigation)
    {
        string now = navigation.ToBaseRelativePath(navigation.Uri).Split('?', '#')[0];
        string? shown = FileOf(now);
        yield return new PageLink("Folder", "/", now.Length == 0);
        if ((Of(folder, shown, FileKind.Site) ?? SiteAsked(folder, navigation) ?? Chosen(folder, tab.Site, FileKind.Site)) is { } site)
        {
            yield return Link("Site", "site", site);
            yield return Link("Around", "around", site);
            yield return Link("Study", "study", site) is var study && StepsOfStudy.Any(s => now.StartsWith(s, StringComparison.Ordinal))
                ? study with { Current = true }
                : study;
            yield return Link("Evidence", "evidence", site);
        }

        if ((Of(folder, shown, FileKind.Circuit) ?? Chosen(folder, tab.Circuit, FileKind.Circuit)) is { } circuit)
        {
            // steps of the bench
            bool step = now is "coil" or "design"
                || now.StartsWith("relay/", StringComparison.Ordinal)
                || now.StartsWith("receiver/", StringComparison.Ordinal)
                || now.StartsWith("fit/", StringComparison.Ordinal)
                || now.StartsWith("build/", StringComparison.Ordinal)
                || now.StartsWith("design/", StringComparison.Ordinal)
                || now.StartsWith("tune/", StringComparison.Ordinal);
            yield return Link("Bench", "bench", circuit) is var bench && step ? bench with { Current = true } : bench;
        }
        else if (folder.FilesOf(FileKind.Requirement).Count > 0 || now == "design"
            || now.StartsWith("design/", StringComparison.Ordinal))
        {
            yield return new PageLink("Bench", "/design", now.StartsWith("design", StringComparison.Ordinal));
        }

        if (folder.FilesOf(FileKind.Site).Count > 0 || now == "listen" || now.StartsWith("listen/", StringComparison.Ordinal))
        {
            yield return new PageLink("Listen", "/listen", now == "listen" || now.StartsWith("listen/", StringComparison.Ordinal));
        }

        // The report is of what is shown, never of what was reported last.
        string? report = folder.Files.Any(f => f.Name == shown)
            ? shown
            : Chosen(folder, tab.Site, FileKind.Site) ?? Chosen(folder, tab.Circuit, FileKind.Circuit);
        if (report is { } reported)
        {
            yield return Link("Report", "report", reported);
        }

        PageLink Link(string word, string page, string file) =>
            new(word, AddressOf(page, file), now.StartsWith(page + "/", StringComparison.Ordinal));
    }

    /// <summary>The address of a page about a file: <c>/study/filters/a.site.yaml</c>.</summary>
    public static string AddressOf(string page, string file) => $"/{page}/{string.Join('/', file.Split('/').Select(Uri.EscapeDataString))}";

    /// <summary>The address of the bench's step of design: of what was designed for last, else of the folder's first requirement or
    /// site.</summary>
    public static string Design(DesignShelf shelf, TabState tab)
    {
        IReadOnlyList<string> sources = shelf.Sources;
        return (sources.Contains(tab.Design) ? tab.Design : sources.Count > 0 ? sources[0] : null) is { } source
            ? AddressOf("design", source)
            : "/design";
    }

    /// <summary>
    /// The file that an address is about: <c>study/filters/a.site.yaml</c> is about <c>filters/a.site.yaml</c>. Null where it is about
    /// none.
    /// </summary>
    /// <param name="path">The address without its beginning and its query.</param>
    public static string? FileOf(string path)
    {
        int slash = path.IndexOf('/', StringComparison.Ordinal);
        return slash < 0 ? null : string.Join('/', path[(slash + 1)..].Split('/').Select(Uri.UnescapeDataString));
    }

    private static string? Of(OpenFolder folder, string? shown, FileKind kind) =>
        folder.FilesOf(kind).Any(f => f.Name == shown) ? shown : null;

    // The bench names the site whose needs it shows.
    private static string? SiteAsked(OpenFolder folder, NavigationManager navigation) =>
        Microsoft.AspNetCore.WebUtilities.QueryHelpers.ParseQuery(new Uri(navigation.Uri).Query).TryGetValue("site", out var asked)
            ? Of(folder, asked, FileKind.Site)
            : null;

    /// <summary>The circuit of the bench: the last one, or the folder's first; null where it has none.</summary>
    public static string? BenchCircuit(OpenFolder folder, TabState tab) => Chosen(folder, tab.Circuit, FileKind.Circuit);

    private static string? Chosen(OpenFolder folder, string? last, FileKind kind)
    {
        IReadOnlyList<FolderFile> files = folder.FilesOf(kind);
        return files.Any(f => f.Name == last) ? last : files.Count > 0 ? files[0].Name : null;
    }
}
