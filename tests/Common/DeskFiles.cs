using System.Text;
using Spurless.Sites.Documents;

namespace Spurless.Tests.Common;

/// <summary>A site with every kind of stage and a circuit with every kind of part, invented for the desk, in memory.</summary>
internal sealed class DeskFiles : ISiteFiles
{
    public const string Site = """
        spurless: 1
        site: desk (invented)
        receivers:
          # the one that is disturbed
          - name: input
            frequency: 145.050 MHz
            channel: 12.5 kHz
            noise_figure: 6 dB            # measured
            iip2: 30 dBm
            iip3: -2 dBm
            antenna: { gain: 6 dBd }
            wanted: -110 dBm
            chain:
              - feedline: { loss: 1.2 dB at 145 MHz }   # the long one
              - circuit: filters/parts.circuit.yaml     # as traced
              - amplifier: { gain: 12 dB, noise_figure: 1.5 dB, iip2: 25 dBm, iip3: 5 dBm }
              - attenuator: 2 dB
              - feedline: { type: rg213, length: 12 m }
          - { name: second, frequency: 145.650 MHz, channel: 12.5 kHz, sensitivity: 0.25 uV pd,
              intermod_rejection: { by: 70 dB, method: tia603 } }
        emitters:
          - { name: one, frequency: 153.350 MHz, emission: 11K2F3E, level: -24.5 dBm }
          - { name: two, frequency: 157.500 MHz, emission: 11K2F3E, level: -25 dBm }
          - name: scanner        # on the mast
            frequency: 158.300 MHz
            emission: 11K2F2D
            power: 2 W
            level: -31 dBm
            turn_round_loss: 12 dB
            coupling: { gauge: 45 dB }
          - { name: gauge, frequency: 171.550 MHz, emission: 11K2F3E, power: 5 W, level: -33 dBm, turn_round_loss: 11 dB,
              isolator: 20 dB, coupling: { scanner: 47 dB } }
          - { name: works, frequency: 160.525 MHz, emission: 11K2F3E, level: -34 dBm }
          - { name: pager, frequency: 466.100 MHz, emission: 16K0F1D, power: 100 W, level: -33 dBm }
          - { name: far, frequency: 145.475 MHz, emission: 11K2F3E, power: 10 W, distance: 4 km }
        search: { orders: 2-5, signals: 3 }
        """;

    private const string Parts = """
        # traced by eye
        spurless_circuit: 1
        name: parts
        ports: { in: a, out: d, impedance: 50 ohm }
        parts:
          C1: { capacitor: 6.8 pF, between: [a, b],   q: 400 at 145.05 MHz }   # trimmer
          L1: { inductor: 27.6 nH, between: [b, gnd], q: 160 at 145.05 MHz }
          C2: { capacitor: 36 pF,  between: [b, gnd], q: 400 at 145.05 MHz }
          C3: { capacitor: 1.6 pF, between: [b, e],   q: 400 at 145.05 MHz }
          L3: { coil: { turns: 2, diameter: 7 mm, length: 3.8 mm, wire: 1 mm }, between: [e, gnd], q: 160 at 145.05 MHz }
          C6: { capacitor: 36 pF,  between: [e, gnd], q: 400 at 145.05 MHz }
          C7: { capacitor: 6.8 pF, between: [e, f],   q: 400 at 145.05 MHz }
          R1: { resistor: 0.5 ohm, between: [f, g] }
          T1: { line: { impedance: 50 ohm, length: 0.34 m, velocity: 0.66 }, between: [g, d] }
        """;

    private const string Spare = """
        spurless_circuit: 1
        name: spare trap
        ports: { in: a, out: a }
        parts:
          L1: { inductor: 40 nH, between: [a, m], q: 120 at 150 MHz }
          C1: { capacitor: 25 pF, between: [m, gnd], q: 300 at 150 MHz }
        """;

    private readonly Dictionary<string, string> _texts = new(StringComparer.Ordinal)
    {
        ["filters/parts.circuit.yaml"] = Parts,
        ["filters/spare.circuit.yaml"] = Spare,
        ["filters/broken.circuit.yaml"] = "spurless_circuit: 1\nparts: [",
    };

    /// <summary>The files of the folder that are offered.</summary>
    public static IReadOnlyList<string> Offered =>
        ["filters/broken.circuit.yaml", "filters/parts.circuit.yaml", "filters/spare.circuit.yaml"];

    public string this[string path]
    {
        get => _texts[path];
        set => _texts[path] = value;
    }

    public bool Exists(string path) => _texts.ContainsKey(path);

    public byte[]? Read(string path) => _texts.TryGetValue(path, out string? text) ? Encoding.UTF8.GetBytes(text) : null;

    public string NameOf(string path) => path;
}
