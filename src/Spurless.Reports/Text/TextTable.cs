using System.Text;

namespace Spurless.Reports.Text;

/// <summary>
/// A table for a terminal or a plain file: columns two spaces apart, a head with a rule under it, rows that may carry indented
/// notes under them. Columns are as wide as their widest cell; where that is too wide for the page, columns that may wrap give way.
/// Texts of the user's are made printable first. Not safe for use by several threads.
/// </summary>
public sealed class TextTable
{
    private const int Gap = 2;
    private const int NarrowestWrap = 12;

    private readonly TextColumn[] _columns;
    private readonly List<Row> _rows = [];

    /// <summary>An empty table.</summary>
    /// <param name="columns">Its columns from left to right, at least one.</param>
    public TextTable(params TextColumn[] columns)
    {
        ArgumentOutOfRangeException.ThrowIfZero(columns.Length);
        _columns = columns;
    }

    /// <summary>Adds a row.</summary>
    /// <param name="cells">One per column.</param>
    public void Add(params TextCell[] cells)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(cells.Length, _columns.Length);
        _rows.Add(new Row([.. cells.Select(static c => c with { Text = TextFlow.Printable(c.Text) })], []));
    }

    /// <summary>Adds an indented line under the last row, broken at the table's width.</summary>
    /// <param name="note">Its words.</param>
    /// <param name="tone">What they stand for.</param>
    public void Note(string note, TextTone tone = TextTone.Plain)
    {
        if (_rows.Count == 0)
        {
            throw new InvalidOperationException("A note stands under a row, and there is none yet.");
        }

        _rows[^1].Notes.Add(new TextCell(TextFlow.Printable(note), tone));
    }

    /// <summary>Writes the table; lines end in <c>\n</c> and carry no trailing spaces.</summary>
    /// <param name="to">Where to.</param>
    /// <param name="ink">How tones are shown.</param>
    /// <param name="width">Widest line, in characters.</param>
    /// <param name="indent">Spaces before every line; counted in the width.</param>
    public void WriteTo(TextWriter to, TextInk ink, int width = TextFlow.DefaultWidth, int indent = 0)
    {
        int[] widths = Widths(width - indent);
        string margin = new(' ', indent);

        WriteHead(to, ink, widths, margin);
        foreach (Row row in _rows)
        {
            WriteCells(to, ink, widths, margin, row.Cells);
            foreach (TextCell note in row.Notes)
            {
                foreach (string line in TextFlow.Wrap(note.Text, width, indent + 4))
                {
                    to.Write(ink.Apply(line, note.Tone));
                    to.Write('\n');
                }
            }
        }
    }

    /// <summary>The table as one text, without colour.</summary>
    /// <param name="width">Widest line, in characters.</param>
    public string ToText(int width = TextFlow.DefaultWidth)
    {
        using StringWriter text = new();
        WriteTo(text, TextInk.None, width);
        return text.ToString();
    }

    private int[] Widths(int room)
    {
        int[] widths = new int[_columns.Length];
        for (int c = 0; c < widths.Length; c++)
        {
            widths[c] = _columns[c].Heading.Split('\n').Max(TextFlow.WidthOf);
            foreach (Row row in _rows)
            {
                widths[c] = Math.Max(widths[c], TextFlow.WidthOf(row.Cells[c].Text));
            }
        }

        // The widest column that may wrap gives way first, one place at a time, so that several share the burden.
        for (int excess = widths.Sum() + (Gap * (widths.Length - 1)) - room; excess > 0; excess--)
        {
            int widest = -1;
            for (int c = 0; c < widths.Length; c++)
            {
                if (_columns[c].Wraps && widths[c] > NarrowestWrap && (widest < 0 || widths[c] > widths[widest]))
                {
                    widest = c;
                }
            }

            if (widest < 0)
            {
                break; // nothing can give way: the table is wider than the page, but complete
            }

            widths[widest]--;
        }

        return widths;
    }

    private void WriteHead(TextWriter to, TextInk ink, int[] widths, string margin)
    {
        string[][] heads = [.. _columns.Select((c, i) => c.Heading.Split('\n').SelectMany(h => TextFlow.Wrap(h, widths[i])).ToArray())];
        int height = heads.Max(static h => h.Length);
        for (int line = 0; line < height; line++)
        {
            // Heads of several lines stand on the rule.
            WriteLine(
                to,
                ink,
                widths,
                margin,
                c => new TextCell(line - (height - heads[c].Length) is >= 0 and int at ? heads[c][at] : "", TextTone.Strong));
        }

        WriteLine(to, ink, widths, margin, c => new string('-', widths[c]));
    }

    private void WriteCells(TextWriter to, TextInk ink, int[] widths, string margin, TextCell[] cells)
    {
        IReadOnlyList<string>[] lines =
        [
            .. cells.Select((cell, c) => TextFlow.WidthOf(cell.Text) <= widths[c] ? [cell.Text] : TextFlow.Wrap(cell.Text, widths[c])),
        ];
        int height = lines.Max(static l => l.Count);
        for (int line = 0; line < height; line++)
        {
            WriteLine(to, ink, widths, margin, c => new TextCell(line < lines[c].Count ? lines[c][line] : "", cells[c].Tone));
        }
    }

    private void WriteLine(TextWriter to, TextInk ink, int[] widths, string margin, Func<int, TextCell> cellOf)
    {
        StringBuilder line = new(margin);
        int owed = 0; // spaces are written only before something, so that no line ends in them
        for (int c = 0; c < widths.Length; c++)
        {
            TextCell cell = cellOf(c);
            int pad = widths[c] - TextFlow.WidthOf(cell.Text);
            bool right = _columns[c].Side == TextSide.Right;
            if (cell.Text.Length > 0)
            {
                line.Append(' ', owed + (right ? pad : 0)).Append(ink.Apply(cell.Text, cell.Tone));
                owed = right ? 0 : pad;
            }
            else
            {
                owed += widths[c];
            }

            owed += Gap;
        }

        to.Write(line.ToString().TrimEnd(' '));
        to.Write('\n');
    }

    private sealed record Row(TextCell[] Cells, List<TextCell> Notes);
}
