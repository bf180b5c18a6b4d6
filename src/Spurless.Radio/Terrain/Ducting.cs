namespace Spurless.Radio.Terrain;

/// <summary>
/// Loss by ducting and layer reflection (ITU-R P.1812 section 4.5, eq. 46 to 56).
/// </summary>
internal static class Ducting
{
    /// <summary>Basic transmission loss by ducting for the share of time of the conditions, in dB.</summary>
    internal static double LossDb(double lengthKm, TerrainConditions conditions, PathClimate climate, PathAnalysis path)
    {
        double ghz = conditions.FrequencyHz / 1e9;
        double root = Math.Pow(ghz, 1 / 3.0);
        double dlt = path.TransmitterHorizonKm;
        double dlr = path.ReceiverHorizonKm;
        double low = ghz < 0.5 ? 45.375 - 137.0 * ghz + 92.5 * ghz * ghz : 0;
        double fixedDb = 102.45 + 20 * Math.Log10(ghz) + 20 * Math.Log10(dlt + dlr) + low
            + Shielding(path.TransmitterElevationMrad - 0.1 * dlt, dlt, ghz, root)
            + Shielding(path.ReceiverElevationMrad - 0.1 * dlr, dlr, ghz, root)
            + Coastal(conditions.CoastFromTransmitterM / 1000, dlt, path.TransmitterM, climate.SeaShare)
            + Coastal(conditions.CoastFromReceiverM / 1000, dlr, path.ReceiverM, climate.SeaShare);

        double angle = 1000 * lengthKm / climate.MedianRadiusKm
            + Math.Min(path.TransmitterElevationMrad, 0.1 * dlt)
            + Math.Min(path.ReceiverElevationMrad, 0.1 * dlr);
        double perMrad = 5e-5 * climate.MedianRadiusKm * root;
        return fixedDb + perMrad * angle + TimeDb(lengthKm, conditions.TimePercent, Beta(lengthKm, climate, path));
    }

    /// <summary>Share of time with ducting on this path, with its geometry and roughness (eq. 52 to 55).</summary>
    private static double Beta(double lengthKm, PathClimate climate, PathAnalysis path)
    {
        double exponent = Math.Max(-3.4, -0.6 - 3.5e-9 * Math.Pow(lengthKm, 3.1) * climate.Tau);
        double roots = Math.Sqrt(path.EffectiveTransmitterM) + Math.Sqrt(path.EffectiveReceiverM);
        double mu2 = Math.Min(1, Math.Pow(500 / climate.MedianRadiusKm * lengthKm * lengthKm / (roots * roots), exponent));
        double between = Math.Min(lengthKm - path.TransmitterHorizonKm - path.ReceiverHorizonKm, 40);
        double rough = path.RoughnessM;
        double mu3 = rough > 10 ? Math.Exp(-4.6e-5 * (rough - 10) * (43 + 6 * between)) : 1;
        return climate.DuctingPercent * mu2 * mu3;
    }

    /// <summary>The variation with the share of time (eq. 51, 51a).</summary>
    private static double TimeDb(double lengthKm, double timePercent, double beta)
    {
        double lg = Math.Log10(beta);
        double gamma = 1.076 / Math.Pow(2.0058 - lg, 1.012)
            * Math.Exp(-(9.51 - 4.8 * lg + 0.198 * lg * lg) * 1e-6 * Math.Pow(lengthKm, 1.13));
        double ratio = timePercent / beta;
        return -12 + (1.2 + 3.7e-3 * lengthKm) * Math.Log10(ratio) + 12 * Math.Pow(ratio, gamma);
    }

    /// <summary>Loss by a horizon that hides the antenna from the duct (eq. 48).</summary>
    private static double Shielding(double overMrad, double horizonKm, double ghz, double root) =>
        overMrad > 0 ? 20 * Math.Log10(1 + 0.361 * overMrad * Math.Sqrt(ghz * horizonKm)) + 0.264 * overMrad * root : 0;

    /// <summary>Coupling over the sea of an antenna near the coast (eq. 49).</summary>
    private static double Coastal(double coastKm, double horizonKm, double antennaM, double seaShare) =>
        seaShare >= 0.75 && coastKm <= horizonKm && coastKm <= 5
            ? -3 * Math.Exp(-0.25 * coastKm * coastKm) * (1 + Math.Tanh(0.07 * (50 - antennaM)))
            : 0;
}
