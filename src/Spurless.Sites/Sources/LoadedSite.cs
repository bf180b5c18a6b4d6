using Spurless.Files.Diagnostics;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Terrain;

namespace Spurless.Sites.Sources;

/// <summary>A site file with the circuits and sweeps that it names, all read and checked: what a study is computed from.</summary>
/// <param name="Document">The site.</param>
/// <param name="Networks">Circuits and sweeps by the path that names them.</param>
/// <param name="Inputs">Every file that was read, the site file first.</param>
/// <param name="Warnings">What the reading warned of.</param>
public sealed record LoadedSite(
    SiteDocument Document, IReadOnlyDictionary<string, Network> Networks, IReadOnlyList<InputFile> Inputs,
        IReadOnlyList<Diagnostic> Warnings)
{
    /// <summary>The ground round the site; null where the site names no elevation files.</summary>
    public SiteTerrain? Terrain { get; init; }

    /// <summary>The observation logs that the site's evidence names, by the path that names them.</summary>
    public IReadOnlyDictionary<string, ObservationLog> Logs { get; init; } = new Dictionary<string, ObservationLog>();

    /// <summary>The circuit or sweep that a reference names.</summary>
    public Network Of(FileReference reference) => Networks[reference.Path];
}
