using CsCheck;
using Spurless.Radio.Paths;

namespace Spurless.Radio.Tests.Paths;

/// <summary>What holds for shortest ways on any ellipsoid of revolution, and how far the sphere is off.</summary>
public sealed class GeodesicLawsTests
{
    private static readonly Gen<GeoPoint> _points = Gen.Select(Gen.Double[-85, 85], Gen.Double[-180, 180], GeoPoint.Of);

    private static GeodesicLine Line(GeoPoint a, GeoPoint b)
    {
        Assert.True(Geodesic.TryBetween(a, b, out GeodesicLine line, out string problem), problem);
        return line;
    }

    // Vincenty's inverse does not settle for nearly opposite places; these laws are tried on the nearer half of the earth.
    private static readonly Gen<(GeoPoint From, double Bearing, double Metres)> _ways =
        Gen.Select(_points, Gen.Double[0, 360], Gen.Double[10, 6_000_000]);

    [Fact]
    public void Half_a_way_and_then_the_other_half_is_the_way() => _ways.Sample(static (from, bearing, metres) =>
    {
        GeoPoint end = Geodesic.Along(from, bearing, metres), middle = Geodesic.Along(from, bearing, metres / 2);
        GeodesicLine first = Line(from, middle), second = Line(middle, end);
        Assert.Equal(metres / 2, first.DistanceM, 0.002);
        Assert.Equal(metres / 2, second.DistanceM, 0.002);

        // It runs straight through the middle: back to where it came from is opposite to where it goes.
        Assert.InRange(OffAxis.Difference(OffAxis.Opposite(first.BearingBackDegrees), second.BearingDegrees) * metres, 0, 0.2);
    });

    [Fact]
    public void A_way_over_a_third_place_is_no_shorter() => Gen.Select(_points, _ways).Sample(
        static (third, way) =>
        {
            GeoPoint end = Geodesic.Along(way.From, way.Bearing, way.Metres);
            if (Geodesic.TryBetween(way.From, third, out GeodesicLine one, out _)
                && Geodesic.TryBetween(third, end, out GeodesicLine two, out _))
            {
                Assert.True(one.DistanceM + two.DistanceM >= way.Metres - 0.01);
            }
        });

    /// <summary>
    /// Turning the earth about its axis changes no distance and no bearing; mirrored in the equator or a meridian bearings mirror.
    /// </summary>
    [Fact]
    public void Turned_and_mirrored_ways_are_as_long() => Gen.Select(_ways, Gen.Double[-180, 180]).Sample(static (way, turn) =>
    {
        GeoPoint to = Geodesic.Along(way.From, way.Bearing, way.Metres);
        GeodesicLine plain = Line(way.From, to);
        Near(Line(Moved(way.From, 1, 1, turn), Moved(to, 1, 1, turn)), plain.BearingDegrees);
        Near(Line(Moved(way.From, -1, 1, 0), Moved(to, -1, 1, 0)), 180 - plain.BearingDegrees);
        Near(Line(Moved(way.From, 1, -1, 0), Moved(to, 1, -1, 0)), -plain.BearingDegrees);

        void Near(GeodesicLine found, double bearing)
        {
            Assert.Equal(plain.DistanceM, found.DistanceM, 0.001);
            Assert.InRange(OffAxis.Difference(bearing, found.BearingDegrees) * plain.DistanceM, 0, 0.05);
        }
    });

    private static GeoPoint Moved(GeoPoint p, int north, int east, double turn) => GeoPoint.Of(
        north * p.LatitudeDegrees, Math.IEEERemainder((east * p.LongitudeDegrees) + turn, 360));

    /// <summary>
    /// Clairaut: <c>sin(bearing) cos(reduced latitude)</c> is one number all along the way (A. C. Clairaut, 1733; any textbook of geodesy).
    /// </summary>
    [Fact]
    public void Sine_of_the_bearing_times_the_radius_stays_along_the_way() => Gen.Select(_ways, Gen.Double[0.05, 0.95]).Sample(
        static (way, share) =>
        {
            GeoPoint on = Geodesic.Along(way.From, way.Bearing, way.Metres * share),
                end = Geodesic.Along(way.From, way.Bearing, way.Metres);
            double first = Clairaut(way.From, way.Bearing), later = Clairaut(on, Line(on, end).BearingDegrees);
            double last = Clairaut(end, OffAxis.Opposite(Line(end, way.From).BearingDegrees));
            double tolerance = 1e-9 + (0.01 / (way.Metres * Math.Min(share, 1 - share)));
            Assert.Equal(first, later, tolerance);
            Assert.Equal(first, last, tolerance);
        });

    private static double Clairaut(GeoPoint at, double bearing)
    {
        double reduced = Math.Atan((1 - Geodesic.Flattening) * Math.Tan(at.LatitudeDegrees * Math.PI / 180));
        return Math.Cos(reduced) * Math.Sin(bearing * Math.PI / 180);
    }

    /// <summary>
    /// The sphere of 6,371,008.8 m (IUGG mean radius, from memory) is nowhere off by more than 0.6 %, twice the flattening.
    /// </summary>
    [Fact]
    public void Distances_are_near_the_sphere_s() => Gen.Select(_points, _points).Sample(static (a, b) =>
    {
        if (!Geodesic.TryBetween(a, b, out GeodesicLine line, out _))
        {
            return;
        }

        (double phi1, double phi2) = (a.LatitudeDegrees * Math.PI / 180, b.LatitudeDegrees * Math.PI / 180);
        double half = Math.Sin((b.LongitudeDegrees - a.LongitudeDegrees) * Math.PI / 360), up = Math.Sin((phi2 - phi1) / 2);
        double sphere = 2 * 6_371_008.8 * Math.Asin(Math.Min(1, Math.Sqrt((up * up) + (Math.Cos(phi1) * Math.Cos(phi2) * half * half))));
        Assert.InRange(line.DistanceM / sphere, 0.994, 1.006);
    });

    /// <summary>
    /// Near by the earth is flat: so many metres to a degree as both radii of curvature say, <c>M = a (1 - e2)/w^3</c> north and <c>N
    /// cos(phi)</c>, <c>N = a/w</c>, east, <c>w^2 = 1 - e2 sin^2(phi)</c> (textbook).
    /// </summary>
    [Fact]
    public void Short_ways_go_by_the_radii_of_curvature() =>
        Gen.Select(_points, Gen.Double[-0.002, 0.002], Gen.Double[-0.002, 0.002]).Sample(
        static (from, up, over) =>
        {
            double longitude = Math.Clamp(from.LongitudeDegrees + over, -180, 180);
            GeodesicLine line = Line(from, GeoPoint.Of(from.LatitudeDegrees + up, longitude));
            const double e2 = Geodesic.Flattening * (2 - Geodesic.Flattening);
            double phi = (from.LatitudeDegrees + (up / 2)) * Math.PI / 180, w2 = 1 - (e2 * Math.Sin(phi) * Math.Sin(phi));
            double north = up * Math.PI / 180 * Geodesic.EquatorialRadiusM * (1 - e2) / Math.Pow(w2, 1.5);
            double east = (longitude - from.LongitudeDegrees) * Math.PI / 180 * Geodesic.EquatorialRadiusM / Math.Sqrt(w2) * Math.Cos(phi);
            Assert.Equal(Math.Sqrt((north * north) + (east * east)), line.DistanceM, 0.001);
        });
}
