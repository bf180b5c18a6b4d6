using System.Globalization;
using System.Text;

namespace Spurless.Reports.Text;

/// <summary>Lines of words at a fixed width, for terminals and plain files. Pure functions.</summary>
public static class TextFlow
{
    /// <summary>The width everything fits into unless told otherwise, in characters.</summary>
    public const int DefaultWidth = 80;

    /// <summary>How many places a text takes: its characters as a reader counts them, a letter with its accents as one.</summary>
    public static int WidthOf(string text)
    {
        int width = text.Length;
        for (int i = 0; i < text.Length; i++)
        {
            if (!char.IsAscii(text[i]))
            {
                return new StringInfo(text).LengthInTextElements;
            }
        }

        return width;
    }

    /// <summary>
    /// A text of the user's made fit to print: control characters, which could steer a terminal, as <c>?</c>, and lone surrogates as
    /// U+FFFD.
    /// </summary>
    public static string Printable(string text)
    {
        if (!text.AsSpan().ContainsAnyInRange('\0', '\u001f')
            && !text.Any(static c => char.IsControl(c) || char.IsSurrogate(c) || IsSteering(c)))
        {
            return text;
        }

        StringBuilder safe = new(text.Length);
        foreach (Rune rune in text.EnumerateRunes())
        {
            safe.Append(Rune.IsControl(rune) || (rune.IsBmp && IsSteering((char)rune.Value)) ? "?" : rune.ToString());
        }

        return safe.ToString();
    }

    /// <summary>Breaks a text at its spaces; a word longer than the width is broken where the line ends.</summary>
    /// <param name="text">A paragraph; its line breaks are kept.</param>
    /// <param name="width">Longest line, in characters, at least 1.</param>
    /// <param name="indent">Spaces before every line; counted in the width.</param>
    /// <param name="hanging">Further spaces before every line but the first.</param>
    /// <returns>The lines, without trailing spaces; one empty line for an empty text.</returns>
    public static IReadOnlyList<string> Wrap(string text, int width = DefaultWidth, int indent = 0, int hanging = 0)
    {
        List<string> lines = [];
        foreach (string paragraph in text.Split('\n'))
        {
            Fill(lines, paragraph, width, indent, hanging);
        }

        return lines;
    }

    private static void Fill(List<string> lines, string paragraph, int width, int indent, int hanging)
    {
        StringBuilder line = new();
        int used = 0;
        int margin = indent;
        int room = Math.Max(1, width - margin);

        void End()
        {
            lines.Add(line.Length == 0 ? "" : new string(' ', margin) + line.ToString().TrimEnd(' '));
            line.Clear();
            used = 0;
            margin = indent + hanging;
            room = Math.Max(1, width - margin);
        }

        foreach (string word in paragraph.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string rest = word;
            int length = WidthOf(rest);
            if (used > 0 && used + 1 + length > room)
            {
                End();
            }

            while (length > room)
            {
                (string head, rest) = Cut(rest, room);
                line.Append(head);
                End();
                length = WidthOf(rest);
            }

            if (rest.Length > 0)
            {
                if (used > 0)
                {
                    line.Append(' ');
                    used++;
                }

                line.Append(rest);
                used += length;
            }
        }

        if (used > 0 || paragraph.Trim().Length == 0)
        {
            End();
        }
    }

    private static (string Head, string Tail) Cut(string word, int width)
    {
        int[] starts = StringInfo.ParseCombiningCharacters(word);
        int at = width < starts.Length ? starts[width] : word.Length;
        return (word[..at], word[at..]);
    }

    // Marks that turn the direction of what follows, and line and paragraph separators.
    private static bool IsSteering(char c) => c is '\u2028' or '\u2029' or (>= '\u202a' and <= '\u202e') or (>= '\u2066' and <= '\u2069');
}
