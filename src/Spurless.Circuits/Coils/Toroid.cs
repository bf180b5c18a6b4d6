namespace Spurless.Circuits.Coils;

/// <summary>
/// A winding on a ring core, by the core's <c>A_L</c> value: <c>L = A_L N^2</c> (definition of A_L, as on every core's data sheet).
/// Holds well below the frequencies at which the core's permeability falls, and for small currents.
/// </summary>
public static class Toroid
{
    /// <summary>Inductance in henries.</summary>
    /// <param name="turns">Turns: how often the wire passes through the hole, above 0.</param>
    /// <param name="inductancePerTurnSquaredH">A_L in henries (5 nH is 5e-9), above 0.</param>
    public static double Henries(double turns, double inductancePerTurnSquaredH)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(turns);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(inductancePerTurnSquaredH);
        return inductancePerTurnSquaredH * turns * turns;
    }

    /// <summary>Turns for an inductance, a real number: wind the nearest whole one.</summary>
    /// <param name="inductanceH">Wanted inductance in henries, above 0.</param>
    /// <param name="inductancePerTurnSquaredH">A_L in henries, above 0.</param>
    public static double Turns(double inductanceH, double inductancePerTurnSquaredH)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(inductanceH);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(inductancePerTurnSquaredH);
        return Math.Sqrt(inductanceH / inductancePerTurnSquaredH);
    }
}
