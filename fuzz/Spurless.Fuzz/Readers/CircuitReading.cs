using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Sites.Sources;

namespace Spurless.Fuzz.Readers;

/// <summary>Circuit files: as traced, with unknown values, and as what can be solved.</summary>
internal sealed class CircuitReading : IFuzzedReader
{
    public string Name => "circuit";

    public Family Family => Family.Yaml;

    public IEnumerable<byte[]> Examples =>
    [
        Reading.Example("demo", "filters", "three-tank.circuit.yaml"),
        Reading.Example("demo", "filters", "unmarked.circuit.yaml"),
        Reading.Example("demo", "filters", "unmarked-fitted.circuit.yaml"),
    ];

    public void Read(byte[] input)
    {
        SourceFile source = new("filters/x.circuit.yaml", input, FilesAtHand.Demo);
        DiagnosticBag findings = new();
        Reading.Hold(findings, SourceReader.TracedCircuit(source, findings) is not null);
        DiagnosticBag known = new();
        Reading.Hold(known, SourceReader.Circuit(source, known) is not null);
    }
}
