using System.Globalization;
using System.Text;

namespace Spurless.Fuzz.Commands;

/// <summary>Makes circuit files that are right: ladders of every kind of part, with the optional keys here and there.</summary>
internal sealed class RandomCircuits(Random random)
{
    /// <summary>A circuit file, its frequency of interest, and a requirement that it may or may not keep.</summary>
    public (string Circuit, double CentreHz) Make()
    {
        double centre = Between(2e6, 900e6);
        StringBuilder parts = new();
        int sections = random.Next(1, 9);
        int node = 0;
        List<string> inductors = [];
        int count = 0;
        for (int i = 0; i < sections; i++)
        {
            string from = N(node);
            if (random.Next(2) == 0)
            {
                parts.Append(Part(++count, from, "gnd", centre, inductors));
                if (random.Next(3) == 0)
                {
                    parts.Append(Part(++count, from, "gnd", centre, inductors));
                }
            }

            node++;
            parts.Append(random.Next(6) == 0
                ? Invariant($"  P{++count}: {{ line: {{ {Cable()} }}, between: [{from}, {N(node)}] }}\n")
                : Part(++count, from, N(node), centre, inductors));
        }

        if (inductors.Count > 1 && random.Next(3) == 0)
        {
            parts.Append(Invariant($"  M1: {{ coupling: {Between(0.001, 0.6):0.####}, of: [{inductors[0]}, {inductors[1]}] }}\n"));
        }

        string leakage = random.Next(4) == 0 ? Invariant($"leakage: {random.Next(30, 120)} dB\n") : "";
        string impedance = random.Next(3) == 0 ? ", impedance: 75 ohm" : "";
        string head = Invariant($"spurless_circuit: 1\nname: random {random.Next(1000)} (invented)\n");
        return (head + Invariant($"ports: {{ in: n0, out: {N(node)}{impedance} }}\nparts:\n{parts}{leakage}"), centre);
    }

    private string Part(int number, string from, string to, double centre, List<string> inductors)
    {
        string between = $"between: [{from}, {to}]";
        double reactance = Between(2, 2000);
        double henries = reactance / (2 * Math.PI * centre);
        double farads = 1 / (2 * Math.PI * centre * reactance);
        string q = random.Next(3) == 0 ? "" : Invariant($", q: {random.Next(20, 900)} at {centre / 1e6:0.###} MHz");
        string more = random.Next(5) switch
        {
            0 => ", tolerance: 5 %",
            1 => ", tolerance: 2 % normal",
            2 => ", ppm: -30, tolerance: E24",
            3 => ", rated: [50 V, 1 W]",
            _ => "",
        };
        switch (random.Next(9))
        {
            case 0 or 1 or 2:
                string self = random.Next(4) == 0 ? ", self_capacitance: 0.4 pF" : "";
                inductors.Add($"P{number}");
                return Invariant($"  P{number}: {{ inductor: {henries * 1e9:0.####} nH, {between}{q}{self}{more} }}\n");
            case 3 or 4 or 5:
                string lead = random.Next(4) == 0 ? ", esl: 0.6 nH" : "";
                return Invariant($"  P{number}: {{ capacitor: {farads * 1e12:0.####} pF, {between}{q}{lead}{more} }}\n");
            case 6:
                return Invariant($"  P{number}: {{ resistor: {Between(1, 1e4):0.##} ohm, {between}{more} }}\n");
            case 7:
                double turns = random.Next(2, 14);
                string coil = Invariant($"turns: {turns}, diameter: {random.Next(4, 20)} mm, length: {turns * 2:0.#} mm, wire: 1 mm");
                return Invariant($"  P{number}: {{ coil: {{ {coil} }}, {between} }}\n");
            default:
                string end = random.Next(2) == 0 ? "open" : "short";
                return to != "gnd" ? Invariant($"  P{number}: {{ resistor: 1 ohm, {between} }}\n")
                    : Invariant($"  P{number}: {{ line: {{ {Cable()} }}, {between}, end: {end} }}\n");
        }
    }

    private string Cable() =>
        Invariant($"impedance: {Between(20, 120):0.#} ohm, length: {Between(0.01, 3):0.###} m, velocity: {Between(0.5, 1):0.##}")
        + (random.Next(2) == 0 ? ", loss: 0.1 dB/m at 146 MHz" : "");

    private double Between(double low, double high) => low * Math.Exp(random.NextDouble() * Math.Log(high / low));

    private static string N(int node) => "n" + node.ToString(CultureInfo.InvariantCulture);

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
