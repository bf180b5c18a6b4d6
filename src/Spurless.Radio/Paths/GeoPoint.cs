using System.Globalization;

namespace Spurless.Radio.Paths;

/// <summary>A place on the WGS-84 ellipsoid, in degrees; north and east are positive.</summary>
public readonly record struct GeoPoint
{
    private GeoPoint(double latitude, double longitude) => (LatitudeDegrees, LongitudeDegrees) = (latitude, longitude);

    /// <summary>Latitude in degrees, -90 to 90.</summary>
    public double LatitudeDegrees { get; }

    /// <summary>Longitude in degrees, -180 to 180.</summary>
    public double LongitudeDegrees { get; }

    /// <summary>Makes a place.</summary>
    /// <param name="latitudeDegrees">Latitude in degrees, -90 to 90.</param>
    /// <param name="longitudeDegrees">Longitude in degrees, -180 to 180.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of range or not a number.</exception>
    public static GeoPoint Of(double latitudeDegrees, double longitudeDegrees) =>
        TryCreate(latitudeDegrees, longitudeDegrees, out GeoPoint point, out string problem)
            ? point
            : throw new ArgumentOutOfRangeException(nameof(latitudeDegrees), problem);

    /// <summary>Makes a place from values of the user's.</summary>
    /// <param name="latitudeDegrees">Latitude in degrees, -90 to 90.</param>
    /// <param name="longitudeDegrees">Longitude in degrees, -180 to 180.</param>
    /// <param name="point">The place, where the values are right.</param>
    /// <param name="problem">Where they are not: what was found; what to write instead.</param>
    public static bool TryCreate(double latitudeDegrees, double longitudeDegrees, out GeoPoint point, out string problem)
    {
        point = default;
        if (!(latitudeDegrees is >= -90 and <= 90))
        {
            problem = string.Create(
                CultureInfo.InvariantCulture, $"latitude {latitudeDegrees} is out of range; write -90 to 90 degrees, north positive");
            return false;
        }

        if (!(longitudeDegrees is >= -180 and <= 180))
        {
            problem = string.Create(
                CultureInfo.InvariantCulture, $"longitude {longitudeDegrees} is out of range; write -180 to 180 degrees, east positive");
            return false;
        }

        point = new GeoPoint(latitudeDegrees, longitudeDegrees);
        problem = "";
        return true;
    }
}
