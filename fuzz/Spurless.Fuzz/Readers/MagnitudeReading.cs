using Spurless.Files.Diagnostics;
using Spurless.Fit;
using Spurless.Fuzz.Inputs;

namespace Spurless.Fuzz.Readers;

/// <summary>Tables of magnitudes for a fit.</summary>
internal sealed class MagnitudeReading : IFuzzedReader
{
    public string Name => "magnitude sweep";

    public Family Family => Family.Table;

    public IEnumerable<byte[]> Examples =>
    [
        "frequency_hz,s21_db\n140e6,-3.5\n141e6,-3.25\n142e6,-12\n"u8.ToArray(),
        "frequency_hz;s11_db;s21_db\n140000000;-20;-3\n141000000;-21;-3\n"u8.ToArray(),
    ];

    public void Read(byte[] input)
    {
        _ = MagnitudeSweepReader.IsSweep(input);
        DiagnosticBag findings = new();
        Reading.Hold(findings, MagnitudeSweepReader.Read(input, "x.csv", findings) is not null);
    }
}
