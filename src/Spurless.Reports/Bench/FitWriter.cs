using System.Globalization;
using System.Numerics;
using System.Text.Json;
using Spurless.Circuits.Fit;
using Spurless.Circuits.Solving;
using Spurless.Reports.Text;

namespace Spurless.Reports.Bench;

/// <summary>Writes what a fit found: an answer and tables, JSON of the format <c>spurless-fit/1</c>, or CSV of the values.</summary>
public static class FitWriter
{
    /// <summary>Writes the answer, the values, what is open, what to measure next, and what the instrument did.</summary>
    /// <param name="result">What was found.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(FitResult result, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(result);
        BenchText.Paragraph(to, FitWords.Answer(result), ink, TextTone.Strong);
        to.Write('\n');
        TextTable table = new(
            new TextColumn("part", TextSide.Left), new TextColumn("", TextSide.Left), new TextColumn("value", TextSide.Right), new TextColumn("95 % from", TextSide.Right),
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
            BenchText.Paragraph(to, FitWords.Rounding(rounding), ink, TextTone.Faint);
        }

        Section(to, "Not told apart by the sweep", result.Inseparable.Select(static i => i.Words), ink);
        Section(to, "Another tracing", result.Tracings.Select(FitWords.Tracing), ink);
        Section(to, "Measure next", result.Next is { } next ? [$"{next.Words}: {next.Effect}"] : [], ink);
        Section(to, "The instrument, as found", FitWords.Instrument(result), ink);
        Section(to, "Remarks", result.Remarks, ink);
    }

    /// <summary>Writes the result as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="result">What was found.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(FitResult result, Stream to)
    {
        ArgumentNullException.ThrowIfNull(result);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-fit/1");
            json.WriteString("name", result.Traced.Name);
            json.WriteString("says", FitWords.Answer(result));
            json.WriteStartArray("parameters");
            foreach (FittedValue v in result.Values)
            {
                json.WriteStartObject();
                json.WriteString("part", v.Part);
                json.WriteString("quantity", FitNumbers.Name(v.Quantity));
                JsonText.Number(json, "value", v.Value);
                JsonText.Number(json, "low", v.Low);
                JsonText.Number(json, "high", v.High);
                json.WriteBoolean("identifiable", v.Identifiable);
                JsonText.Number(json, "estimate", v.Estimate);
                JsonText.Number(json, "marked", v.Marked);
                json.WriteEndObject();
            }

            json.WriteEndArray();
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
            JsonText.Strings(json, "inseparable_because", result.Inseparable.Select(static i => i.Words));
            JsonText.Number(json, "rms_residual_db", result.RmsResidualDb);
            json.WriteBoolean("structured", result.IsStructured);
            json.WriteStartArray("traces");
            foreach (TraceFit trace in result.Traces)
            {
                json.WriteStartObject();
                json.WriteString("parameter", FitWords.Name(trace, result));
                JsonText.Number(json, "noise_db", FitWords.Level(trace.Noise, result));
                JsonText.Number(json, "residual_db", FitWords.Level(trace.Residual, result));
                JsonText.Number(json, "gain_db", 20 * Math.Log10(trace.Gain.Magnitude));
                json.WriteNumber("points_left_out", trace.LeftOut);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("other_tracings");
            foreach (TracingFinding tracing in result.Tracings)
            {
                json.WriteStartObject();
                json.WriteString("what", tracing.Words);
                json.WriteString("part", tracing.Part);
                JsonText.Number(json, "residual_ratio", tracing.ResidualRatio);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            if (result.Next is { } next)
            {
                json.WriteString("measure_next", $"{next.Words}: {next.Effect}");
            }
            else
            {
                json.WriteNull("measure_next");
            }

            JsonText.Strings(json, "remarks", result.Remarks);
            json.WriteBoolean("complete", result.IsComplete);
        });
    }

    /// <summary>Writes the values as a table.</summary>
    /// <param name="result">What was found.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(FitResult result, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(result);
        to.Write("part,quantity,value,low,high,identifiable\n");
        foreach (FittedValue v in result.Values)
        {
            to.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"{Studies.CsvCell.Quote(v.Part)},{FitNumbers.Name(v.Quantity)},{v.Value:R},{v.Low:R},{v.High:R},{(v.Identifiable ? "true" : "false")}\n"));
        }
    }

    private static void Section(TextWriter to, string head, IEnumerable<string> sentences, TextInk ink)
    {
        string[] all = [.. sentences];
        if (all.Length > 0)
        {
            to.Write($"\n{head}\n");
            BenchText.List(to, all, ink);
        }
    }
}
