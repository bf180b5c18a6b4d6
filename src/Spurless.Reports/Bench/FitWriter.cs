using System.Globalization;
using System.Text.Json;
using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;
using Spurless.Fit;
using Spurless.Reports.Text;
using Spurless.Sites.Fits;

namespace Spurless.Reports.Bench;

/// <summary>Writes what a fit found: an answer and tables, JSON of the format <c>spurless-fit/1</c>, or CSV of the values.</summary>
public static class FitWriter
{
    /// <summary>Why values fitted to a sweep that the circuit does not explain are not worth giving; null where it explains it.</summary>
    public static Refusal? Refuse(FitAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        FitResult result = answer.Result;
        if (!result.ExplainsNothing)
        {
            return null;
        }

        string other = result.Tracings.Length > 0 ? $"; the sweep fits far better {FitFindingWords.Change(result.Tracings[0])}" : "";
        return new Refusal(
            string.Create(
                CultureInfo.InvariantCulture,
                $"the circuit does not explain this sweep: {100 * result.Unexplained:0} % of its frequency "
                    + $"response is left over, so no value can be told{other}"),
            "look whether it is the sweep of this circuit, which port is which, and at the tracing");
    }

    /// <summary>Writes the answer, the values, what is open, what to measure next, and what the instrument did.</summary>
    /// <param name="answer">What was found.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(FitAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        FitResult result = answer.Result;
        TextParagraphs.Paragraph(to, FitWords.Answer(result), ink, TextTone.Strong);
        to.Write('\n');
        TextTable table = new(
            new TextColumn("part", TextSide.Left),
            new TextColumn("", TextSide.Left),
            new TextColumn("value", TextSide.Right),
            new TextColumn("95 % from", TextSide.Right),
            new TextColumn("to", TextSide.Right), new TextColumn("E24", TextSide.Right), new TextColumn("known", TextSide.Left));
        foreach (FittedValue v in result.Values)
        {
            table.Add(
                v.Part,
                FitWords.Symbol(v.Quantity),
                FitNumbers.Text(v.Value, v.Quantity),
                FitNumbers.Text(v.Low, v.Quantity),
                FitNumbers.Text(v.High, v.Quantity),
                v is { Marked: { } marked, Quantity: CircuitQuantity.CapacitanceF } ? FitNumbers.Text(marked, v.Quantity, 2) : "",
                v.Identifiable ? "yes" : "no");
        }

        table.WriteTo(to, ink);
        if (FitRounding.Of(result) is { } rounding)
        {
            TextParagraphs.Paragraph(to, FitWords.Rounding(rounding), ink, TextTone.Faint);
        }

        Section(to, "Not told apart by the sweep", result.Inseparable.Select(FitFindingWords.Inseparable), ink);
        Section(to, "Another tracing", result.Tracings.Select(FitWords.Tracing), ink);
        Section(to, "Measure next", FitFindingWords.Next(result) is { } next ? [next] : [], ink);
        Section(to, $"The instrument, as found (calibration taken as '{FitWords.Calibration(result)}')", FitWords.Instrument(result), ink);
        Section(to, "Inductance in series with the capacitors, as found", FitWords.Leads(result), ink);
        Section(to, "Remarks", FitFindingWords.Remarks(result), ink);
    }

    /// <summary>Writes the result as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="answer">What was found.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(FitAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        FitResult result = answer.Result;
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-fit/1");
            json.WriteString("name", result.Traced.Name);
            json.WriteString("says", FitWords.Answer(result));
            Values(json, result);
            Inseparable(json, result);
            JsonText.Decibels(json, "rms_residual_db", result.RmsResidualDb);
            json.WriteBoolean("structured", result.IsStructured);
            json.WriteString("calibration", FitWords.Calibration(result));
            JsonText.Strings(json, "alarms", FitFindingWords.Alarms(result));
            SeriesInductances(json, result);
            Traces(json, result);
            OtherTracings(json, result);
            json.WriteString("measure_next", FitFindingWords.Next(result));
            JsonText.Strings(json, "remarks", FitFindingWords.Remarks(result));
            json.WriteBoolean("complete", result.IsComplete);
        });
    }

    /// <summary>Writes the values as a table.</summary>
    /// <param name="answer">What was found.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(FitAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        FitResult result = answer.Result;
        to.Write("part,quantity,value,low,high,identifiable\n");
        foreach (FittedValue v in result.Values)
        {
            to.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"{CsvQuoting.Quote(v.Part)},{FitNumbers.Name(v.Quantity)},{v.Value:R},{v.Low:R},{v.High:R},"
                    + $"{(v.Identifiable ? "true" : "false")}\n"));
        }
    }

    private static void Values(Utf8JsonWriter json, FitResult result)
    {
        JsonText.Objects(json, "parameters", result.Values, v =>
        {
            json.WriteString("part", v.Part);
            json.WriteString("quantity", FitNumbers.Name(v.Quantity));
            JsonText.Number(json, "value", v.Value);
            JsonText.Number(json, "low", v.Low);
            JsonText.Number(json, "high", v.High);
            json.WriteBoolean("identifiable", v.Identifiable);
            JsonText.Number(json, "estimate", v.Estimate);
            JsonText.Number(json, "marked", v.Marked);
        });
    }

    private static void Inseparable(Utf8JsonWriter json, FitResult result)
    {
        json.WriteStartArray("inseparable");
        foreach (InseparableParts group in result.Inseparable)
        {
            json.WriteStartArray();
            foreach (string part in group.Parts)
            {
                json.WriteStringValue(part);
            }

            json.WriteEndArray();
        }

        json.WriteEndArray();
        JsonText.Strings(json, "inseparable_because", result.Inseparable.Select(FitFindingWords.Inseparable));
    }

    private static void SeriesInductances(Utf8JsonWriter json, FitResult result)
    {
        JsonText.Objects(json, "series_inductances", result.Leads, lead =>
        {
            json.WriteString("part", lead.Capacitor);
            JsonText.Number(json, "value_h", lead.ValueH);
            JsonText.Number(json, "low_h", lead.LowH);
            JsonText.Number(json, "high_h", lead.HighH);
        });
    }

    private static void Traces(Utf8JsonWriter json, FitResult result)
    {
        JsonText.Objects(json, "traces", result.Traces, trace =>
        {
            json.WriteString("parameter", FitWords.Name(trace, result));
            JsonText.Decibels(json, "noise_db", FitWords.Level(trace.Noise, result));
            JsonText.Decibels(json, "residual_db", FitWords.Level(trace.Residual, result));
            JsonText.Decibels(json, "gain_db", 20 * Math.Log10(trace.Gain.Magnitude));
            json.WriteNumber("points_left_out", trace.LeftOut);
        });
    }

    private static void OtherTracings(Utf8JsonWriter json, FitResult result)
    {
        JsonText.Objects(json, "other_tracings", result.Tracings, tracing =>
        {
            json.WriteString("what", FitFindingWords.Change(tracing));
            json.WriteString("part", FitFindingWords.Changed(tracing));
            JsonText.Number(json, "residual_ratio", tracing.ResidualRatio);
        });
    }

    private static void Section(TextWriter to, string head, IEnumerable<string> sentences, TextInk ink)
    {
        string[] all = [.. sentences];
        if (all.Length > 0)
        {
            to.Write($"\n{head}\n");
            TextParagraphs.List(to, all, ink);
        }
    }
}
