using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Reports.Text;
using Spurless.Sites.Plans;
using static Spurless.Reports.Text.TextParagraphs;

namespace Spurless.Reports.Plans;

/// <summary>Writes the channels of a band: a table, JSON of the format <c>spurless-plan/1</c>, or CSV.</summary>
public static class PlanWriter
{
    /// <summary>So many channels are shown; JSON and CSV list all.</summary>
    public const int Shown = 12;

    private static readonly Typography Signs = Typography.Plain;

    /// <summary>Writes them as text, best first.</summary>
    /// <param name="answer">The channels.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(PlanAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        ArgumentNullException.ThrowIfNull(ink);
        to.Write(ink.Apply(TextFlow.Printable($"{answer.Question.Site.Document.Site}: {answer.Receiver}"), TextTone.Strong) + "\n\n");
        Paragraph(to, PlanWords.Answer(answer, Signs));
        if (answer.Offered.Count > 0)
        {
            to.Write('\n');
            Table(answer).WriteTo(to, ink);
            if (answer.Offered.Count > Shown)
            {
                Paragraph(to, $"{Figures.Count(answer.Offered.Count - Shown, Signs)} more with --format csv.");
            }
        }

        Section(to, ink, "Besides", Besides(answer, Signs));
        if (answer.Together is { } together)
        {
            Section(to, ink, "Side by side", PlanWords.Together(answer, together, Signs));
        }

        Section(to, ink, "Not offered", PlanWords.NotOffered(answer, Signs));
        Section(to, ink, "To be said", [PlanWords.Decides, PlanWords.Counted, PlanWords.Looked(answer)]);
    }

    /// <summary>Writes them as JSON.</summary>
    /// <param name="answer">The channels.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(PlanAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-plan/1");
            json.WriteString("site", answer.Question.Site.Document.Site);
            json.WriteString("receiver", answer.Receiver);
            json.WriteNumber("present_hz", answer.PresentHz);
            json.WriteString("says", PlanWords.Answer(answer, Signs));
            json.WriteNumber("from_hz", answer.Question.FromHz);
            json.WriteNumber("to_hz", answer.Question.ToHz);
            json.WriteNumber("raster_hz", answer.Question.RasterHz);
            JsonText.Objects(json, "transmitters", answer.Transmitters, transmitter =>
            {
                json.WriteString("emitter", transmitter.Name);
                json.WriteNumber("present_hz", transmitter.PresentHz);
                json.WriteNumber("shift_hz", transmitter.ShiftHz);
            });
            Dictionary<long, PlanLook> looks = answer.Looks.ToDictionary(static l => l.FrequencyHz);
            JsonText.Objects(
                json, "channels", answer.Offered, c => Write(json, answer, c, looks.GetValueOrDefault(c.FrequencyHz)));
            JsonText.Objects(json, "not_offered", answer.NotOffered, taken =>
            {
                json.WriteNumber("frequency_hz", taken.FrequencyHz);
                json.WriteString("reason", Reason(taken.Reason));
                json.WriteString("by", taken.By);
            });
            JsonText.Objects(json, "with_the_shift", answer.WithTheShift, product => Members(json, product));
            Write(json, answer.Together);
            JsonText.Strings(json, "remarks", [PlanWords.Decides, PlanWords.Counted, PlanWords.Looked(answer)]);
        });
    }

    /// <summary>Writes them as CSV, a row a channel.</summary>
    /// <param name="answer">The channels.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(PlanAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        to.Write(
            "frequency_hz,transmit_hz,harmful,marginal,unknown,worst_over_noise_db,sum_over_noise_db,"
                + "nearest_hz,nearest_order,nearest_emitters,not_offered\n");
        foreach (PlanChannel c in answer.Offered)
        {
            string nearest = c.Nearest is { } near
                ? $"{near.FrequencyHz},{near.Order},{CsvQuoting.Quote(StudyWords.Names(near.Terms, Signs))}"
                : ",,";
            to.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"{c.FrequencyHz},{Transmit(answer, c.FrequencyHz)},{c.Harmful},{c.Marginal},{c.Unknown},"
                    + $"{CsvFigure.Of(c.WorstOverNoiseDb)},{CsvFigure.Of(c.SumOverNoiseDb)},{nearest},\n"));
        }

        foreach (PlanTaken t in answer.NotOffered)
        {
            to.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"{t.FrequencyHz},{Transmit(answer, t.FrequencyHz)},,,,,,,,,{CsvQuoting.Quote(PlanWords.Why(t))}\n"));
        }
    }

    private static long? Transmit(PlanAnswer answer, long frequencyHz) =>
        answer.Transmitters is [var one] ? frequencyHz + one.ShiftHz : null;

    private static TextTable Table(PlanAnswer answer)
    {
        bool pair = answer.Transmitters.Count == 1;
        TextColumn[] transmit = pair ? [new TextColumn("transmit\nMHz", TextSide.Right)] : [];
        TextTable table = new(
        [
            new TextColumn("receive\nMHz", TextSide.Right),
            .. transmit,
            new TextColumn("harmful", TextSide.Right),
            new TextColumn("marginal", TextSide.Right),
            new TextColumn("worst\ndB", TextSide.Right),
            new TextColumn("sum\ndB", TextSide.Right),
            new TextColumn("order", TextSide.Right),
            new TextColumn("nearest mixture", Wraps: true),
        ]);
        foreach (PlanChannel c in answer.Offered.Take(Shown))
        {
            TextCell[] other = pair ? [PlanWords.Megahertz(c.FrequencyHz + answer.Transmitters[0].ShiftHz)] : [];
            table.Add(
            [
                new TextCell(PlanWords.Megahertz(c.FrequencyHz), Tone(c)),
                .. other,
                Text(c.Harmful),
                Text(c.Marginal),
                c.WorstOverNoiseDb is { } worst ? Figures.SignedDb(worst, Signs) : "",
                c.SumOverNoiseDb is { } sum ? Figures.SignedDb(sum, Signs) : "",
                c.Nearest is { } near ? Text(near.Order) : "",
                c.Nearest is { } nearest ? StudyWords.Names(nearest.Terms, Signs) : "none over the report floor",
            ]);
            foreach (string note in Notes(c, Signs))
            {
                table.Note(note, TextTone.Faint);
            }
        }

        return table;
    }

    /// <summary>What is to be said of the best channels beside their mixtures.</summary>
    public static IEnumerable<string> Besides(PlanAnswer answer, Typography signs) =>
        (PlanWords.Shift(answer, signs) is { } shift ? [shift] : Array.Empty<string>()).Concat(PlanWords.BesidesOf(answer, signs));

    /// <summary>What is to be said of a channel under its figures.</summary>
    public static IEnumerable<string> Notes(PlanChannel channel, Typography signs)
    {
        if (channel.Unknown > 0)
        {
            yield return channel.Unknown == 1
                ? "1 mixture of unknown level can land here."
                : $"{Figures.Count(channel.Unknown, signs)} mixtures of unknown level can land here.";
        }

        foreach (PlanElsewhere elsewhere in channel.Elsewhere.Where(static e => e.Harmful + e.Marginal + e.Unknown > 0))
        {
            yield return PlanWords.Elsewhere(elsewhere, signs);
        }
    }

    private static TextTone Tone(PlanChannel c) => c.Harmful > 0 ? TextTone.Harmful : c.IsQuiet ? TextTone.Clear : TextTone.Marginal;

    private static string Text(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static void Write(Utf8JsonWriter json, PlanAnswer answer, PlanChannel c, PlanLook? look)
    {
        json.WriteNumber("frequency_hz", c.FrequencyHz);
        JsonText.Number(json, "transmit_hz", Transmit(answer, c.FrequencyHz));
        json.WriteNumber("harmful", c.Harmful);
        json.WriteNumber("marginal", c.Marginal);
        json.WriteNumber("unknown", c.Unknown);
        JsonText.Decibels(json, "worst_over_noise_db", c.WorstOverNoiseDb);
        JsonText.Decibels(json, "sum_over_noise_db", c.SumOverNoiseDb);
        json.WriteBoolean("sum_is_bound", c.SumIsBound);
        Write(json, "nearest", c.Nearest);
        Write(json, "worst", c.Worst);
        JsonText.Objects(json, "other_receivers", c.Elsewhere, elsewhere =>
        {
            json.WriteString("receiver", elsewhere.Receiver);
            json.WriteNumber("harmful", elsewhere.Harmful);
            json.WriteNumber("marginal", elsewhere.Marginal);
            json.WriteNumber("unknown", elsewhere.Unknown);
            JsonText.Decibels(json, "worst_over_noise_db", elsewhere.WorstOverNoiseDb);
        });
        if (look is null)
        {
            json.WriteNull("besides");
        }
        else
        {
            JsonText.Strings(json, "besides", PlanWords.Besides(look, Signs));
        }
    }

    private static void Write(Utf8JsonWriter json, string name, PlanProduct? product)
    {
        if (product is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        Members(json, product);
        json.WriteEndObject();
    }

    private static void Members(Utf8JsonWriter json, PlanProduct product)
    {
        JsonText.TermsOf(json, product.Terms);
        json.WriteNumber("order", product.Order);
        json.WriteNumber("frequency_hz", product.FrequencyHz);
        JsonText.Decibels(json, "over_noise_db", product.OverNoiseDb);
    }

    private static void Write(Utf8JsonWriter json, PlanTogether? together)
    {
        if (together is null)
        {
            json.WriteNull("together");
            return;
        }

        json.WriteStartObject("together");
        json.WriteStartArray("frequencies_hz");
        foreach (long frequency in together.FrequenciesHz)
        {
            json.WriteNumberValue(frequency);
        }

        json.WriteEndArray();
        json.WriteBoolean("is_best", together.IsBest);
        Write(json, "score", together.Problem is null ? together.Score : null);
        Write(json, "bound", together.Bound);
        json.WriteString("problem", together.Problem);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, PlanScore? score)
    {
        if (score is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.WriteNumber("harmful", score.Harmful);
        json.WriteNumber("marginal", score.Marginal);
        json.WriteNumber("unknown", score.Unknown);
        JsonText.Decibels(json, "worst_over_noise_db", score.WorstOverNoiseDb);
        json.WriteEndObject();
    }

    private static string Reason(PlanReason reason) => reason switch
    {
        PlanReason.Emitter => "emitter",
        PlanReason.Receiver => "receiver",
        PlanReason.EmitterOnTransmit => "emitter_on_transmit",
        PlanReason.ReceiverOnTransmit => "receiver_on_transmit",
        PlanReason.BandPlan => "band_plan",
        _ => "band_plan_on_transmit",
    };

    private static void Section(TextWriter to, TextInk ink, string head, IEnumerable<string> sentences)
    {
        string[] all = [.. sentences];
        if (all.Length == 0)
        {
            return;
        }

        to.Write('\n' + ink.Apply(head, TextTone.Strong) + "\n");
        foreach (string sentence in all)
        {
            foreach (string line in TextFlow.Wrap(TextFlow.Printable(sentence), indent: 2))
            {
                to.Write(line + "\n");
            }
        }
    }
}
