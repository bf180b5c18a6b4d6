using System.Globalization;
using System.Text.Json;
using Spurless.Circuits.Requirements;
using Spurless.Circuits.Sensitivity;
using Spurless.Circuits.Tolerance;
using Spurless.Radio.Quantities;
using Spurless.Reports.Responses;
using Spurless.Reports.Text;
using Spurless.Sites.Tolerances;

namespace Spurless.Reports.Bench;

/// <summary>
/// Writes what tolerances do to a circuit: an answer and tables, JSON of the format <c>spurless-tolerance/1</c>, or CSV of the bands.
/// </summary>
public static class ToleranceWriter
{
    /// <summary>Writes the answer, the mask, the bands, the ranking and what was assumed.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(ToleranceAnswer answer, TextWriter to, TextInk ink)
    {
        ToleranceReading reading = ToleranceReading.Of(answer);
        ToleranceResult result = reading.Result;
        TextParagraphs.Paragraph(to, reading.Sentence, ink, TextTone.Strong);
        to.Write('\n');
        TextParagraphs.Paragraph(to, $"{reading.Name}, {Question(result)}", ink);
        if (reading.Mask.Count > 0)
        {
            to.Write('\n');
            WriteMask(reading, to, ink);
        }

        if (result.Bands.Count > 0)
        {
            to.Write('\n');
            WriteBands(result, to, ink);
        }

        if (result.Ranking.Count > 0)
        {
            to.Write('\n');
            WriteRanking(reading, to, ink);
        }

        to.Write("\nAssumed\n");
        TextParagraphs.List(to, reading.Assumptions, ink);
    }

    /// <summary>Writes the result as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(ToleranceAnswer answer, Stream to)
    {
        ToleranceReading reading = ToleranceReading.Of(answer);
        ToleranceResult result = reading.Result;
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-tolerance/1");
            json.WriteString("name", reading.Name);
            json.WriteString("says", reading.Sentence);
            json.WriteNumber("samples", result.Samples);
            json.WriteNumber("seed", result.Request.Seed);
            JsonText.Number(json, "lowest_temperature_c", result.Request.LowestC);
            JsonText.Number(json, "highest_temperature_c", result.Request.HighestC);
            JsonText.Number(json, "yield", result.Yield);
            JsonText.Number(json, "yield_low", result.YieldInterval?.Low);
            JsonText.Number(json, "yield_high", result.YieldInterval?.High);
            JsonText.Objects(json, "bands", result.Bands, band =>
            {
                JsonText.Number(json, "frequency_hz", band.FrequencyHz);
                Three(json, "s21_db", band.S21Db, band.NominalS21Db);
                Three(json, "s11_db", band.S11Db, band.NominalS11Db);
            });
            JsonText.Objects(json, "ranking", result.Ranking, share =>
            {
                json.WriteString("part", share.Part);
                JsonText.Number(json, "share", share.Share);
                JsonText.Number(json, "linear_share", share.LinearShare);
                Percentiles? tuned = reading.Tuning?.Gains.FirstOrDefault(g => g.Part == share.Part)?.LossDb;
                JsonText.Decibels(json, "tuned_loss_p50_db", tuned?.P50);
                JsonText.Decibels(json, "tuned_loss_p95_db", tuned?.P95);
            });
            json.WriteString("make_tunable", reading.Tuning is { } tuning ? tuning.Best?.Part : result.MostWorthTuning);
            JsonText.Objects(json, "mask", reading.Mask, finding =>
            {
                json.WriteString("demand", Word(finding.Demand));
                JsonText.Number(json, "frequency_hz", finding.WorstHz);
                JsonText.Decibels(json, "needed_db", finding.NeededDb);
                JsonText.Decibels(json, "achieved_db", finding.AchievedDb);
                json.WriteBoolean("meets", finding.Met);
            });
            Sensitivities(json, reading.Sensitivity);
            JsonText.Strings(json, "assumed", reading.Assumptions);
        });
    }

    /// <summary>Writes the bands as CSV.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(ToleranceAnswer answer, TextWriter to)
    {
        ToleranceReading reading = ToleranceReading.Of(answer);
        to.Write("frequency_hz,s21_db,s21_p5_db,s21_p50_db,s21_p95_db,s11_db,s11_p5_db,s11_p50_db,s11_p95_db\n");
        foreach (ToleranceBand b in reading.Result.Bands)
        {
            string[] cells =
            [
                .. new[]
                {
                    b.NominalS21Db,
                    b.S21Db.P5,
                    b.S21Db.P50,
                    b.S21Db.P95,
                    b.NominalS11Db,
                    b.S11Db.P5,
                    b.S11Db.P50,
                    b.S11Db.P95,
                }.Select(static v => CsvFigure.Of(v)),
            ];
            to.Write(string.Create(CultureInfo.InvariantCulture, $"{b.FrequencyHz:R},{string.Join(',', cells)}\n"));
        }
    }

    /// <summary>The question in words.</summary>
    internal static string Question(ToleranceResult result)
    {
        ToleranceRequest r = result.Request;
        string temperature = r.LowestC == r.HighestC
            ? FormattableString.Invariant($"at {r.LowestC:0.#} C")
            : FormattableString.Invariant($"at {r.LowestC:0.#} to {r.HighestC:0.#} C");
        return FormattableString.Invariant($"{result.Samples} specimens drawn by chance (seed {r.Seed}), {temperature}");
    }

    private static void WriteMask(ToleranceReading reading, TextWriter to, TextInk ink)
    {
        TextTable table = new(
            new TextColumn("demand as drawn", Wraps: true),
            new TextColumn("needed\ndB", TextSide.Right),
            new TextColumn("has\ndB", TextSide.Right),
            new TextColumn("to spare\ndB", TextSide.Right), new TextColumn("at\nMHz", TextSide.Right));
        foreach (MaskFinding f in reading.Mask)
        {
            TextTone tone = f.Met ? TextTone.Plain : TextTone.Harmful;
            table.Add(
                new TextCell(ToleranceReading.Demand(f), tone),
                Fixed(f.NeededDb, 1),
                Fixed(f.AchievedDb, 1),
                new TextCell(Signed(f.MarginDb), tone),
                MegahertzText.Of(f.WorstHz, 4));
        }

        table.WriteTo(to, ink);
    }

    private static void WriteBands(ToleranceResult result, TextWriter to, TextInk ink)
    {
        TextTable table = new(
            new TextColumn("frequency\nMHz", TextSide.Right),
            new TextColumn("S21\ndB", TextSide.Right),
            new TextColumn("S21\n5 %", TextSide.Right),
            new TextColumn("S21\n50 %", TextSide.Right),
            new TextColumn("S21\n95 %", TextSide.Right),
            new TextColumn("S11\ndB", TextSide.Right),
            new TextColumn("S11\n5 %", TextSide.Right),
            new TextColumn("S11\n50 %", TextSide.Right),
            new TextColumn("S11\n95 %", TextSide.Right));
        int count = result.Bands.Count, rows = Math.Min(count, ResponseWriter.Shown);
        for (int i = 0; i < rows; i++)
        {
            ToleranceBand b = result.Bands[rows == 1 ? 0 : (int)Math.Round((double)i * (count - 1) / (rows - 1))];
            table.Add(
                MegahertzText.Of(b.FrequencyHz, 4),
                Fixed(b.NominalS21Db, 2), Fixed(b.S21Db.P5, 2), Fixed(b.S21Db.P50, 2), Fixed(b.S21Db.P95, 2),
                Fixed(b.NominalS11Db, 2), Fixed(b.S11Db.P5, 2), Fixed(b.S11Db.P50, 2), Fixed(b.S11Db.P95, 2));
        }

        table.WriteTo(to, ink);
        if (rows < count)
        {
            TextParagraphs.Paragraph(
                to,
                FormattableString.Invariant($"{rows} of {count} frequencies are shown; the other formats list all."),
                ink,
                TextTone.Faint);
        }
    }

    private static void WriteRanking(ToleranceReading reading, TextWriter to, TextInk ink)
    {
        TextTable table = new(
            new TextColumn("part"),
            new TextColumn("share of spread\n%", TextSide.Right),
            new TextColumn("by derivatives\n%", TextSide.Right),
            new TextColumn("half lose, it tuned\ndB", TextSide.Right));
        foreach (ToleranceShare s in reading.Result.Ranking)
        {
            TextTone tone = s.Part == reading.Tuning?.Best?.Part ? TextTone.Strong : TextTone.Plain;
            TuningGain? gain = reading.Tuning?.Gains.FirstOrDefault(g => g.Part == s.Part);
            table.Add(
                new TextCell(s.Part, tone),
                Fixed(s.Share * 100, 1),
                Fixed(s.LinearShare * 100, 1),
                new TextCell(gain is null ? "" : Fixed(gain.LossDb.P50, 2), tone));
        }

        table.WriteTo(to, ink);
    }

    private static void Sensitivities(Utf8JsonWriter json, SensitivityResult? of)
    {
        JsonText.Number(json, "sensitivity_frequency_hz", of?.FrequenciesHz[0]);
        JsonText.Objects(json, "sensitivities", of?.Parts ?? [], p =>
        {
            json.WriteString("part", p.Part);
            json.WriteString("quantity", ToleranceReading.Quantity(p.Quantity).Key);
            JsonText.Number(json, "value", p.Nominal);
            JsonText.Decibels(json, "s21_db_per_percent", of!.S21DbPerPercent(p, 0));
            JsonText.Decibels(json, "s11_db_per_percent", of.S11DbPerPercent(p, 0));
        });
    }

    private static void Three(Utf8JsonWriter json, string name, Percentiles p, double nominal)
    {
        json.WriteStartObject(name);
        JsonText.Number(json, "p5", p.P5);
        JsonText.Number(json, "p50", p.P50);
        JsonText.Number(json, "p95", p.P95);
        JsonText.Number(json, "nominal", nominal);
        json.WriteEndObject();
    }

    private static string Word(MaskDemand demand) => demand switch
    {
        MaskDemand.PassLoss => "loss",
        MaskDemand.ReturnLoss => "return_loss",
        _ => "rejection",
    };

    private static string Fixed(double value, int decimals) => double.IsFinite(value)
        ? FixedText.Of(value, decimals)
        : "none";

    private static string Signed(double value) => Fixed(value, 1) is var text && text[0] is '-' ? text : "+" + text;
}
