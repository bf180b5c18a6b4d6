namespace Spurless.Radio.Terrain;

/// <summary>Loss by scatter in the troposphere (ITU-R P.1812 section 4.4, eq. 44 and 45).</summary>
internal static class Troposcatter
{
    /// <summary>Basic transmission loss by troposcatter.</summary>
    /// <param name="lengthKm">Distance in km.</param>
    /// <param name="ghz">Frequency in GHz.</param>
    /// <param name="angularDistanceMrad">Angular distance of the path in mrad.</param>
    /// <param name="refractivity">Sea-level surface refractivity in N-units.</param>
    /// <param name="timePercent">Share of time in per cent, up to 50.</param>
    /// <returns>Loss in dB.</returns>
    internal static double LossDb(double lengthKm, double ghz, double angularDistanceMrad, double refractivity, double timePercent)
    {
        double half = Math.Log10(ghz / 2);
        double frequency = 25 * Math.Log10(ghz) - 2.5 * half * half;
        return 190.1 + frequency + 20 * Math.Log10(lengthKm) + 0.573 * angularDistanceMrad - 0.15 * refractivity
            - 10.125 * Math.Pow(Math.Log10(50 / timePercent), 0.7);
    }
}
