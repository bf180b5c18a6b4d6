namespace Spurless.Radio.Quantities;

/// <summary>Takes <c>A at B</c> apart.</summary>
internal static class PointText
{
    /// <summary>Splits at the word <c>at</c>, which must stand there once between spaces.</summary>
    internal static bool TrySplit(string? text, string what, string example, out string value, out string place, out string problem)
    {
        value = "";
        place = "";
        problem = "";
        string[] words = (text ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        int at = Array.IndexOf(words, "at");
        if (at <= 0 || at == words.Length - 1 || Array.LastIndexOf(words, "at") != at)
        {
            problem = words.Length == 0
                ? $"nothing stands here; write {what} like {example}"
                : $"{UnitTable.Quoted(text)} does not say at what; write {what} like {example}";
            return false;
        }

        value = string.Join(' ', words[..at]);
        place = string.Join(' ', words[(at + 1)..]);
        return true;
    }

    /// <summary>Reads a plain number above 0.</summary>
    internal static bool TryPlain(string text, string what, string example, out double value, out string problem)
    {
        value = 0;
        problem = "";
        if (!NumberText.TryRead(text, out NumberText number, out int length) || length != text.Length)
        {
            problem = $"{UnitTable.Quoted(text)} is not a plain number; write {what} like {example}";
            return false;
        }

        const double Least = 1e-9, Greatest = 1e12;
        if (!number.TryToDouble(0, out value) || value is not (0 or (>= Least and <= Greatest) or < 0))
        {
            problem = $"{UnitTable.Quoted(text)} is beyond all sense; write {what} like {example}";
            value = 0;
            return false;
        }

        if (value <= 0)
        {
            problem = $"{UnitTable.Quoted(text)} is not a number above 0; write {what} like {example}";
            value = 0;
            return false;
        }

        return true;
    }

    /// <summary>Reads an order: a plain whole number, 2 to 99.</summary>
    internal static bool TryOrder(string text, string example, out int order, out string problem)
    {
        order = 0;
        problem = "";
        if (NumberText.TryRead(text, out NumberText number, out int length) && length == text.Length
            && number.ToWhole(0, out long whole) == WholeNumber.Exact && whole is >= 2 and <= 99)
        {
            order = (int)whole;
            return true;
        }

        problem = $"{UnitTable.Quoted(text)} is not an order; write a whole number from 2 to 99 after 'at', like {example}";
        return false;
    }
}
