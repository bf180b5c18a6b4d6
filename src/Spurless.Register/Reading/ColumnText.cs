using System.Globalization;
using System.Text;

namespace Spurless.Register.Reading;

/// <summary>Reads what stands in a field. An empty one is nothing, never zero.</summary>
internal static class ColumnText
{
    private static readonly UTF8Encoding Strict = new(false, true);

    /// <summary>A number, or null where there is none.</summary>
    public static double? Number(ReadOnlySpan<byte> field) =>
        double.TryParse(field, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value) ? value : null;

    /// <summary>A number that is not 0: where 0 stands for 'not given'.</summary>
    public static double? NotZero(ReadOnlySpan<byte> field) => Number(field) is { } value && value != 0 ? value : null;

    /// <summary>A whole number, or null.</summary>
    public static int? Whole(ReadOnlySpan<byte> field) =>
        int.TryParse(field, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int value) ? value : null;

    /// <summary>A frequency in units of so many hertz; 0 where it is empty, not a number or out of range.</summary>
    public static long Hertz(ReadOnlySpan<byte> field, double unit) =>
        Number(field) is { } value && value > 0 && value * unit < 1e12 ? (long)Math.Round(value * unit) : 0;

    /// <summary>Text in UTF-8, else in Latin-1; doubled quotes are one.</summary>
    public static string Text(ReadOnlySpan<byte> field)
    {
        string text;
        try
        {
            text = Strict.GetString(field);
        }
        catch (DecoderFallbackException)
        {
            text = Encoding.Latin1.GetString(field);
        }

        return text.Contains('"', StringComparison.Ordinal) ? text.Replace("\"\"", "\"", StringComparison.Ordinal) : text;
    }

    /// <summary>Text, or null where there is none.</summary>
    public static string? TextOrNull(ReadOnlySpan<byte> field) => field.IsEmpty || field.SequenceEqual("-"u8) ? null : Text(field);

    /// <summary>A date, in the order month, day, year or day, month, year where numbers with strokes leave it open; ISO dates and names
    /// of months are read too.</summary>
    public static DateOnly? Date(ReadOnlySpan<byte> field, bool monthFirst)
    {
        if (field.IsEmpty)
        {
            return null;
        }

        string text = Text(field);
        ReadOnlySpan<string> formats = monthFirst
            ? ["M/d/yyyy", "yyyy-M-d", "yyyyMMdd", "d-MMM-yyyy", "M-d-yyyy"]
            : ["yyyy-M-d", "d/M/yyyy", "yyyyMMdd", "d-MMM-yyyy", "d-MMM-yy", "d MMM yyyy", "d.M.yyyy", "yyyy/M/d"];

        // A time behind the date says no more.
        int time = text.IndexOfAny([' ', 'T'], Math.Min(text.Length, 8));
        string date = time > 0 && text.AsSpan(time + 1).IndexOf(':') >= 0 ? text[..time] : text;
        return DateOnly.TryParseExact(date, formats.ToArray(), CultureInfo.InvariantCulture, DateTimeStyles.AllowWhiteSpaces,
            out DateOnly value) ? value : null;
    }

    /// <summary>Degrees from degrees, minutes, seconds and a letter N S E W; null where that is no angle.</summary>
    /// <param name="degrees">Whole degrees.</param>
    /// <param name="minutes">Minutes under 60; empty is 0.</param>
    /// <param name="seconds">Seconds under 60; empty is 0.</param>
    /// <param name="side">N, S, E or W; empty counts as N or E.</param>
    public static double? Degrees(ReadOnlySpan<byte> degrees, ReadOnlySpan<byte> minutes, ReadOnlySpan<byte> seconds,
        ReadOnlySpan<byte> side)
    {
        if (Number(degrees) is not { } d || d < 0)
        {
            return null;
        }

        double? m = minutes.IsEmpty ? 0 : Number(minutes);
        double? s = seconds.IsEmpty ? 0 : Number(seconds);
        if (m is not (>= 0 and < 60) || s is not (>= 0 and < 60))
        {
            return null;
        }

        double angle = d + (m.Value / 60) + (s.Value / 3600);
        return side.IsEmpty || side[0] is (byte)'N' or (byte)'n' or (byte)'E' or (byte)'e' ? angle
            : side[0] is (byte)'S' or (byte)'s' or (byte)'W' or (byte)'w' ? -angle
            : null;
    }

    /// <summary>Degrees from one text: decimal with an optional letter, or degrees, minutes and seconds with any marks between, the
    /// letter before or behind.</summary>
    public static double? Angle(ReadOnlySpan<byte> field)
    {
        string text = Text(field).Trim();
        if (text.Length == 0)
        {
            return null;
        }

        bool negative = false;
        char last = char.ToUpperInvariant(text[^1]);
        char first = char.ToUpperInvariant(text[0]);
        if (first is 'N' or 'S' or 'E' or 'W')
        {
            (negative, text) = (first is 'S' or 'W', text[1..]);
        }
        else if (last is 'N' or 'S' or 'E' or 'W' && !(text[^1] == 's' && text.AsSpan().ContainsAny('d', 'm')))
        {
            // A small s behind degrees and minutes in letters is the mark of the seconds, not the south.
            (negative, text) = (last is 'S' or 'W', text[..^1]);
        }

        text = text.Trim();
        if (text.StartsWith('-'))
        {
            (negative, text) = (!negative, text[1..]);
        }

        List<double> parts = [];
        char[] marks = [' ', '°', '\'', '"', ':', '′', '″', 'º', 'd', 'm', 's'];
        foreach (string part in text.Split(marks, StringSplitOptions.RemoveEmptyEntries))
        {
            if (!double.TryParse(part, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value))
            {
                return null;
            }

            parts.Add(value);
        }

        if (parts.Count is 0 or > 3 || (parts.Count > 1 && parts[1] >= 60) || (parts.Count > 2 && parts[2] >= 60))
        {
            return null;
        }

        double angle = parts[0] + (parts.ElementAtOrDefault(1) / 60) + (parts.ElementAtOrDefault(2) / 3600);
        return negative ? -angle : angle;
    }
}
