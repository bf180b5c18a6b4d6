using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Design.Optimising;
using Spurless.Design.Tuning;
using Spurless.Radio.Quantities;
using Spurless.Reports.Text;
using Spurless.Sites.Designs;

namespace Spurless.Reports.Designs;

/// <summary>Writes what to turn: an answer and a table, or JSON of the format <c>spurless-tune/1</c>.</summary>
public static class TuneWriter
{
    /// <summary>The answer in a sentence or two.</summary>
    public static string Answer(TuneAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        TuningAdvice advice = answer.Advice;
        if (advice.Meets)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"It is within the mask, {DesignWords.Down(advice.Now.Min(static f => f.MarginDb))} dB to "
                    + $"spare by the fit: seal the trimmers and sweep it once more.");
        }

        DemandFinding worst = advice.Now.MinBy(static f => f.MarginDb * DesignWords.Weight(f.Kind))!;
        string off = FormattableString.Invariant(
            $"It is not within the mask: {Short(worst)} dB short at {DesignWords.Mhz(worst.WorstHz)}.");
        if (advice.Moves.Count == 0)
        {
            return off + " Turning the named parts brings nothing: a fixed part is off; the fit's values show which.";
        }

        TuningMove first = advice.Moves[0];
        return off + $" Turn {first.Part} {Way(first)} next, then sweep again."
            + (advice.CanMeet ? "" : " Even with all of them set best it stays short: a fixed part is off; the fit's values show which.");
    }

    /// <summary>What the answer rests on, and how far.</summary>
    public static string Rests(TuneAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return $"By the fit of the circuit to the sweep, {Spurless.Reports.Bench.FitWords.Left(answer.Fit)}. Inner values are known by "
            + "their tolerances alone: what counts is the way and the per cent, and the next sweep.";
    }

    /// <summary>Writes answer, moves and how it stands.</summary>
    public static void WriteText(TuneAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        TextParagraphs.Paragraph(to, Answer(answer), ink, TextTone.Strong);
        to.Write('\n');
        if (answer.Advice.Moves.Count > 0)
        {
            TextTable table = new(
                new TextColumn("turn", TextSide.Left),
                new TextColumn("from", TextSide.Right),
                new TextColumn("to", TextSide.Right),
                new TextColumn("by", TextSide.Right));
            foreach (TuningMove m in answer.Advice.Moves)
            {
                table.Add(
                    m.Part,
                    Value(answer, m.Part, m.Now),
                    Value(answer, m.Part, m.To),
                    Change(m));
            }

            table.WriteTo(to, ink);
            to.Write('\n');
        }

        TextTable stands = new(
            new TextColumn("at MHz", TextSide.Right),
            new TextColumn("demand", TextSide.Left),
            new TextColumn("asked dB", TextSide.Right),
            new TextColumn("now", TextSide.Right),
            new TextColumn("after", TextSide.Right));
        for (int i = 0; i < answer.Advice.Now.Count; i++)
        {
            DemandFinding now = answer.Advice.Now[i];
            stands.Add(
                MegahertzText.Of(now.WorstHz, 4),
                DesignWriter.Demand(now.Kind),
                now.NeededDb.ToString("0.0", CultureInfo.InvariantCulture),
                FixedText.Of(now.AchievedDb, "0.0#"),
                FixedText.Of(answer.Advice.After[i].AchievedDb, "0.0#"));
        }

        stands.WriteTo(to, ink);
        TextParagraphs.Paragraph(
            to,
            Rests(answer),
            ink,
            TextTone.Faint);
    }

    /// <summary>Writes the result as JSON, in UTF-8 with a final line feed.</summary>
    public static void WriteJson(TuneAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-tune/1");
            json.WriteString("says", Answer(answer));
            json.WriteBoolean("meets", answer.Advice.Meets);
            json.WriteBoolean("can_meet", answer.Advice.CanMeet);
            JsonText.Objects(json, "turn", answer.Advice.Moves, m =>
            {
                json.WriteString("part", m.Part);
                JsonText.Number(json, "now", m.Now);
                JsonText.Number(json, "to", m.To);
                JsonText.Number(json, "change", m.Change);
            });
            json.WriteStartArray("demands");
            for (int i = 0; i < answer.Advice.Now.Count; i++)
            {
                DemandFinding now = answer.Advice.Now[i];
                json.WriteStartObject();
                json.WriteString("demand", DesignWriter.Demand(now.Kind));
                JsonText.Number(json, "frequency_hz", now.WorstHz);
                JsonText.Decibels(json, "needed_db", now.NeededDb);
                JsonText.Decibels(json, "now_db", now.AchievedDb);
                JsonText.Decibels(json, "after_db", answer.Advice.After[i].AchievedDb);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            JsonText.Decibels(json, "rms_residual_db", answer.Fit.RmsResidualDb);
        });
    }

    /// <summary>How it stands, in a phrase: <c>0.8 dB short at 145.2 MHz</c>.</summary>
    public static string Stands(TuneAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        DemandFinding worst = answer.Advice.Now.MinBy(static f => f.MarginDb * DesignWords.Weight(f.Kind))!;
        return answer.Advice.Meets
            ? $"within the mask, {DesignWords.Down(answer.Advice.Now.Min(static f => f.MarginDb))} dB to spare"
            : FormattableString.Invariant($"{Short(worst)} dB short at {DesignWords.Mhz(worst.WorstHz)}");
    }

    /// <summary>What is short, rounded up: what is missing is never said to be nothing.</summary>
    private static string Short(DemandFinding worst) =>
        (Math.Max(1, Math.Ceiling((-worst.MarginDb * 100) - 1e-9)) / 100).ToString("0.0#", CultureInfo.InvariantCulture);

    private static string Change(TuningMove move)
    {
        string percent = FixedText.Of(100 * move.Change, "0.0");
        return (percent[0] == '-' ? "" : "+") + percent + " %";
    }

    /// <summary>Which way and by how much.</summary>
    public static string Way(TuningMove move) =>
        FormattableString.Invariant($"{(move.Change > 0 ? "up" : "down")} by {Math.Abs(100 * move.Change):0.0} %");

    /// <summary>A part's value with its unit.</summary>
    public static string Value(TuneAnswer answer, string name, double value) => answer.Fit.Fitted.Parts.First(p => p.Name == name) switch
    {
        Capacitor => FormattableString.Invariant($"{value * 1e12:0.00} pF"),
        Inductor => FormattableString.Invariant($"{value * 1e9:0.00} nH"),
        Line or Stub => FormattableString.Invariant($"{value * 1e3:0.0} mm"),
        _ => FormattableString.Invariant($"{value:G4}"),
    };
}
