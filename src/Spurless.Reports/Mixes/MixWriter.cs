using System.Globalization;
using System.Text.Json;
using Spurless.Mixing.Search;
using Spurless.Reports.Text;
using Spurless.Reports.Words;

namespace Spurless.Reports.Mixes;

/// <summary>Writes the arithmetic of carriers: a table, JSON of the format <c>spurless-mix/1</c>, or CSV.</summary>
public static class MixWriter
{
    /// <summary>The head of the CSV.</summary>
    public const string CsvHead = "order,frequency_hz,offset_hz,mixture";

    /// <summary>Writes the mixtures as a table with a sentence before and after it.</summary>
    /// <param name="found">The mixtures.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(CarrierMixtures found, TextWriter to, TextInk ink)
    {
        string orders = found.MinOrder == found.MaxOrder
            ? $"of order {Whole(found.MinOrder)}"
            : $"of orders {Whole(found.MinOrder)} to {Whole(found.MaxOrder)}";
        string count = Figures.Count(found.Mixtures.Count, Typography.Plain);
        Paragraph(
            to,
            $"{Figures.MegahertzExact(found.FrequencyHz)} MHz: {(found.Mixtures.Count == 0 ? "no" : count)} {(found.Mixtures.Count == 1 ? "mixture lands" : "mixtures land")} " +
            $"within {Figures.Kilohertz(found.WithinHz, Typography.Plain)} kHz of it, " +
            $"{orders}, each of at most {Whole(found.MaxSignals)} of the {Whole(found.CarriersHz.Count)} frequencies.");

        if (found.Mixtures.Count > 0)
        {
            to.Write('\n');
            TextTable table = new(new("order", TextSide.Right), new("offset\nkHz", TextSide.Right), new("mixture, MHz", Wraps: true));
            foreach (CarrierMixture mixture in found.Mixtures)
            {
                table.Add(Whole(mixture.Order), Figures.OffsetKilohertz(mixture.OffsetHz, Typography.Plain), Arithmetic(mixture));
            }

            table.WriteTo(to, ink);
            to.Write('\n');
            Paragraph(to, "Arithmetic only: whether one of them is strong enough to hear depends on levels.");
        }
    }

    /// <summary>Writes the mixtures as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="found">The mixtures.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(CarrierMixtures found, Stream to)
    {
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-mix/1");
            json.WriteNumber("frequency_hz", found.FrequencyHz);
            json.WriteNumber("channel_hz", found.WithinHz);
            json.WriteNumber("lowest_order", found.MinOrder);
            json.WriteNumber("highest_order", found.MaxOrder);
            json.WriteNumber("signals", found.MaxSignals);
            json.WriteStartArray("products");
            foreach (CarrierMixture mixture in found.Mixtures)
            {
                Write(json, mixture);
            }

            json.WriteEndArray();
        });
    }

    /// <summary>Writes the mixtures as CSV.</summary>
    /// <param name="found">The mixtures.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(CarrierMixtures found, TextWriter to)
    {
        to.Write(CsvHead + "\n");
        foreach (CarrierMixture mixture in found.Mixtures)
        {
            to.Write(string.Create(CultureInfo.InvariantCulture, $"{mixture.Order},{mixture.FrequencyHz},{mixture.OffsetHz},{Arithmetic(mixture)}\n"));
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
        json.WriteStartArray("terms");
        foreach (CarrierTerm term in mixture.Terms)
        {
            json.WriteStartObject();
            json.WriteString("emitter", Figures.MegahertzExact(term.FrequencyHz));
            json.WriteNumber("coefficient", term.Coefficient);
            json.WriteNumber("frequency_hz", term.FrequencyHz);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteNumber("order", mixture.Order);
        json.WriteNumber("frequency_hz", mixture.FrequencyHz);
        json.WriteNumber("offset_hz", mixture.OffsetHz);
        json.WriteEndObject();
    }

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
