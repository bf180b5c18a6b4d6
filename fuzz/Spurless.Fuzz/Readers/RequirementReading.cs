using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Sites.Sources;

namespace Spurless.Fuzz.Readers;

/// <summary>Requirement files.</summary>
internal sealed class RequirementReading : IFuzzedReader
{
    public string Name => "requirement";

    public Family Family => Family.Yaml;

    public IEnumerable<byte[]> Examples => [Reading.Example("demo", "filters", "quiet-input.requirement.yaml")];

    public void Read(byte[] input)
    {
        DiagnosticBag findings = new();
        SourceFile source = new("x.requirement.yaml", input, FilesAtHand.Demo);
        Reading.Hold(findings, SourceReader.Requirement(source, findings) is not null);
    }
}
