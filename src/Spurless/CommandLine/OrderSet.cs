using System.Globalization;

namespace Spurless.CommandLine;

/// <summary>Orders of mixtures with commas between them: <c>2,3,5</c>.</summary>
/// <param name="Orders">Each once, rising.</param>
internal readonly record struct OrderSet(IReadOnlyList<int> Orders)
{
    /// <summary>Reads them.</summary>
    public static bool TryParse(string text, out OrderSet value, out string problem)
    {
        SortedSet<int> orders = [];
        problem = "";
        foreach (string part in text.Split(',', StringSplitOptions.TrimEntries))
        {
            if (!int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out int order) || order is < 2 or > 9)
            {
                problem = $"'{part}' is no order; write orders from 2 to 9 with commas between, like 2,3,5";
            }

            orders.Add(order);
        }

        value = new OrderSet([.. orders]);
        return problem.Length == 0;
    }
}
