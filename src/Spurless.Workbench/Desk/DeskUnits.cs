namespace Spurless.Workbench.Desk;

/// <summary>Units of one quantity that differ by a prefix: what is typed in one is turned into another.</summary>
internal static class DeskUnits
{
    private static readonly string[] Bases = ["ohm", "F", "H", "m"];

    private static readonly (string Prefix, int Power)[] Prefixes =
    [
        ("f", -15), ("p", -12), ("n", -9), ("u", -6), ("\u00B5", -6), ("m", -3), ("", 0), ("k", 3), ("M", 6),
    ];

    /// <summary>A text without its unit, and by which power of ten its number is to be multiplied for the wanted unit.</summary>
    /// <param name="text">A number with a unit of the same quantity.</param>
    /// <param name="unit">The wanted unit: <c>pF</c>.</param>
    /// <returns>The text as it is, and 0, where its unit is another quantity's or none.</returns>
    public static (string Number, int Shift) Stripped(string text, string unit)
    {
        foreach (string one in Bases.Where(b => unit.EndsWith(b, StringComparison.Ordinal)))
        {
            int? wanted = PowerOf(unit[..^one.Length]);
            foreach ((string prefix, int power) in Prefixes.OrderByDescending(static p => p.Prefix.Length))
            {
                if (wanted is { } to && text.EndsWith(prefix + one, StringComparison.Ordinal))
                {
                    return (text[..^(prefix.Length + one.Length)].TrimEnd(), power - to);
                }
            }

            break;
        }

        return (text, 0);
    }

    private static int? PowerOf(string prefix) =>
        Prefixes.Where(p => p.Prefix == prefix).Select(static p => (int?)p.Power).FirstOrDefault();
}
