namespace Spurless.Radio.Terrain;

/// <summary>
/// The horizons that two antennas see over a profile (ITU-R P.1812 eq. 76 to 81). On a line of sight both stand at the point with the
/// largest diffraction parameter.
/// </summary>
/// <param name="Beyond">Whether the ground stands over the line of sight.</param>
/// <param name="TransmitterIndex">Point of the transmitting antenna's horizon.</param>
/// <param name="ReceiverIndex">Point of the receiving antenna's horizon.</param>
/// <param name="TransmitterMrad">Elevation at the transmitting antenna.</param>
/// <param name="ReceiverMrad">Elevation at the receiving antenna.</param>
internal readonly record struct Horizons(bool Beyond, int TransmitterIndex, int ReceiverIndex, double TransmitterMrad, double ReceiverMrad)
{
    internal static Horizons Of(ReadOnlySpan<double> d, ReadOnlySpan<double> h, double hts, double hrs, double radiusKm, double ghz)
    {
        double length = d[^1];
        double direct = Elevation(hrs - hts, length, radiusKm);
        double highestT = double.NegativeInfinity;
        int t = 0;
        for (int i = 1; i < d.Length - 1; i++)
        {
            double angle = Elevation(h[i] - hts, d[i], radiusKm);
            if (angle > highestT)
            {
                (highestT, t) = (angle, i);
            }
        }

        if (highestT <= direct)
        {
            int worst = Bullington.WorstPoint(d, h, hts, hrs, 1 / radiusKm, ghz).Index;
            return new Horizons(false, worst, worst, direct, Elevation(hts - hrs, length, radiusKm));
        }

        double highestR = double.NegativeInfinity;
        int r = 0;
        for (int i = 1; i < d.Length - 1; i++)
        {
            double angle = Elevation(h[i] - hrs, length - d[i], radiusKm);
            if (angle >= highestR)
            {
                (highestR, r) = (angle, i);
            }
        }

        return new Horizons(true, t, Math.Max(t, r), highestT, highestR);
    }

    /// <summary>Elevation in mrad of a point this much higher, at this distance, over the effective earth.</summary>
    private static double Elevation(double heightM, double km, double radiusKm) =>
        1000 * Math.Atan(heightM / (1000 * km) - km / (2 * radiusKm));
}
