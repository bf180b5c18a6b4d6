using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Signals.Recordings;

namespace Spurless.Fuzz.Readers;

/// <summary>SigMF recordings: the description, then the samples.</summary>
internal sealed class SigMfReading : IFuzzedReader
{
    public string Name => "sigmf";

    public Family Family => Family.Lines;

    public IEnumerable<byte[]> Examples =>
    [
        Of("cf32_le", "\"core:frequency\": 145000000, \"core:datetime\": \"2031-03-04T08:00:00Z\""),
        Of("ri16_le", "\"core:header_bytes\": 4"),
        Of("cu8", "\"core:frequency\": 1e9, \"core:global_index\": 5"),
    ];

    public void Read(byte[] input)
    {
        byte[][] parts = Parts.Split(input, 2);
        using MemoryStream data = new(parts[1]);
        DiagnosticBag findings = new();
        Recording? recording = SigMfReader.Open(
            parts[0], "x.sigmf-meta", name => name is "none" ? null : data, "x.sigmf-data", null, findings);
        Reading.Hold(findings, recording is not null);
        if (recording is not null)
        {
            WavReading.ReadAll(recording, parts[1].Length);
        }
    }

    private static byte[] Of(string type, string capture) => Parts.Join(
        System.Text.Encoding.UTF8.GetBytes($$"""
            { "global": { "core:datatype": "{{type}}", "core:version": "1.2.5", "core:sample_rate": 2400000.0,
                "core:extensions": [ { "name": "other", "version": "1.0.0", "optional": true } ] },
              "captures": [ { "core:sample_start": 0, {{capture}} }, { "core:sample_start": 20, "core:frequency": 145000000 } ],
              "annotations": [ { "core:sample_start": 1, "core:sample_count": 3, "core:label": "x" } ] }
            """),
        new byte[640]);
}
