namespace Spurless.Radio.Terrain;

/// <summary>
/// Share of sea, incidence of ducting and effective earth radius of a path (ITU-R P.1812 sections 3.6 to 3.8, eq. 2 to 7).
/// </summary>
/// <param name="SeaShare">Fraction of the path over sea.</param>
/// <param name="LongestLandKm">Longest unbroken stretch of land, inland or coastal, in km.</param>
/// <param name="LongestInlandKm">Longest unbroken inland stretch in km.</param>
/// <param name="Tau">The dependence on the longest inland stretch.</param>
/// <param name="DuctingPercent">Share of time, in per cent, with a lapse over 100 N-units/km in the lowest 100 m (beta0).</param>
/// <param name="MedianRadiusKm">Effective earth radius for the median, in km.</param>
internal readonly record struct PathClimate(
    double SeaShare, double LongestLandKm, double LongestInlandKm, double Tau, double DuctingPercent, double MedianRadiusKm)
{
    /// <summary>Mean radius of the earth in km, as the Recommendation takes it.</summary>
    internal const double EarthRadiusKm = 6371;

    /// <summary>Effective earth radius not reached but for beta0 of the time: three times the earth's.</summary>
    internal const double DuctingRadiusKm = 3 * EarthRadiusKm;

    internal static PathClimate Of(TerrainProfile profile, TerrainConditions conditions)
    {
        (double seaKm, double landKm, double inlandKm) = Stretches(profile.DistanceKm, profile.Zones);
        double latitude = Math.Abs(conditions.LatitudeDegrees);
        double tau = 1 - Math.Exp(-4.12e-4 * Math.Pow(inlandKm, 2.41));
        double mu1 = Math.Min(1, Math.Pow(Math.Pow(10, -landKm / (16 - 6.6 * tau)) + Math.Pow(10, -5 * (0.496 + 0.354 * tau)), 0.2));
        double mu4 = Math.Pow(mu1, latitude <= 70 ? -0.935 + 0.0176 * latitude : 0.3);
        double beta0 = (latitude <= 70 ? Math.Pow(10, -0.015 * latitude + 1.67) : 4.17) * mu1 * mu4;
        return new PathClimate(
            seaKm / profile.DistanceKm[^1], landKm, inlandKm, tau, beta0, EarthRadiusKm * 157 / (157 - conditions.Gradient));
    }

    /// <summary>Kilometres of sea, and the longest unbroken stretches of land and of inland. A point's zone holds halfway to its
    /// neighbours.</summary>
    private static (double SeaKm, double LandKm, double InlandKm) Stretches(ReadOnlySpan<double> d, ReadOnlySpan<RadioZone> zones)
    {
        double sea = 0;
        double land = 0, longestLand = 0;
        double inland = 0, longestInland = 0;
        for (int i = 0; i < d.Length; i++)
        {
            double from = i == 0 ? d[0] : (d[i - 1] + d[i]) / 2;
            double to = i == d.Length - 1 ? d[i] : (d[i] + d[i + 1]) / 2;
            double part = to - from;
            sea += zones[i] == RadioZone.Sea ? part : 0;
            land = zones[i] == RadioZone.Sea ? 0 : land + part;
            inland = zones[i] == RadioZone.Inland ? inland + part : 0;
            longestLand = Math.Max(longestLand, land);
            longestInland = Math.Max(longestInland, inland);
        }

        return (sea, longestLand, longestInland);
    }
}
