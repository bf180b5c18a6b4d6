using Spurless.Files.Diagnostics;

namespace Spurless.Sites.Documents;

/// <summary>What came of reading a site file.</summary>
/// <param name="Document">The document; null where there is any error.</param>
/// <param name="Diagnostics">All findings, by file, line and column.</param>
/// <param name="Places">Where everything stands in the site file, also where there are errors, so that a finding can be shown at its
/// field.</param>
/// <param name="Inputs">Every file whose content went in, the site file first: name and bytes.</param>
public sealed record SiteReading(
    SiteDocument? Document, IReadOnlyList<Diagnostic> Diagnostics, EntrySource Places, IReadOnlyList<SiteInput> Inputs);

/// <summary>A file whose content went into a reading.</summary>
/// <param name="Name">Its name as the user would write it.</param>
/// <param name="Content">Its bytes.</param>
public sealed record SiteInput(string Name, ReadOnlyMemory<byte> Content);
