using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Emissions;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Tables;

/// <summary>Cells of somebody's table as values of a site file.</summary>
internal static class TableCells
{
    private static readonly string[] Nothings = ["-", "\u2013", "\u2014", "n/a", "na", "?", "none", "unknown", "null", "tbd", "not known"];

    /// <summary>Whether a cell says that nothing is known.</summary>
    public static bool IsBlank(string cell) => cell.Length == 0 || Nothings.Contains(cell.ToLowerInvariant());

    /// <summary>A cell as the site file writes it.</summary>
    /// <param name="key">What its column is taken for.</param>
    /// <param name="unit">The unit of its column's bare numbers.</param>
    /// <param name="cell">The cell.</param>
    /// <param name="comma">Whether a comma that could be either is the decimal sign.</param>
    /// <param name="value">The value.</param>
    /// <returns>Why not; null where it is.</returns>
    public static Refusal? Read(string key, string? unit, string cell, bool comma, out string value)
    {
        value = cell.ReplaceLineEndings(" ");
        if (key == "name")
        {
            return null;
        }

        if (key == "emission")
        {
            return Emission.TryParse(cell, out _, out string said) ? null : Said(said);
        }

        if (!TableNumbers.TryRead(cell, comma, out string number, out string own))
        {
            return new Refusal($"'{Quote.Short(cell)}' is no number", Example(key, unit));
        }

        bool degrees = key is "at.latitude" or "at.longitude" or "bearing" or "antenna.bearing";
        string? taken = own.Length > 0 ? own : unit;
        if (degrees)
        {
            value = number;
            return own is "" or "\u00B0" ? null
                : new Refusal($"'{Quote.Short(cell)}' is no number of degrees", "write degrees with decimals, as in 40.5");
        }

        if (taken is null)
        {
            return new Refusal($"'{Quote.Short(cell)}' has no unit", "say which unit the column is in");
        }

        // '145 mhz' of a spreadsheet is no other unit than MHz; where case tells units apart, the site's reader asks.
        taken = TableKeys.Of(key)?.Units.FirstOrDefault(u => u.Equals(taken, StringComparison.OrdinalIgnoreCase)) ?? taken;
        value = $"{number} {taken}";
        return Problem(key, value) is { } problem ? Said(problem) : null;
    }

    private static string? Problem(string key, string value)
    {
        string problem = "";
        bool good = key switch
        {
            "frequency" => Frequency.TryParsePositive(value, out _, out problem),
            "bandwidth" => Frequency.TryParse(value, out _, out problem),
            "level" => Level.TryParse(value, out _, out problem),
            "power" or "erp" or "eirp" => Power.TryParse(value, out _, out problem),
            "antenna.gain" => AntennaGain.TryParse(value, out _, out problem),
            "feedline" or "uncertainty" => Decibels.TryParse(value, out _, out problem),
            "antenna.height" or "ground" => Length.TryParse(value, out _, out problem),
            "distance" => Length.TryParsePositive(value, out _, out problem),
            _ => true,
        };
        return good ? null : problem;
    }

    private static string Example(string key, string? unit) => key switch
    {
        "frequency" => $"write a frequency such as 145.05{(unit is null ? " MHz" : "")}",
        "level" => "write a level such as -30 dBm",
        "power" or "erp" or "eirp" => "write a power such as 25 W",
        "at.latitude" or "at.longitude" => "write degrees with decimals, as in 40.5",
        _ => "write a number, with its unit or the column's",
    };

    private static Refusal Said(string problem)
    {
        int cut = problem.IndexOf("; ", StringComparison.Ordinal);
        return cut < 0 ? new Refusal(problem, "write it as the site file does") : new Refusal(problem[..cut], problem[(cut + 2)..]);
    }
}
