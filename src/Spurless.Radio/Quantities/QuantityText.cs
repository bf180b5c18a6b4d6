using System.Globalization;

namespace Spurless.Radio.Quantities;

/// <summary>Checks and printing that all quantities share.</summary>
internal static class QuantityText
{
    private static readonly string[] _prefixes = ["f", "p", "n", "u", "m", "", "k", "M", "G", "T"];

    /// <summary>Refuses NaN and infinity by name.</summary>
    internal static double Finite(double value, string name) =>
        double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, value, "must be a finite number");

    /// <summary>Refuses NaN, infinity and what is below zero by name.</summary>
    internal static double NotNegative(double value, string name) =>
        Finite(value, name) >= 0 ? value : throw new ArgumentOutOfRangeException(name, value, "must not be negative");

    /// <summary>Refuses NaN, infinity, zero and what is below it by name.</summary>
    internal static double AboveZero(double value, string name) =>
        Finite(value, name) > 0 ? value : throw new ArgumentOutOfRangeException(name, value, "must be above 0");

    /// <summary>A plain number with its unit, the fewest digits that read back to the same double.</summary>
    internal static string Plain(double value, string unit) => string.Create(CultureInfo.InvariantCulture, $"{Shortest(value)} {unit}");

    /// <summary>
    /// A number in engineering notation (power of ten a multiple of three, as a prefix where one from the given powers fits),
    /// the fewest digits that read back to the same double.
    /// </summary>
    internal static string Engineering(double value, string unit, int from, int to)
    {
        if (value == 0)
        {
            return $"0 {unit}";
        }

        string shortest = Math.Abs(value).ToString("R", CultureInfo.InvariantCulture);
        _ = NumberText.TryRead(shortest, out NumberText number, out _);
        string digits = number.Digits.TrimEnd('0');
        long last = number.Exponent + (number.Digits.Length - digits.Length);
        long first = last + digits.Length - 1;
        long group = Math.DivRem(first, 3).Quotient * 3;
        group = group > first ? group - 3 : group;
        if (group < from || group > to)
        {
            return string.Create(CultureInfo.InvariantCulture, $"{value:R} {unit}");
        }

        int wholeDigits = (int)(first - group) + 1;
        string padded = digits.PadRight(wholeDigits, '0');
        string mantissa = padded.Length > wholeDigits ? $"{padded[..wholeDigits]}.{padded[wholeDigits..]}" : padded;
        return $"{(value < 0 ? "-" : "")}{mantissa} {_prefixes[(group / 3) + 5]}{unit}";
    }

    /// <summary>
    /// A share in per cent: the digits of the share with the point moved by two, so that it reads back to the same double.
    /// </summary>
    internal static string Percent(double value)
    {
        if (value == 0)
        {
            return "0 %";
        }

        _ = NumberText.TryRead(Math.Abs(value).ToString("R", CultureInfo.InvariantCulture), out NumberText number, out _);
        string digits = number.Digits.TrimEnd('0');
        long last = number.Exponent + (number.Digits.Length - digits.Length) + 2;
        string sign = value < 0 ? "-" : "";
        if (last is < -20 or > 15)
        {
            return string.Create(CultureInfo.InvariantCulture, $"{sign}{digits}E{last} %");
        }

        string padded = last >= 0 ? digits + new string('0', (int)last) : digits.PadLeft((int)-last + 1, '0');
        return last >= 0 ? $"{sign}{padded} %" : $"{sign}{padded[..^(int)-last]}.{padded[^(int)-last..]} %";
    }

    /// <summary>The fewest digits that read back to the same double; without an exponent where that stays readable.</summary>
    internal static string Shortest(double value) => value == 0 ? "0" : value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>The exception that <c>Parse</c> throws where <c>TryParse</c> says no.</summary>
    internal static FormatException Refused(string problem) => new(problem);
}
