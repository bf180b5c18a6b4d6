using Spurless.Circuits.Coils;

namespace Spurless.Design.Winding;

/// <summary>Where a wound coil is tapped.</summary>
/// <param name="LowerPart">Name of the inductor from the tap to the cold end.</param>
/// <param name="Coupling">Name of the coupling of both parts.</param>
/// <param name="Turns">Turns from the cold end to the tap.</param>
public sealed record CoilTapPoint(string LowerPart, string Coupling, double Turns);

/// <summary>What a tapped coil is as two inductors that couple.</summary>
/// <param name="UpperH">Inductance in henries from the hot end to the tap, one lead included.</param>
/// <param name="LowerH">From the tap to the cold end, one lead included.</param>
/// <param name="Coupling">Their coupling coefficient.</param>
public sealed record TappedValues(double UpperH, double LowerH, double Coupling);

/// <summary>Parts of a single-layer coil with a tap: each part is a coil of its own by the same formulas, and what the whole has beside
/// both is twice their mutual inductance.</summary>
public static class TappedWinding
{
    /// <summary>A tap is soldered to within a twentieth of a turn; nearer to the end than three quarters of one the formulas say
    /// nothing.</summary>
    public const double StepTurns = 0.05, LeastTurns = 0.75;

    /// <summary>Values of a coil's parts at a frequency.</summary>
    /// <param name="coil">The coil.</param>
    /// <param name="tapTurns">Turns below the tap, above 0 and under those of the coil.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    public static TappedValues Values(CoilGeometry coil, double tapTurns, double frequencyHz)
    {
        ArgumentNullException.ThrowIfNull(coil);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(tapTurns);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(tapTurns, coil.Turns);
        double whole = CoilCalculator.Compute(coil, frequencyHz).InductanceAtFrequencyH!.Value;
        double lower = Part(coil, tapTurns, frequencyHz), upper = Part(coil, coil.Turns - tapTurns, frequencyHz);
        return new(upper, lower, (whole - upper - lower) / (2 * Math.Sqrt(upper * lower)));
    }

    /// <summary>Turns below the tap for an inductance there; null where that lies under <see cref="LeastTurns"/>, or too near the hot
    /// end.</summary>
    /// <param name="coil">The coil.</param>
    /// <param name="lowerH">Inductance in henries from the cold end to the tap, its lead included.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    public static double? TurnsFor(CoilGeometry coil, double lowerH, double frequencyHz)
    {
        ArgumentNullException.ThrowIfNull(coil);
        double low = LeastTurns, high = coil.Turns - 0.25;
        if (high <= low || Part(coil, low, frequencyHz) > lowerH || Part(coil, high, frequencyHz) < lowerH)
        {
            return null;
        }

        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Part(coil, middle, frequencyHz) < lowerH ? (middle, high) : (low, middle);
        }

        return StepTurns * Math.Round((low + high) / 2 / StepTurns);
    }

    // So many turns of the coil with one of its leads.
    private static double Part(CoilGeometry coil, double turns, double frequencyHz) =>
        CoilCalculator.Compute(
            coil with { Turns = turns, LengthM = coil.LengthM * turns / coil.Turns, LeadM = 0 }, frequencyHz).InductanceAtFrequencyH!.Value
            + (CoilInductance.LeadHenries(coil.LeadM, coil.WireM) / 2);
}
