using Spurless.Numerics;

namespace Spurless.Circuits.Coils;

/// <summary>
/// A resonator of coaxial air line, shorted at one end: a quarter wave long, or shorter with a capacitor at its open end.
/// </summary>
/// <remarks>
/// By hand from the line's equations, currents <c>cos</c> and voltages <c>sin</c> along it: <c>Z0 = 60 ln(b/a)</c> (59.96), resonance where
/// <c>Z0 tan(2 pi f l / c) = 1/(2 pi f C)</c>, and with <c>t = 2 pi f l / c</c>, <c>m = (1 + sin(2t)/(2t))/2</c> the mean of cos^2,
/// <c>Q = w L' l m/(R' l m + Rend)</c>: peak magnetic energy over losses of both conductors (surface resistance over circumference) and of
/// the end plate. The capacitor is taken as lossless, the open end's stray capacitance is not in it.
/// </remarks>
public sealed record CoaxialResonator
{
    private CoaxialResonator()
    {
    }

    /// <summary>Length from the short to the open end in metres.</summary>
    public required double LengthM { get; init; }

    /// <summary>Characteristic impedance in ohms.</summary>
    public required double ImpedanceOhm { get; init; }

    /// <summary>Unloaded Q, an upper bound: joints and the capacitor are not in it.</summary>
    public required double Q { get; init; }

    /// <summary>Where the formulas leave their range.</summary>
    public required IReadOnlyList<CoilWarning> Warnings { get; init; }

    /// <summary>The resonator for a frequency.</summary>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <param name="innerM">Outer diameter of the inner conductor in metres, above 0.</param>
    /// <param name="outerM">Inner diameter of the outer conductor in metres, above <paramref name="innerM"/>; of a square one 1.08 times
    /// its side (common practice).</param>
    /// <param name="loadF">Capacitance at the open end in farads, 0 or more.</param>
    /// <param name="metal">The metal; null for copper.</param>
    public static CoaxialResonator For(double frequencyHz, double innerM, double outerM, double loadF = 0, Conductor? metal = null)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(frequencyHz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(innerM);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(outerM, innerM);
        ArgumentOutOfRangeException.ThrowIfNegative(loadF);
        double omega = 2 * Math.PI * frequencyHz;
        double log = Math.Log(outerM / innerM);
        double impedance = PhysicalConstants.VacuumPermeability * PhysicalConstants.SpeedOfLight / (2 * Math.PI) * log;
        double angle = loadF > 0 ? Math.Atan(1 / (omega * loadF * impedance)) : Math.PI / 2;
        double length = angle * PhysicalConstants.SpeedOfLight / omega;

        // At resonance the peak magnetic energy is the whole of it: L' l m / 2 for a peak current of 1 at the short.
        double mean = (1 + (Math.Sin(2 * angle) / (2 * angle))) / 2;
        double surface = (metal ?? Conductor.Copper).SurfaceOhm(frequencyHz);
        double perMetre = surface / Math.PI * ((1 / innerM) + (1 / outerM));
        double end = surface * log / (2 * Math.PI);
        double inductance = PhysicalConstants.VacuumPermeability / (2 * Math.PI) * log;
        List<CoilWarning> warnings = [];
        if (outerM > 0.3 * PhysicalConstants.SpeedOfLight / frequencyHz)
        {
            warnings.Add(new CoilWarning.OtherModes());
        }

        if (length < outerM)
        {
            warnings.Add(new CoilWarning.ShorterThanWide(length));
        }

        return new CoaxialResonator
        {
            LengthM = length,
            ImpedanceOhm = impedance,
            Q = omega * inductance * length * mean / ((perMetre * length * mean) + end),
            Warnings = warnings,
        };
    }
}
