using System.Globalization;
using System.Text;

namespace Spurless.Circuits.Touchstone;

/// <summary>One word of a Touchstone file with its line and its column in bytes, both from 1.</summary>
internal readonly record struct Token(string Text, int Line, int Column);

/// <summary>One line of a Touchstone file without its comment.</summary>
/// <param name="Number">Line number, from 1.</param>
/// <param name="Text">The line's text before the comment, each byte one character.</param>
/// <param name="Column">Column at which <paramref name="Text"/> begins, from 1.</param>
/// <param name="Comment">The comment's text without the mark, or null.</param>
internal readonly record struct SourceLine(int Number, string Text, int Column, string? Comment)
{
    /// <summary>The words of the line.</summary>
    public List<Token> Tokens()
    {
        List<Token> tokens = [];
        int i = 0;
        while (i < Text.Length)
        {
            if (Text[i] is ' ' or '\t' or '\f' or '\v')
            {
                i++;
                continue;
            }

            int from = i;
            while (i < Text.Length && Text[i] is not (' ' or '\t' or '\f' or '\v'))
            {
                i++;
            }

            tokens.Add(new Token(Text[from..i], Number, Column + from));
        }

        return tokens;
    }
}

/// <summary>
/// Splits the bytes of a Touchstone file into lines. A line ends with LF, CR LF or CR; comments (from <c>!</c>) may hold any bytes;
/// a UTF-8 byte-order mark is passed over. Bytes are kept as one character each, so that a column is always that of the byte.
/// </summary>
internal static class TouchstoneLines
{
    public static IEnumerable<SourceLine> Split(byte[] bytes)
    {
        int at = bytes is [0xEF, 0xBB, 0xBF, ..] ? 3 : 0;
        int number = 1;
        while (at < bytes.Length)
        {
            int end = at;
            while (end < bytes.Length && bytes[end] is not ((byte)'\n' or (byte)'\r'))
            {
                end++;
            }

            ReadOnlySpan<byte> line = bytes.AsSpan(at, end - at);
            int mark = line.IndexOf((byte)'!');
            string text = Encoding.Latin1.GetString(mark < 0 ? line : line[..mark]);
            string? comment = mark < 0 ? null : Encoding.Latin1.GetString(line[(mark + 1)..]);
            yield return new SourceLine(number, text, 1, comment);
            number++;
            at = end + (end + 1 < bytes.Length && bytes[end] == '\r' && bytes[end + 1] == '\n' ? 2 : 1);
        }
    }

    /// <summary>The text for a message: what cannot be printed as <c>\xNN</c>, at most 40 characters.</summary>
    public static string Quote(string text) => $"'{Shown(text)}'";

    /// <summary>A keyword for a message, as <see cref="Quote"/> shows a text.</summary>
    public static string Keyword(string text) => $"[{Shown(text)}]";

    private static string Shown(string text)
    {
        StringBuilder quoted = new();
        foreach (char c in text.Length > 40 ? text[..40] : text)
        {
            if (c is >= ' ' and < (char)127)
            {
                quoted.Append(c);
            }
            else
            {
                quoted.Append(CultureInfo.InvariantCulture, $"\\x{(int)c:X2}");
            }
        }

        return quoted.Append(text.Length > 40 ? "..." : "").ToString();
    }
}
