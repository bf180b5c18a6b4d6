using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Reports.Studies;
using Spurless.Reports.Text;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Newcomers;

/// <summary>
/// Writes what a newcomer does as JSON of the format <c>spurless-newcomer/1</c>, or as CSV, a row for each thing that is new.
/// </summary>
public static class NewcomerWriter
{
    /// <summary>The head of the CSV.</summary>
    public const string CsvHead = "receiver,of,passes,margin_db,cause,verdict,in_channel_level_dbm,over_noise_db,order,frequency_hz,"
        + "mechanism,made_in,mixture,emitters";

    private static readonly Typography Signs = Typography.Plain;

    /// <summary>Writes the whole answer as JSON, in UTF-8 with a final line feed.</summary>
    public static void WriteJson(NewcomerAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        NewcomerSites sites = answer.Question.Sites;
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-newcomer/1");
            json.WriteString("site", sites.Site.Document.Site);
            json.WriteString("newcomer", sites.Newcomer.Document.Site);
            json.WriteString("says", NewcomerWords.Answer(answer));
            json.WriteBoolean("passes", answer.Passes);
            JsonText.Objects(json, "inputs", sites.Joint.Inputs, input =>
            {
                json.WriteString("file", input.Name);
                json.WriteString("sha256", input.Sha256);
            });
            JsonText.Objects(json, "receivers", answer.Receivers, receiver => Receiver(json, answer, receiver));
        });
    }

    /// <summary>Writes the whole answer as CSV, null as an empty cell; a receiver with nothing new has a row of its own.</summary>
    public static void WriteCsv(NewcomerAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        to.Write(CsvHead + "\n");
        foreach (NewcomerReceiver receiver in answer.Receivers)
        {
            string[] whose =
            [
                receiver.Findings.Name, Of(receiver), receiver.Passes ? "true" : "false", CsvFigure.Of(MarginDb(answer, receiver)),
            ];
            foreach (ProductFinding p in receiver.Findings.Products)
            {
                Row(
                    to, whose, "product", StudyNames.Of(p.Verdict), CsvFigure.Of(p.InChannelLevelDbm), CsvFigure.Of(p.OverNoiseDb),
                    p.Order.ToString(CultureInfo.InvariantCulture), p.FrequencyHz.ToString(CultureInfo.InvariantCulture),
                    StudyNames.Of(p.Mechanism), p.MadeIn, StudyWords.Mixture(p, Signs),
                    string.Join("; ", p.Terms.Select(static t => t.Name)));
            }

            foreach (OtherCause c in receiver.Causes.Select(static c => c.Cause))
            {
                Row(
                    to, whose, c.Cause, StudyNames.Of(c.Verdict), CsvFigure.Of(c.LevelDbm), CsvFigure.Of(c.OverNoiseDb), "", "", "", "", "",
                    c.Emitter ?? "");
            }

            if (receiver.Findings.Products.Count + receiver.Causes.Count == 0)
            {
                Row(to, whose, "", "", "", "", "", "", "", "", "", "");
            }
        }
    }

    private static void Receiver(Utf8JsonWriter json, NewcomerAnswer answer, NewcomerReceiver receiver)
    {
        json.WriteString("name", receiver.Findings.Name);
        json.WriteString("of", Of(receiver));
        json.WriteNumber("frequency_hz", receiver.Findings.FrequencyHz);
        JsonText.Decibels(json, "noise_floor_dbm", receiver.Findings.NoiseFloorDbm);
        json.WriteBoolean("passes", receiver.Passes);
        json.WriteBoolean("all_known", !receiver.Open);
        JsonText.Decibels(json, "margin_db", MarginDb(answer, receiver));
        JsonText.Objects(json, "needs", receiver.Needs.Zip(NewcomerWords.Conditions(answer, receiver)), need =>
        {
            json.WriteString("kind", NewcomerWords.Token(need.First.Kind));
            JsonText.Strings(json, "emitters", need.First.Emitters);
            json.WriteString("by", need.First.AtSite ? "site" : "newcomer");
            JsonText.Decibels(json, "needed_db", need.First.Db);
            json.WriteString("says", need.Second);
        });
        json.WriteStartArray("products");
        foreach (ProductFinding product in receiver.Findings.Products)
        {
            StudyJson.Write(json, product);
        }

        json.WriteEndArray();
        JsonText.Decibels(json, "sum_over_noise_db", receiver.Findings.SumOverNoiseDb);
        JsonText.Objects(json, "other_causes", receiver.Causes, cause =>
        {
            StudyJson.Write(json, cause.Cause);
            json.WriteString("sum_of", cause.Sum switch
            {
                SumOf.All => "all",
                SumOf.OtherSide => receiver.OfNewcomer ? "site" : "newcomer",
                _ => null,
            });
        });
        JsonText.Strings(json, "not_computed", receiver.Findings.NotComputed.Select(NotComputedWords.Of));
    }

    private static double? MarginDb(NewcomerAnswer answer, NewcomerReceiver receiver) =>
        answer.Question.Options.HarmfulFromDb - receiver.WorstOverNoiseDb;

    private static string Of(NewcomerReceiver receiver) => receiver.OfNewcomer ? "newcomer" : "site";

    private static void Row(TextWriter to, string[] whose, params string[] cells) =>
        to.Write(string.Join(',', whose.Concat(cells).Select(CsvQuoting.Quote)) + "\n");
}
