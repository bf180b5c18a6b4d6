using Spurless.Circuits.Measured;
using Spurless.Circuits.Touchstone;
using Spurless.Files.Diagnostics;
using Spurless.Fit;
using Spurless.Fuzz.Inputs;

namespace Spurless.Fuzz.Readers;

/// <summary>Touchstone of both versions: read, made a two-port and a sweep for a fit, and written again. The name stands before.</summary>
internal sealed class TouchstoneReading : IFuzzedReader
{
    private static readonly string[] Names = ["x.s1p", "x.s2p", "x.ts", "x.s4p", "x.txt"];

    public string Name => "touchstone";

    public Family Family => Family.Lines;

    public IEnumerable<byte[]> Examples => Directory.GetFiles(Places.Of("tests", "data", "touchstone"), "*", SearchOption.AllDirectories)
        .Where(static f => Path.GetExtension(f) is not ".md" && new FileInfo(f).Length < 4000)
        .Order(StringComparer.Ordinal)
        .Select(static f => (byte[])[(byte)('0' + Kind(f)), (byte)'\n', .. File.ReadAllBytes(f)]);

    public void Read(byte[] input)
    {
        string name = Names[input.Length > 0 ? input[0] % Names.Length : 0];
        using MemoryStream stream = new(input, Math.Min(2, input.Length), Math.Max(0, input.Length - 2));
        DiagnosticBag findings = new();
        TouchstoneData? data = TouchstoneReader.Read(stream, name, findings);
        Reading.Hold(findings, data is not null);
        if (data is not { Ports: 1 or 2 })
        {
            return;
        }

        MeasuredTwoPort measured = MeasuredTwoPort.From(data);
        _ = measured.TryAt((measured.LowestHz + measured.HighestHz) / 2, out _);
        try
        {
            _ = FitSweep.From(data, 50);
        }
        catch (ArithmeticException)
        {
            // What the caller makes a finding of.
        }
    }

    private static int Kind(string file) => Math.Max(0, Array.IndexOf(Names, "x" + Path.GetExtension(file).ToLowerInvariant())) is var i
        && "01234"[i] % Names.Length == i ? i : Enumerable.Range(0, Names.Length).First(d => ('0' + d) % Names.Length == i);
}
