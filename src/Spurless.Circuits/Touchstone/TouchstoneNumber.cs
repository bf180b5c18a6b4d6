using System.Globalization;
using System.Numerics;

namespace Spurless.Circuits.Touchstone;

/// <summary>Numbers as Touchstone files write them: digits, point, exponent; nothing of any culture.</summary>
internal static class TouchstoneNumber
{
    /// <summary>Reads a finite number times a power of ten, correctly rounded (0.05 GHz is exactly 50,000,000 Hz).</summary>
    public static bool TryParse(string text, int powerOfTen, out double value)
    {
        value = 0;
        if (!HasShape(text, out int exponentAt))
        {
            return false;
        }

        string scaled = text;
        if (powerOfTen != 0)
        {
            string mantissa = exponentAt < 0 ? text : text[..exponentAt];
            int exponent = 0;
            if (exponentAt >= 0
                && !int.TryParse(text.AsSpan(exponentAt + 1), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out exponent))
            {
                return false;
            }

            scaled = string.Create(CultureInfo.InvariantCulture, $"{mantissa}e{exponent + powerOfTen}");
        }

        return double.TryParse(scaled, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
    }

    /// <summary>Whether the text is a negative infinity, which in dB is an exact zero.</summary>
    public static bool IsMinusInfinity(string text) =>
        text.Equals("-inf", StringComparison.OrdinalIgnoreCase) || text.Equals("-infinity", StringComparison.OrdinalIgnoreCase);

    /// <summary>
    /// Reads a reference impedance: <c>50</c>, <c>50+5j</c>, <c>50-j5</c>, <c>50+5i</c>, or one of these in brackets, <c>(50+5j)</c>.
    /// </summary>
    public static bool TryParseImpedance(string text, out Complex value)
    {
        value = default;
        if (text is ['(', .. var inner, ')'])
        {
            text = inner;
        }

        if (TryParse(text, 0, out double real))
        {
            value = new Complex(real, 0);
            return true;
        }

        int split = -1;
        for (int i = 1; i < text.Length; i++)
        {
            if (text[i] is '+' or '-' && text[i - 1] is not ('e' or 'E'))
            {
                split = i;
            }
        }

        if (split < 0 || !TryParse(text[..split], 0, out real))
        {
            return false;
        }

        string tail = text[(split + 1)..];
        string digits = tail.Length > 0 && tail[0] is 'j' or 'i' or 'J' or 'I' ? tail[1..]
            : tail.Length > 0 && tail[^1] is 'j' or 'i' or 'J' or 'I' ? tail[..^1]
            : "";
        if (digits.Length == 0 || digits[0] is '+' or '-' || !TryParse(digits, 0, out double imaginary))
        {
            return false;
        }

        value = new Complex(real, text[split] == '-' ? -imaginary : imaginary);
        return true;
    }

    private static bool HasShape(string text, out int exponentAt)
    {
        exponentAt = -1;
        int i = 0;
        if (i < text.Length && text[i] is '+' or '-')
        {
            i++;
        }

        int digits = 0;
        bool point = false;
        for (; i < text.Length; i++)
        {
            if (char.IsAsciiDigit(text[i]))
            {
                digits++;
            }
            else if (text[i] == '.' && !point)
            {
                point = true;
            }
            else
            {
                break;
            }
        }

        if (digits == 0)
        {
            return false;
        }

        if (i == text.Length)
        {
            return true;
        }

        if (text[i] is not ('e' or 'E'))
        {
            return false;
        }

        exponentAt = i++;
        if (i < text.Length && text[i] is '+' or '-')
        {
            i++;
        }

        int from = i;
        while (i < text.Length && char.IsAsciiDigit(text[i]))
        {
            i++;
        }

        return i == text.Length && i > from;
    }
}
