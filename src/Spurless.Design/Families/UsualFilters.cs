using Spurless.Circuits.Parts;
using Spurless.Design.Prototypes;

namespace Spurless.Design.Families;

/// <summary>
/// Filters as they are built or bought by kind, for the question what one would do before any is designed: a prototype with resonators of a
/// finite Q, as a circuit.
/// </summary>
public static class UsualFilters
{
    /// <summary>Unloaded Q of a trap's coil: wound with care, of thick wire (common practice).</summary>
    public const double TrapQ = 300;

    // Reactances of the tanks' coils over the port impedance, tried in this order: with the widest bands only small ones have a solution.
    private static readonly double[] _levels = [0.7, 0.35, 0.15, 0.07, 1.5];

    /// <summary>
    /// A Butterworth or Chebyshev band-pass of equal resonators, as wide as its loss in the middle allows (<see cref="DissipationLoss"/>).
    /// </summary>
    /// <param name="resonators">1 to 5.</param>
    /// <param name="unloadedQ">Of each resonator, above 0.</param>
    /// <param name="centreHz">Middle in hertz, above 0.</param>
    /// <param name="lossDb">Loss in the middle in dB, above 0: nearly, for it is an estimate.</param>
    /// <param name="leastWidthHz">The band is no narrower, and the loss then lower.</param>
    /// <param name="rippleDb">Ripple of a Chebyshev in dB, above 0; 0 for a Butterworth.</param>
    /// <param name="ohms">Port impedance.</param>
    /// <returns>
    /// The circuit; null where there is none: with this loss it would have no band, or one over 30 % wide, for which the synthesis does not
    /// hold.
    /// </returns>
    public static Circuit? BandPass(
        int resonators, double unloadedQ, double centreHz, double lossDb, double leastWidthHz, double rippleDb = 0,
        double ohms = 50)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(resonators, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(resonators, 5);
        Prototype prototype = rippleDb > 0 ? Prototype.Chebyshev(resonators, rippleDb) : Prototype.Butterworth(resonators);
        double width = Math.Max(
            DissipationLoss.DbPerHalfNeper * prototype.Sum * centreHz / (unloadedQ * lossDb), leastWidthHz);
        if (width > 0.3 * centreHz)
        {
            return null;
        }

        // Cavities and helical resonators couple by their fields, tanks of wire and chips most simply by capacitors.
        TankJoint joint = unloadedQ > 500 ? TankJoint.Magnetic : TankJoint.Capacitor;
        foreach (double level in _levels)
        {
            double coil = level * ohms / (2 * Math.PI * centreHz);
            if (TankFilters.Make(prototype, centreHz, width, coil, ohms, TankEnds.SeriesCapacitor, joint) is { } blueprint)
            {
                return Lossy(blueprint.Circuit, unloadedQ, centreHz);
            }
        }

        return null;
    }

    /// <summary>A matched ladder with one or two traps to ground, all on one side of the band that passes.</summary>
    /// <param name="notchesHz">What is kept out, in hertz: one or two, all above or all below the middle.</param>
    /// <param name="centreHz">Middle of the band that passes, in hertz.</param>
    /// <param name="ohms">Port impedance.</param>
    /// <returns>
    /// The circuit; null where a notch lies within 3 % of the middle, where no trap of these parts leaves the band alone.
    /// </returns>
    public static Circuit? Trap(IReadOnlyList<double> notchesHz, double centreHz, double ohms = 50)
    {
        ArgumentNullException.ThrowIfNull(notchesHz);
        bool above = notchesHz[0] > centreHz;
        if (notchesHz.Any(n => n > centreHz != above || Math.Abs(n - centreHz) < 0.03 * centreHz))
        {
            return null;
        }

        double edge = above ? 1.4 * centreHz : centreHz / 1.4;
        Prototype prototype = Prototype.Chebyshev((2 * notchesHz.Count) + 1, 0.1);
        return Lossy(TrapFilters.SeriesTraps(prototype, notchesHz, centreHz, edge, ohms).Circuit, TrapQ, centreHz);
    }

    private static Circuit Lossy(Circuit circuit, double q, double atHz) => circuit with
    {
        Parts =
        [
            .. circuit.Parts.Select(p => p is Inductor l ? l with { Loss = PartLoss.QualityFactor(q, atHz) } : p),
        ],
    };
}
