using System.Text;

namespace Spurless.Fuzz.Commands;

/// <summary>Makes site files that are right: receivers with chains, emitters with levels or powers, optional keys.</summary>
internal sealed class RandomSites(Random random)
{
    /// <summary>Emissions, the commonest kinds.</summary>
    private static readonly string[] Emissions = ["11K2F3E", "16K0F3E", "16K0F1D", "6K00A3E", "180KF8E", "25K0D7W", "2K80J3E"];

    /// <summary>A site file.</summary>
    /// <param name="mostEmitters">Emitters at most.</param>
    public string Make(int mostEmitters = 14)
    {
        StringBuilder text = new("spurless: 1\nsite: random (invented)\n");
        bool placed = random.Next(3) == 0;
        text.Append(placed ? "place: { latitude: 40.50, longitude: -35.20, ground: 410 m }\n" : "").Append("receivers:\n");
        int receivers = random.Next(1, 4);
        for (int i = 0; i < receivers; i++)
        {
            Receiver(text, i);
        }

        int emitters = random.Next(0, mostEmitters + 1);
        text.Append(emitters == 0 ? "emitters: []\n" : "emitters:\n");
        for (int i = 0; i < emitters; i++)
        {
            Emitter(text, i, receivers, placed);
        }

        if (emitters > 1 && random.Next(4) == 0)
        {
            text.Append("exclusive: [[ e0, e1 ]]\n");
        }

        if (random.Next(2) == 0)
        {
            text.Append(I($"search: {{ orders: 2-{random.Next(2, 8)}, signals: {random.Next(1, 4)} }}\n"));
        }

        return text.ToString();
    }

    private void Receiver(StringBuilder text, int i)
    {
        text.Append(I($"  - name: r{i}\n    frequency: {Frequency()} MHz\n"));
        text.Append(I($"    channel: {Pick("12.5 kHz", "25 kHz", "6.25 kHz", "200 kHz")}\n"));
        text.Append(random.Next(2) == 0 ? I($"    noise_figure: {random.Next(1, 15)} dB\n")
            : I($"    sensitivity: {Pick("0.25 uV pd", "0.5 uV emf", "-119 dBm")}\n"));
        text.Append(random.Next(3) == 0 ? "    intermod_rejection: { by: 70 dB, method: tia603 }\n"
            : I($"    iip3: {random.Next(-30, 30)} dBm\n"));
        Maybe(text, 2, I($"    iip2: {random.Next(0, 60)} dBm\n"));
        Maybe(text, 3, "    iip5: -4 dBm\n");
        Maybe(text, 3, I($"    antenna: {{ gain: {random.Next(-3, 12)} dBd, height: {random.Next(2, 60)} m }}\n"));
        Maybe(text, 4, I($"    wanted: {random.Next(-125, -60)} dBm\n"));
        Maybe(text, 4, I($"    external_noise: {Pick("none", "quiet rural", "rural", "residential", "city", "6 dB")}\n"));
        Maybe(text, 5, "    squelch_opens: 7 dB\n");
        Maybe(text, 5, "    blocking: 84 dB\n    lo_noise: -140 dBc/Hz at 1 MHz\n");
        Maybe(text, 5, "    selectivity: [0 dB at 145 MHz, 25 dB at 160 MHz, 45 dB at 466 MHz]\n");
        int stages = random.Next(0, 4);
        text.Append(stages == 0 ? "" : "    chain:\n");
        for (int s = 0; s < stages; s++)
        {
            text.Append(random.Next(6) switch
            {
                0 => I($"      - feedline: {{ type: rg213, length: {random.Next(1, 60)} m }}\n"),
                1 => "      - circuit: x.circuit.yaml\n",
                2 => I($"      - attenuator: {random.Next(0, 20)} dB\n"),
                3 => I($"      - amplifier: {{ gain: {random.Next(3, 25)} dB, noise_figure: {random.Next(1, 6)} dB, ")
                    + I($"iip3: {random.Next(-15, 20)} dBm }}\n"),
                4 => "      - circuit: filters/three-tank.circuit.yaml\n",
                _ => I($"      - feedline: {{ loss: {random.Next(0, 60) / 10.0} dB at 145 MHz }}\n"),
            });
        }
    }

    private void Emitter(StringBuilder text, int i, int receivers, bool placed)
    {
        text.Append(I($"  - name: e{i}\n    frequency: {Frequency()} MHz\n"));
        text.Append(I($"    {(random.Next(4) == 0 ? "bandwidth: 16 kHz" : "emission: " + Pick(Emissions))}\n"));
        bool measured = !placed || random.Next(2) == 0;
        text.Append(measured ? I($"    level: {random.Next(-100, 5)} dBm\n")
            : I($"    {Pick("power", "erp", "eirp")}: {random.Next(1, 200)} W\n    distance: {random.Next(20, 20_000)} m\n")
                + I($"    bearing: {random.Next(0, 360)}\n"));
        Maybe(text, measured ? 3 : 0, I($"    power: {random.Next(1, 200)} W\n    turn_round_loss: {random.Next(3, 25)} dB\n"));
        Maybe(text, 4, I($"    activity: {random.Next(1, 100)} %\n"));
        Maybe(text, 5, I($"    isolator: {random.Next(10, 60)} dB\n"));
        Maybe(text, 5, "    noise: -145 dBc/Hz at 1 MHz\n");
        Maybe(text, 6, "    harmonics: [-70 dBc at 2]\n");
        Maybe(text, 6, "    uncertainty: 6 dB\n");
        Maybe(text, 8, I($"    follows: r{random.Next(receivers)}\n"));
        Maybe(text, i > 0 ? 6 : 0, I($"    coupling: {{ e{random.Next(Math.Max(1, i))}: {random.Next(20, 80)} dB }}\n"));
        Maybe(text, 9, "    output_filter: filters/duplexer-high.s2p\n");
    }

    // Once in so many times; never for 0.
    private void Maybe(StringBuilder text, int once, string words) => text.Append(once > 0 && random.Next(once) == 0 ? words : "");

    private string Frequency() => I($"{random.Next(30_000, 900_000) / 1000.0:0.0000}");

    private string Pick(params string[] of) => of[random.Next(of.Length)];

    private static string I(FormattableString text) => FormattableString.Invariant(text);
}
