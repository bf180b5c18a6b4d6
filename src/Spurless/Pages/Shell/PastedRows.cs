using System.Globalization;

namespace Spurless.Pages.Shell;

/// <summary>Rows that were pasted into a table, as the script hands them over: 'row TAB column NEWLINE' and the text itself.</summary>
/// <param name="Row">The row of the cell that was pasted into, from 0.</param>
/// <param name="Column">Its column, from 0.</param>
/// <param name="Rows">The cells, trimmed; blank lines at the end are left out.</param>
internal sealed record PastedRows(int Row, int Column, IReadOnlyList<IReadOnlyList<string>> Rows)
{
    /// <summary>The most rows taken at once.</summary>
    public const int Most = 2000;

    /// <summary>The text of a paste as it came; null where it is none.</summary>
    public static string? TextOf(string? handed) =>
        handed is not null && handed.IndexOf('\n', StringComparison.Ordinal) is var cut and >= 0 ? handed[(cut + 1)..] : null;

    /// <summary>Takes a paste apart. Spreadsheets put tabs between cells, and quotation marks round a cell that holds a line end.</summary>
    /// <returns>The rows; null where it is none.</returns>
    public static PastedRows? Parse(string? handed)
    {
        int cut = handed?.IndexOf('\n', StringComparison.Ordinal) ?? -1;
        if (cut < 0 || handed![..cut].Split('\t') is not [string row, string column]
            || !int.TryParse(row, NumberStyles.None, CultureInfo.InvariantCulture, out int r)
                || !int.TryParse(column, NumberStyles.None, CultureInfo.InvariantCulture, out int c))
        {
            return null;
        }

        List<IReadOnlyList<string>> rows = [];
        foreach (string line in handed[(cut + 1)..].ReplaceLineEndings("\n").TrimEnd('\n').Split('\n').Take(Most))
        {
            rows.Add([.. line.Split('\t').Select(static cell => cell.Trim().Trim('"'))]);
        }

        return rows.Count == 0 ? null : new PastedRows(r, c, rows);
    }
}
