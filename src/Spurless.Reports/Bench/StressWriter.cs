using System.Globalization;
using Spurless.Circuits.Stress;
using Spurless.Reports.Studies;
using Spurless.Reports.Text;

namespace Spurless.Reports.Bench;

/// <summary>Writes what transmitting does to a circuit: an answer and a table, JSON of the format <c>spurless-stress/1</c>, or CSV of the parts.</summary>
public static class StressWriter
{
    /// <summary>Writes the answer, the powers, the parts, what was assumed and what to mind.</summary>
    /// <param name="name">The circuit's name.</param>
    /// <param name="impedanceOhm">Its port impedance in ohms.</param>
    /// <param name="stress">The result.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(string name, double impedanceOhm, StressResult stress, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(stress);
        BenchText.Paragraph(to, stress.Sentence, ink, stress.MayTransmit ? TextTone.Strong : TextTone.Harmful);
        to.Write('\n');
        BenchText.Paragraph(to, $"{name}, {Question(stress, impedanceOhm)}", ink);
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
            new TextColumn("part"), new TextColumn("peak\nV", TextSide.Right), new TextColumn("rms\nA", TextSide.Right), new TextColumn("heat\nW", TextSide.Right),
            new TextColumn("good to\nW", TextSide.Right), new TextColumn("limit"));
        foreach (PartStress p in stress.Parts)
        {
            TextTone tone = p.Exceeded ? TextTone.Harmful : TextTone.Plain;
            parts.Add(
                new TextCell(p.Part, tone), p.PeakVoltageV.ToString("0.0", CultureInfo.InvariantCulture), p.RmsCurrentA.ToString("0.00", CultureInfo.InvariantCulture),
                p.DissipationW.ToString("0.00", CultureInfo.InvariantCulture), new TextCell(p.LimitPowerW is { } limit ? Limit(limit) : "", tone), new TextCell((p.Limit ?? "none") + (p.Exceeded ? ", passed" : ""), tone));
        }

        parts.WriteTo(to, ink);
        to.Write('\n');
        if (stress.WorstPhasePartByPart)
        {
            BenchText.Paragraph(to, "Each part stands with its own worst phase of the standing wave, the powers with the phase of the greatest heat: the parts' heat adds to more than that.", ink);
            to.Write('\n');
        }

        if (stress.Assumptions.Count > 0)
        {
            to.Write("Assumed\n");
            BenchText.List(to, stress.Assumptions, ink);
            to.Write('\n');
        }

        to.Write("Cautions\n");
        BenchText.List(to, stress.Cautions, ink);
    }

    /// <summary>Writes the result as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="name">The circuit's name.</param>
    /// <param name="stress">The result.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(string name, StressResult stress, Stream to)
    {
        ArgumentNullException.ThrowIfNull(stress);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-stress/1");
            json.WriteString("name", name);
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

            json.WriteString("says", stress.Sentence);
            JsonText.Number(json, "available_w", stress.AvailableW);
            JsonText.Number(json, "delivered_w", stress.DeliveredW);
            JsonText.Number(json, "reflected_w", stress.ReflectedW);
            JsonText.Number(json, "dissipated_w", stress.DissipatedW);
            json.WriteString("gives_first", stress.GivesFirst?.Part);
            JsonText.Number(json, "safe_power_w", stress.SafePowerW);
            json.WriteBoolean("worst_phase_part_by_part", stress.WorstPhasePartByPart);
            json.WriteStartArray("parts");
            foreach (PartStress p in stress.Parts)
            {
                json.WriteStartObject();
                json.WriteString("part", p.Part);
                JsonText.Number(json, "peak_voltage_v", p.PeakVoltageV);
                JsonText.Number(json, "rms_current_a", p.RmsCurrentA);
                JsonText.Number(json, "dissipation_w", p.DissipationW);
                JsonText.Number(json, "good_to_w", p.LimitPowerW);
                json.WriteString("limit", p.Limit);
                json.WriteBoolean("limit_assumed", p.LimitAssumed);
                json.WriteBoolean("limit_passed", p.Exceeded);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            JsonText.Strings(json, "assumed", stress.Assumptions);
            JsonText.Strings(json, "cautions", stress.Cautions);
        });
    }

    /// <summary>Writes the parts as CSV.</summary>
    /// <param name="stress">The result.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(StressResult stress, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(stress);
        to.Write("part,peak_voltage_v,rms_current_a,dissipation_w,good_to_w,limit,limit_passed\n");
        foreach (PartStress p in stress.Parts)
        {
            to.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"{CsvCell.Quote(p.Part)},{p.PeakVoltageV:0.######},{p.RmsCurrentA:0.######},{p.DissipationW:0.######},{p.LimitPowerW:0.######},{CsvCell.Quote(p.Limit ?? "")},{(p.Exceeded ? "true" : "false")}\n"));
        }
    }

    /// <summary>The question in words: <c>50 W at 145.65 MHz into 50 ohm</c>.</summary>
    internal static string Question(StressResult stress, double impedanceOhm)
    {
        StressLoad load = stress.Request.Load;
        string into = load.StandingWaveRatio is { } swr
            ? string.Create(CultureInfo.InvariantCulture, $"a standing wave ratio of {swr:0.##} in {impedanceOhm:0.##} ohm, at its worst phase")
            : load.ImpedanceOhm is { } z
                ? string.Create(CultureInfo.InvariantCulture, $"{z.Real:0.##}{(z.Imaginary < 0 ? '-' : '+')}{Math.Abs(z.Imaginary):0.##}j ohm")
                : string.Create(CultureInfo.InvariantCulture, $"{impedanceOhm:0.##} ohm");
        return string.Create(CultureInfo.InvariantCulture, $"{stress.Request.PowerW:0.###} W at {stress.Request.FrequencyHz / 1e6:0.####} MHz into {into}");
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

    private static string Watts(double value) => value.ToString("0.00", CultureInfo.InvariantCulture);
}
