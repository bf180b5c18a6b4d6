using System.Globalization;
using System.Text.Json;
using Spurless.Reports.Text;

namespace Spurless.Reports.Bench;

/// <summary>Writes what the coil calculator answers: figures and warnings, JSON of the format <c>spurless-coil/1</c>, or CSV of one row.</summary>
public static class CoilWriter
{
    /// <summary>Writes sentence, figures and warnings.</summary>
    /// <param name="sheet">The answer.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    public static void WriteText(CoilSheet sheet, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        BenchText.Paragraph(to, sheet.Sentence, ink, TextTone.Strong);
        to.Write('\n');
        foreach (CoilFigure figure in sheet.Figures.Where(static f => f is { Value: not null } and not { Key: "lead_inductance_h", Value: 0 }))
        {
            to.Write($"{figure.Words,-42}{figure.Text}\n");
        }

        if (sheet.Warnings.Count > 0)
        {
            to.Write('\n');
            BenchText.List(to, sheet.Warnings, ink, TextTone.Marginal);
        }
    }

    /// <summary>Writes the figures as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="sheet">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(CoilSheet sheet, Stream to)
    {
        ArgumentNullException.ThrowIfNull(sheet);
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
    /// <param name="sheet">The answer.</param>
    /// <param name="to">Where to.</param>
    public static void WriteCsv(CoilSheet sheet, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        to.Write("kind," + string.Join(',', sheet.Figures.Select(static f => f.Key)) + '\n');
        to.Write(sheet.Kind + "," + string.Join(',', sheet.Figures.Select(static f => f.Value?.ToString("R", CultureInfo.InvariantCulture) ?? "")) + '\n');
    }
}
