using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Reports.Text;
using Spurless.Sites.Receivers;

namespace Spurless.Reports.Receivers;

/// <summary>
/// Writes what a receiver's measurements say: sentences and a table, JSON of the format <c>spurless-receiver/1</c>, or CSV, a row a figure.
/// </summary>
public static class ReceiverWriter
{
    /// <summary>The head of the CSV.</summary>
    public const string CsvHead = "quantity,order,frequency_hz,value,unit,sigma_db,from";

    private static readonly Typography Signs = Typography.Plain;

    /// <summary>Writes the answer, the figures, what does not fit, what is unknown, what was assumed, and cautions.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="written">What was written into a site file; empty where nothing was.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(ReceiverAnswer answer, IReadOnlyList<SiteFigure> written, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(written);
        ArgumentNullException.ThrowIfNull(to);
        TextParagraphs.Paragraph(to, ReceiverWords.Conclusion(answer, Signs), ink, TextTone.Strong);
        IReadOnlyList<ReceiverRow> rows = ReceiverRow.Of(answer, Signs);
        if (rows.Count > 0)
        {
            to.Write('\n');
            TextTable table = new(
                new TextColumn("figure", Wraps: true), new("value", TextSide.Right), new("+-, dB", TextSide.Right),
                new TextColumn("from", Wraps: true));
            foreach (ReceiverRow row in rows)
            {
                table.Add(row.What, row.Value, row.Figure is null ? "" : Figures.BareDb(row.Figure.SigmaDb), string.Join("; ", row.From));
            }

            table.WriteTo(to, ink);
        }

        Section("Does not fit", answer.Warnings.Select(static w => StudyWords.Capital(ReceiverWarningWords.Of(w, Signs))));
        Section("Written into the site file", written.Select(static f => Written(f)));
        Section(
            "Still unknown, and what would give it",
            answer.Unknown.Select(g => StudyWords.Capital(ReceiverWarningWords.Of(g, answer.Document))));
        Section("Assumed", ReceiverWords.Assumed(answer, Signs).Select(StudyWords.Capital));
        Section("Cautions", ReceiverSheet.Cautions);

        void Section(string head, IEnumerable<string> sentences)
        {
            string[] all = [.. sentences];
            if (all.Length > 0)
            {
                to.Write($"\n{head}\n");
                TextParagraphs.List(to, all, ink);
            }
        }
    }

    /// <summary>What became of a key of the site file.</summary>
    public static string Written(SiteFigure figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        string reach = figure.Intercept is not { CloseTones: false } only ? ""
            : only.Order % 2 == 0 ? $" {ReceiverWords.Reach(only)}"
            : $" {ReceiverWords.Reach(only)} (closer tones meet less of the front end and may find a lower one)";
        return figure switch
        {
            { Now: null } => $"{figure.Key}: {figure.Was} was taken out, iip3 stands in its place",
            { Was: null } => $"{figure.Key}: {figure.Now}{reach}",
            _ when figure.Was == figure.Now => $"{figure.Key}: {figure.Now} stood there already{reach}",
            _ => $"{figure.Key}: {figure.Now}{reach}, where {figure.Was} stood",
        };
    }

    /// <summary>Writes the answer as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="written">What was written into a site file; empty where nothing was.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(ReceiverAnswer answer, IReadOnlyList<SiteFigure> written, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(written);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-receiver/1");
            json.WriteString("says", ReceiverWords.Conclusion(answer, Signs));
            json.WriteString("name", answer.Document.Name);
            json.WriteNumber("frequency_hz", answer.Document.Frequency.Hertz);
            json.WriteNumber("channel_hz", answer.Document.Channel.Hertz);
            json.WriteNumber("if_bandwidth_hz", answer.Document.IfBandwidthHz);
            JsonText.Decibels(json, "carrier_to_noise_db", answer.Document.CarrierToNoiseDb);
            JsonText.Decibels(json, "sensitivity_dbm", answer.Sensitivity?.Value);
            JsonText.Decibels(json, "noise_floor_dbm", answer.Noise?.Value);
            JsonText.Decibels(json, "noise_figure_db", answer.NoiseFigure?.Value);
            JsonText.Decibels(json, "noise_sigma_db", answer.Noise?.SigmaDb);
            JsonText.Objects(json, "intercepts", answer.Intercepts, found =>
            {
                json.WriteNumber("order", found.Order);
                JsonText.Decibels(json, "iip_dbm", found.Figure.Value);
                JsonText.Decibels(json, "sigma_db", found.Figure.SigmaDb);
                JsonText.Strings(json, "from", ReceiverWords.From(found, Signs));
                json.WriteBoolean("close_tones", found.CloseTones);
                json.WriteBoolean("on_the_air", found.OnTheAir);
                Tones(json, found.From[0], found.CloseTones);
            });
            JsonText.Objects(json, "front_end_losses", answer.Losses, loss =>
            {
                Tones(json, loss.Reading, false);
                JsonText.Decibels(json, "loss_together_db", loss.Together.Value);
                JsonText.Decibels(json, "loss_mean_db", loss.Mean.Value);
                JsonText.Decibels(json, "sigma_db", loss.Mean.SigmaDb);
            });
            OffChannel(json, "responses", "rejection_db", answer.Responses);
            JsonText.Decibels(json, "blocking_db", answer.Blocking?.Ratio?.Value);
            OffChannel(json, "blockings", "blocking_db", answer.Blockings);
            JsonText.Strings(json, "warnings", answer.Warnings.Select(static w => ReceiverWarningWords.Of(w, Signs)));
            JsonText.Strings(json, "unknown", answer.Unknown.Select(g => ReceiverWarningWords.Of(g, answer.Document)));
            JsonText.Strings(json, "assumed", ReceiverWords.Assumed(answer, Signs));
            JsonText.Objects(json, "written", written, figure =>
            {
                json.WriteString("key", figure.Key);
                json.WriteString("was", figure.Was);
                json.WriteString("now", figure.Now);
            });
        });
    }

    /// <summary>Writes the figures as CSV, a row each.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(ReceiverAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        to.Write(CsvHead + "\n");
        foreach (ReceiverRow row in ReceiverRow.Of(answer, Signs).Where(static r => r.Figure is not null))
        {
            to.Write(string.Join(
                ',',
                row.Quantity,
                row.Order > 0 ? FormattableString.Invariant($"{row.Order}") : "",
                row.FrequencyHz > 0 ? FormattableString.Invariant($"{row.FrequencyHz}") : "",
                CsvFigure.Of(row.Figure!.Value),
                row.Unit,
                CsvFigure.Of(row.Figure.SigmaDb),
                CsvQuoting.Quote(string.Join("; ", row.From))) + "\n");
        }
    }

    private static void OffChannel(Utf8JsonWriter json, string name, string ratio, IReadOnlyList<OffChannelFinding> all) =>
        JsonText.Objects(json, name, all, found =>
        {
            json.WriteNumber("frequency_hz", found.FrequencyHz);
            JsonText.Decibels(json, ratio, found.Ratio?.Value);
            JsonText.Decibels(json, "sigma_db", found.Ratio?.SigmaDb);
        });

    private static void Tones(Utf8JsonWriter json, InterceptReading reading, bool any)
    {
        if (any)
        {
            json.WriteNull("tones");
            return;
        }

        JsonText.Objects(json, "tones", reading.Coefficients.Zip(reading.TonesHz), tone =>
        {
            json.WriteNumber("frequency_hz", tone.Second);
            json.WriteNumber("coefficient", tone.First);
        });
    }
}
