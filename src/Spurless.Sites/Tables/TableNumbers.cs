using System.Globalization;

namespace Spurless.Sites.Tables;

/// <summary>Numbers as spreadsheets of any country write them, with or without a unit behind.</summary>
internal static class TableNumbers
{
    /// <summary>Takes a cell apart into a number in plain digits and what stands behind it.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="decimalComma">Whether a comma that could be either is the decimal sign.</param>
    /// <param name="number">Its number with a decimal point and no separators.</param>
    /// <param name="unit">What stands behind; empty for a bare number.</param>
    public static bool TryRead(string cell, bool decimalComma, out string number, out string unit)
    {
        (number, unit) = ("", "");
        int end = NumberEnd(cell);
        string digits = Bare(cell[..end]);
        if (!digits.Any(char.IsAsciiDigit) || !TryPlain(digits, decimalComma, out number))
        {
            return false;
        }

        unit = cell[end..].Trim().Trim('\u00A0', '\u202F', '.');
        return unit.Length == 0 || char.IsLetter(unit[0]) || unit[0] is '%' or '\u00B5' or '\u00B0';
    }

    /// <summary>What a comma in the numbers of a table is, by those that leave no choice; null where none does.</summary>
    /// <param name="cells">Cells that may hold numbers.</param>
    public static bool? DecimalComma(IEnumerable<string> cells)
    {
        (int commas, int points) = (0, 0);
        foreach (string cell in cells)
        {
            string digits = Bare(cell[..NumberEnd(cell)]);
            int comma = digits.LastIndexOf(',');
            int point = digits.LastIndexOf('.');
            bool grouped = comma >= 0 && digits.Length - comma - 1 == 3;
            commas += comma > point && (!grouped || point >= 0) && digits.IndexOf(',', StringComparison.Ordinal) == comma ? 1 : 0;
            points += point > comma && (digits.Length - point - 1 != 3 || comma >= 0) ? 1 : 0;
        }

        return commas == points ? null : commas > points;
    }

    /// <summary>A number's value.</summary>
    public static double Value(string number) => double.Parse(number, NumberStyles.Float, CultureInfo.InvariantCulture);

    private static int NumberEnd(string cell)
    {
        int end = 0;
        while (end < cell.Length && (char.IsAsciiDigit(cell[end])
            || ".,'\u2019+-\u2212 \u00A0\u202F".Contains(cell[end], StringComparison.Ordinal)
            || IsExponent(cell, end)))
        {
            end++;
        }

        return end;
    }

    // 1.45E+08, as a spreadsheet shows what its column is too narrow for; but not the E of a word.
    private static bool IsExponent(string cell, int at) => cell[at] is 'E' or 'e' && at > 0 && char.IsAsciiDigit(cell[at - 1])
        && at + 1 < cell.Length && (char.IsAsciiDigit(cell[at + 1])
            || (cell[at + 1] is '+' or '-' && at + 2 < cell.Length && char.IsAsciiDigit(cell[at + 2])));

    private static string Bare(string text) => new(
    [
        .. text.Where(static c => c is not (' ' or '\u00A0' or '\u202F' or '\'' or '\u2019'))
            .Select(static c => c == '\u2212' ? '-' : c),
    ]);

    private static bool TryPlain(string digits, bool decimalComma, out string number)
    {
        int comma = digits.LastIndexOf(',');
        int point = digits.LastIndexOf('.');
        char mark = comma >= 0 && point >= 0 ? (comma > point ? ',' : '.')
            : comma >= 0 ? (IsDecimal(digits, ',', decimalComma) ? ',' : '.')
            : point >= 0 && !IsDecimal(digits, '.', !decimalComma) ? ',' : '.';
        char group = mark == ',' ? '.' : ',';
        number = "";
        if (!Grouped(digits, group, mark))
        {
            return false;
        }

        string plain = digits.Replace(group.ToString(), "", StringComparison.Ordinal).Replace(mark, '.');
        if (!decimal.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out decimal value))
        {
            return false;
        }

        number = plain.AsSpan().IndexOfAny('E', 'e') < 0 ? plain.TrimStart('+')
            : value.ToString("0.############", CultureInfo.InvariantCulture);
        return true;
    }

    // A sign that stands once and not before three digits can only be the decimal one.
    private static bool IsDecimal(string digits, char sign, bool otherwise)
    {
        int at = digits.IndexOf(sign, StringComparison.Ordinal);
        return at == digits.LastIndexOf(sign) && (digits.Length - at - 1 != 3 || otherwise);
    }

    private static bool Grouped(string digits, char group, char mark)
    {
        int end = digits.IndexOf(mark, StringComparison.Ordinal);
        string[] groups = (end < 0 ? digits : digits[..end]).Split(group);
        return groups.Length == 1 || groups.Skip(1).All(static g => g.Length == 3);
    }
}
