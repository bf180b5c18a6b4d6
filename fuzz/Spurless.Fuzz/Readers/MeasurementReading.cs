using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Sites.Receivers;
using Spurless.Sites.Sources;

namespace Spurless.Fuzz.Readers;

/// <summary>A receiver's measurements, with a site and a sweep beside them: read, made into figures, and written into the site.</summary>
internal sealed class MeasurementReading : IFuzzedReader
{
    private const string Site = "quernmoss.site.yaml";

    private static readonly FilesAtHand _files = new(Directory.GetFiles(Places.Of("demo", "filters"))
        .Append(Places.Of("demo", Site))
        .ToDictionary(static f => Path.GetFileName(Path.GetDirectoryName(f)!) == "filters" ? "filters/" + Path.GetFileName(f)
            : Path.GetFileName(f), File.ReadAllBytes, StringComparer.Ordinal));

    public string Name => "receiver measurements";

    public Family Family => Family.Yaml;

    public IEnumerable<byte[]> Examples =>
    [
        Reading.Example("demo", "quernmoss.receiver.yaml"),
        [
            .. Reading.Example("demo", "quernmoss.receiver.yaml"),
            .. Encoding.UTF8.GetBytes("  - front_end: filters/three-tank.s2p\n    plus_minus: 0.3 dB\n"),
        ],
    ];

    public void Read(byte[] input)
    {
        DiagnosticBag findings = new();
        LoadedMeasurements? read = SourceReader.Measurements(new SourceFile("x.receiver.yaml", input, _files), findings);
        Reading.Hold(findings, read is not null);
        if (read is null)
        {
            return;
        }

        ReceiverAnswer answer = ReceiverService.Ask(new ReceiverQuestion { Measurements = read });
        if (answer.Intercepts.Any(static i => !double.IsFinite(i.Figure.Value) || !double.IsFinite(i.Figure.SigmaDb)))
        {
            throw new Violation("an intercept that is no number");
        }

        DiagnosticBag refused = new();
        bool written = SiteFigures.Write(answer, new SourceFile(Site, _files.Read(Site)!, _files), "repeater input", refused) is not null;
        Reading.Hold(refused, written);
    }
}
