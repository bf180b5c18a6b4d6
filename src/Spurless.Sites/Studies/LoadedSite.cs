using Spurless.Files.Diagnostics;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Studies;

/// <summary>A site file with the circuits and sweeps that it names, all read and checked: what a study is computed from.</summary>
/// <param name="Document">The site.</param>
/// <param name="Networks">Circuits and sweeps by the path that names them.</param>
/// <param name="Inputs">Every file that was read, the site file first.</param>
/// <param name="Warnings">What the reading warned of.</param>
public sealed record LoadedSite(
    SiteDocument Document, IReadOnlyDictionary<string, Network> Networks, IReadOnlyList<InputFile> Inputs, IReadOnlyList<Diagnostic> Warnings)
{
    /// <summary>The circuit or sweep that a reference names.</summary>
    public Network Of(FileReference reference) => Networks[reference.Path];
}
