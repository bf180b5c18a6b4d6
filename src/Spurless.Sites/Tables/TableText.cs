using System.Text;

namespace Spurless.Sites.Tables;

/// <summary>A table's text taken apart into cells, and rows written as one. Quotes are those of RFC 4180.</summary>
internal static class TableText
{
    private const int Looked = 20; // rows by which the separator is found

    /// <summary>The rows that hold anything, each with the line that it begins in, from 1.</summary>
    public static IReadOnlyList<(int Line, IReadOnlyList<string> Cells)> Read(string text, out char separator)
    {
        text = text.TrimStart('\uFEFF');
        separator = FindSeparator(text);
        return Split(text, separator);
    }

    /// <summary>Writes rows with the program's own heads, in the order in which the keys first come.</summary>
    public static string Write(IReadOnlyList<TableRow> rows)
    {
        List<string> keys = [.. rows.SelectMany(static r => r.Values).Select(static v => v.Key).Distinct()];
        StringBuilder text = new();
        text.AppendJoin(',', keys).Append('\n');
        foreach (TableRow row in rows)
        {
            text.AppendJoin(',', keys.Select(k => Quoted(row.Value(k) ?? ""))).Append('\n');
        }

        return text.ToString();
    }

    private static string Quoted(string cell) => cell.AsSpan().IndexOfAny(",;\t\"\n\r") < 0 && !cell.StartsWith('#')
        ? cell
        : $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    // Of tab, semicolon and comma the one that parts the first rows into the same number of cells; a tab before a semicolon before a comma,
    // since a comma may be a decimal sign and neither of the others is.
    private static char FindSeparator(string text)
    {
        char found = ',';
        double best = 0;
        foreach (char candidate in (ReadOnlySpan<char>)['\t', ';', ','])
        {
            int[] counts = [.. Split(text, candidate, Looked).Select(static r => r.Cells.Count)];
            if (counts.Length == 0)
            {
                continue;
            }

            int usual = counts.GroupBy(static c => c).OrderByDescending(static g => g.Count()).ThenByDescending(static g => g.Key).First()
                .Key;
            double share = usual > 1 ? (double)counts.Count(c => c == usual) / counts.Length : 0;
            if (share > best + 0.25)
            {
                (found, best) = (candidate, share);
            }
        }

        return found;
    }

    private static List<(int Line, IReadOnlyList<string> Cells)> Split(string text, char separator, int most = int.MaxValue)
    {
        List<(int, IReadOnlyList<string>)> rows = [];
        List<string> cells = [];
        StringBuilder cell = new();
        (int line, int first) = (1, 1);
        (bool quoted, bool named) = (false, false);
        for (int i = 0; i <= text.Length && rows.Count < most; i++)
        {
            char c = i < text.Length ? text[i] : '\n';
            line += c == '\n' && i < text.Length ? 1 : 0;
            if (quoted && i < text.Length)
            {
                if (c == '"' && i + 1 < text.Length && text[i + 1] == '"')
                {
                    cell.Append('"');
                    i++;
                }
                else if (c == '"')
                {
                    quoted = false;
                }
                else
                {
                    cell.Append(c);
                }
            }
            else if (c == '"' && cell.Length == 0)
            {
                quoted = true;
                named |= cells.Count == 0; // in quotes a # begins a name and no remark
            }
            else if (c == separator || c == '\n')
            {
                cells.Add(cell.ToString().Trim().Trim('\u00A0'));
                cell.Clear();
                if (c == '\n')
                {
                    if (cells.Exists(static t => t.Length > 0) && (named || !cells[0].StartsWith('#')))
                    {
                        rows.Add((first, cells));
                    }

                    cells = [];
                    named = false;
                    first = line;
                }
            }
            else if (c != '\r')
            {
                cell.Append(c);
            }
        }

        return rows;
    }
}
