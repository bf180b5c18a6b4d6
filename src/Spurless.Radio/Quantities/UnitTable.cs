namespace Spurless.Radio.Quantities;

/// <summary>A unit's symbol, its power of ten and, where ten does not do, a further factor to the SI unit.</summary>
internal readonly record struct UnitSymbol(string Symbol, int PowerOfTen, double Factor = 1);

/// <summary>
/// The units in which one kind of quantity may be written, and the messages about a text that holds none of them.
/// Symbols are compared exactly (m is not M) after the two micro signs have become u and the ohm signs ohm.
/// </summary>
/// <param name="kind">The quantity with its article: <c>a frequency</c>.</param>
/// <param name="usual">The unit that is proposed where none stands.</param>
/// <param name="example">A complete example: <c>145.05 MHz</c>.</param>
/// <param name="units">All units.</param>
internal sealed class UnitTable(string kind, string usual, string example, params UnitSymbol[] units)
{
    /// <summary>The values that make sense, in the SI unit; all where nothing is said.</summary>
    internal SenseRange? Sense { get; init; }

    // A comma before other than three digits can only be a decimal one; before three it may part the thousands.
    private string? WithPoint(string clean, string written, string symbol)
    {
        int digits = symbol.AsSpan(1).IndexOfAnyExceptInRange('0', '9');
        digits = digits < 0 ? symbol.Length - 1 : digits;
        string unit = symbol[(1 + digits)..].TrimStart();
        return digits != 3 && Array.Exists(units, u => u.Symbol == unit) // else it would be no remedy
            && !written.Contains('.', StringComparison.Ordinal) && clean.Contains(',', StringComparison.Ordinal)
            ? $"{written}.{symbol.AsSpan(1, digits)} {unit}"
            : null;
    }

    private static readonly (string Prefix, int Power)[] _prefixes =
        [("f", -15), ("p", -12), ("n", -9), ("u", -6), ("m", -3), ("", 0), ("k", 3), ("M", 6), ("G", 9), ("T", 12)];

    /// <summary>The quantity with its article.</summary>
    internal string Kind => kind;

    /// <summary>A complete example.</summary>
    internal string Example => example;

    /// <summary>A unit with the prefixes from a to b (powers of ten, inclusive).</summary>
    internal static UnitSymbol[] Prefixed(string unit, int from, int to) =>
        [.. _prefixes.Where(p => p.Power >= from && p.Power <= to).Select(p => new UnitSymbol(p.Prefix + unit, p.Power))];

    /// <summary>Reads a number and its unit and turns them into the SI unit.</summary>
    internal bool TryRead(string? text, out double value, out string problem)
    {
        value = 0;
        if (!TryMatch(text, out NumberText number, out UnitSymbol unit, out problem))
        {
            return false;
        }

        if (!number.TryToDouble(unit.PowerOfTen, out value) || !double.IsFinite(value * unit.Factor))
        {
            problem = $"{Quoted(text)} is beyond what can be computed with; write {kind} like {example}";
            value = 0;
            return false;
        }

        value *= unit.Factor;
        return IsSense(value, text, out problem);
    }

    /// <summary>Whether a value that was read lies where it makes sense.</summary>
    internal bool IsSense(double value, string? text, out string problem)
    {
        problem = Sense is { } sense && !sense.Contains(value) ? sense.Problem(text, kind, example) : "";
        return problem.Length == 0;
    }

    /// <summary>Reads a number and finds its unit.</summary>
    internal bool TryMatch(string? text, out NumberText number, out UnitSymbol unit, out string problem)
    {
        unit = default;
        problem = "";
        string clean = (text ?? "").Trim();
        number = default;
        if (clean.Length == 0)
        {
            problem = $"nothing stands here; write {kind} like {example}";
            return false;
        }

        if (!NumberText.TryRead(clean, out number, out int length))
        {
            problem = IsNotFinite(clean)
                ? $"{Quoted(text)} is not a finite number; write {kind} like {example}"
                : $"{Quoted(text)} is not {kind}; write it like {example}";
            return false;
        }

        string written = clean[..length];
        string symbol = Normalise(clean[length..].TrimStart());
        if (symbol.Length == 0)
        {
            problem = $"{Quoted(text)} has no unit; write {Shown(written)} {usual}";
            return false;
        }

        foreach (UnitSymbol candidate in units)
        {
            if (candidate.Symbol == symbol)
            {
                unit = candidate;
                return true;
            }
        }

        if (symbol[0] == ',' && symbol.Length > 1 && char.IsAsciiDigit(symbol[1]))
        {
            problem = WithPoint(clean, written, symbol) is { } point
                ? $"{Quoted(text)} has a comma in the number; write {Shown(point)}"
                : $"{Quoted(text)} has a comma in the number; write a decimal point and no separators, like {example}";
            return false;
        }

        foreach (UnitSymbol candidate in units)
        {
            if (string.Equals(candidate.Symbol, symbol, StringComparison.OrdinalIgnoreCase))
            {
                problem = $"{Quoted(text)} has the unit {Quoted(symbol)}, which is not known; write {Shown(written)} {candidate.Symbol}";
                return false;
            }
        }

        string all = string.Join(", ", units.Select(u => u.Symbol).Distinct());
        problem = $"{Quoted(text)} has the unit {Quoted(symbol)}, which is not one of {kind}; write it like {example} (units: {all})";
        return false;
    }

    /// <summary>A text of the user's in quotation marks, cut to a length that fits a message, control characters shown as '?'.</summary>
    internal static string Quoted(string? text) => $"'{Shown(text)}'";

    /// <summary>As <see cref="Quoted"/>, without the marks.</summary>
    internal static string Shown(string? text)
    {
        string clean = (text ?? "").Trim();
        if (clean.Length > 60)
        {
            clean = string.Concat(clean.AsSpan(0, 57), "...");
        }

        return string.Concat(clean.Select(static c => char.IsControl(c) || char.IsSurrogate(c) ? '?' : c));
    }

    /// <summary>One spelling for each unit: both micro signs become u, both ohm signs become ohm, runs of spaces one space.</summary>
    internal static string Normalise(string unit)
    {
        string one = unit.Replace('\u00B5', 'u').Replace('\u03BC', 'u')
            .Replace("\u03A9", "ohm", StringComparison.Ordinal).Replace("\u2126", "ohm", StringComparison.Ordinal);
        return string.Join(' ', one.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }

    private static bool IsNotFinite(string text)
    {
        string head = text.TrimStart('+', '-', '\u2212', '.');
        return head.StartsWith("nan", StringComparison.OrdinalIgnoreCase)
            || head.StartsWith("inf", StringComparison.OrdinalIgnoreCase)
            || head.StartsWith('\u221E');
    }
}
