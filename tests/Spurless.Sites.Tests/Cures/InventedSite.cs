using System.Globalization;
using System.Text;

namespace Spurless.Sites.Tests.Cures;

/// <summary>
/// The text of an invented site on whose receiver mixtures land, by seed: some made in the receiver, some in a transmitter.
/// </summary>
internal static class InventedSite
{
    /// <summary>The site's text.</summary>
    /// <param name="seed">Decides everything.</param>
    /// <param name="preamplifier">Whether a preamplifier stands in the chain.</param>
    public static string Text(int seed, bool preamplifier = false)
    {
        Random random = new(seed);
        long channel = 145_000_000 + (12_500 * random.Next(0, 80));
        StringBuilder text = new();
        text.Append("spurless: 1\nsite: invented for a test\nreceivers:\n  - name: our input\n");
        text.Append(CultureInfo.InvariantCulture, $"    frequency: {Mega(channel)}\n    channel: 12.5 kHz\n    noise_figure: 6 dB\n");
        text.Append("    iip2: 35 dBm\n    iip3: -2 dBm\n    iip5: -4 dBm\n    chain:\n      - feedline: { loss: 1 dB at 145 MHz }\n");
        text.Append(preamplifier ? "      - amplifier: { gain: 12 dB, noise_figure: 1.5 dB, iip3: 0 dBm }\n" : "");
        text.Append("emitters:\n  - name: our output\n");
        text.Append(CultureInfo.InvariantCulture, $"    frequency: {Mega(channel + 600_000)}\n    emission: 11K2F3E\n    power: 25 W\n");
        text.Append("    level: -50 dBm\n    follows: our input\n    noise: -150 dBc/Hz at 600 kHz\n");
        int pairs = random.Next(1, 4);
        for (int i = 0; i < pairs; i++)
        {
            // 2 a - b is the channel, a kilohertz or two beside it.
            long a = 150_000_000 + (6_250 * random.Next(0, 4000));
            long b = (2 * a) - channel + (500 * random.Next(-4, 5));
            bool inTransmitter = random.Next(3) == 0;
            text.Append(CultureInfo.InvariantCulture, $"  - name: base {i}\n    frequency: {Mega(a)}\n    emission: 11K2F3E\n");
            text.Append(CultureInfo.InvariantCulture, $"    level: {-(20 + (25 * random.NextDouble())):0.0} dBm\n");
            if (inTransmitter)
            {
                text.Append("    power: 10 W\n    turn_round_loss: 12 dB\n");
                text.Append(CultureInfo.InvariantCulture, $"    coupling: {{ mast {i}: {random.Next(35, 60)} dB }}\n");
            }

            text.Append(CultureInfo.InvariantCulture, $"  - name: mast {i}\n    frequency: {Mega(b)}\n    emission: 11K2F3E\n");
            text.Append(CultureInfo.InvariantCulture, $"    power: 5 W\n    level: {-(22 + (25 * random.NextDouble())):0.0} dBm\n");
        }

        return text.Append("search: { orders: 2-5, signals: 2 }\n").ToString();
    }

    private static string Mega(long hertz) => (hertz / 1e6).ToString("0.0#####", CultureInfo.InvariantCulture) + " MHz";
}
