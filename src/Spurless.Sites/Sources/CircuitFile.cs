using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Circuits;

namespace Spurless.Sites.Sources;

/// <summary>A circuit file as read, with the sweeps it names.</summary>
/// <param name="Document">The circuit, and where its parts stand.</param>
/// <param name="Source">The file.</param>
/// <param name="Inputs">The file and the sweeps it names, each with its SHA-256.</param>
public sealed record CircuitFile(CircuitDocument Document, SourceFile Source, IReadOnlyList<InputFile> Inputs)
{
    /// <summary>The circuit.</summary>
    public Circuit Circuit => Document.Circuit;

    /// <summary>Reports faults of the circuit at the parts that they concern.</summary>
    public void Report(IEnumerable<CircuitFault> faults, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(faults);
        foreach (CircuitFault fault in faults)
        {
            Document.Report(fault, findings);
        }
    }
}
