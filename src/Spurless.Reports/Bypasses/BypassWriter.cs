using System.Globalization;
using System.Text.Json;
using Spurless.Circuits.Stress;
using Spurless.Drawing.Words;
using Spurless.Reports.Text;
using Spurless.Sites.Bypasses;

namespace Spurless.Reports.Bypasses;

/// <summary>
/// Writes what a bypass relay does: sentences and tables, JSON of the format <c>spurless-bypass/1</c>, or CSV, a row a figure.
/// </summary>
public static class BypassWriter
{
    /// <summary>The head of the CSV.</summary>
    public const string CsvHead = "quantity,value,unit,what";

    private static readonly Typography Signs = Typography.Plain;

    /// <summary>Writes the verdict, figures, margins, trials, parts, failures, ways, what was assumed, and cautions.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(BypassAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        TextParagraphs.Paragraph(to, BypassWords.Conclusion(answer), ink, TextTone.Strong);
        TextTable figures = new(new TextColumn("figure", Wraps: true), new("value", TextSide.Right));
        foreach (BypassRow row in BypassRows.Figures(answer, Signs))
        {
            figures.Add(row.What, row.Text);
        }

        Table("", figures);
        Table("Margins, on the transmitter's carrier into a matched line", Margins(answer));
        if (answer.Trials.Count > 0)
        {
            Table("Speech and keying", Trials(answer));
        }

        if (BypassRows.Parts(answer) is { Count: > 0 } parts)
        {
            Table("The filter's parts while it stands in the way", Parts(answer, parts));
        }

        TextTable failures = new(
            new TextColumn("when it fails", Wraps: true), new TextColumn("stands in the way", Wraps: true),
            new TextColumn("gets hot", Wraps: true));
        foreach (FailureRow row in BypassRows.Failures(answer))
        {
            failures.Add(row.What, row.InTheWay, row.Hot);
        }

        Table("", failures);
        foreach ((string head, IReadOnlyList<string> sentences) in BypassLists.Of(answer))
        {
            List(head, sentences);
        }

        List("Cautions", BypassWords.Cautions(answer));

        void Table(string head, TextTable table)
        {
            to.Write(head.Length > 0 ? $"\n{head}\n\n" : "\n"); // a table's head begins after an empty line
            table.WriteTo(to, ink);
        }

        void List(string head, IReadOnlyList<string> sentences)
        {
            if (sentences.Count > 0)
            {
                to.Write($"\n{head}\n");
                TextParagraphs.List(to, sentences.Select(StudyWords.Capital), ink);
            }
        }
    }

    /// <summary>Writes the answer as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(BypassAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-bypass/1");
            json.WriteString("says", BypassWords.Conclusion(answer));
            json.WriteString("name", answer.Document.Name);
            json.WriteNumber("frequency_hz", answer.Document.Frequency.Hertz);
            Number(json, "power_w", answer.Document.PowerW);
            Number(json, "swr", answer.Document.StandingWaveRatio);
            Number(json, "operates_at_w", answer.OperatesAtW);
            Number(json, "operates_at_worst_w", answer.OperatesAtWorstW);
            Number(json, "operates_at_best_w", answer.OperatesAtBestW);
            Number(json, "releases_below_w", answer.ReleasesBelowW);
            Number(json, "attack_s", answer.Press.AttackS);
            Number(json, "attack_worst_s", answer.WorstAttackS);
            Number(json, "hang_s", answer.Press.HangS);
            Number(json, "hang_worst_s", answer.WorstHangS);
            Number(json, "smoothing_v", answer.Press.SmoothingV);
            Number(json, "coil_current_a", answer.Press.CoilA);
            Number(json, "coil_needs_a", answer.Document.Circuit.Coil.OperatesA);
            JsonText.Decibels(json, "contact_loss_db", answer.Document.ContactLossDb);
            JsonText.Decibels(json, "strongest_off_air_dbm", answer.StrongestOffAirDbm);
            JsonText.Decibels(json, "off_air_sum_dbm", answer.OffAir?.SumDbm);
            json.WriteString("off_air_receiver", answer.OffAir?.Receiver);
            JsonText.Strings(json, "off_air_unknown", answer.OffAir?.Unknown ?? []);
            Filter(json, answer);
            Rows(json, answer);
        });
    }

    /// <summary>Writes the figures as CSV, a row each.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(BypassAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        to.Write(CsvHead + "\n");
        foreach (BypassRow row in BypassRows.Figures(answer, Signs))
        {
            string value = row.Value is { } known && double.IsFinite(known) ? known.ToString("G6", CultureInfo.InvariantCulture) : "";
            to.Write($"{row.Quantity},{value},{row.Unit},{CsvQuoting.Quote(row.What)}\n");
        }
    }

    private static TextTable Margins(BypassAnswer answer)
    {
        TextTable table = new(
            new TextColumn("supply", TextSide.Right), new("coil", TextSide.Right), new("current over need", TextSide.Right),
            new("drive over full", TextSide.Right), new("attack", TextSide.Right), new("least power", TextSide.Right));
        foreach (BypassCorner corner in answer.Corners)
        {
            table.Add(
                BypassWords.Si(corner.SupplyV, "V"),
                string.Create(CultureInfo.InvariantCulture, $"{corner.Celsius:0} C"),
                Ratio(corner.CoilMargin),
                Ratio(corner.SaturationMargin),
                BypassWords.SiOr(corner.AttackS, "s"),
                BypassWords.SiOr(corner.OperatesAtW, "W"));
        }

        return table;
    }

    private static TextTable Trials(BypassAnswer answer)
    {
        TextTable table = new(
            new TextColumn("sent"), new("peak power", TextSide.Right), new("went back", TextSide.Right),
            new("least hang", TextSide.Right), new("in the filter", TextSide.Right));
        foreach (KeyingTrial trial in answer.Trials)
        {
            table.Add(
                BypassWords.Of(trial),
                BypassWords.Si(trial.PowerW, "W"),
                trial.CameOver ? BypassAdvice.Times(trial) : "never over",
                trial.Chatters ? BypassWords.SiOr(trial.LeastHangS, "s") : "-",
                BypassWords.Si(trial.IntoFilterS, "s"));
        }

        return table;
    }

    private static TextTable Parts(
        BypassAnswer answer, IReadOnlyList<(PartStress Matched, PartStress Worst, double? EnergyJ, double? WorstEnergyJ)> parts)
    {
        bool waves = answer.Filter?.WorstStress is not null;
        List<TextColumn> columns = [new("part"), new("heat", TextSide.Right), new("peak", TextSide.Right), new("a press", TextSide.Right)];
        if (waves)
        {
            columns.AddRange([new("heat, SWR", TextSide.Right), new("peak, SWR", TextSide.Right), new("a press, SWR", TextSide.Right)]);
        }

        TextTable table = new([.. columns]);
        foreach ((PartStress matched, PartStress worst, double? energy, double? worstEnergy) in parts)
        {
            List<TextCell> cells =
            [
                matched.Part, BypassWords.Si(matched.DissipationW, "W"), BypassWords.Si(matched.PeakVoltageV, "V"),
                BypassWords.SiOr(energy, "J"),
            ];
            if (waves)
            {
                cells.AddRange(
                [
                    BypassWords.Si(worst.DissipationW, "W"), BypassWords.Si(worst.PeakVoltageV, "V"), BypassWords.SiOr(worstEnergy, "J"),
                ]);
            }

            table.Add([.. cells]);
        }

        return table;
    }

    // Six digits: what a computation with error control is good for, and more than the parts' figures are.
    private static void Number(Utf8JsonWriter json, string name, double? value) => JsonText.Number(
        json, name,
        value is { } known && double.IsFinite(known)
            ? double.Parse(known.ToString("G6", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)
            : null);

    internal static string Ratio(double value) => value.ToString(value >= 99.5 ? "0" : "0.00", CultureInfo.InvariantCulture);

    private static void Filter(Utf8JsonWriter json, BypassAnswer answer)
    {
        JsonText.Decibels(json, "isolation_db", answer.Filter?.Isolation?.LossDb);
        Number(json, "isolation_at_hz", answer.Filter?.Isolation?.FrequencyHz);
        JsonText.Decibels(json, "isolation_alone_db", answer.Filter?.Isolation?.AloneDb);
        JsonText.Decibels(
            json, "isolation_over_db", answer.Filter is { ShareWhileOver: > 0 } f ? -10 * Math.Log10(f.ShareWhileOver) : null);
        json.WriteString("filter", answer.Filter?.Name);
        Number(json, "filter_heat_w", answer.Filter?.HeatW);
        Number(json, "filter_heat_worst_w", answer.Filter?.WorstHeatW);
        Number(json, "filter_energy_j", answer.Filter?.HeatW * answer.Press.AttackS);
        Number(json, "filter_bears_w", answer.Filter?.BearsW);
        Number(json, "filter_voltage_bears_w", answer.Filter?.VoltageBearsW);
        JsonText.Objects(json, "parts", BypassRows.Parts(answer), p =>
        {
            json.WriteString("part", p.Matched.Part);
            Number(json, "peak_voltage_v", p.Matched.PeakVoltageV);
            Number(json, "dissipation_w", p.Matched.DissipationW);
            Number(json, "energy_j", p.EnergyJ);
            Number(json, "worst_peak_voltage_v", p.Worst.PeakVoltageV);
            Number(json, "worst_dissipation_w", p.Worst.DissipationW);
            Number(json, "worst_energy_j", p.WorstEnergyJ);
        });
    }

    private static void Rows(Utf8JsonWriter json, BypassAnswer answer)
    {
        JsonText.Objects(json, "margins", answer.Corners, corner =>
        {
            Number(json, "supply_v", corner.SupplyV);
            Number(json, "coil_celsius", corner.Celsius);
            Number(json, "coil_margin", corner.CoilMargin);
            Number(json, "saturation_margin", corner.SaturationMargin);
            Number(json, "attack_s", corner.AttackS);
            Number(json, "operates_at_w", corner.OperatesAtW);
        });
        JsonText.Objects(json, "trials", answer.Trials, trial =>
        {
            json.WriteString("sent", trial.Kind == KeyingKind.Morse ? "morse" : "two_tones");
            Number(json, "apart_hz", trial.Kind == KeyingKind.Morse ? null : trial.ApartHz);
            Number(json, "power_w", trial.PowerW);
            json.WriteBoolean("came_over", trial.CameOver);
            json.WriteNumber("went_back", trial.WentBack);
            Number(json, "lasts_s", trial.LastsS);
            Number(json, "least_hang_s", trial.Chatters ? trial.LeastHangS : null);
            Number(json, "into_filter_s", trial.IntoFilterS);
        });
        JsonText.Objects(json, "failures", BypassRows.Failures(answer), row =>
        {
            json.WriteString("what", row.What);
            json.WriteBoolean("filter_in_the_way", row.FilterInTheWay);
            json.WriteString("gets_hot", row.Hot);
        });
        Number(json, "keyed_lead_s", answer.Keyed.LeadS);
        Number(json, "keyed_tail_s", answer.Keyed.TailS);
        JsonText.Strings(json, "ways", BypassRows.Ways(answer));
        JsonText.Strings(json, "assumed", BypassWords.Assumed(answer));
        JsonText.Strings(json, "cautions", BypassWords.Cautions(answer));
    }
}
