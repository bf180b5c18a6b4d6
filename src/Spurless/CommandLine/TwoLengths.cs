using Spurless.Radio.Quantities;

namespace Spurless.CommandLine;

/// <summary>Two lengths with a comma between them, in any order of size: one for each end of a path.</summary>
/// <param name="FirstM">The transmitting end's in metres, 0 or more.</param>
/// <param name="SecondM">The receiving end's in metres, 0 or more.</param>
internal readonly record struct TwoLengths(double FirstM, double SecondM)
{
    /// <summary>Reads the two.</summary>
    public static bool TryParse(string text, out TwoLengths value, out string problem)
    {
        value = default;
        string[] both = text.Split(',', StringSplitOptions.TrimEntries);
        if (both.Length != 2)
        {
            problem = $"'{text.Trim()}' is not two lengths; write one for each end, the transmitting one first, like \"12 m,19 m\"";
            return false;
        }

        if (!Length.TryParseNotNegative(both[0], out Length first, out problem) || !Length.TryParseNotNegative(
            both[1], out Length second, out problem))
        {
            return false;
        }

        value = new TwoLengths(first.Metres, second.Metres);
        return true;
    }
}
