using Spurless.Radio.Paths;

namespace Spurless.Radio.Terrain;

/// <summary>
/// The Bullington part of the diffraction loss (ITU-R P.1812 section 4.3.1, eq. 13 to 22; the same as P.526): all obstacles as one
/// equivalent knife edge where the two horizon lines cross.
/// </summary>
internal static class Bullington
{
    /// <summary>Metres times GHz of one wavelength, as the Recommendation rounds it.</summary>
    internal const double WavelengthGhzM = 0.2998;

    /// <summary>The loss.</summary>
    /// <param name="d">Distances in km.</param>
    /// <param name="g">Ground with clutter in metres over sea level; empty for a smooth surface of height 0.</param>
    /// <param name="hts">Transmitting antenna over sea level in metres.</param>
    /// <param name="hrs">Receiving antenna over sea level in metres.</param>
    /// <param name="radiusKm">Effective earth radius in km.</param>
    /// <param name="ghz">Frequency in GHz.</param>
    /// <returns>Loss over free space in dB.</returns>
    internal static double LossDb(ReadOnlySpan<double> d, ReadOnlySpan<double> g, double hts, double hrs, double radiusKm, double ghz)
    {
        double length = d[^1];
        double curvature = 1 / radiusKm;
        double steepestT = double.NegativeInfinity;
        double steepestR = double.NegativeInfinity;
        for (int i = 1; i < d.Length - 1; i++)
        {
            double top = (g.IsEmpty ? 0 : g[i]) + 500 * curvature * d[i] * (length - d[i]);
            steepestT = Math.Max(steepestT, (top - hts) / d[i]);
            steepestR = Math.Max(steepestR, (top - hrs) / (length - d[i]));
        }

        // Where the ground just touches the line both slopes are opposite and their crossing is undefined: the worst point is the touching
        // one.
        double v;
        double sum = steepestT + steepestR;
        if (steepestT <= (hrs - hts) / length || sum <= 0)
        {
            v = WorstPoint(d, g, hts, hrs, curvature, ghz).V;
        }
        else
        {
            double at = Math.Clamp((hrs - hts + steepestR * length) / sum, d[1], d[^2]);
            double over = hts + steepestT * at - (hts * (length - at) + hrs * at) / length;
            v = Parameter(over, at, length, ghz);
        }

        double edge = KnifeEdge.LossDb(v);
        return edge + (1 - Math.Exp(-edge / 6)) * (10 + 0.02 * length);
    }

    /// <summary>The point with the largest diffraction parameter.</summary>
    internal static (int Index, double V) WorstPoint(
        ReadOnlySpan<double> d, ReadOnlySpan<double> g, double hts, double hrs, double curvature, double ghz)
    {
        double length = d[^1];
        int worst = 1;
        double most = double.NegativeInfinity;
        for (int i = 1; i < d.Length - 1; i++)
        {
            double top = (g.IsEmpty ? 0 : g[i]) + 500 * curvature * d[i] * (length - d[i]);
            double v = Parameter(top - (hts * (length - d[i]) + hrs * d[i]) / length, d[i], length, ghz);
            if (v > most)
            {
                (most, worst) = (v, i);
            }
        }

        return (worst, most);
    }

    /// <summary>v of an edge this many metres over the line, at this distance of a path of this length, in km.</summary>
    internal static double Parameter(double overM, double atKm, double lengthKm, double ghz) =>
        overM * Math.Sqrt(0.002 * lengthKm * ghz / (WavelengthGhzM * atKm * (lengthKm - atKm)));
}
