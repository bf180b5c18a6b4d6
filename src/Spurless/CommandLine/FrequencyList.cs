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
        foreach (string part in text.Split(',', StringSplitOptions.TrimEntries))
        {
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
}
