using Spurless.Mixing.Search;
using Spurless.Radio.Quantities;

namespace Spurless.CommandLine;

/// <summary>Frequencies with commas between them; bare numbers are in MHz.</summary>
/// <param name="Hertz">In hertz, in the order written.</param>
internal readonly record struct CarrierList(IReadOnlyList<long> Hertz)
{
    /// <summary>Reads the list.</summary>
    public static bool TryParse(string text, out CarrierList value, out string problem)
    {
        value = default;
        problem = "";
        string[] parts = text.Split(',', StringSplitOptions.TrimEntries);
        if (parts.Length > SearchProblem.MaxEmitters)
        {
            problem = $"{parts.Length} frequencies are too many; write at most {SearchProblem.MaxEmitters}";
            return false;
        }

        List<long> all = [];
        foreach (string part in parts)
        {
            if (part.Length == 0)
            {
                problem = "there is a comma with no frequency beside it; write like 160.525,466.1";
                return false;
            }

            if (!TryParseCarrier(part, out Frequency one, out problem))
            {
                return false;
            }

            all.Add(one.Hertz);
        }

        value = new CarrierList(all);
        return true;
    }

    /// <summary>Reads one of them.</summary>
    public static bool TryParseCarrier(string text, out Frequency value, out string problem)
    {
        if (!Frequency.TryParseMegahertz(text, out value, out problem))
        {
            return false;
        }

        if (value.Hertz is > 0 and <= SearchProblem.MaxFrequencyHz)
        {
            return true;
        }

        problem = $"'{text.Trim()}' is no carrier; write a frequency above 0 and up to 1 THz, like 145.05";
        return false;
    }
}
