using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Radio.Quantities;
using Spurless.Reports.Text;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Sites.Recordings;
using static Spurless.Reports.Text.TextParagraphs;

namespace Spurless.Reports.Recordings;

/// <summary>Writes what was heard: an answer and a table, JSON of the format <c>spurless-listen/1</c>, or CSV, a row a kind.</summary>
public static class ListenWriter
{
    /// <summary>The head of the CSV.</summary>
    public const string CsvHead =
        "start_s,end_s,centre_hz,kind,confidence,symbol_rate_bd,tone_hz,code,units_checked,units_good,"
            + "inverted,width_hz,deviation_hz,level_db,snr_db,because";

    /// <summary>Writes the answer, then each transmission with its kinds.</summary>
    public static void WriteText(ListenAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        Paragraph(to, ListenWords.Answer(answer.Heard), ink, TextTone.Strong);
        if (answer.Heard.Transmissions.Count > 0)
        {
            to.Write('\n');
            bool band = answer.Heard.IsBand;
            List<TextColumn> columns = [new("from", TextSide.Right), new("to", TextSide.Right)];
            if (band)
            {
                columns.Add(new TextColumn("MHz", TextSide.Right));
            }

            columns.AddRange([new TextColumn("kind", Wraps: true), new TextColumn("sure, %", TextSide.Right),
                new TextColumn("by", Wraps: true)]);
            TextTable table = new([.. columns]);
            foreach (Transmission t in answer.Heard.Transmissions)
            {
                foreach (Finding f in t.Kinds)
                {
                    List<TextCell> cells = [ListenWords.Moment(answer.Heard, f.StartS), ListenWords.Moment(answer.Heard, f.EndS)];
                    if (band)
                    {
                        cells.Add(MegahertzText.Of(t.CentreHz!.Value, 4));
                    }

                    cells.AddRange([
                        ListenWords.Name(f) + (f.Kind == SignalKind.Morse ? $": {f.Code}" : ""),
                        ListenWords.Percent(f.Confidence),
                        ListenWords.Because(f)]);
                    table.Add([.. cells]);
                }
            }

            table.WriteTo(to, ink);
        }

        if (answer.Fits.Count > 0)
        {
            to.Write('\n');
            TextTable fits = new(new TextColumn("mixture", Wraps: true), new("fits, %", TextSide.Right), new("because", Wraps: true));
            foreach (MixtureFit fit in answer.Fits.Take(8))
            {
                fits.Add(StudyWords.Mixture(fit.Product, Typography.Plain), ListenWords.Percent(fit.Share), ListenWords.Reasons(fit));
            }

            fits.WriteTo(to, ink);
        }

        to.Write('\n');
        Paragraph(to, ListenWords.Caution, ink, TextTone.Faint);
    }

    /// <summary>Writes the result as JSON, in UTF-8 with a final line feed.</summary>
    public static void WriteJson(ListenAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-listen/1");
            json.WriteString("recording", Path.GetFileName(answer.Recording));
            json.WriteString("says", ListenWords.Answer(answer.Heard));
            JsonText.Number(json, "duration_s", answer.Heard.DurationS);
            if (answer.Heard.Start is { } start)
            {
                json.WriteString("start", Time(start));
            }
            else
            {
                json.WriteNull("start");
            }

            json.WriteStartArray("transmissions");
            foreach (Transmission t in answer.Heard.Transmissions)
            {
                Heard(json, t);
            }

            json.WriteEndArray();
            if (answer.Receiver is { } receiver)
            {
                json.WriteString("receiver", receiver);
                json.WriteStartArray("fits");
                foreach (MixtureFit fit in answer.Fits)
                {
                    Fit(json, fit);
                }

                json.WriteEndArray();
            }
        });
    }

    /// <summary>Writes when what was on as a log that <c>locate</c> takes.</summary>
    public static void WriteLog(ListenAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        HeardLog log = answer.Log;
        to.Write($"# Heard on {TextFlow.Printable(Path.GetFileName(answer.Recording))}, by Spurless.\n");
        if (!log.TimeKnown)
        {
            to.Write(
                "# The recording does not say when it was made: times count from "
                    + "2000-01-01T00:00:00Z, only their differences mean anything.\n");
        }

        to.Write("time," + string.Join(',', log.Names.Select(CsvQuoting.Quote)) + "\n");
        foreach (HeardRow row in log.Rows)
        {
            to.Write(Time(row.Time) + "," + string.Join(',', row.On.Select(static on => on switch { true => "1", false => "0", _ => "" }))
                + "\n");
        }
    }

    /// <summary>Writes the result as CSV, a row a kind.</summary>
    public static void WriteCsv(ListenAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        to.Write(CsvHead);
        to.Write('\n');
        foreach (Transmission t in answer.Heard.Transmissions)
        {
            foreach (Finding f in t.Kinds)
            {
                string[] cells =
                [
                    Cell(f.StartS, "0.###"), Cell(f.EndS, "0.###"), Cell(t.CentreHz, "0.#"), ListenWords.Token(f.Kind),
                        Cell(f.Confidence, "0.###"),
                    Cell(f.SymbolRateBd, "0.##"), Cell(f.ToneHz, "0.###"), CsvQuoting.Quote(f.Code ?? ""), Cell(f.UnitsChecked, "0"),
                        Cell(f.UnitsGood, "0"),
                    f.Inverted switch { true => "true", false => "false", _ => "" }, Cell(t.WidthHz, "0"), Cell(t.DeviationHz, "0"),
                        Cell(t.LevelDb, "0.00"), Cell(t.SnrDb, "0.00"),
                    CsvQuoting.Quote(ListenWords.Because(f)),
                ];
                to.Write(string.Join(',', cells));
                to.Write('\n');
            }
        }
    }

    private static void Heard(Utf8JsonWriter json, Transmission t)
    {
        json.WriteStartObject();
        JsonText.Number(json, "start_s", Second(t.StartS));
        JsonText.Number(json, "end_s", Second(t.EndS));
        JsonText.Number(json, "centre_hz", t.CentreHz is { } hz ? Math.Round(hz, 1) : null);
        JsonText.Number(json, "width_hz", t.WidthHz is { } w ? Math.Round(w) : null);
        JsonText.Decibels(json, "level_db", t.LevelDb);
        JsonText.Decibels(json, "snr_db", t.SnrDb);
        json.WriteString("modulation", t.Modulation switch
        {
            Modulation.Fm => "fm",
            Modulation.Am => "am",
            Modulation.Ssb => "ssb",
            Modulation.Keyed => "keyed",
            _ => null,
        });
        JsonText.Number(json, "deviation_hz", t.DeviationHz is { } d ? Math.Round(d) : null);
        json.WriteStartArray("kinds");
        foreach (Finding f in t.Kinds)
        {
            Kind(json, f);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Fit(Utf8JsonWriter json, MixtureFit fit)
    {
        json.WriteStartObject();
        JsonText.TermsOf(json, fit.Product.Terms);
        json.WriteNumber("frequency_hz", fit.Product.FrequencyHz);
        JsonText.Number(json, "probability", Math.Round(fit.Share, 6));
        json.WriteString("because", ListenWords.Reasons(fit));
        json.WriteEndObject();
    }

    private static void Kind(Utf8JsonWriter json, Finding f)
    {
        json.WriteStartObject();
        json.WriteString("kind", ListenWords.Token(f.Kind));
        JsonText.Number(json, "confidence", Math.Round(f.Confidence, 3));
        JsonText.Number(json, "start_s", Second(f.StartS));
        JsonText.Number(json, "end_s", Second(f.EndS));
        JsonText.Number(json, "symbol_rate_bd", f.SymbolRateBd is { } bd ? Math.Round(bd, 2) : null);
        JsonText.Number(json, "tone_hz", f.ToneHz is { } hz ? Math.Round(hz, 3) : null);
        json.WriteString("code", f.Code);
        JsonText.Number(json, "units_checked", f.UnitsChecked);
        JsonText.Number(json, "units_good", f.UnitsGood);
        if (f.Inverted is { } inverted)
        {
            json.WriteBoolean("inverted", inverted);
        }
        else
        {
            json.WriteNull("inverted");
        }

        json.WriteString("because", ListenWords.Because(f));
        json.WriteEndObject();
    }

    private static double Second(double s) => Math.Round(s, 3);

    /// <summary>A moment in ISO 8601, to the millisecond, in UTC.</summary>
    internal static string Time(DateTimeOffset time) =>
        time.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    private static string Cell(double? value, string format) => value is { } v && double.IsFinite(v)
        ? FixedText.Of(v, format) : "";
}
