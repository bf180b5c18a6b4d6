using System.Text;
using Spurless.Circuits.Parts;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents.Circuits;

namespace Spurless.Tests.Common.Fixtures;

/// <summary>Circuits of every shape that the schematic draws, as a user would write them; the figures are round and mean nothing.</summary>
public static class Topologies
{
    // A series resistor of 50 ohm: S11 = 1/3, S21 = 2/3.
    private const string Sweep =
        "# MHz S RI R 50\n100 0.3333333333 0 0.6666666667 0 0.6666666667 0 0.3333333333 0\n200 "
            + "0.3333333333 0 0.6666666667 0 0.6666666667 0 0.3333333333 0\n";

    private static readonly Dictionary<string, string> All = new(StringComparer.Ordinal)
    {
        ["ladder"] = """
            C1: { capacitor: 6.8 pF, between: [a, b] }
            L1: { inductor: 27.6 nH, between: [b, gnd], q: 160 at 145 MHz }
            C2: { capacitor: 36 pF, between: [b, gnd] }
            C3: { capacitor: 6.8 pF, between: [b, z] }
            """,
        ["traps in shunt and series"] = """
            L1: { inductor: 80 nH, between: [a, x] }
            C1: { capacitor: 12 pF, between: [x, gnd] }
            C2: { capacitor: 4.7 pF, between: [a, z] }
            L2: { inductor: 150 nH, between: [z, a] }
            L3: { inductor: 80 nH, between: [z, y] }
            C3: { capacitor: 12 pF, between: [y, gnd] }
            """,
        ["notch by a tank under a capacitor"] = """
            C1: { capacitor: 3.3 pF, between: [a, x] }
            L1: { inductor: 27 nH, between: [x, gnd] }
            C2: { capacitor: 39 pF, between: [x, gnd] }
            L2: { inductor: 56 nH, between: [a, z] }
            C3: { capacitor: 3.3 pF, between: [z, y] }
            L3: { inductor: 27 nH, between: [y, gnd] }
            C4: { capacitor: 39 pF, between: [y, gnd] }
            """,
        ["tanks with a capacitor over the middle one"] = """
            C1: { capacitor: 6.8 pF, between: [a, b] }
            L1: { inductor: 27.6 nH, between: [b, gnd] }
            C2: { capacitor: 36 pF, between: [b, gnd] }
            C3: { capacitor: 1.6 pF, between: [b, c] }
            L2: { inductor: 28.6 nH, between: [c, gnd] }
            C4: { capacitor: 39 pF, between: [c, gnd] }
            C5: { capacitor: 1.6 pF, between: [c, e] }
            L3: { inductor: 27.6 nH, between: [e, gnd] }
            C6: { capacitor: 36 pF, between: [e, gnd] }
            C7: { capacitor: 6.8 pF, between: [e, z] }
            C8: { capacitor: 0.3 pF, between: [b, e] }
            C9: { capacitor: 0.1 pF, between: [a, z] }
            """,
        ["bridged T"] = """
            R1: { resistor: 50 ohm, between: [a, m] }
            R2: { resistor: 50 ohm, between: [m, z] }
            R3: { resistor: 1 kohm, between: [a, z] }
            L1: { inductor: 100 nH, between: [m, x] }
            C1: { capacitor: 10 pF, between: [x, gnd] }
            """,
        ["twin T"] = """
            R1: { resistor: 100 ohm, between: [a, m] }
            R2: { resistor: 100 ohm, between: [m, z] }
            C3: { capacitor: 22 pF, between: [m, gnd] }
            C1: { capacitor: 11 pF, between: [a, n] }
            C2: { capacitor: 11 pF, between: [n, z] }
            R3: { resistor: 51 ohm, between: [n, gnd] }
            """,
        ["coupled tanks with links"] = """
            L1: { coil: { turns: 1, diameter: 8 mm, length: 3 mm, wire: 1 mm }, between: [a, gnd] }
            L2: { inductor: 90 nH, between: [b, gnd], q: 200 at 145 MHz }
            C1: { capacitor: 12.5 pF, between: [b, gnd] }
            L3: { inductor: 90 nH, between: [c, gnd], q: 200 at 145 MHz }
            C2: { capacitor: 12.5 pF, between: [c, gnd] }
            L4: { coil: { turns: 1, diameter: 8 mm, length: 3 mm, wire: 1 mm }, between: [z, gnd] }
            M12: { coupling: 0.2, of: [L1, L2] }
            M23: { coupling: 0.02, of: [L2, L3] }
            M34: { coupling: 0.2, of: [L3, L4] }
            M14: { coupling: 0.001, of: [L1, L4] }
            """,
        ["coils that couple along a wire"] = """
            L1: { inductor: 90 nH, between: [a, gnd] }
            L2: { inductor: 60 nH, between: [a, z] }
            L3: { inductor: 90 nH, between: [z, gnd] }
            C1: { capacitor: 12.5 pF, between: [z, gnd] }
            M13: { coupling: 0.05, of: [L1, L3] }
            M12: { coupling: 0.05, of: [L1, L2] }
            """,
        ["lines and stubs"] = """
            W1: { line: { impedance: 50 ohm, length: 0.34 m, velocity: 0.66, loss: 0.1 dB/m at 146 MHz }, between: [a, b] }
            W2: { line: { impedance: 50 ohm, length: 0.34 m, velocity: 0.66 }, between: [b, gnd], end: open }
            W3: { line: { impedance: 75 ohm, length: 0.51 m, velocity: 0.66 }, between: [b, gnd], end: short }
            W4: { line: { impedance: 35 ohm, length: 0.34 m, velocity: 0.66 }, between: [b, z] }
            """,
        ["transformers"] = """
            C1: { capacitor: 100 pF, between: [a, gnd] }
            X1: { transformer: { turns: [1, 4] }, between: [a, gnd], and: [d, gnd] }
            L1: { inductor: 300 nH, between: [d, e] }
            C2: { capacitor: 20 pF, between: [d, e] }
            X2: { transformer: { turns: [4, 1] }, between: [gnd, e], and: [z, gnd] }
            """,
        ["branches in an arm"] = """
            L1: { inductor: 10 nH, between: [a, x] }
            C1: { capacitor: 10 pF, between: [x, gnd] }
            R1: { resistor: 10 ohm, between: [x, y] }
            L2: { inductor: 20 nH, between: [y, gnd] }
            C2: { capacitor: 20 pF, between: [a, p] }
            L3: { inductor: 30 nH, between: [p, z] }
            R2: { resistor: 220 ohm, between: [a, z] }
            """,
        ["every kind of part"] = """
            L1: { inductor: 24 nH, between: [a, gnd], q: 150 at 146 MHz }
            C1: { capacitor: 27 pF, between: [a, gnd] }
            C2: { capacitor: unknown, range: [0.5 pF, 47 pF], between: [a, b] }
            L2: { coil: { turns: 2, diameter: 6 mm, length: 4 mm, wire: 18 AWG, leads: 3 mm }, between: [b, gnd] }
            R1: { resistor: 10 ohm, between: [b, gnd] }
            M12: { coupling: 0.02, of: [L1, L2] }
            W1: { line: { impedance: 50 ohm, length: 0.34 m, velocity: 0.66 }, between: [b, c] }
            X1: { transformer: { turns: [1, 4] }, between: [c, gnd], and: [d, gnd] }
            W2: { line: { impedance: 50 ohm, length: unknown }, range: [0.1 m, 0.5 m], between: [d, gnd], end: short }
            N1: { two_port: measured.s2p, between: [d, z] }
            L3: { inductor: 30 nH, between: [z, gnd] }
            """,
        ["lattice"] = """
            L1: { inductor: 100 nH, between: [a, z] }
            C1: { capacitor: 10 pF, between: [a, y] }
            C2: { capacitor: 10 pF, between: [x, z] }
            L2: { inductor: 100 nH, between: [x, y] }
            R1: { resistor: 1 kohm, between: [x, gnd] }
            R2: { resistor: 1 kohm, between: [y, gnd] }
            """,
    };

    /// <summary>Names of all.</summary>
    public static IEnumerable<string> Names => All.Keys;

    /// <summary>A circuit by its name.</summary>
    public static Circuit Of(string name)
    {
        string text = $"spurless_circuit: 1\nname: {name}\nports: {{ in: a, out: z, impedance: 50 ohm }}\nparts:\n"
            + string.Join('\n', All[name].Split('\n').Select(static l => "  " + l)) + "\n";
        return Read(text, name);
    }

    /// <summary>A circuit from a file's text.</summary>
    public static Circuit Read(string text, string name)
    {
        DiagnosticBag findings = new();
        using MemoryStream stream = new(Encoding.UTF8.GetBytes(text));
        CircuitDocument? document = CircuitReader.Read(stream, name, static (string file, out Refusal? refusal) =>
        {
            refusal = file == "measured.s2p" ? null : new Refusal($"there is no file '{file}'", "write measured.s2p");
            return refusal is null ? new MemoryStream(Encoding.ASCII.GetBytes(Sweep)) : null;
        }, findings);
        return document?.Circuit ?? throw new InvalidOperationException(string.Join('\n', findings.InOrder()));
    }
}
