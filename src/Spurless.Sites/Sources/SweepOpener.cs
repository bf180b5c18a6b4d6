using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Circuits;

namespace Spurless.Sites.Sources;

/// <summary>Opens the sweeps that a circuit names, and remembers which were read.</summary>
/// <param name="files">The files beside the document that the user named.</param>
/// <param name="circuit">Path of the circuit relative to that document; empty where it is the document itself.</param>
internal sealed class SweepOpener(ISiteFiles files, string circuit = "")
{
    private readonly List<InputFile> _read = [];

    /// <summary>The sweeps that were read, by their names as the user would write them.</summary>
    public IReadOnlyList<InputFile> Inputs => _read;

    /// <inheritdoc cref="FileOpener"/>
    public Stream? Open(string path, out Refusal? refusal)
    {
        string beside = Path.Combine(Path.GetDirectoryName(circuit) ?? "", path);
        if (files.Read(beside) is { } bytes)
        {
            refusal = null;
            _read.Add(new InputFile(files.NameOf(beside), SourceFile.HashOf(bytes)));
            return new MemoryStream(bytes);
        }

        refusal = files.Exists(beside)
            ? new Refusal($"the file '{path}' cannot be read", "see to its permissions")
            : new Refusal($"there is no file '{path}'", "write a path relative to this file");
        return null;
    }
}
