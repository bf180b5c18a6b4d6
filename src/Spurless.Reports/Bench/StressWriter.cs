using System.Globalization;
using Spurless.Circuits.Stress;
using Spurless.Radio.Quantities;
using Spurless.Reports.Text;
using Spurless.Sites.Stresses;

namespace Spurless.Reports.Bench;

/// <summary>
/// Writes what transmitting does to a circuit: an answer and a table, JSON of the format <c>spurless-stress/1</c>, or CSV of the parts.
/// </summary>
public static class StressWriter
{
    /// <summary>Writes the answer, the powers, the parts, what was assumed and what to mind.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(StressAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        StressResult stress = answer.Result;
        TextParagraphs.Paragraph(to, StressWords.Sentence(stress), ink, stress.MayTransmit ? TextTone.Strong : TextTone.Harmful);
        to.Write('\n');
        TextParagraphs.Paragraph(to, $"{answer.Question.Circuit.Name}, {Question(stress, answer.Question.Circuit.ImpedanceOhm)}", ink);
        to.Write('\n');
        TextTable powers = new(new TextColumn("power"), new TextColumn("W", TextSide.Right));
        (double delivered, double reflected, double heat, double available) = Printed(stress);
        powers.Add("available", Watts(available));
        powers.Add("delivered", Watts(delivered));
        powers.Add("reflected", Watts(reflected));
        powers.Add("heat", Watts(heat));
        powers.WriteTo(to, ink);
        to.Write('\n');
        TextTable parts = new(
            new TextColumn("part"),
            new TextColumn("peak\nV", TextSide.Right),
            new TextColumn("rms\nA", TextSide.Right),
            new TextColumn("heat\nW", TextSide.Right),
            new TextColumn("good to\nW", TextSide.Right), new TextColumn("limit"));
        foreach (PartStress p in stress.Parts)
        {
            TextTone tone = p.Exceeded ? TextTone.Harmful : TextTone.Plain;
            parts.Add(
                new TextCell(p.Part, tone),
                FixedText.Of(p.PeakVoltageV, 1),
                FixedText.Of(p.RmsCurrentA, 2),
                FixedText.Of(p.DissipationW, 2),
                new TextCell(p.LimitPowerW is { } limit ? Limit(limit) : "", tone),
                new TextCell((StressWords.Limit(p) ?? "none") + (p.Exceeded ? ", passed" : ""), tone));
        }

        parts.WriteTo(to, ink);
        to.Write('\n');
        if (stress.WorstPhasePartByPart)
        {
            TextParagraphs.Paragraph(
                to,
                "Each part stands with its own worst phase of the standing wave, "
                    + "the powers with the phase of the greatest heat: the parts' heat adds to more than that.",
                ink);
            to.Write('\n');
        }

        if (stress.Assumptions.Count > 0)
        {
            to.Write("Assumed\n");
            TextParagraphs.List(to, StressWords.Assumptions(stress), ink);
            to.Write('\n');
        }

        to.Write("Cautions\n");
        TextParagraphs.List(to, StressWords.Cautions(stress), ink);
    }

    /// <summary>Writes the result as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(StressAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        StressResult stress = answer.Result;
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-stress/1");
            json.WriteString("name", answer.Question.Circuit.Name);
            JsonText.Number(json, "frequency_hz", stress.Request.FrequencyHz);
            if (stress.GivesFirst is null && stress.Parts.Count > 0)
            {
                // No part has a limit to compare with.
                json.WriteNull("may_transmit");
            }
            else
            {
                json.WriteBoolean("may_transmit", stress.MayTransmit);
            }

            json.WriteString("says", StressWords.Sentence(stress));
            JsonText.Number(json, "available_w", stress.AvailableW);
            JsonText.Number(json, "delivered_w", stress.DeliveredW);
            JsonText.Number(json, "reflected_w", stress.ReflectedW);
            JsonText.Number(json, "dissipated_w", stress.DissipatedW);
            json.WriteString("gives_first", stress.GivesFirst?.Part);
            JsonText.Number(json, "safe_power_w", stress.SafePowerW);
            json.WriteBoolean("worst_phase_part_by_part", stress.WorstPhasePartByPart);
            JsonText.Objects(json, "parts", stress.Parts, p =>
            {
                json.WriteString("part", p.Part);
                JsonText.Number(json, "peak_voltage_v", p.PeakVoltageV);
                JsonText.Number(json, "rms_current_a", p.RmsCurrentA);
                JsonText.Number(json, "dissipation_w", p.DissipationW);
                JsonText.Number(json, "good_to_w", p.LimitPowerW);
                json.WriteString("limit", StressWords.Limit(p));
                json.WriteBoolean("limit_assumed", p.LimitAssumed);
                json.WriteBoolean("limit_passed", p.Exceeded);
            });
            JsonText.Strings(json, "assumed", StressWords.Assumptions(stress));
            JsonText.Strings(json, "cautions", StressWords.Cautions(stress));
        });
    }

    /// <summary>Writes the parts as CSV.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(StressAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        StressResult stress = answer.Result;
        to.Write("part,peak_voltage_v,rms_current_a,dissipation_w,good_to_w,limit,limit_passed\n");
        foreach (PartStress p in stress.Parts)
        {
            to.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"{CsvQuoting.Quote(p.Part)},{p.PeakVoltageV:0.######},{p.RmsCurrentA:0.######},"
                    + $"{Math.Round(p.DissipationW, 6) + 0.0:0.######},"
                    + $"{p.LimitPowerW:0.######},{CsvQuoting.Quote(StressWords.Limit(p) ?? "")},{(p.Exceeded ? "true" : "false")}\n"));
        }
    }

    /// <summary>The question in words: <c>50 W at 145.65 MHz into 50 ohm</c>.</summary>
    internal static string Question(StressResult stress, double impedanceOhm)
    {
        StressLoad load = stress.Request.Load;
        string into = load.StandingWaveRatio is { } swr
            ? string.Create(
                CultureInfo.InvariantCulture, $"a standing wave ratio of {swr:0.##} in {impedanceOhm:0.##} ohm, at its worst phase")
            : load.ImpedanceOhm is { } z
                ? string.Create(
                    CultureInfo.InvariantCulture, $"{z.Real:0.##}{(z.Imaginary < 0 ? '-' : '+')}{Math.Abs(z.Imaginary):0.##}j ohm")
                : string.Create(CultureInfo.InvariantCulture, $"{impedanceOhm:0.##} ohm");
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{stress.Request.PowerW:0.###} W at {MegahertzText.InWords(stress.Request.FrequencyHz)} MHz into {into}");
    }

    /// <summary>A power at which a limit is reached.</summary>
    internal static string Limit(double watts) => watts.ToString(watts >= 10_000 ? "0" : "0.00", CultureInfo.InvariantCulture);

    /// <summary>The powers rounded to hundredths so that they add up as printed: what rounding leaves over goes to the largest.</summary>
    internal static (double Delivered, double Reflected, double Heat, double Available) Printed(StressResult stress)
    {
        static double Round(double value) => Math.Round(value, 2, MidpointRounding.AwayFromZero);
        double[] parts = [Round(stress.DeliveredW), Round(stress.ReflectedW), Round(stress.DissipatedW)];
        double available = Round(stress.AvailableW);
        int largest = Array.IndexOf(parts, parts.Max());
        parts[largest] = Round(parts[largest] + available - parts.Sum());
        return (parts[0], parts[1], parts[2], available);
    }

    private static string Watts(double value) => FixedText.Of(value, 2);
}
