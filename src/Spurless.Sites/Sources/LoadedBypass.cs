using Spurless.Files.Diagnostics;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents.Bypasses;

namespace Spurless.Sites.Sources;

/// <summary>A bypass relay with the filter and the site that it names, all read and checked.</summary>
/// <param name="Document">The relay.</param>
/// <param name="Filter">The filter; null where none is named.</param>
/// <param name="Site">The site; null where none is named.</param>
/// <param name="Inputs">Every file that was read, the relay's first.</param>
/// <param name="Warnings">What the reading warned of.</param>
public sealed record LoadedBypass(
    BypassDocument Document, Network? Filter, LoadedSite? Site, IReadOnlyList<InputFile> Inputs, IReadOnlyList<Diagnostic> Warnings);
