using Spurless.Radio.Paths;

namespace Spurless.Mixing.Screening;

/// <summary>A place on the WGS-84 ellipsoid in metres from the earth's centre; the axes point to 0 N 0 E, 0 N 90 E and the north
/// pole.</summary>
internal readonly record struct EarthPoint(double X, double Y, double Z)
{
    private const double EccentricitySquared = Geodesic.Flattening * (2 - Geodesic.Flattening);

    // For the arc over a chord the earth's shape matters in the second place only.
    private const double MeanRadiusM = 6_371_008.8;

    public static EarthPoint Of(GeoPoint place)
    {
        (double sinLat, double cosLat) = Math.SinCos(place.LatitudeDegrees * (Math.PI / 180));
        (double sinLon, double cosLon) = Math.SinCos(place.LongitudeDegrees * (Math.PI / 180));
        double normal = Geodesic.EquatorialRadiusM / Math.Sqrt(1 - (EccentricitySquared * sinLat * sinLat));
        return new EarthPoint(normal * cosLat * cosLon, normal * cosLat * sinLon, normal * (1 - EccentricitySquared) * sinLat);
    }

    /// <summary>The distance through the earth, squared.</summary>
    public double ChordSquared(in EarthPoint other)
    {
        (double x, double y, double z) = (other.X - X, other.Y - Y, other.Z - Z);
        return (x * x) + (y * y) + (z * z);
    }

    /// <summary>
    /// The distance over the ellipsoid from the chord: the arc of a circle of the earth's mean radius. Within 3 parts in a million of the
    /// geodesic up to
    /// 500 km (a test), which is 0.00003 dB; within 0.4 % beyond.
    /// </summary>
    public static double Arc(double chordSquared)
    {
        double half = Math.Sqrt(chordSquared) / (2 * MeanRadiusM);
        return 2 * MeanRadiusM * Math.Asin(Math.Min(1, half));
    }

    /// <summary>Bearing of another place from one of given latitude and longitude, in degrees from north.</summary>
    public double BearingTo(in EarthPoint other, double latitudeDegrees, double longitudeDegrees)
    {
        (double sinLat, double cosLat) = Math.SinCos(latitudeDegrees * (Math.PI / 180));
        (double sinLon, double cosLon) = Math.SinCos(longitudeDegrees * (Math.PI / 180));
        (double x, double y, double z) = (other.X - X, other.Y - Y, other.Z - Z);
        double east = (cosLon * y) - (sinLon * x);
        double north = (cosLat * z) - (sinLat * ((cosLon * x) + (sinLon * y)));
        double degrees = Math.Atan2(east, north) * (180 / Math.PI);
        return degrees < 0 ? degrees + 360 : degrees;
    }
}
