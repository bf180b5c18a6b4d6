using Spurless.Radio.Paths;

namespace Spurless.Register;

/// <summary>Boxes of latitude and longitude that hold every place within a distance of one: two where they cross the 180th
/// meridian.</summary>
internal static class SearchBox
{
    // A little under the least radius of curvature of the ellipsoid, so that the box is never too small.
    private const double LeastRadiusM = 6_330_000;

    public static IEnumerable<(double South, double North, double West, double East)> Round(GeoPoint place, double radiusM)
    {
        double angle = radiusM / LeastRadiusM;
        double degrees = (angle * (180 / Math.PI)) + 1e-5;
        double south = place.LatitudeDegrees - degrees;
        double north = place.LatitudeDegrees + degrees;

        // Over a pole, or round more than half the earth: all longitudes.
        double widest = Math.Min(Math.Abs(place.LatitudeDegrees) + degrees, 90) * (Math.PI / 180);
        double ratio = Math.Sin(Math.Min(angle, Math.PI / 2)) / Math.Max(Math.Cos(place.LatitudeDegrees * (Math.PI / 180)), 1e-9);
        if (south <= -90 || north >= 90 || widest >= Math.PI / 2 || ratio >= 1 || angle >= Math.PI / 2)
        {
            yield return (Math.Max(-90, south), Math.Min(90, north), -180, 180);
            yield break;
        }

        // The ellipsoid's angle is not quite the sphere's: a hundredth more does no harm.
        double half = (Math.Asin(ratio) * (180 / Math.PI) * 1.01) + 1e-5;
        double west = place.LongitudeDegrees - half;
        double east = place.LongitudeDegrees + half;
        if (west < -180)
        {
            yield return (south, north, west + 360, 180);
            yield return (south, north, -180, east);
        }
        else if (east > 180)
        {
            yield return (south, north, west, 180);
            yield return (south, north, -180, east - 360);
        }
        else
        {
            yield return (south, north, west, east);
        }
    }
}
