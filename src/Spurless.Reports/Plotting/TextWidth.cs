namespace Spurless.Reports.Plotting;

/// <summary>
/// How wide a text will be. Advance widths of the common grotesque faces in thousandths of an em (from memory of the Helvetica metrics,
/// which most system sans faces follow), with a margin, so that a box is not too small in whatever face the reader has;
/// the browser tests compare the boxes that really come out.
/// </summary>
public static class TextWidth
{
    private const double Margin = 1.03;
    private const double Bold = 1.06;

    private const string Narrow = "iljI.,:;|!'\u2019/\u202F ft()[]r-";

    /// <summary>The width of a line of text.</summary>
    /// <param name="text">One line.</param>
    /// <param name="size">Size of type in the picture's units.</param>
    /// <param name="bold">Whether it is semibold.</param>
    /// <returns>In the picture's units.</returns>
    public static double Of(string text, double size, bool bold = false)
    {
        double sum = 0;
        foreach (char c in text)
        {
            sum += Advance(c);
        }

        return sum * size / 1000 * Margin * (bold ? Bold : 1);
    }

    /// <summary>The longest beginning that fits, with an ellipsis where something is cut off.</summary>
    /// <param name="text">One line.</param>
    /// <param name="width">In the picture's units.</param>
    /// <param name="size">Size of type.</param>
    /// <param name="bold">Whether it is semibold.</param>
    public static string Fit(string text, double width, double size, bool bold = false)
    {
        if (Of(text, size, bold) <= width)
        {
            return text;
        }

        for (int keep = text.Length - 1; keep > 0; keep--)
        {
            string cut = text[..keep].TrimEnd() + "\u2026";
            if (!char.IsHighSurrogate(text[keep - 1]) && Of(cut, size, bold) <= width)
            {
                return cut;
            }
        }

        return "";
    }

    private static double Advance(char c) => c switch
    {
        '\u2026' => 1000,
        'm' or 'M' => 833,
        'W' or '\u2014' => 1000,
        '%' => 889,
        'w' or 'C' or 'D' or 'H' or 'N' or 'R' or 'U' => 722,
        'G' or 'O' or 'Q' => 778,
        'A' or 'B' or 'E' or 'K' or 'P' or 'S' or 'V' or 'X' or 'Y' or '&' => 667,
        'F' or 'T' or 'Z' => 611,
        'L' or '_' => 556,
        'J' or 'c' or 'k' or 's' or 'v' or 'x' or 'y' or 'z' => 500,
        '+' or '=' or '<' or '>' or '\u2212' or '\u00D7' or '\u00B1' => 584,
        '\u25B8' or '\u25C2' => 650,
        'r' or '-' or '(' or ')' => 333,
        'f' or 't' or ' ' or '.' or ',' or '/' or 'I' or ':' or ';' or '[' or ']' or '!' => 278,
        'i' or 'j' or 'l' or '\'' or '\u2019' => 222,
        '\u202F' => 278,
        '\u03A9' => 770,
        >= '\u1100' => 1000,
        _ when Narrow.Contains(c, StringComparison.Ordinal) => 300,
        >= '\u0400' => 720,
        _ => 556,
    };
}
