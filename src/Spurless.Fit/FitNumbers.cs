using System.Globalization;
using Spurless.Circuits.Solving;

namespace Spurless.Fit;

/// <summary>Numbers of a fit as a circuit file writes them.</summary>
public static class FitNumbers
{
    private static readonly (double Scale, string Prefix)[] Prefixes =
        [(1e9, "G"), (1e6, "M"), (1e3, "k"), (1, ""), (1e-3, "m"), (1e-6, "u"), (1e-9, "n"), (1e-12, "p"), (1e-15, "f")];

    /// <summary>A value with its unit.</summary>
    /// <param name="value">In SI units.</param>
    /// <param name="quantity">What it is.</param>
    /// <param name="digits">Figures that are kept, 3 to 8.</param>
    public static string Text(double value, CircuitQuantity quantity, int digits = 4)
    {
        string unit = quantity switch
        {
            CircuitQuantity.CapacitanceF => "F",
            CircuitQuantity.InductanceH => "H",
            CircuitQuantity.ResistanceOhm => "ohm",
            CircuitQuantity.LengthM => "m",
            _ => "",
        };
        if (unit.Length == 0)
        {
            return Rounded(value, digits);
        }

        double rounded = double.Parse(
            value.ToString("E" + (digits - 1).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture),
            CultureInfo.InvariantCulture);
        bool metre = quantity == CircuitQuantity.LengthM;
        (double scale, string prefix) = Prefixes.First(
            p => Math.Abs(rounded) >= p.Scale * 0.999999 && (!metre || p.Scale <= 1) || (metre ? p.Scale == 1e-3 : p.Scale == 1e-15));
        return $"{Rounded(rounded / scale, digits)} {prefix}{unit}";
    }

    /// <summary>The JSON name of a quantity.</summary>
    public static string Name(CircuitQuantity quantity) => quantity switch
    {
        CircuitQuantity.CapacitanceF => "capacitance_f",
        CircuitQuantity.InductanceH => "inductance_h",
        CircuitQuantity.ResistanceOhm => "resistance_ohm",
        CircuitQuantity.Q => "q",
        CircuitQuantity.Coupling => "coupling",
        _ => "length_m",
    };

    private static string Rounded(double value, int digits)
    {
        int decimals = value == 0 ? 0 : Math.Clamp(digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value)) + 1e-12), 0, 12);
        return value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }
}
