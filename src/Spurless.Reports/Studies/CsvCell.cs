namespace Spurless.Reports.Studies;

/// <summary>Cells of the CSV that commands write (RFC 4180).</summary>
public static class CsvCell
{
    /// <summary>
    /// The cell, quoted where it holds a comma, a quote or a line break. A text that a spreadsheet would take for a formula gets an apostrophe in front:
    /// names come from files of others.
    /// </summary>
    public static string Quote(string text)
    {
        bool formula = text.Length > 0 && text[0] is '=' or '+' or '@' or '\t' || (text.Length > 0 && text[0] == '-' && !double.TryParse(text, System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out _));
        string safe = formula ? "'" + text : text;
        return safe.AsSpan().IndexOfAny(",\"\r\n") < 0 ? safe : "\"" + safe.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
    }
}
