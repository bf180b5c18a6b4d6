using System.Text.RegularExpressions;

namespace Spurless.Drawing.Words;

/// <summary>How signs and grouped digits are written: in ASCII for a terminal, or with the proper signs for a page.</summary>
public sealed partial record Typography
{
    /// <summary>For text output: every sign can be typed.</summary>
    public static Typography Plain { get; } = new() { Minus = "-", Times = "x", Group = " ", Space = " ", PlusMinus = "+-" };

    /// <summary>For pages and pictures: U+2212, U+00D7 and a narrow space.</summary>
    public static Typography Fine { get; } = new()
    {
        Minus = "\u2212",
        Times = "\u00D7",
        Group = "\u202F",
        Space = "\u00A0",
        PlusMinus = "\u00B1",
    };

    /// <summary>
    /// A sentence with this minus sign before its figures, where it was written with a hyphen for a terminal: <c>-140 to -160 dBc/Hz</c>. A
    /// hyphen within a word or between figures stays.
    /// </summary>
    /// <param name="sentence">A text in words.</param>
    public string Signed(string sentence)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        if (Minus == "-" || !sentence.Contains('-', StringComparison.Ordinal))
        {
            return sentence;
        }

        System.Text.StringBuilder text = new(sentence.Length);
        for (int i = 0; i < sentence.Length; i++)
        {
            bool isSign = sentence[i] == '-' && (i == 0 || sentence[i - 1] is ' ' or '(' or '\u00A0' or '[')
                && i + 1 < sentence.Length && char.IsAsciiDigit(sentence[i + 1]);
            text.Append(isSign ? Minus : sentence[i..(i + 1)]);
        }

        return text.ToString();
    }

    /// <summary>
    /// A sentence whose figures keep their units at a line's end: <c>50 dB</c>, <c>145.05 MHz</c>. Names, and figures without a unit, may
    /// part as before.
    /// </summary>
    /// <param name="sentence">A text in words.</param>
    public string Held(string sentence)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        return Space == " " ? sentence : FigureAndUnit().Replace(sentence, "$1" + Space);
    }

    // A unit ends with its word: '2 minutes' is no metre, '3 parts' no picofarad.
    [GeneratedRegex(
        @"(?<![\p{L}\d.])(\d[\d.,\u202F]*) (?=(?:dB[cdimuW]?|[kMG]?Hz|[mkun\u00B5]?W|[mun\u00B5k]?V|[mun\u00B5]?A|[pnu\u00B5]F"
            + @"|[nu\u00B5]H|[mk]?m|[mun\u00B5]?s|ohm|kohm|Mohm|K|h|min|%)(?![\p{L}\d]))",
        RegexOptions.CultureInvariant)]
    private static partial Regex FigureAndUnit();

    /// <summary>The minus sign.</summary>
    public required string Minus { get; init; }

    /// <summary>The sign between a count and what it counts.</summary>
    public required string Times { get; init; }

    /// <summary>What stands between groups of three digits.</summary>
    public required string Group { get; init; }

    /// <summary>What stands between a number and its unit or sign, where a line must not break.</summary>
    public required string Space { get; init; }

    /// <summary>The sign before a deviation.</summary>
    public required string PlusMinus { get; init; }
}
