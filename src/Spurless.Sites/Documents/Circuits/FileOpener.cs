using Spurless.Files.Diagnostics;

namespace Spurless.Sites.Documents.Circuits;

/// <summary>
/// Opens a file that a document names. Whoever reads documents hands it in; this room opens nothing by itself.
/// </summary>
/// <param name="path">The path as it stands in the document, relative to the document's own folder.</param>
/// <param name="refusal">Why it cannot be opened; null where it can.</param>
/// <returns>The file from its start, for the caller to dispose of; null where it cannot be opened.</returns>
public delegate Stream? FileOpener(string path, out Refusal? refusal);
