using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Sites.Sources;

namespace Spurless.Fuzz.Readers;

/// <summary>Site files, with the filters of the demonstration beside them.</summary>
internal sealed class SiteReading : IFuzzedReader
{
    public string Name => "site";

    public Family Family => Family.Yaml;

    public IEnumerable<byte[]> Examples =>
    [
        Reading.Example("demo", "quernmoss-filtered.site.yaml"),
        Reading.Example("tests", "data", "site", "example.site.yaml"),
        Reading.Example("tests", "data", "site", "bad", "evidence.site.yaml"),
        Reading.Example("tests", "data", "site", "bad", "receiver.site.yaml"),
        Reading.Example("tests", "data", "site", "bad", "emitter.site.yaml"),
        Reading.Example("tests", "data", "site", "bad", "table.site.yaml"),
    ];

    public void Read(byte[] input)
    {
        DiagnosticBag findings = new();
        LoadedSite? site = SourceReader.Site(new SourceFile("x.site.yaml", input, FilesAtHand.Demo), findings);
        Reading.Hold(findings, site is not null);
    }
}
