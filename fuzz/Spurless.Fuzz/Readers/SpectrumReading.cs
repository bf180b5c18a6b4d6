using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Signals.Spectra;

namespace Spurless.Fuzz.Readers;

/// <summary>Sweeps of a spectrum, by their usual heads and by named columns.</summary>
internal sealed class SpectrumReading : IFuzzedReader
{
    private static readonly SweepColumns Named = new("Freq [MHz]", "Ampl [dBm]");

    public string Name => "spectrum sweep";

    public Family Family => Family.Table;

    public IEnumerable<byte[]> Examples =>
    [
        "# rbw 10 kHz\nfrequency_hz,level_dbm\n144000000,-120.5\n144010000,-119\n144020000,-121\n"u8.ToArray(),
        "time,144000000,144010000\n2031-03-04T08:00:00Z,-120,-119\n2031-03-04T08:00:01Z,-121,-118\n"u8.ToArray(),
        "Freq [MHz];Ampl [dBm]\n144,0;-120\n144,1;-121\n"u8.ToArray(),
        "Freq [MHz]\tAmpl [dBm]\n144.0\t-120\n144.1\t-121\n"u8.ToArray(),
    ];

    public void Read(byte[] input)
    {
        Read(input, null);
        Read(input, Named);
    }

    private static void Read(byte[] input, SweepColumns? columns)
    {
        DiagnosticBag findings = new();
        using StreamReader text = new(new MemoryStream(input));
        Reading.Hold(findings, SweepReader.Read(text, "x.sweep.csv", columns, findings) is not null);
    }
}
