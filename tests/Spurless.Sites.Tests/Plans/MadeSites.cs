using System.Globalization;
using System.Text;

namespace Spurless.Sites.Tests.Plans;

/// <summary>Sites by chance, as site files, with everything that changes when a receiver moves: the same for a seed.</summary>
internal static class MadeSites
{
    /// <summary>A site whose receivers stand round 145 MHz and 160 MHz.</summary>
    /// <param name="seed">Any number.</param>
    /// <param name="followers">How many transmitters follow the first receiver; null for 0 to 2 by chance.</param>
    /// <param name="emitters">How many others; null for a few by chance.</param>
    /// <param name="highest">Highest order; null by chance.</param>
    public static string Of(int seed, int? followers = null, int? emitters = null, int? highest = null)
    {
        Random random = new(seed);
        int own = followers ?? random.Next(3);
        StringBuilder text = new("spurless: 1\nsite: by chance\nplace: { latitude: 40.5, longitude: -35.2, ground: 400 m }\nreceivers:\n");
        Receiver(text, random, "input", "145.000 MHz");
        for (int r = 0; r < random.Next(3); r++)
        {
            double kilohertz = random.Next(2) == 0 ? 145_100 + (random.Next(40) * 12.5) : 160_000 + (random.Next(99) * 25);
            Receiver(text, random, FormattableString.Invariant($"link {r}"), F(kilohertz));
        }

        text.Append("emitters:\n");
        int others = emitters ?? random.Next(4, 14);
        for (int i = 0; i < others; i++)
        {
            double kilohertz = random.Next(6) switch
            {
                0 => 145_000 + (random.Next(80) * 12.5),
                1 => 94_000 + (random.Next(60) * 100),
                2 => 430_000 + (random.Next(400) * 25),
                _ => 146_000 + (random.Next(2_000) * 12.5),
            };
            string emission = kilohertz < 100_000 ? "180KF8E" : ((string[])["11K2F3E", "16K0F1D", "16K0F3E", "11K2F2D"])[random.Next(4)];
            text.Append(CultureInfo.InvariantCulture, $"  - {{ name: e{i}, frequency: {F(kilohertz)}, emission: {emission}");
            text.Append(random.Next(12) switch
            {
                0 => "", // of unknown level
                1 => FormattableString.Invariant($", eirp: {random.Next(1, 100)} W, distance: {random.Next(100, 9_000)} m")
                    + FormattableString.Invariant($", bearing: {random.Next(360)}"),
                _ => FormattableString.Invariant($", level: {-12 - random.Next(40)} dBm"),
            });
            text.Append(random.Next(9) == 0 ? ", noise_like: true }\n" : random.Next(9) == 0 ? ", half_duplex: input }\n" : " }\n");
        }

        for (int i = 0; i < own; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"  - {{ name: own {i}, frequency: {F(145_600 + (i * 1_000))}, emission: 16K0F3E, ");
            text.Append(random.Next(3) switch
            {
                0 => "power: 25 W, path: { same structure: { vertical: 6 m, horizontal: 0 m } }, antenna: { gain: 0 dBi, height: 30 m }, ",
                1 when random.Next(4) == 0 => "",
                _ => FormattableString.Invariant($"level: {-10 - random.Next(30)} dBm, "),
            });
            text.Append("follows: input }\n");
        }

        if (random.Next(3) == 0 && others > 3)
        {
            bool withOwn = own > 0 && random.Next(2) == 0;
            text.Append(withOwn ? "exclusive: [[e0, e1, own 0], [e1, e2]]\n" : "exclusive: [[e0, e1], [e1, e2, e3]]\n");
        }

        int most = highest ?? random.Next(3, 8);
        string floor = random.Next(4) == 0 ? ", floor: -150 dBm" : "";
        int signals = random.Next(1, 5);
        return text.Append(CultureInfo.InvariantCulture, $"search: {{ orders: 2-{most}, signals: {signals}{floor} }}\n").ToString();
    }

    private static void Receiver(StringBuilder text, Random random, string name, string frequency)
    {
        text.Append(CultureInfo.InvariantCulture, $"  - name: {name}\n    frequency: {frequency}\n    channel: {random.Next(2) switch
        {
            0 => "12.5 kHz",
            _ => "25 kHz",
        }}\n    noise_figure: 6 dB\n    iip2: {random.Next(20, 45)} dBm\n    iip3: {random.Next(-15, 5)} dBm\n");
        text.Append(random.Next(3) == 0 ? "    external_noise: rural\n" : "");
        text.Append(random.Next(3) == 0 ? "    selectivity: [0 dB at 145 MHz, 25 dB at 160 MHz, 45 dB at 466 MHz]\n" : "");
        text.Append(random.Next(4) == 0 ? "    levels_at: receiver\n" : "");
        text.Append("    antenna: { gain: 3 dBd, height: 20 m, response: [0 dB at 145 MHz, -20 dB at 94 MHz] }\n    chain:\n");
        text.Append("      - feedline: { loss: 1.2 dB at 145 MHz }\n");
        if (random.Next(2) == 0)
        {
            text.Append("      - amplifier: { gain: 15 dB, noise_figure: 1.5 dB, iip3: -4 dBm }\n");
            text.Append("      - feedline: { loss: 3 dB at 145 MHz }\n");
        }
    }

    private static string F(double kilohertz) => FormattableString.Invariant($"{kilohertz / 1000:0.0000} MHz");
}
