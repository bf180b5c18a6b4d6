using Spurless.Files;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>
/// Reads a band plan: a table with the heads <c>from</c>, <c>to</c> and <c>use</c>. All that is wrong is reported at once; no input makes
/// it throw.
/// </summary>
public static class BandPlanReader
{
    private static readonly string[] _heads = ["from", "to", "use"];
    private static readonly string[] _words = ["any", "receive only", "transmit only", "forbidden"];

    /// <summary>Whether a table is a band plan, by its line of heads.</summary>
    public static bool IsBandPlan(string heads)
    {
        ArgumentNullException.ThrowIfNull(heads);
        string[] found = heads.Split((char[])[',', ';', '\t'], StringSplitOptions.TrimEntries);
        return _heads.All(found.Contains);
    }

    /// <summary>The word of a use, as it stands in the file.</summary>
    public static string Word(BandUse use) => _words[(int)use];

    /// <summary>Reads a band plan.</summary>
    /// <param name="bytes">The file's bytes.</param>
    /// <param name="fileName">Its name as the user gave it.</param>
    /// <param name="findings">Takes what is wrong.</param>
    /// <returns>The plan, or null where there is any error in it.</returns>
    public static BandPlan? Read(ReadOnlySpan<byte> bytes, string fileName, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        DiagnosticBag own = new();
        BandPlan? plan = CsvTable.Read(bytes, fileName, own) is { } table ? Read(table, own) : null;
        findings.AddRange(own.InOrder());
        return own.HasErrors ? null : plan;
    }

    private static BandPlan? Read(CsvTable table, DiagnosticBag findings)
    {
        int[] columns = [.. _heads.Select(h => table.Head.Index().FirstOrDefault(c => c.Item.Text == h, (-1, null!)).Index)];
        foreach (CsvCell head in table.Head.Where(static h => !_heads.Contains(h.Text)))
        {
            string remedy = Nearest.Find(head.Text, _heads) is { } near ? $"write '{near}'" : "use only from, to and use";
            findings.Error(table.File, head.Line, head.Column, $"'{Quote.Short(head.Text)}' is no column of a band plan", remedy);
        }

        CsvCell first = table.Head[0];
        foreach (string missing in _heads.Where((_, i) => columns[i] < 0))
        {
            findings.Error(table.File, first.Line, first.Column, $"there is no column '{missing}'", "head the table from,to,use");
        }

        if (findings.HasErrors)
        {
            return null;
        }

        List<BandPart> parts = [];
        foreach (CsvRow row in table.Rows)
        {
            bool read = Edge(table, row.Cells[columns[0]], findings, out Frequency from);
            read &= Edge(table, row.Cells[columns[1]], findings, out Frequency to);
            CsvCell use = row.Cells[columns[2]];
            int word = Array.IndexOf(_words, use.Text);
            if (word < 0)
            {
                string what = use.Text.Length == 0 ? "the cell is empty" : $"'{Quote.Short(use.Text)}' is no use of a part of a band";
                findings.Error(table.File, use.Line, use.Column, what, "write any, receive only, transmit only or forbidden");
            }
            else if (read && from >= to)
            {
                CsvCell upper = row.Cells[columns[1]];
                findings.Error(
                    table.File,
                    upper.Line,
                    upper.Column,
                    $"the part ends at {to} and begins at {from}",
                    "write the lower edge under 'from'");
            }
            else if (read)
            {
                parts.Add(new BandPart(from, to, (BandUse)word));
            }
        }

        return new BandPlan(table.File, parts);
    }

    private static bool Edge(CsvTable table, CsvCell cell, DiagnosticBag findings, out Frequency edge)
    {
        if (Frequency.TryParsePositive(cell.Text, out edge, out string problem))
        {
            return true;
        }

        Refusal refusal = Refusal.OfParser(problem, "write a frequency such as 145.05 MHz");
        findings.Error(table.File, cell.Line, cell.Column, refusal.What, refusal.Remedy);
        return false;
    }
}
