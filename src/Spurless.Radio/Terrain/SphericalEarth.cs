namespace Spurless.Radio.Terrain;

/// <summary>
/// Diffraction over a smooth spherical earth (ITU-R P.1812 sections 4.3.2 and 4.3.3, eq. 23 to 36; the same as P.526).
/// Land has a permittivity of 22 and 0.003 S/m, sea 80 and 5 S/m.
/// </summary>
internal static class SphericalEarth
{
    /// <summary>The loss.</summary>
    /// <param name="lengthKm">Distance in km.</param>
    /// <param name="hte">Transmitting antenna over the smooth earth in metres, above 0.</param>
    /// <param name="hre">Receiving antenna over the smooth earth in metres, above 0.</param>
    /// <param name="radiusKm">Effective earth radius in km.</param>
    /// <param name="ghz">Frequency in GHz.</param>
    /// <param name="seaShare">Fraction of the path over sea.</param>
    /// <param name="polarisation">Polarisation.</param>
    /// <returns>Loss over free space in dB, 0 or more within the horizon.</returns>
    internal static double LossDb(
        double lengthKm, double hte, double hre, double radiusKm, double ghz, double seaShare, Polarisation polarisation)
    {
        double horizon = Math.Sqrt(2 * radiusKm) * (Math.Sqrt(0.001 * hte) + Math.Sqrt(0.001 * hre));
        if (lengthKm >= horizon)
        {
            return FirstTermDb(lengthKm, hte, hre, radiusKm, ghz, seaShare, polarisation);
        }

        double c = (hte - hre) / (hte + hre);
        double m = 250 * lengthKm * lengthKm / (radiusKm * (hte + hre));

        // Rounding may carry the cosine of equal or very unequal heights a little past one.
        double cosine = Math.Clamp(3 * c / 2 * Math.Sqrt(3 * m / ((m + 1) * (m + 1) * (m + 1))), -1, 1);
        double b = 2 * Math.Sqrt((m + 1) / (3 * m)) * Math.Cos(Math.PI / 3 + Math.Acos(cosine) / 3);
        double d1 = lengthKm / 2 * (1 + b);
        double d2 = lengthKm - d1;
        double clearance = ((hte - 500 * d1 * d1 / radiusKm) * d2 + (hre - 500 * d2 * d2 / radiusKm) * d1) / lengthKm;
        double needed = 17.456 * Math.Sqrt(d1 * d2 * (Bullington.WavelengthGhzM / ghz) / lengthKm);
        if (clearance > needed)
        {
            return 0;
        }

        double grazing = lengthKm / (Math.Sqrt(hte) + Math.Sqrt(hre));
        double first = FirstTermDb(lengthKm, hte, hre, 500 * grazing * grazing, ghz, seaShare, polarisation);
        return first < 0 ? 0 : (1 - clearance / needed) * first;
    }

    /// <summary>The first term of the residue series, land and sea by their shares.</summary>
    private static double FirstTermDb(
        double lengthKm, double hte, double hre, double radiusKm, double ghz, double seaShare, Polarisation polarisation)
    {
        double land = seaShare < 1 ? OverGround(22, 0.003) : 0;
        double sea = seaShare > 0 ? OverGround(80, 5) : 0;
        return seaShare * sea + (1 - seaShare) * land;

        double OverGround(double permittivity, double conductivity)
        {
            double loss = 18 * conductivity / ghz;
            double k = 0.036 * Math.Pow(radiusKm * ghz, -1 / 3.0) * Math.Pow((permittivity - 1) * (permittivity - 1) + loss * loss, -0.25);
            k *= polarisation == Polarisation.Vertical ? Math.Sqrt(permittivity * permittivity + loss * loss) : 1;
            double k2 = k * k;
            double beta = (1 + 1.6 * k2 + 0.67 * k2 * k2) / (1 + 4.5 * k2 + 1.53 * k2 * k2);
            double x = 21.88 * beta * Math.Pow(ghz / (radiusKm * radiusKm), 1 / 3.0) * lengthKm;
            double perMetre = 0.9575 * beta * Math.Pow(ghz * ghz / radiusKm, 1 / 3.0);
            double distance = x >= 1.6 ? 11 + 10 * Math.Log10(x) - 17.6 * x : -20 * Math.Log10(x) - 5.6488 * Math.Pow(x, 1.425);
            double least = 2 + 20 * Math.Log10(k);
            return -distance - Height(beta * perMetre * hte) - Height(beta * perMetre * hre);

            double Height(double y) => Math.Max(
                least,
                y > 2 ? 17.6 * Math.Sqrt(y - 1.1) - 5 * Math.Log10(y - 1.1) - 8 : 20 * Math.Log10(y + 0.1 * y * y * y));
        }
    }
}
