using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Circuits;

namespace Spurless.Tests.Common;

/// <summary>Circuit files for tests. All circuits are invented.</summary>
internal static class CircuitTexts
{
    /// <summary>Every kind of part and every key of the format.</summary>
    public const string Everything = """
        spurless_circuit: 1
        name: every kind of part
        ports: { in: a, out: f, impedance: 75 ohm }
        parts:
          L1: { inductor: 24 nH, between: [a, gnd], q: 150 at 146 MHz, tolerance: 5 %, self_capacitance: 0.4 pF }
          C1: { capacitor: 27 pF, between: [a, gnd], q: 500 at 146 MHz, esl: 0.6 nH, tolerance: E24, rated: [50 V, 1 W] }
          C2: { capacitor: unknown, range: [0.5 pF, 47 pF], between: [a, b], about: 10 %, ppm: -30 }
          L2: { coil: { turns: 2, diameter: 6 mm, length: 4 mm, wire: 18 AWG, leads: 3 mm }, between: [b, gnd] }
          R1: { resistor: 10 ohm, between: [b, gnd], tolerance: 1 % normal, rated: 2 A }
          C4: { capacitor: 1 nF, between: [b, gnd], esr: 0.1 ohm }
          M12: { coupling: 0.02, of: [L1, L2] }
          W1: { line: { impedance: 50 ohm, length: 0.34 m, velocity: 0.66, loss: 0.1 dB/m at 146 MHz }, between: [b, c] }
          X1: { transformer: { turns: [1, 4] }, between: [c, gnd], and: [d, gnd] }
          W2: { line: { impedance: 50 ohm, length: unknown }, range: [0.1 m, 0.5 m], between: [d, gnd], end: short }
          N1: { two_port: measured.s2p, between: [c, f] }
          L3: { inductor: 30 nH, between: [f, gnd], q: unknown at 146 MHz }
        leakage: 80 dB
        """;

    /// <summary>A sweep of a series resistor of 50 ohm: S11 = 1/3, S21 = 2/3.</summary>
    public const string Sweep =
        "# MHz S RI R 50\n100 0.3333333333 0 0.6666666667 0 0.6666666667 0 0.3333333333 0\n200 "
            + "0.3333333333 0 0.6666666667 0 0.6666666667 0 0.3333333333 0\n";

    public static CircuitDocument? Read(string text, out IReadOnlyList<Diagnostic> findings)
    {
        DiagnosticBag bag = new();
        CircuitDocument? document = CircuitReader.Read(text, "x.circuit.yaml", Open, bag);
        findings = bag.InOrder();
        return document;
    }

    public static CircuitDocument Good(string text)
    {
        CircuitDocument? document = Read(text, out IReadOnlyList<Diagnostic> findings);
        Assert.True(document is not null, string.Join('\n', findings));
        return document;
    }

    /// <summary>A file with these parts between a port on a and a port on b.</summary>
    public static string WithParts(params string[] parts) =>
        "spurless_circuit: 1\nports: { in: a, out: b }\nparts:\n" + string.Concat(parts.Select(static p => "  " + p + "\n"));

    private static MemoryStream? Open(string path, out Refusal? refusal)
    {
        refusal = null;
        switch (path)
        {
            case "measured.s2p":
                return new MemoryStream(Encoding.ASCII.GetBytes(Sweep));
            case "broken.s2p":
                return new MemoryStream(Encoding.ASCII.GetBytes("# MHz S RI R 50\n100 0.3 zero\n"));
            case "load.s1p":
                return new MemoryStream(Encoding.ASCII.GetBytes("# MHz S RI R 50\n100 0.3 0\n"));
            default:
                refusal = new Refusal($"there is no file '{path}'", "write the path of a sweep, from this file's folder");
                return null;
        }
    }
}
