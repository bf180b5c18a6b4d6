using Spurless.Radio.Quantities;

namespace Spurless.CommandLine;

/// <summary>Frequencies with their units and commas between them.</summary>
/// <param name="Hertz">In hertz, in the order written.</param>
internal readonly record struct FrequencyList(IReadOnlyList<long> Hertz)
{
    /// <summary>Reads the list.</summary>
    public static bool TryParse(string text, out FrequencyList value, out string problem)
    {
        value = default;
        problem = "";
        List<long> all = [];
        string[] parts = text.Split(',', StringSplitOptions.TrimEntries);
        for (int i = 0; i < parts.Length; i++)
        {
            string part = parts[i];
            if (i + 1 < parts.Length && IsDecimalComma(part, parts[i + 1]))
            {
                problem = $"'{part},{parts[i + 1]}' has a comma in the number, or no unit at the first of two frequencies; "
                    + $"write {part}.{parts[i + 1]}, or a unit at each";
                return false;
            }

            if (part.Length == 0)
            {
                problem = "there is a comma with no frequency beside it; write like \"145.05 MHz,160.5125 MHz\"";
                return false;
            }

            if (!Frequency.TryParsePositive(part, out Frequency one, out problem))
            {
                return false;
            }

            all.Add(one.Hertz);
        }

        value = new FrequencyList(all);
        return true;
    }

    // '145,05 MHz': whole figures without a unit, then figures with one.
    private static bool IsDecimalComma(string part, string next) => part.Length > 0 && part.All(char.IsAsciiDigit)
        && next.Length > 0 && char.IsAsciiDigit(next[0]) && Frequency.TryParsePositive($"{part}.{next}", out _, out string _);
}
