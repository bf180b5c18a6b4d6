using Spurless.Files.Diagnostics;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Tests.Common.Fixtures;

/// <summary>The invented demo as it lies in the repository, studied by the real service.</summary>
internal static class DemoSites
{
    /// <summary>Path of a file of the demo.</summary>
    public static string PathOf(string file) => Path.Combine(Root, "demo", file);

    /// <summary>The repository's folder.</summary>
    public static string Root { get; } = Find();

    /// <summary>The study of a site of the demo.</summary>
    public static StudyResult Study(string file, StudyOptions? options = null)
    {
        LoadedSite? site = SiteLoader.Load(PathOf(file), out IReadOnlyList<Diagnostic> findings);
        Assert.Empty(findings);
        return StudyService.Run(site!, options ?? new StudyOptions());
    }

    private static string Find()
    {
        string? at = AppContext.BaseDirectory;
        while (at is not null && !File.Exists(Path.Combine(at, "Spurless.slnx")))
        {
            at = Path.GetDirectoryName(at);
        }

        return at ?? throw new InvalidOperationException("The tests do not run inside the repository.");
    }
}
