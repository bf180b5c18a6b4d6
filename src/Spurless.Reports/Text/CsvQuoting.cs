using System.Buffers;
using System.Globalization;

namespace Spurless.Reports.Text;

/// <summary>Cells of the CSV that commands write (RFC 4180).</summary>
public static class CsvQuoting
{
    // What spreadsheets take for the beginning of a formula, the full-width forms among them: some fold those first.
    private const string Formula = "=+@\t\r\n\uFF1D\uFF0B\uFF20\uFF0D";

    private static readonly SearchValues<char> Parting = SearchValues.Create(",;\t\"\r\n");

    /// <summary>
    /// The cell, quoted where it holds a comma, a semicolon, a tab, a quote or a line break: a spreadsheet that separates at another sign
    /// than ours must not part it. A text that a spreadsheet would take for a formula, blanks before it or not, gets an apostrophe in
    /// front: names come from files of others.
    /// </summary>
    public static string Quote(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        string bare = text.TrimStart(' ', '\u00A0', '\u3000');
        bool formula = bare.Length > 0
            && (Formula.Contains(bare[0], StringComparison.Ordinal)
                || (bare[0] == '-' && !double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out _)));
        string safe = formula ? "'" + text : text;
        return safe.AsSpan().IndexOfAny(Parting) < 0 ? safe : "\"" + safe.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
    }
}
