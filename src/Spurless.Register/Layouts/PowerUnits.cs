namespace Spurless.Register.Layouts;

/// <summary>Powers with their unit in a column of its own.</summary>
internal static class PowerUnits
{
    /// <summary>dBm of a figure in a unit; null where there is no figure, or where 0 W means that none is given.</summary>
    /// <param name="value">The figure.</param>
    /// <param name="unit">W, kW, mW, dBW, dBm; anything else is null.</param>
    public static double? Dbm(double? value, string? unit)
    {
        if (value is not { } figure)
        {
            return null;
        }

        double? watts = unit?.Trim().ToUpperInvariant() switch
        {
            "W" or "WATT" or "WATTS" or "PW" => figure,
            "KW" => figure * 1e3,
            "MW" when unit.Trim()[0] == 'm' => figure / 1e3,
            "MW" => figure * 1e6,
            "UW" => figure / 1e6,
            _ => null,
        };
        return watts is { } w ? (w > 0 ? (10 * Math.Log10(w)) + 30 : null)
            : unit?.Trim().ToUpperInvariant() switch
            {
                "DBW" => figure + 30,
                "DBM" => figure,
                "DBK" => figure + 60,
                _ => null,
            };
    }
}
