using nietras.SeparatedValues;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Files.Csv;

/// <summary>A cell of a table.</summary>
/// <param name="Text">Its text without quotes and without blanks around it.</param>
/// <param name="Line">Line, from 1.</param>
/// <param name="Column">Column of the text's first character, from 1.</param>
public sealed record CsvCell(string Text, int Line, int Column);

/// <summary>A row of a table.</summary>
/// <param name="Line">The line it begins in, from 1.</param>
/// <param name="Cells">As many cells as the head has.</param>
public sealed record CsvRow(int Line, IReadOnlyList<CsvCell> Cells);

/// <summary>
/// A spreadsheet's text: a head and rows, separated by commas, semicolons or tabs (found out from the head). Lines that begin with <c>#</c>
/// are comments; rows without any text are skipped. No input makes the reading throw.
/// </summary>
public sealed class CsvTable
{
    private CsvTable(string file, char separator, IReadOnlyList<CsvCell> head, IReadOnlyList<CsvRow> rows)
    {
        File = file;
        Separator = separator;
        Head = head;
        Rows = rows;
    }

    /// <summary>The file's name as the user gave it.</summary>
    public string File { get; }

    /// <summary>What separates the cells.</summary>
    public char Separator { get; }

    /// <summary>The heads of the columns, each once and none empty.</summary>
    public IReadOnlyList<CsvCell> Head { get; }

    /// <summary>The rows in the file's order.</summary>
    public IReadOnlyList<CsvRow> Rows { get; }

    /// <summary>Reads the bytes of a file.</summary>
    /// <inheritdoc cref="Read(string, string, DiagnosticBag)"/>
    public static CsvTable? Read(ReadOnlySpan<byte> bytes, string fileName, DiagnosticBag diagnostics) =>
        TextDecoder.Decode(bytes, fileName, diagnostics) is { } text ? Read(text, fileName, diagnostics) : null;

    /// <summary>Reads a table.</summary>
    /// <param name="text">The text; a byte-order mark at its head is skipped.</param>
    /// <param name="fileName">The file's name as the user gave it.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>The table without the rows that are wrong; null where there is no usable head.</returns>
    public static CsvTable? Read(string text, string fileName, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(diagnostics);
        text = text.StartsWith('\uFEFF') ? text[1..] : text;
        if (!TextDecoder.Check(text, fileName, diagnostics))
        {
            return null;
        }

        LineMap lines = new(text);
        CsvScan scan = CsvScan.Of(text);
        if (scan.OpenQuote is { } open)
        {
            YamlPosition at = lines.At(open);
            diagnostics.Error(
                fileName,
                at.Line,
                at.Column,
                "a quote that is not closed",
                "write a second quote at the end of the cell, or two for one within it");
            return null;
        }

        try
        {
            return ReadRows(scan, fileName, lines, diagnostics);
        }
#pragma warning disable CA1031 // The library throws several types on what it cannot take, such as too many columns.
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            diagnostics.Error(
                fileName,
                0,
                0,
                $"this is not a table ({Quote.Short(e.Message)})",
                "write one row a line, its cells separated by commas, semicolons or tabs");
            return null;
        }
#pragma warning restore CA1031
    }

    /// <summary>The same table with some of its columns.</summary>
    /// <param name="columns">Their numbers, from 0, in the order wanted.</param>
    public CsvTable Select(IReadOnlyList<int> columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        return new CsvTable(
            File, Separator, [.. columns.Select(c => Head[c])],
                [.. Rows.Select(r => new CsvRow(r.Line, [.. columns.Select(c => r.Cells[c])]))]);
    }

    private static CsvTable? ReadRows(CsvScan scan, string file, LineMap lines, DiagnosticBag diagnostics)
    {
        using SepReader reader = Sep.New(scan.Separator)
            .Reader(static o => o with { HasHeader = false, Unescape = true, Trim = SepTrim.Outer, DisableColCountCheck = true })
            .FromText(scan.Text);
        List<CsvCell>? head = null;
        List<CsvRow> rows = [];
        int next = 0;
        foreach (SepReader.Row row in reader)
        {
            List<CsvCell> cells = new(row.ColCount);
            for (int i = 0; i < row.ColCount; i++)
            {
                string raw = row[i].ToString();
                int start = next < scan.Starts.Count ? scan.Starts[next++] : scan.Text.Length;
                int first = start;
                while (first < scan.Text.Length && scan.Text[first] == ' ')
                {
                    first++;
                }

                first = raw.Length == 0 ? start : first;
                YamlPosition at = lines.At(first < scan.Text.Length && scan.Text[first] == '"' ? first + 1 : first);
                cells.Add(new CsvCell(raw.Trim(), at.Line, at.Column));
            }

            if (cells.TrueForAll(static c => c.Text.Length == 0))
            {
                continue;
            }

            if (head is null)
            {
                head = cells;
                if (!CheckHead(head, file, diagnostics))
                {
                    return null;
                }
            }
            else if (cells.Count == head.Count)
            {
                rows.Add(new CsvRow(cells[0].Line, cells));
            }
            else
            {
                string separator = scan.Separator == '\t' ? "tab" : $"'{scan.Separator}'";
                diagnostics.Error(
                    file,
                    cells[0].Line,
                    1,
                    FormattableString.Invariant($"the row has {cells.Count} cells and the head has {head.Count}"),
                    cells.Count > head.Count
                        ? $"put a cell that holds a {separator} in quotes"
                        : $"write a {separator} for each empty cell too");
            }
        }

        if (head is null)
        {
            diagnostics.Error(file, 0, 0, "the table is empty", "write a first row with the heads of the columns");
            return null;
        }

        return new CsvTable(file, scan.Separator, head, rows);
    }

    private static bool CheckHead(List<CsvCell> head, string file, DiagnosticBag diagnostics)
    {
        Dictionary<string, int> seen = new(StringComparer.Ordinal);
        bool good = true;
        for (int i = 0; i < head.Count; i++)
        {
            CsvCell cell = head[i];
            if (cell.Text.Length == 0)
            {
                diagnostics.Error(
                    file,
                    cell.Line,
                    cell.Column,
                    FormattableString.Invariant($"column {i + 1} has no head"),
                    "write what the column holds, or delete it");
                good = false;
            }
            else if (!seen.TryAdd(cell.Text, i + 1))
            {
                diagnostics.Error(
                    file,
                    cell.Line,
                    cell.Column,
                    FormattableString.Invariant(
                        $"the head '{Quote.Short(cell.Text)}' stands here a second time (first in column {seen[cell.Text]})"),
                    "keep one of the two");
                good = false;
            }
        }

        return good;
    }
}
