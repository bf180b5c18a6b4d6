using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Sites.Sources;

namespace Spurless.Fuzz.Readers;

/// <summary>Tables of emitters, heads with dots among them.</summary>
internal sealed class EmitterTableReading : IFuzzedReader
{
    public string Name => "emitter table";

    public Family Family => Family.Table;

    public IEnumerable<byte[]> Examples =>
    [
        Reading.Example("tests", "data", "site", "bad", "table.csv"),
        "name,frequency,emission,level,antenna.gain,at.latitude\none,160.5125 MHz,11K2F3E,-21 dBm,6 dBd,40.5\n"u8.ToArray(),
        "name;frequency;bandwidth;erp;distance;activity\n\"a \"\"b\"\"\";145,05 MHz;16 kHz;25 W;650 m;15 %\n"u8.ToArray(),
    ];

    public void Read(byte[] input)
    {
        DiagnosticBag findings = new();
        SourceFile source = new("x.csv", input, FilesAtHand.Demo);
        Reading.Hold(findings, SourceReader.Emitters(source, findings) is not null);
    }
}
