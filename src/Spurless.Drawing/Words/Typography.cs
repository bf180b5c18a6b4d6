namespace Spurless.Drawing.Words;

/// <summary>How signs and grouped digits are written: in ASCII for a terminal, or with the proper signs for a page.</summary>
public sealed record Typography
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
