using System.Globalization;
using Spurless.Reports.Text;
using Spurless.Sites.Coils;

namespace Spurless.Reports.Bench;

/// <summary>
/// Writes what the coil calculator answers: figures and warnings, JSON of the format <c>spurless-coil/1</c>, or CSV of one row.
/// </summary>
public static class CoilWriter
{
    /// <summary>Writes sentence, figures and warnings.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(CoilAnswer answer, TextWriter to, TextInk ink)
    {
        CoilSheet sheet = CoilSheet.Of(answer);
        TextParagraphs.Paragraph(to, sheet.Sentence, ink, TextTone.Strong);
        to.Write('\n');
        foreach (
            CoilFigure figure in sheet.Figures.Where(static f => f is { Value: not null } and not { Key: "lead_inductance_h", Value: 0 }))
        {
            to.Write($"{figure.Words,-42}{figure.Text}\n");
        }

        if (sheet.Warnings.Count > 0)
        {
            to.Write('\n');
            TextParagraphs.List(to, sheet.Warnings, ink, TextTone.Marginal);
        }
    }

    /// <summary>Writes the figures as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(CoilAnswer answer, Stream to)
    {
        CoilSheet sheet = CoilSheet.Of(answer);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-coil/1");
            json.WriteString("kind", sheet.Kind);
            foreach (CoilFigure figure in sheet.Figures)
            {
                JsonText.Number(json, figure.Key, figure.Value);
            }

            JsonText.Strings(json, "warnings", sheet.Warnings);
        });
    }

    /// <summary>Writes the figures as CSV: a head and one row.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(CoilAnswer answer, TextWriter to)
    {
        CoilSheet sheet = CoilSheet.Of(answer);
        to.Write("kind," + string.Join(',', sheet.Figures.Select(static f => f.Key)) + '\n');
        to.Write(
            sheet.Kind + ","
                + string.Join(',', sheet.Figures.Select(static f => f.Value?.ToString("R", CultureInfo.InvariantCulture) ?? "")) + '\n');
    }
}
