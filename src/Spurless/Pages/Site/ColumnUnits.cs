using System.Globalization;

namespace Spurless.Pages.Site;

/// <summary>
/// The unit of a column, for a bare number typed into it: only where the trade knows one alone. The number is written with it, so that what
/// is assumed is seen.
/// </summary>
internal static class ColumnUnits
{
    /// <summary>Usual units by key, with the numbers that are unmistakably in them.</summary>
    private static readonly (string Key, string Unit, double Least, double Most)[] Units =
    [
        ("frequency", "MHz", 20, 3000), // a carrier of these bands: no other unit of frequency gives such a number for one
        ("level", "dBm", -150, 30),
        ("sensitivity", "dBm", -150, -60),
        ("iip3", "dBm", -60, 60),
        ("noise_figure", "dB", 0, 40),
        ("antenna.gain", "dBi", -40, 40),
    ];

    /// <summary>What was typed, with its column's unit where it is a bare number that can be in no other.</summary>
    /// <param name="field">The field or its key.</param>
    /// <param name="typed">What was typed.</param>
    public static string Complete(string field, string typed)
    {
        string bare = typed.Trim();
        (string Key, string Unit, double Least, double Most) unit = Units.FirstOrDefault(u => Is(field, u.Key));
        return unit.Unit is not null
            && double.TryParse(bare.Replace('\u2212', '-'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
                CultureInfo.InvariantCulture, out double number)
            && number >= unit.Least && number <= unit.Most
            ? $"{bare.Replace('\u2212', '-')} {unit.Unit}"
            : typed;
    }

    private static bool Is(string field, string key) => field == key || field.EndsWith("." + key, StringComparison.Ordinal);
}
