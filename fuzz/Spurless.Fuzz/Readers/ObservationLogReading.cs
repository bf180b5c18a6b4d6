using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Sites.Documents;

namespace Spurless.Fuzz.Readers;

/// <summary>Observation logs.</summary>
internal sealed class ObservationLogReading : IFuzzedReader
{
    public string Name => "observation log";

    public Family Family => Family.Table;

    public IEnumerable<byte[]> Examples =>
    [
        "time,repeater input,haulage base,forest base\n2031-03-04T08:00:00Z,1,1,0\n2031-03-04T08:00:01Z,0,,1\n"u8.ToArray(),
        "time;repeater input;regional paging\n0;1;1\n0.5;0;1\n1;-93;0\n"u8.ToArray(),
    ];

    public void Read(byte[] input)
    {
        DiagnosticBag findings = new();
        Reading.Hold(findings, ObservationLogReader.Read(input, "x.log.csv", null, findings) is not null);
    }
}
