namespace Spurless.Sites.Documents.Circuits;

/// <summary>
/// The circuit file that <c>new circuit</c> writes: a working filter to change, with what may stand in such a file as comments.
/// </summary>
public static class CircuitTemplate
{
    /// <summary>The file's text.</summary>
    public const string Text = """
        # A circuit for Spurless. Every number with a dimension carries its unit; ground is gnd.
        spurless_circuit: 1
        name: two coupled tanks (an invented example; put your own here)

        # Port 1 is `in` against ground, port 2 `out` against ground.
        ports: { in: a, out: d, impedance: 50 ohm }

        # One line a part: the name is yours, the first key says what it is, `between` where it is connected.
        parts:
          C1: { capacitor: 4.0 pF, between: [a, b], q: 400 at 146 MHz }
          L1: { inductor: 40 nH, between: [b, gnd], q: 200 at 146 MHz, tolerance: 5 % }
          C2: { capacitor: 25 pF, between: [b, gnd], q: 400 at 146 MHz, esl: 0.6 nH }
          C3: { capacitor: 0.72 pF, between: [b, c], q: 400 at 146 MHz }
          L2: { inductor: 40 nH, between: [c, gnd], q: 200 at 146 MHz, tolerance: 5 % }
          C4: { capacitor: 25 pF, between: [c, gnd], q: 400 at 146 MHz, esl: 0.6 nH }
          C5: { capacitor: 4.0 pF, between: [c, d], q: 400 at 146 MHz }

        # Other parts, to copy (take the # away):
        #  R1: { resistor: 10 ohm, between: [b, gnd] }
        #  L3: { coil: { turns: 2, diameter: 7 mm, length: 4 mm, wire: 1 mm, leads: 3 mm }, between: [b, gnd] }
        #  M1: { coupling: 0.02, of: [L1, L2] }
        #  W1: { line: { impedance: 50 ohm, length: 0.34 m, velocity: 0.66, loss: 0.1 dB/m at 146 MHz }, between: [b, c] }
        #  W2: { line: { impedance: 50 ohm, length: 0.34 m, velocity: 0.66 }, between: [b, gnd], end: open }
        #  X1: { transformer: { turns: [1, 4] }, between: [b, gnd], and: [c, gnd] }
        #  N1: { two_port: measured.s2p, between: [b, c] }
        # Losses: q (at a frequency) or esr: 0.1 ohm. A coil or inductor may have self_capacitance: 0.4 pF.
        # A value you don't know: capacitor: unknown, range: [0.5 pF, 47 pF]. `fit` finds it from a sweep.
        # For `tolerance`: tolerance: 5 % | 5 % normal | E24, and ppm: 30. For `stress`: rated: [50 V, 1 W].

        # leakage: 80 dB      # what goes round the circuit and caps its rejection

        """;
}
