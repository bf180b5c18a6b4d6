using System.Globalization;

namespace Spurless.Radio.Quantities;

/// <summary>
/// Wire sizes. The American wire gauge: diameter = 0.127 mm x 92^((36 - n) / 39), so that 36 AWG is 0.127 mm (0.005 in) and 0000 AWG is
/// 11.684 mm (0.46 in); ASTM B258 as known from memory.
/// </summary>
public static class WireDiameter
{
    private const string Suffix = "AWG";

    private static readonly UnitTable _units = Length.Units("a wire's diameter", "mm", "1 mm or 18 AWG");

    /// <summary>The bare diameter of a wire of the American wire gauge.</summary>
    /// <param name="gauge">The gauge number, -3 (written 0000 or 4/0) to 50.</param>
    /// <returns>The diameter.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No such gauge.</exception>
    /// <remarks>18 AWG is 1.024 mm.</remarks>
    public static Length FromGauge(int gauge) => gauge is >= -3 and <= 50
        ? Length.FromMetres(0.000127 * Math.Pow(92, (36 - gauge) / 39.0))
        : throw new ArgumentOutOfRangeException(nameof(gauge), gauge, "must be -3 (0000) to 50");

    /// <summary>Reads a wire's diameter, <c>1 mm</c>, <c>0.04 in</c> or <c>18 AWG</c>, above 0.</summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The diameter, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out Length value, out string problem)
    {
        if (!Length.TryParse(text, _units, out value, out problem))
        {
            return false;
        }

        if (value.Metres > 0)
        {
            return true;
        }

        problem = $"{UnitTable.Quoted(text)} is not above 0; write a wire's diameter like 1 mm or 18 AWG";
        value = default;
        return false;
    }

    /// <summary>Whether a text ends in AWG.</summary>
    internal static bool IsGauge(string? text) => text is not null && text.TrimEnd().EndsWith(Suffix, StringComparison.OrdinalIgnoreCase);

    /// <summary>Reads <c>18 AWG</c>, <c>00 AWG</c> or <c>2/0 AWG</c>.</summary>
    internal static bool TryParseGauge(string text, out Length value, out string problem)
    {
        value = default;
        problem = "";
        string clean = text.Trim();
        string number = clean[..^Suffix.Length].TrimEnd();
        if (!clean.EndsWith(Suffix, StringComparison.Ordinal))
        {
            problem =
                $"{UnitTable.Quoted(text)} has the unit '{clean[^Suffix.Length..]}', "
                    + $"which is not known; write {UnitTable.Shown(number)} {Suffix}";
            return false;
        }

        int? gauge = number switch
        {
            "0000" or "4/0" => -3,
            "000" or "3/0" => -2,
            "00" or "2/0" => -1,
            "1/0" => 0,
            _ => int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out int n) && n <= 50 ? n : null,
        };
        if (gauge is not { } found)
        {
            problem = $"{UnitTable.Quoted(text)} is no gauge from 0000 to 50; write a whole number like 18 AWG, or the diameter like 1 mm";
            return false;
        }

        value = FromGauge(found);
        return true;
    }
}
