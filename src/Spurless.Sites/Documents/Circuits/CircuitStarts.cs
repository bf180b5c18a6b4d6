namespace Spurless.Sites.Documents.Circuits;

/// <summary>A circuit to begin from.</summary>
/// <param name="Stem">What the file's name begins with.</param>
/// <param name="Words">What it is.</param>
/// <param name="Text">The file.</param>
public sealed record CircuitStart(string Stem, string Words, string Text);

/// <summary>
/// Circuits to begin from, named by what they are. Tanks: Butterworth, 8 MHz wide round 145.05 MHz, coupling coefficients and end inverters
/// as in
/// docs/method/design.md, on coils of 30 nH. Low-pass: Chebyshev 0.1 dB. Traps: series resonance at the notch, their reactance at 145.05
/// MHz tuned out beside them;
/// a duplexer's cavity is its series equivalent at the notch. All are invented examples.
/// </summary>
public static class CircuitStarts
{
    /// <summary>Nothing but two ports.</summary>
    public static CircuitStart Empty { get; } = new("new", "an empty circuit", Text("new circuit", "b",
        "# Pick two nodes and a kind of part on the page, or type parts here.", []));

    /// <summary>All that have parts.</summary>
    public static IReadOnlyList<CircuitStart> All { get; } =
    [
        Start("two-tanks", "two tanks, capacitors on top: passes 145 MHz, 8 MHz wide", "d",
        [
            "C1: { capacitor: 6.08 pF, between: [a, b], q: 400 at 145 MHz }",
            "L1: { inductor: 30 nH, between: [b, gnd], q: 180 at 145 MHz }",
            "C2: { capacitor: 32.9 pF, between: [b, gnd], q: 400 at 145 MHz }",
            "C3: { capacitor: 1.57 pF, between: [b, c], q: 400 at 145 MHz }",
            "L2: { inductor: 30 nH, between: [c, gnd], q: 180 at 145 MHz }",
            "C4: { capacitor: 32.9 pF, between: [c, gnd], q: 400 at 145 MHz }",
            "C5: { capacitor: 6.08 pF, between: [c, d], q: 400 at 145 MHz }",
        ]),
        Start("three-tanks", "three tanks, capacitors on top: passes 145 MHz, 8 MHz wide", "e",
        [
            "C1: { capacitor: 7.35 pF, between: [a, b], q: 400 at 145 MHz }",
            "L1: { inductor: 30 nH, between: [b, gnd], q: 180 at 145 MHz }",
            "C2: { capacitor: 32.0 pF, between: [b, gnd], q: 400 at 145 MHz }",
            "C3: { capacitor: 1.57 pF, between: [b, c], q: 400 at 145 MHz }",
            "L2: { inductor: 30 nH, between: [c, gnd], q: 180 at 145 MHz }",
            "C4: { capacitor: 37.0 pF, between: [c, gnd], q: 400 at 145 MHz }",
            "C5: { capacitor: 1.57 pF, between: [c, d], q: 400 at 145 MHz }",
            "L3: { inductor: 30 nH, between: [d, gnd], q: 180 at 145 MHz }",
            "C6: { capacitor: 32.0 pF, between: [d, gnd], q: 400 at 145 MHz }",
            "C7: { capacitor: 7.35 pF, between: [d, e], q: 400 at 145 MHz }",
        ]),
        Start("four-tanks", "four tanks, capacitors on top: passes 145 MHz, 8 MHz wide", "f",
        [
            "C1: { capacitor: 8.55 pF, between: [a, b], q: 400 at 145 MHz }",
            "L1: { inductor: 30 nH, between: [b, gnd], q: 180 at 145 MHz }",
            "C2: { capacitor: 30.8 pF, between: [b, gnd], q: 400 at 145 MHz }",
            "C3: { capacitor: 1.86 pF, between: [b, c], q: 400 at 145 MHz }",
            "L2: { inductor: 30 nH, between: [c, gnd], q: 180 at 145 MHz }",
            "C4: { capacitor: 37.1 pF, between: [c, gnd], q: 400 at 145 MHz }",
            "C5: { capacitor: 1.20 pF, between: [c, d], q: 400 at 145 MHz }",
            "L3: { inductor: 30 nH, between: [d, gnd], q: 180 at 145 MHz }",
            "C6: { capacitor: 37.1 pF, between: [d, gnd], q: 400 at 145 MHz }",
            "C7: { capacitor: 1.86 pF, between: [d, e], q: 400 at 145 MHz }",
            "L4: { inductor: 30 nH, between: [e, gnd], q: 180 at 145 MHz }",
            "C8: { capacitor: 30.8 pF, between: [e, gnd], q: 400 at 145 MHz }",
            "C9: { capacitor: 8.55 pF, between: [e, f], q: 400 at 145 MHz }",
        ]),
        Start("five-tanks", "five tanks, capacitors on top: passes 145 MHz, 8 MHz wide", "g",
        [
            "C1: { capacitor: 9.69 pF, between: [a, b], q: 400 at 145 MHz }",
            "L1: { inductor: 30 nH, between: [b, gnd], q: 180 at 145 MHz }",
            "C2: { capacitor: 29.8 pF, between: [b, gnd], q: 400 at 145 MHz }",
            "C3: { capacitor: 2.21 pF, between: [b, c], q: 400 at 145 MHz }",
            "L2: { inductor: 30 nH, between: [c, gnd], q: 180 at 145 MHz }",
            "C4: { capacitor: 36.7 pF, between: [c, gnd], q: 400 at 145 MHz }",
            "C5: { capacitor: 1.23 pF, between: [c, d], q: 400 at 145 MHz }",
            "L3: { inductor: 30 nH, between: [d, gnd], q: 180 at 145 MHz }",
            "C6: { capacitor: 37.7 pF, between: [d, gnd], q: 400 at 145 MHz }",
            "C7: { capacitor: 1.23 pF, between: [d, e], q: 400 at 145 MHz }",
            "L4: { inductor: 30 nH, between: [e, gnd], q: 180 at 145 MHz }",
            "C8: { capacitor: 36.7 pF, between: [e, gnd], q: 400 at 145 MHz }",
            "C9: { capacitor: 2.21 pF, between: [e, f], q: 400 at 145 MHz }",
            "L5: { inductor: 30 nH, between: [f, gnd], q: 180 at 145 MHz }",
            "C10: { capacitor: 29.8 pF, between: [f, gnd], q: 400 at 145 MHz }",
            "C11: { capacitor: 9.69 pF, between: [f, g], q: 400 at 145 MHz }",
        ]),
        Start("series-trap", "one series trap to ground: takes out 158.3 MHz, passes 145 MHz", "b",
        [
            "W1: { line: { impedance: 50 ohm, length: 20 mm, velocity: 0.66 }, between: [a, b] }",
            "L1: { inductor: 200 nH, between: [b, c], q: 200 at 145 MHz }",
            "C1: { capacitor: 5.055 pF, between: [c, gnd], q: 1000 at 145 MHz }",
            "L2: { inductor: 38.2 nH, between: [b, gnd], q: 200 at 145 MHz }",
        ]),
        Start("notch-pair", "two traps a quarter wave apart: take out 153.7 and 158.3 MHz, pass 145 MHz", "b",
        [
            "L1: { inductor: 200 nH, between: [a, c], q: 200 at 145 MHz }",
            "C1: { capacitor: 5.055 pF, between: [c, gnd], q: 1000 at 145 MHz }",
            "L2: { inductor: 38.2 nH, between: [a, gnd], q: 200 at 145 MHz }",
            "W1: { line: { impedance: 50 ohm, length: 0.34 m, velocity: 0.66, loss: 0.1 dB/m at 145 MHz }, between: [a, b] }",
            "L3: { inductor: 200 nH, between: [b, d], q: 200 at 145 MHz }",
            "C3: { capacitor: 5.361 pF, between: [d, gnd], q: 1000 at 145 MHz }",
            "L4: { inductor: 24.6 nH, between: [b, gnd], q: 200 at 145 MHz }",
        ]),
        Start("low-pass", "a low-pass of five: passes below 170 MHz", "c",
        [
            "C1: { capacitor: 21.5 pF, between: [a, gnd], q: 400 at 145 MHz }",
            "L1: { inductor: 64.2 nH, between: [a, b], q: 180 at 145 MHz }",
            "C2: { capacitor: 37.0 pF, between: [b, gnd], q: 400 at 145 MHz }",
            "L2: { inductor: 64.2 nH, between: [b, c], q: 180 at 145 MHz }",
            "C3: { capacitor: 21.5 pF, between: [c, gnd], q: 400 at 145 MHz }",
        ]),
        Start("duplexer-half", "half of a duplexer: two cavities, passes 145.65 MHz, takes out 145.05 MHz", "b",
        [
            "L1: { inductor: 10 uH, between: [a, c], q: 3000 at 145.05 MHz }",
            "C1: { capacitor: 0.120394 pF, between: [c, gnd] }",
            "C2: { capacitor: 14.52 pF, between: [a, gnd], q: 2000 at 145 MHz }",
            "W1: { line: { impedance: 50 ohm, length: 0.34 m, velocity: 0.66, loss: 0.1 dB/m at 145 MHz }, between: [a, b] }",
            "L2: { inductor: 10 uH, between: [b, d], q: 3000 at 145.05 MHz }",
            "C3: { capacitor: 0.120394 pF, between: [d, gnd] }",
            "C4: { capacitor: 14.52 pF, between: [b, gnd], q: 2000 at 145 MHz }",
        ]),
    ];

    private static CircuitStart Start(string stem, string words, string portOut, string[] parts) =>
        new(stem, words, Text($"{words.Split(':')[0]} (an invented example)", portOut, "# " + words + ". Change it to your need.", parts));

    private static string Text(string name, string portOut, string comment, string[] parts) =>
        $"{comment}\nspurless_circuit: 1\nname: {name}\nports: "
            + $"{{ in: a, out: {portOut}, impedance: 50 ohm }}\nparts:{(parts.Length == 0 ? " {}" : "")}\n"
        + string.Concat(parts.Select(static p => $"  {p}\n"));
}
