using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Locating;

/// <summary>Finds the circuits and two-port sweeps in a site file's folder: what could be put in line for a test.</summary>
public static class FiltersAtHand
{
    /// <summary>So many files are looked at.</summary>
    public const int Most = 40;

    /// <summary>
    /// The filters beside a site file on disk and one folder below it, by path relative to it; those in the chain left out.
    /// </summary>
    /// <param name="siteFile">The site file's path.</param>
    /// <param name="site">The site as it was read.</param>
    public static IReadOnlyDictionary<string, Network> Beside(string siteFile, LoadedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        string folder = Path.GetDirectoryName(Path.GetFullPath(siteFile)) ?? ".";
        try
        {
            IEnumerable<string> paths = Directory.EnumerateFiles(folder)
                .Concat(Directory.EnumerateDirectories(folder).SelectMany(Directory.EnumerateFiles))
                .Select(p => Path.GetRelativePath(folder, p).Replace('\\', '/'))
                .Where(static p => p.EndsWith(".circuit.yaml", StringComparison.OrdinalIgnoreCase)
                    || p.EndsWith(".s2p", StringComparison.OrdinalIgnoreCase))
                .Order(StringComparer.Ordinal)
                .Take(Most);
            return Of(site, new SiteFolder(siteFile), paths);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new Dictionary<string, Network>();
        }
    }

    /// <summary>Those of given files that can be read and are not in a chain of the site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="paths">Paths relative to the site file.</param>
    public static IReadOnlyDictionary<string, Network> Of(LoadedSite site, ISiteFiles files, IEnumerable<string> paths)
    {
        ArgumentNullException.ThrowIfNull(site);
        HashSet<string> used =
        [
            .. site.Document.Receivers.SelectMany(static r => r.Chain).Select(static s => s switch
            {
                CircuitStage c => c.Circuit.Path,
                TwoPortStage t => t.TwoPort.Path,
                BypassStage b => b.Bypass.Path,
                _ => "",
            }),
            .. site.Document.Emitters.Select(static e => e.OutputFilter?.Path).OfType<string>(),
        ];
        return SiteLoader.LoadNetworks(site.Document, files, paths.Where(p => !used.Contains(p)));
    }
}
