namespace Spurless.Radio.Terrain;

/// <summary>
/// The complete diffraction loss for one effective earth radius (ITU-R P.1812 section 4.3.4, eq. 37 to 39): Bullington over the profile,
/// and what a spherical earth loses over Bullington of the same smooth path.
/// </summary>
/// <param name="ProfileDb">Bullington over the profile with clutter (Lbulla).</param>
/// <param name="SmoothDb">Bullington over the smooth path (Lbulls).</param>
/// <param name="SphericalDb">The spherical earth (Ldsph).</param>
internal readonly record struct DeltaBullington(double ProfileDb, double SmoothDb, double SphericalDb)
{
    /// <summary>The diffraction loss over free space in dB.</summary>
    internal double LossDb => ProfileDb + Math.Max(SphericalDb - SmoothDb, 0);

    internal static DeltaBullington Of(
        TerrainProfile profile, TerrainConditions conditions, PathAnalysis path, double seaShare, double radiusKm)
    {
        double ghz = conditions.FrequencyHz / 1e9;
        ReadOnlySpan<double> d = profile.DistanceKm;
        double ht = path.DiffractionHeightTransmitterM;
        double hr = path.DiffractionHeightReceiverM;
        return new DeltaBullington(
            Bullington.LossDb(d, profile.SurfaceM, path.TransmitterM, path.ReceiverM, radiusKm, ghz),
            Bullington.LossDb(d, [], ht, hr, radiusKm, ghz),
            SphericalEarth.LossDb(d[^1], ht, hr, radiusKm, ghz, seaShare, conditions.Polarisation));
    }
}
