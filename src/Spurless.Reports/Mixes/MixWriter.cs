using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Mixing.Search;
using Spurless.Reports.Text;
using Spurless.Sites.Mixes;

namespace Spurless.Reports.Mixes;

/// <summary>Writes the arithmetic of carriers: a table, JSON of the format <c>spurless-mix/1</c>, or CSV.</summary>
public static class MixWriter
{
    /// <summary>The head of the CSV.</summary>
    public const string CsvHead = "order,frequency_hz,offset_hz,mixture";

    /// <summary>How the frequencies were read, where commas may have been meant as decimal points.</summary>
    /// <param name="question">The question as it was read.</param>
    public static string ReadAs(MixQuestion question) =>
        $"--of was read as {string.Join(", ", question.CarriersHz.Select(Figures.MegahertzExact))} MHz; "
            + "if the commas were meant as decimal points, write points";

    /// <summary>Writes the mixtures as a table with a sentence before and after it.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(MixAnswer answer, TextWriter to, TextInk ink)
    {
        string orders = answer.Question.Orders.Lowest == answer.Question.Orders.Highest
            ? $"of order {Whole(answer.Question.Orders.Lowest)}"
            : $"of orders {Whole(answer.Question.Orders.Lowest)} to {Whole(answer.Question.Orders.Highest)}";
        string count = Figures.Count(answer.Mixtures.Count, Typography.Plain);
        Paragraph(
            to,
            $"{Figures.MegahertzExact(answer.Question.FrequencyHz)} MHz: {(answer.Mixtures.Count == 0 ? "no" : count)} "
                + $"{(answer.Mixtures.Count == 1 ? "mixture lands" : "mixtures land")} " +
            $"within {Figures.Kilohertz(answer.Question.WithinHz, Typography.Plain)} kHz of it, " +
            $"{orders}, each of {Chosen(answer.Question.Signals, answer.Question.CarriersHz.Count)}.");
        long[] twice = [.. answer.Question.CarriersHz.GroupBy(static f => f).Where(static g => g.Count() > 1).Select(static g => g.Key)];
        if (twice.Length > 0)
        {
            Paragraph(
                to,
                $"{string.Join(", ", twice.Select(Figures.MegahertzExact))} MHz {(twice.Length == 1 ? "stands" : "stand")} "
                + "there more than once: "
                + "each counts as a signal of its own. If one transmitter is meant, write it once.");
        }

        if (answer.Mixtures.Count > 0)
        {
            to.Write('\n');
            TextTable table = new(new("order", TextSide.Right), new("offset\nkHz", TextSide.Right), new("mixture, MHz", Wraps: true));
            foreach (CarrierMixture mixture in answer.Mixtures)
            {
                table.Add(Whole(mixture.Order), Figures.OffsetKilohertz(mixture.OffsetHz, Typography.Plain), Arithmetic(mixture));
            }

            table.WriteTo(to, ink);
            to.Write('\n');
            Paragraph(to, "Arithmetic only: whether one of them is strong enough to hear depends on levels.");
        }
    }

    /// <summary>Writes the mixtures as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(MixAnswer answer, Stream to)
    {
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-mix/1");
            json.WriteNumber("frequency_hz", answer.Question.FrequencyHz);
            json.WriteNumber("channel_hz", answer.Question.WithinHz);
            json.WriteNumber("lowest_order", answer.Question.Orders.Lowest);
            json.WriteNumber("highest_order", answer.Question.Orders.Highest);
            json.WriteNumber("signals", answer.Question.Signals);
            json.WriteStartArray("products");
            foreach (CarrierMixture mixture in answer.Mixtures)
            {
                Write(json, mixture);
            }

            json.WriteEndArray();
        });
    }

    /// <summary>Writes the mixtures as CSV.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(MixAnswer answer, TextWriter to)
    {
        to.Write(CsvHead + "\n");
        foreach (CarrierMixture mixture in answer.Mixtures)
        {
            to.Write(string.Create(
                CultureInfo.InvariantCulture, $"{mixture.Order},{mixture.FrequencyHz},{mixture.OffsetHz},{Arithmetic(mixture)}\n"));
        }
    }

    /// <summary>A mixture as people write it: <c>466.1000 - 2 x 160.5250 = 145.0500</c>.</summary>
    /// <param name="mixture">The mixture.</param>
    public static string Arithmetic(CarrierMixture mixture)
    {
        int decimals = Figures.DecimalsFor(mixture.Terms.Select(static t => t.FrequencyHz).Append(mixture.FrequencyHz));
        string sum = "";
        foreach (CarrierTerm term in mixture.Terms)
        {
            int times = Math.Abs(term.Coefficient);
            sum += sum.Length == 0 ? "" : term.Coefficient < 0 ? " - " : " + ";
            sum += (times == 1 ? "" : Whole(times) + " x ") + Figures.Megahertz(term.FrequencyHz, decimals);
        }

        return $"{sum} = {Figures.Megahertz(mixture.FrequencyHz, decimals)}";
    }

    private static void Write(Utf8JsonWriter json, CarrierMixture mixture)
    {
        json.WriteStartObject();
        JsonText.Objects(json, "terms", mixture.Terms, term =>
        {
            json.WriteString("emitter", Figures.MegahertzExact(term.FrequencyHz));
            json.WriteNumber("coefficient", term.Coefficient);
            json.WriteNumber("frequency_hz", term.FrequencyHz);
        });
        json.WriteNumber("order", mixture.Order);
        json.WriteNumber("frequency_hz", mixture.FrequencyHz);
        json.WriteNumber("offset_hz", mixture.OffsetHz);
        json.WriteEndObject();
    }

    private static string Chosen(int signals, int carriers) => carriers == 1 ? "the one frequency"
        : signals >= carriers ? $"one or more of the {Whole(carriers)} frequencies"
        : $"at most {Whole(signals)} of the {Whole(carriers)} frequencies";

    private static string Whole(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static void Paragraph(TextWriter to, string text)
    {
        foreach (string line in TextFlow.Wrap(text))
        {
            to.Write(line);
            to.Write('\n');
        }
    }
}
