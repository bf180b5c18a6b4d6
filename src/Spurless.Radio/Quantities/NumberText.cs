using System.Globalization;
using System.Numerics;

namespace Spurless.Radio.Quantities;

/// <summary>
/// A decimal number as it was written, digit for digit: sign, digits and power of ten. Unit prefixes are
/// applied to the power of ten before anything becomes binary, so that what was printed is read back exactly.
/// </summary>
/// <param name="Negative">Whether it stands below zero.</param>
/// <param name="Digits">Significant digits without leading zeros; empty for zero.</param>
/// <param name="Exponent">Power of ten of the last digit.</param>
internal readonly record struct NumberText(bool Negative, string Digits, long Exponent)
{
    /// <summary>Reads the longest number at the start of a text: sign, digits, point, exponent; invariant, no group separators.</summary>
    /// <param name="text">The text; U+2212 is accepted as a minus.</param>
    /// <param name="number">The number read.</param>
    /// <param name="length">How many characters it took.</param>
    internal static bool TryRead(ReadOnlySpan<char> text, out NumberText number, out int length)
    {
        number = default;
        length = 0;
        int i = 0;
        bool negative = false;
        if (i < text.Length && text[i] is '+' or '-' or '\u2212')
        {
            negative = text[i] != '+';
            i++;
        }

        int start = i;
        while (i < text.Length && char.IsAsciiDigit(text[i]))
        {
            i++;
        }

        ReadOnlySpan<char> whole = text[start..i];
        ReadOnlySpan<char> fraction = [];
        if (i < text.Length && text[i] == '.')
        {
            int from = ++i;
            while (i < text.Length && char.IsAsciiDigit(text[i]))
            {
                i++;
            }

            fraction = text[from..i];
        }

        if (whole.IsEmpty && fraction.IsEmpty)
        {
            return false;
        }

        long exponent = 0;
        if (i < text.Length && text[i] is 'e' or 'E')
        {
            int j = i + 1;
            bool down = false;
            if (j < text.Length && text[j] is '+' or '-' or '\u2212')
            {
                down = text[j] != '+';
                j++;
            }

            int digitsFrom = j;
            while (j < text.Length && char.IsAsciiDigit(text[j]))
            {
                // Beyond a million the outcome is overflow or zero whatever follows.
                exponent = Math.Min(1_000_000, (exponent * 10) + (text[j] - '0'));
                j++;
            }

            if (j > digitsFrom)
            {
                exponent = down ? -exponent : exponent;
                i = j;
            }
            else
            {
                exponent = 0;
            }
        }

        string digits = string.Concat(whole, fraction).TrimStart('0');
        number = new NumberText(negative, digits, digits.Length == 0 ? 0 : exponent - fraction.Length);
        length = i;
        return true;
    }

    /// <summary>The nearest double to the number times a power of ten.</summary>
    /// <returns>False where it is too large or, not being zero, too small for a double.</returns>
    internal bool TryToDouble(int powerOfTen, out double value)
    {
        if (Digits.Length == 0)
        {
            value = 0;
            return true;
        }

        string text = string.Create(CultureInfo.InvariantCulture, $"{(Negative ? "-" : "")}{Digits}e{Exponent + powerOfTen}");
        value = double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
        return double.IsFinite(value) && value != 0;
    }

    /// <summary>The number times a power of ten as a whole number.</summary>
    internal WholeNumber ToWhole(int powerOfTen, out long value)
    {
        value = 0;
        string digits = Digits.TrimEnd('0');
        if (digits.Length == 0)
        {
            return WholeNumber.Exact;
        }

        long exponent = Exponent + powerOfTen + (Digits.Length - digits.Length);
        if (exponent < 0)
        {
            return WholeNumber.HasFraction;
        }

        if (digits.Length + exponent > 19)
        {
            return WholeNumber.TooLarge;
        }

        BigInteger whole = BigInteger.Parse(digits, CultureInfo.InvariantCulture) * BigInteger.Pow(10, (int)exponent);
        whole = Negative ? -whole : whole;
        if (whole > long.MaxValue || whole < -long.MaxValue)
        {
            return WholeNumber.TooLarge;
        }

        value = (long)whole;
        return WholeNumber.Exact;
    }
}

/// <summary>What became of a number that should be whole.</summary>
internal enum WholeNumber
{
    Exact,
    HasFraction,
    TooLarge,
}
