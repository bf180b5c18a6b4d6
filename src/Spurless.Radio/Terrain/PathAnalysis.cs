namespace Spurless.Radio.Terrain;

/// <summary>
/// What ITU-R P.1812 Attachment 1 takes from a profile: horizons (eq. 76 to 82), the smooth-earth fit (eq. 83 to 90), effective heights and
/// roughness (eq. 91 to 93). Heights in metres over sea level unless said, distances in km, angles in mrad. Clutter is not counted here.
/// </summary>
internal sealed record PathAnalysis
{
    /// <summary>Transmitting antenna over sea level.</summary>
    internal required double TransmitterM { get; init; }

    /// <summary>Receiving antenna over sea level.</summary>
    internal required double ReceiverM { get; init; }

    /// <summary>Whether the ground hides the antennas from each other.</summary>
    internal required bool BeyondHorizon { get; init; }

    /// <summary>Distance from the transmitting antenna to its horizon; on a line of sight to the worst point.</summary>
    internal required double TransmitterHorizonKm { get; init; }

    /// <summary>Distance from the receiving antenna to its horizon.</summary>
    internal required double ReceiverHorizonKm { get; init; }

    /// <summary>Elevation of the transmitting antenna's horizon, or of the other antenna.</summary>
    internal required double TransmitterElevationMrad { get; init; }

    /// <summary>The receiving antenna's.</summary>
    internal required double ReceiverElevationMrad { get; init; }

    /// <summary>Angular distance of the path.</summary>
    internal required double AngularDistanceMrad { get; init; }

    /// <summary>Smooth earth under the transmitting antenna as fitted (eq. 85).</summary>
    internal required double FittedTransmitterM { get; init; }

    /// <summary>Smooth earth under the receiving antenna as fitted (eq. 86).</summary>
    internal required double FittedReceiverM { get; init; }

    /// <summary>Smooth earth for diffraction, under the transmitting antenna (eq. 89).</summary>
    internal required double DiffractionTransmitterM { get; init; }

    /// <summary>Smooth earth for diffraction, under the receiving antenna (eq. 89).</summary>
    internal required double DiffractionReceiverM { get; init; }

    /// <summary>The fit, never over the ground at the transmitting antenna (eq. 90a).</summary>
    internal required double SmoothTransmitterM { get; init; }

    /// <summary>The fit, never over the ground at the receiving antenna (eq. 90b).</summary>
    internal required double SmoothReceiverM { get; init; }

    /// <summary>Effective height of the transmitting antenna over the smooth earth (eq. 92a).</summary>
    internal required double EffectiveTransmitterM { get; init; }

    /// <summary>Effective height of the receiving antenna over the smooth earth (eq. 92b).</summary>
    internal required double EffectiveReceiverM { get; init; }

    /// <summary>Terrain roughness between the horizons (eq. 93).</summary>
    internal required double RoughnessM { get; init; }

    /// <summary>Height of the transmitting antenna over the smooth earth for diffraction (eq. 37a).</summary>
    internal double DiffractionHeightTransmitterM => TransmitterM - DiffractionTransmitterM;

    /// <summary>The receiving antenna's (eq. 37b).</summary>
    internal double DiffractionHeightReceiverM => ReceiverM - DiffractionReceiverM;

    internal static PathAnalysis Of(TerrainProfile profile, TerrainConditions conditions, double radiusKm)
    {
        ReadOnlySpan<double> d = profile.DistanceKm;
        ReadOnlySpan<double> h = profile.GroundM;
        double hts = h[0] + conditions.TransmitterHeightM;
        double hrs = h[^1] + conditions.ReceiverHeightM;
        Horizons horizons = Horizons.Of(d, h, hts, hrs, radiusKm, conditions.FrequencyHz / 1e9);
        (double fitT, double fitR) = Fit(d, h);
        (double diffractionT, double diffractionR) = ForDiffraction(d, h, hts, hrs, fitT, fitR);
        double smoothT = Math.Min(fitT, h[0]);
        double smoothR = Math.Min(fitR, h[^1]);
        double slope = (smoothR - smoothT) / d[^1];
        double roughness = double.NegativeInfinity;
        for (int i = horizons.TransmitterIndex; i <= horizons.ReceiverIndex; i++)
        {
            roughness = Math.Max(roughness, h[i] - (smoothT + slope * d[i]));
        }

        return new PathAnalysis
        {
            TransmitterM = hts,
            ReceiverM = hrs,
            BeyondHorizon = horizons.Beyond,
            TransmitterHorizonKm = d[horizons.TransmitterIndex],
            ReceiverHorizonKm = d[^1] - d[horizons.ReceiverIndex],
            TransmitterElevationMrad = horizons.TransmitterMrad,
            ReceiverElevationMrad = horizons.ReceiverMrad,
            AngularDistanceMrad = 1000 * d[^1] / radiusKm + horizons.TransmitterMrad + horizons.ReceiverMrad,
            FittedTransmitterM = fitT,
            FittedReceiverM = fitR,
            DiffractionTransmitterM = diffractionT,
            DiffractionReceiverM = diffractionR,
            SmoothTransmitterM = smoothT,
            SmoothReceiverM = smoothR,
            EffectiveTransmitterM = hts - smoothT,
            EffectiveReceiverM = hrs - smoothR,
            RoughnessM = roughness,
        };
    }

    /// <summary>The straight line of least squares through the ground (eq. 83 to 86), by its heights at both ends.</summary>
    private static (double TransmitterM, double ReceiverM) Fit(ReadOnlySpan<double> d, ReadOnlySpan<double> h)
    {
        double v1 = 0;
        double v2 = 0;
        for (int i = 1; i < d.Length; i++)
        {
            double step = d[i] - d[i - 1];
            v1 += step * (h[i] + h[i - 1]);
            v2 += step * (h[i] * (2 * d[i] + d[i - 1]) + h[i - 1] * (d[i] + 2 * d[i - 1]));
        }

        double length = d[^1];
        return ((2 * v1 * length - v2) / (length * length), (v2 - v1 * length) / (length * length));
    }

    /// <summary>The fit lowered by what stands over the straight line of the antennas (eq. 87 to 89).</summary>
    private static (double TransmitterM, double ReceiverM) ForDiffraction(
        ReadOnlySpan<double> d, ReadOnlySpan<double> h, double hts, double hrs, double fitT, double fitR)
    {
        double length = d[^1];
        double highest = double.NegativeInfinity;
        double fromT = double.NegativeInfinity;
        double fromR = double.NegativeInfinity;
        for (int i = 1; i < d.Length - 1; i++)
        {
            double over = h[i] - (hts * (length - d[i]) + hrs * d[i]) / length;
            highest = Math.Max(highest, over);
            fromT = Math.Max(fromT, over / d[i]);
            fromR = Math.Max(fromR, over / (length - d[i]));
        }

        double t = fitT;
        double r = fitR;
        if (highest > 0)
        {
            t -= highest * fromT / (fromT + fromR);
            r -= highest * fromR / (fromT + fromR);
        }

        return (Math.Min(t, h[0]), Math.Min(r, h[^1]));
    }
}
