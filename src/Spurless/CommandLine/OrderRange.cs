using System.Globalization;

namespace Spurless.CommandLine;

/// <summary>Lowest and highest order of a search, as typed: <c>2-7</c>, or <c>3</c> for one order.</summary>
/// <param name="Lowest">2 to 9.</param>
/// <param name="Highest">From the lowest to 9.</param>
internal readonly record struct OrderRange(int Lowest, int Highest)
{
    /// <summary>Reads a range.</summary>
    public static bool TryParse(string text, out OrderRange value, out string problem)
    {
        string[] ends = text.Split('-', StringSplitOptions.TrimEntries);
        if (ends.Length <= 2 && TryOrder(ends[0], out int lowest) && TryOrder(ends[^1], out int highest) && lowest <= highest)
        {
            value = new OrderRange(lowest, highest);
            problem = "";
            return true;
        }

        value = default;
        problem = $"'{text.Trim()}' is no range of orders; write the lowest and the highest of 2 to 9, like 2-7, or one order";
        return false;
    }

    private static bool TryOrder(string text, out int order) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out order) && order is >= 2 and <= 9;
}
