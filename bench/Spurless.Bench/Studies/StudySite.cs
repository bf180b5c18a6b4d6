using System.Globalization;
using System.Text;

using Spurless.Bench.ProductSearch;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Bench.Studies;

/// <summary>The band plan as a site file: what a whole study is measured on. Invented as the plan is.</summary>
public static class StudySite
{
    /// <summary>The text of a site file.</summary>
    /// <param name="emitters">Number of carriers, at the plan's levels.</param>
    /// <param name="receivers">Number of receivers, each with a feedline of its own; every second one has an amplifier at the mast and so
    /// two non-linear stages.</param>
    public static string Text(int emitters, int receivers)
    {
        SearchProblem plan = BandPlan.Problem(emitters, receivers, 2, 7, null);
        StringBuilder text = new();
        text.AppendLine("spurless: 1");
        text.AppendLine("site: the invented band plan of the bench");
        text.AppendLine("receivers:");
        for (int r = 0; r < receivers; r++)
        {
            double loss = 0.8 + (0.15 * r);
            text.AppendLine(CultureInfo.InvariantCulture, $"  - name: receiver {r + 1}");
            text.AppendLine(CultureInfo.InvariantCulture, $"    frequency: {plan.Receivers[r].FrequencyHz / 1e6:0.0000} MHz");
            text.AppendLine("    channel: 12.5 kHz");
            text.AppendLine("    noise_figure: 6 dB");
            text.AppendLine("    iip3: -5 dBm");
            text.AppendLine("    chain:");
            if (r % 2 == 1)
            {
                text.AppendLine("      - amplifier: { gain: 10 dB, noise_figure: 2 dB, iip3: 12 dBm }");
            }

            text.AppendLine(CultureInfo.InvariantCulture, $"      - feedline: {{ loss: {loss:0.00} dB at 145 MHz }}");
        }

        text.AppendLine("emitters:");
        for (int i = 0; i < emitters; i++)
        {
            SearchEmitter emitter = plan.Emitters[i];
            double level = MicroDb.ToDecibels(plan.Receivers[0].Stages[0].LevelMicroDbm[i]);
            text.AppendLine(
                CultureInfo.InvariantCulture,
                $"  - {{ name: carrier {i + 1}, frequency: {emitter.FrequencyHz / 1e6:0.0000} MHz, emission: "
                    + $"{Emission(emitter.BandwidthHz)}, level: {level:0.00} dBm }}");
        }

        text.AppendLine("search: { orders: 2-7, signals: 3 }");
        return text.ToString();
    }

    private static string Emission(long bandwidthHz) => bandwidthHz switch
    {
        6_000 => "6K00A3E",
        11_200 => "11K2F3E",
        16_000 => "16K0F3E",
        25_000 => "25K0D7W",
        180_000 => "180KF8E",
        _ => "200KG7W",
    };
}
