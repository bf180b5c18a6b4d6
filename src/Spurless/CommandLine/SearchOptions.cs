using System.CommandLine;
using System.Globalization;

namespace Spurless.CommandLine;

/// <summary>The options of commands that search mixtures.</summary>
internal static class SearchOptions
{
    /// <summary><c>--orders 2-7</c>.</summary>
    public static Option<OrderRange?> Orders() =>
        OptionKinds.Parsed<OrderRange>("--orders", "2-7", "lowest and highest order, of 2 to 9; default 2-7", OrderRange.TryParse);

    /// <summary><c>--signals 3</c>.</summary>
    public static Option<int?> Signals() => OptionKinds.Parsed(
        "--signals",
        "3",
        "how many transmitters may take part in one mixture, 1 to 9; default 3",
        (string text, out int value, out string problem) =>
        {
            problem = "";
            if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value is >= 1 and <= 9)
            {
                return true;
            }

            problem = $"'{text.Trim()}' is no number of transmitters; write 1 to 9";
            return false;
        });
}
