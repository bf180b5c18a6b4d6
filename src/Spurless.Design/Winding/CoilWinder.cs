using Spurless.Circuits.Coils;

namespace Spurless.Design.Winding;

/// <summary>A coil to be wound by hand.</summary>
/// <param name="Part">The part's name.</param>
/// <param name="InductanceH">Inductance in henries at the frequency it is wound for, leads included.</param>
/// <param name="LowFrequencyH">What a meter of low frequency shows, in henries, leads included: more, by the field in the wire.</param>
/// <param name="InsideM">Diameter in metres of the drill or rod that it is wound on.</param>
/// <param name="Geometry">The coil; its length is what is adjusted.</param>
/// <param name="Q">Unloaded Q in the middle of the band by its geometry: an upper bound.</param>
/// <param name="SelfCapacitanceF">Self-capacitance in farads.</param>
public sealed record WoundCoil(
    string Part, double InductanceH, double LowFrequencyH, double InsideM, CoilGeometry Geometry, double Q, double SelfCapacitanceF)
{
    /// <summary>Where it is tapped; null for a plain coil. Inductances are those of the whole coil.</summary>
    public CoilTapPoint? Tap { get; init; }
}

/// <summary>Turns an inductance into whole turns of a stated wire on a stated rod.</summary>
/// <remarks>Rods of 3 to 20 mm and wires of 0.5 to 2 mm (what a bench has: common practice), leads of 3 mm each end, pitch 1.25 to 3.2
/// wires so that the coil can be pressed and pulled.</remarks>
public static class CoilWinder
{
    private const double LeadM = 3e-3;
    private const double LeastPitch = 1.25;
    private const double MostPitch = 3.2;
    private const int MostTurns = 40;
    private static readonly double[] _rodsM = [3e-3, 4e-3, 5e-3, 6e-3, 7e-3, 8e-3, 10e-3, 12e-3, 16e-3, 20e-3];
    private static readonly double[] _wiresM = [0.5e-3, 0.8e-3, 1e-3, 1.5e-3, 2e-3];

    /// <summary>The smallest coil that has the Q wanted with a fifth to spare, else the one with the greatest Q; null where none of the
    /// rods and wires gives the inductance.</summary>
    /// <param name="part">The part's name.</param>
    /// <param name="inductanceH">Inductance in henries that it has at the frequency, leads included, above 0.</param>
    /// <param name="frequencyHz">Frequency in hertz at which inductance and Q count.</param>
    /// <param name="wantedQ">Q wanted; 0 for none.</param>
    /// <param name="leastTurns">Least number of turns.</param>
    public static WoundCoil? Wind(string part, double inductanceH, double frequencyHz, double wantedQ, int leastTurns = 1)
    {
        WoundCoil? best = null;
        double least = double.PositiveInfinity;
        foreach (double rod in _rodsM)
        {
            foreach (double wire in _wiresM.Where(w => w <= rod / 3))
            {
                double mean = rod + wire, lead = CoilInductance.LeadHenries(LeadM, wire);
                double guess = Math.Sqrt(inductanceH / (4e-7 * Math.PI * mean));
                for (int turns = Math.Max(leastTurns, (int)(0.7 * guess)); turns <= Math.Min(MostTurns, (3 * guess) + 2); turns++)
                {
                    if (inductanceH <= lead
                        || CoilCalculator.LengthFor(inductanceH - lead, turns, mean, wire, frequencyHz) is not { } length
                        || length < LeastPitch * turns * wire || length > MostPitch * turns * wire || length < 0.3 * mean
                            || length > 3 * mean)
                    {
                        continue;
                    }

                    CoilGeometry coil = new(turns, mean, length, wire, LeadM);
                    CoilResult result = CoilCalculator.Compute(coil, frequencyHz);
                    if (result.SelfResonanceHz < 1.5 * frequencyHz)
                    {
                        continue;
                    }

                    // Thin wire bends and a wide thin coil shakes: both count as if they were larger.
                    double q = result.Q!.Value, stiff = (wire < 0.7e-3 ? 4 : 1) * Math.Max(1, mean / (7 * wire));
                    double score = q >= 1.2 * wantedQ ? mean * mean * (length + mean) * stiff : 1e3 / q;
                    if (score < least)
                    {
                        least = score;
                        best = new WoundCoil(part, inductanceH, LowFrequency(result), rod, coil, q, result.SelfCapacitanceF);
                    }
                }
            }
        }

        return best;
    }

    /// <summary>The same turns on the same rod, pressed or pulled to another inductance; null where that cannot be.</summary>
    public static WoundCoil? Adjust(WoundCoil coil, double inductanceH, double frequencyHz)
    {
        ArgumentNullException.ThrowIfNull(coil);
        CoilGeometry g = coil.Geometry;
        double lead = CoilInductance.LeadHenries(g.LeadM, g.WireM);
        if (inductanceH <= lead
            || CoilCalculator.LengthFor(inductanceH - lead, g.Turns, g.DiameterM, g.WireM, frequencyHz) is not { } length
            || length < 1.05 * g.Turns * g.WireM)
        {
            return null;
        }

        CoilGeometry moved = g with { LengthM = length };
        CoilResult result = CoilCalculator.Compute(moved, frequencyHz);
        return coil with
        {
            InductanceH = inductanceH,
            LowFrequencyH = LowFrequency(result),
            Geometry = moved,
            Q = result.Q!.Value,
            SelfCapacitanceF = result.SelfCapacitanceF,
        };
    }

    private static double LowFrequency(CoilResult coil) => coil.InductanceH + coil.LeadInductanceH;
}
