using Spurless.Mixing.Evidence;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Locating;

/// <summary>Asks what the evidence of an open folder's site says, with the filters of the folder at hand.</summary>
public static class FolderEvidence
{
    /// <summary>The question: the same as the command's on the same files.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="file">The site file's name within it.</param>
    /// <param name="site">The site.</param>
    /// <param name="options">Options of its study.</param>
    public static LocateQuestion Question(OpenFolder folder, string file, LoadedSite site, StudyOptions options)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(file);

        // Beside the site file and one folder below, as the command looks.
        string beside = NamesInFolder.Beside(file);
        IEnumerable<string> filters = folder.Files
            .Where(f => f.Kind is FileKind.Circuit or FileKind.Touchstone && f.Name.StartsWith(beside, StringComparison.Ordinal))
            .Select(f => f.Name[beside.Length..])
            .Where(static n => n.Count(static c => c == '/') <= 1 && !n.EndsWith(".s1p", StringComparison.OrdinalIgnoreCase))
            .Order(StringComparer.Ordinal).Take(FiltersAtHand.Most);
        return new LocateQuestion
        {
            Site = site,
            Options = options,
            Filters = FiltersAtHand.Of(site, folder.Beside(file), filters),
        };
    }

    /// <summary>
    /// Weighs a reading as if it stood in the site file; nothing is written. What is wrong with it is said as for the file.
    /// </summary>
    /// <param name="folder">The folder.</param>
    /// <param name="text">The site file as it stands.</param>
    /// <param name="kept">What its evidence says.</param>
    /// <param name="located">The receiver, of <paramref name="kept"/>.</param>
    /// <param name="ask">The observation.</param>
    /// <param name="reading">What was typed.</param>
    /// <returns>The receiver with the reading, or why not: 'what; what to write instead'.</returns>
    public static (LocatedReceiver? Located, string? Problem) Try(
        OpenFolder folder, FolderText text, LocateAnswer kept, LocatedReceiver located, Observation ask, TypedReading reading)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(kept);
        ArgumentNullException.ThrowIfNull(located);
        if (!EvidenceEdits.TryAdd(text.Text, located, ask, reading, out string? edited, out string? problem))
        {
            return (null, problem);
        }

        FolderSite tried = folder.SiteOf(text with { Text = edited });
        if (tried.Site is { } site)
        {
            return (LocateService.Try(kept.Question with { Site = site }, located.Findings), null);
        }

        return (null, tried.Errors.FirstOrDefault() is { } wrong
            ? $"{wrong.What}; {wrong.Remedy}"
            : "the site file cannot be read; mend it first");
    }
}
