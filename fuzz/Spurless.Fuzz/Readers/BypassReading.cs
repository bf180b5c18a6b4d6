using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Sites;
using Spurless.Sites.Bypasses;
using Spurless.Sites.Sources;

namespace Spurless.Fuzz.Readers;

/// <summary>A bypass relay, with a site and filters beside it: read and computed, without the trials of speech.</summary>
internal sealed class BypassReading : IFuzzedReader
{
    private static readonly FilesAtHand _files = new(Directory.GetFiles(Places.Of("demo", "filters"))
        .Append(Places.Of("demo", "quernmoss.site.yaml"))
        .ToDictionary(static f => Path.GetFileName(Path.GetDirectoryName(f)!) == "filters" ? "filters/" + Path.GetFileName(f)
            : Path.GetFileName(f), File.ReadAllBytes, StringComparer.Ordinal));

    public string Name => "bypass relay";

    public Family Family => Family.Yaml;

    public IEnumerable<byte[]> Examples =>
    [
        Reading.Example("demo", "quernmoss.bypass.yaml"),
        Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(Reading.Example("demo", "quernmoss.bypass.yaml"))
            .Replace("three-tank.circuit.yaml", "three-tank.s2p", StringComparison.Ordinal)
            .Replace("doubler", "single", StringComparison.Ordinal)),
    ];

    public void Read(byte[] input)
    {
        DiagnosticBag findings = new();
        LoadedBypass? read = SourceReader.Bypass(new SourceFile("x.bypass.yaml", input, _files), findings);
        Reading.Hold(findings, read is not null);
        if (read is null)
        {
            return;
        }

        Outcome<BypassAnswer> outcome = BypassService.Ask(new BypassQuestion { Bypass = read, TriesKeying = false });
        if (outcome.Answer is { } answer && (answer.OperatesAtW is { } watts && !(watts > 0) || !double.IsFinite(answer.Press.CoilA)))
        {
            throw new Violation("a figure that is no number");
        }
    }
}
