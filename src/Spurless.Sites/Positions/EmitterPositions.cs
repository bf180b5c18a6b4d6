using Spurless.Radio.Paths;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Positions;

/// <summary>Where the emitters of a site stand, from what its file says.</summary>
internal static class EmitterPositions
{
    /// <summary>Distance from the site in metres and bearing from it in degrees, as far as known.</summary>
    public static (double? DistanceM, double? BearingDegrees) FromSite(SiteDocument site, EmitterEntry emitter)
    {
        if (emitter.Distance is { } distance)
        {
            return (distance.Metres, emitter.Bearing);
        }

        if (emitter.At is { } at && site.Place is { } place)
        {
            bool known = Geodesic.TryBetween(
                Point(place.Latitude, place.Longitude), Point(at.Latitude, at.Longitude), out GeodesicLine line, out _);
            return known ? (line.DistanceM, line.BearingDegrees) : (null, null);
        }

        return (null, null);
    }

    /// <summary>
    /// From one emitter to another: along the ellipsoid where both have coordinates, else by their distances and bearings from the site
    /// over flat ground (within 0.1 % up to 100 km). An emitter on the site's own structure stands at the site.
    /// </summary>
    /// <returns>Null where a place is not known, or both are the same.</returns>
    public static DistanceAndBearing? Between(SiteDocument site, EmitterEntry from, EmitterEntry to)
    {
        if (from.At is { } a && to.At is { } b)
        {
            return Geodesic.TryBetween(Point(a.Latitude, a.Longitude), Point(b.Latitude, b.Longitude), out GeodesicLine line, out _)
                && line.DistanceM > 0
                ? new DistanceAndBearing(line.DistanceM, line.BearingDegrees, line.BearingBackDegrees)
                : null;
        }

        if (Offset(site, from) is not { } one || Offset(site, to) is not { } other)
        {
            return null;
        }

        (double east, double north) = (other.EastM - one.EastM, other.NorthM - one.NorthM);
        double distance = Math.Sqrt((east * east) + (north * north));
        double bearing = OffAxis.Opposite((Math.Atan2(east, north) * 180 / Math.PI) + 180);
        return distance > 0 ? new DistanceAndBearing(distance, bearing, OffAxis.Opposite(bearing)) : null;
    }

    /// <summary>The bearing back along a line; null stays null.</summary>
    public static double? Back(double? bearing) => bearing is { } b ? OffAxis.Opposite(b) : null;

    /// <summary>Where an emitter stands: its coordinates, or its distance and bearing from the site; null where neither is known.</summary>
    public static GeoPoint? PointOf(SiteDocument site, EmitterEntry emitter)
    {
        if (emitter.At is { } at)
        {
            return Point(at.Latitude, at.Longitude);
        }

        return emitter is { Distance: { } distance, Bearing: { } bearing } && site.Place is { } place && distance.Metres <= 20_000_000
            ? Geodesic.Along(Point(place.Latitude, place.Longitude), bearing, distance.Metres)
            : null;
    }

    private static (double EastM, double NorthM)? Offset(SiteDocument site, EmitterEntry emitter)
    {
        if (emitter is { Path.Model: PathModel.SameStructure, Distance: null, At: null })
        {
            return (0, 0);
        }

        return FromSite(site, emitter) is { DistanceM: { } distance, BearingDegrees: { } bearing }
            ? (distance * Math.Sin(bearing * Math.PI / 180), distance * Math.Cos(bearing * Math.PI / 180))
            : null;
    }

    private static GeoPoint Point(double latitude, double longitude) => GeoPoint.Of(latitude, longitude);
}
