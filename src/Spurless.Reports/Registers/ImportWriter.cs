using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Register.Importing;
using Spurless.Register.Layouts;
using Spurless.Reports.Text;
using static Spurless.Reports.Text.TextParagraphs;

namespace Spurless.Reports.Registers;

/// <summary>Writes what an import did: a sentence and the reasons, or JSON of the format <c>spurless-import/1</c>.</summary>
public static class ImportWriter
{
    /// <summary>Writes it as text.</summary>
    /// <param name="answer">What it did.</param>
    /// <param name="database">Into which database.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(ImportAnswer answer, string database, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        string resumed = answer.Resumed > 0 ? $" An import that was cut short had done {Count(answer.Resumed)} of them." : "";
        string replaced = answer.Replaced switch
        {
            0 => "",
            1 => " 1 record of an earlier import was replaced.",
            _ => $" {Count(answer.Replaced)} records of earlier imports were replaced.",
        };
        string withdrawn = answer.Withdrawn switch
        {
            0 => "",
            1 => " 1 that is no longer in force was taken out.",
            _ => $" {Count(answer.Withdrawn)} that are no longer in force were taken out.",
        };
        Paragraph(
            to,
            $"{Count(answer.Accepted)} of {Count(answer.Read)} frequency {(answer.Read == 1 ? "record" : "records")} of "
                + $"{string.Join(", ", answer.Registers)} {(answer.Accepted == 1 ? "is" : "are")} in {database}."
                + $"{resumed}{replaced}{withdrawn}");
        if (answer.Rejected.Count > 0)
        {
            to.Write('\n');
            TextTable table = new(new("left out", TextSide.Right), new("because"));
            foreach ((RejectReason reason, long count) in answer.Rejected)
            {
                table.Add(Count(count), Because(reason));
            }

            table.WriteTo(to, ink);
            to.Write('\n');
            Paragraph(to, $"Each of them stands with its line in {answer.Rejects}.");
        }

        to.Write('\n');
        Paragraph(
            to, "No names or addresses of persons are kept. What transmits near a site: spurless register near SITE --from " + database);
    }

    /// <summary>Writes it as JSON.</summary>
    /// <param name="answer">What it did.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(ImportAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-import/1");
            JsonText.Strings(json, "registers", answer.Registers);
            json.WriteNumber("read", answer.Read);
            json.WriteNumber("accepted", answer.Accepted);
            json.WriteStartArray("rejected");
            foreach ((RejectReason reason, long count) in answer.Rejected)
            {
                json.WriteStartObject();
                json.WriteString("reason", reason.Word());
                json.WriteNumber("count", count);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteNumber("replaced", answer.Replaced);
            json.WriteNumber("withdrawn", answer.Withdrawn);
            json.WriteNumber("resumed", answer.Resumed);
            json.WriteString("rejects", answer.Rejects);
        });
    }

    private static string Because(RejectReason reason) => reason switch
    {
        RejectReason.Malformed => "malformed: too few columns",
        RejectReason.NoLicenceRecord => "no licence record: the licence it names is not in the files",
        RejectReason.NotInForce => "not in force: the licence's status or date of expiry says so",
        RejectReason.Mobile => "mobile: it stands nowhere",
        RejectReason.NoFrequency => "no frequency",
        RejectReason.NoPosition => "no position, or an impossible one",
        _ => "duplicate: the same record again",
    };

    private static string Count(long count) => Figures.Count(count, Typography.Plain);

    /// <summary>Thousands of rows a second, for a line of progress.</summary>
    public static string Rate(long rows, TimeSpan elapsed) =>
        elapsed.TotalSeconds < 0.5 ? "" : string.Create(CultureInfo.InvariantCulture, $"{rows / elapsed.TotalSeconds:#,0} rows a second");
}
