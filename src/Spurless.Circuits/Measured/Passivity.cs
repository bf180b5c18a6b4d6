using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Measured;

/// <summary>
/// Whether a measured network gives out more power than it gets: the largest singular value of its S-matrix over all points.
/// A passive part has none above 1; more is the measurement's error (or an amplifier).
/// </summary>
/// <param name="LargestSingularValue">The largest singular value of S, a wave ratio without unit.</param>
/// <param name="AtHz">Where it occurs, in hertz.</param>
public readonly record struct Passivity(double LargestSingularValue, double AtHz)
{
    /// <summary>Whether no point gives out more than it gets, to within rounding of a file's digits (1e-6).</summary>
    public bool IsPassive => LargestSingularValue <= 1 + 1e-6;

    /// <summary>The check over all points.</summary>
    /// <param name="ports">1 or 2.</param>
    /// <param name="frequenciesHz">Frequencies in hertz.</param>
    /// <param name="points">S at each, same length; of a one-port S11 counts.</param>
    public static Passivity Of(int ports, ReadOnlySpan<double> frequenciesHz, ReadOnlySpan<ScatteringMatrix> points)
    {
        Passivity worst = default;
        for (int i = 0; i < points.Length; i++)
        {
            double value = ports == 1 ? Complex.Abs(points[i].S11) : points[i].LargestSingularValue;
            if (i == 0 || value > worst.LargestSingularValue)
            {
                worst = new Passivity(value, frequenciesHz[i]);
            }
        }

        return worst;
    }
}
