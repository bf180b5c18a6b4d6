using System.Globalization;
using System.Text.RegularExpressions;

namespace Spurless.Reports.Tests.Text;

/// <summary>What every text for a terminal must keep to, whatever the data.</summary>
internal static partial class WrittenText
{
    /// <summary>
    /// Asserts that a text has no figure that is none, no negative zero, no control character, no trailing space, a final line feed, and
    /// that its counts agree with their nouns.
    /// </summary>
    public static void Sound(string text)
    {
        Assert.EndsWith("\n", text, StringComparison.Ordinal);
        Assert.DoesNotContain(text, static c => c != '\n' && (char.IsControl(c) || c is >= '\u202a' and <= '\u202e'));
        foreach (string line in text.Split('\n'))
        {
            Assert.Equal(line.TrimEnd(' '), line);
            Figures(line);
        }

        Agree(text);
    }

    /// <summary>Asserts that no figure is none or a negative zero.</summary>
    public static void Figures(string text)
    {
        Assert.False(NoFigure().IsMatch(text), $"no figure in: {text}");
        Assert.False(NegativeZero().IsMatch(text), $"a negative zero in: {text}");
    }

    /// <summary>Asserts that one is followed by one thing and several by several.</summary>
    public static void Agree(string text)
    {
        // As a reader sees it, lines joined.
        string flat = Regex.Replace(text, "[\\s\u00A0]+", " ");
        Match one = OneOfSeveral().Match(flat);
        Assert.False(one.Success, $"'{one.Value}' in: {flat}");
        Match several = SeveralOfOne().Match(flat);
        Assert.False(several.Success, $"'{several.Value}' in: {flat}");
    }

    /// <summary>The cells of a file of comma-separated values as RFC 4180 has them (section 2), rows ended by a line feed.</summary>
    public static List<List<string>> Csv(string text)
    {
        List<List<string>> rows = [[]];
        int at = 0;
        while (at < text.Length)
        {
            System.Text.StringBuilder cell = new();
            if (text[at] == '"')
            {
                for (at++; at < text.Length && (text[at] != '"' || (at + 1 < text.Length && text[at + 1] == '"')); at++)
                {
                    at += text[at] == '"' ? 1 : 0;
                    cell.Append(text[at]);
                }

                at++;
            }
            else
            {
                for (; at < text.Length && text[at] is not (',' or '\n'); at++)
                {
                    Assert.NotEqual('"', text[at]);
                    cell.Append(text[at]);
                }
            }

            rows[^1].Add(cell.ToString());
            Assert.True(at < text.Length, "the last row ends in a line feed");
            Assert.True(text[at] is ',' or '\n', $"a quoted cell is followed by '{text[at]}'");
            if (text[at] == '\n')
            {
                rows.Add([]);
            }
            else if (at + 1 == text.Length || text[at + 1] == '\n')
            {
                rows[^1].Add("");
                at++;
                rows.Add([]);
            }

            at++;
        }

        rows.RemoveAt(rows.Count - 1);
        return rows;
    }

    /// <summary>Asserts that a spreadsheet takes no cell for a formula: one that begins like one is a number.</summary>
    public static void NoFormula(string cell) => Assert.True(
        cell.TrimStart(' ', '\u00A0', '\u3000') is not { Length: > 0 } bare || !"=+@\t\r\n-".Contains(bare[0], StringComparison.Ordinal)
            || double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out _),
        $"'{cell}' is a formula");

    private const string Noun =
        "mixture|transmitter|emitter|receiver|circuit|record|tile|line|product|carrier|finding|hill|word|frame|letter";

    private const string Nouns =
        "mixtures|transmitters|emitters|receivers|circuits|records|tiles|lines|products|carriers|findings|frequencies|hills|ones";

    private const string Kind = "(?:(?:more|licensed|harmful|weaker) )?";

    private const string Some = "[2-9]|\\d+\\d|[Tt]wo|[Tt]hree|[Ff]our|[Ff]ive|[Ss]ix|[Ss]even|[Ee]ight|[Nn]ine|[Tt]en";

    [GeneratedRegex(@"\bNaN\b|Infinity|\u221E")]
    private static partial Regex NoFigure();

    [GeneratedRegex(@"(?<![\d.\w])[-\u2212]0(?:\.0+)?(?![\d.])")]
    private static partial Regex NegativeZero();

    [GeneratedRegex($@"(?<![\d.,] ?|x |of )\b(?:1|[Oo]ne) {Kind}(?:{Nouns}|stand\b(?! more)|stay\b|lie\b|are\b|were\b|have\b)")]
    private static partial Regex OneOfSeveral();

    [GeneratedRegex($@"(?<![\d.])\b(?:{Some}) {Kind}(?:{Noun})\b(?!-)")]
    private static partial Regex SeveralOfOne();
}
