using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Sites.Chains;

/// <summary>
/// By how much a two-port's gain between mismatched ends differs from that between matched ones, over all phases of both reflections.
/// </summary>
internal static class MismatchBand
{
    /// <summary>The band of one two-port.</summary>
    /// <param name="s">Its S-parameters.</param>
    /// <param name="source">Magnitude of the source's reflection coefficient, 0 to 1.</param>
    /// <param name="load">Magnitude of the load's, 0 to 1.</param>
    /// <returns>Change of the gain in dB, least and greatest.</returns>
    public static (double LowDb, double HighDb) Db(ScatteringMatrix s, double source, double load)
    {
        if (source == 0 && load == 0)
        {
            return (0, 0);
        }

        double least = double.PositiveInfinity;
        double greatest = 0;
        const int steps = 1440;
        for (int i = 0; i < steps; i++)
        {
            Complex reflected = Complex.FromPolarCoordinates(source, 2 * Math.PI * i / steps);
            Complex a = 1 - (s.S11 * reflected);
            double b = (((s.S22 * a) + (s.S12 * s.S21 * reflected)).Magnitude) * load;
            least = Math.Min(least, Math.Abs(a.Magnitude - b));
            greatest = Math.Max(greatest, a.Magnitude + b);
        }

        return (Math.Max(-400, -20 * Math.Log10(greatest)), Math.Min(400, -20 * Math.Log10(least)));
    }
}
