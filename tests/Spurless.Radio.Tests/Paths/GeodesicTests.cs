using CsCheck;
using Spurless.Radio.Paths;

namespace Spurless.Radio.Tests.Paths;

public sealed class GeodesicTests
{
    /// <summary>Source: the worked line Flinders Peak - Buninyong of the Australian geodetic manuals, seen in public test suites that cite
    /// it.</summary>
    [Fact]
    public void Along_of_the_published_line_ends_at_its_other_station()
    {
        static double Degrees(int d, int m, double s) => d + m / 60.0 + s / 3600;
        GeoPoint end = Geodesic.Along(
            GeoPoint.Of(-Degrees(37, 57, 3.72030), Degrees(144, 25, 29.52440)), Degrees(306, 52, 5.37), 54_972.271);

        // The bearing is printed to 0.01 second, which is 2.7 mm there.
        Assert.Equal(-Degrees(37, 39, 10.15610), end.LatitudeDegrees, 3e-8);
        Assert.Equal(Degrees(143, 55, 35.38390), end.LongitudeDegrees, 3e-8);
    }

    [Fact]
    public void Along_undoes_TryBetween() =>
        Gen.Select(Gen.Double[-89, 89], Gen.Double[-180, 180], Gen.Double[0, 360], Gen.Double[1, 5_000_000]).Sample(
            static (latitude, longitude, bearing, metres) =>
        {
            GeoPoint from = GeoPoint.Of(latitude, longitude);
            GeoPoint to = Geodesic.Along(from, bearing, metres);
            Assert.True(Geodesic.TryBetween(from, to, out GeodesicLine line, out string problem), problem);
            Assert.Equal(metres, line.DistanceM, 0.01);
        });

    private static readonly Gen<GeoPoint> _points = Gen.Select(Gen.Double[-89, 89], Gen.Double[-180, 180], GeoPoint.Of);

    /// <summary>
    /// Flinders Peak to Buninyong, the worked line of the Australian geodetic manuals (seen as quoted in several public test suites; on
    /// GRS80, whose flattening differs in the tenth digit: under 0.1 mm here). Tolerances: the printed digits.
    /// </summary>
    [Fact]
    public void TryBetween_of_the_published_line()
    {
        GeoPoint flinders = GeoPoint.Of(-Degrees(37, 57, 3.72030), Degrees(144, 25, 29.52440));
        GeoPoint buninyong = GeoPoint.Of(-Degrees(37, 39, 10.15610), Degrees(143, 55, 35.38390));
        Assert.True(Geodesic.TryBetween(flinders, buninyong, out GeodesicLine line, out _));
        Assert.Equal(54_972.271, line.DistanceM, 0.0006);
        Assert.Equal(Degrees(306, 52, 5.37), line.BearingDegrees, 0.006 / 3600);
        Assert.Equal(Degrees(127, 10, 25.07), line.BearingBackDegrees, 0.006 / 3600);
    }

    /// <summary>
    /// Along the equator the ellipsoid is a circle of radius a; a quarter of the meridian is 10,001,965.729 m (seen as quoted in a public
    /// test suite).
    /// </summary>
    [Fact]
    public void TryBetween_along_equator_and_meridian()
    {
        Assert.True(Geodesic.TryBetween(GeoPoint.Of(0, 10), GeoPoint.Of(0, 11), out GeodesicLine equator, out _));
        Assert.Equal(6_378_137 * Math.PI / 180, equator.DistanceM, 1e-4);
        Assert.Equal((90, 270), (equator.BearingDegrees, equator.BearingBackDegrees));
        Assert.True(Geodesic.TryBetween(GeoPoint.Of(0, 0), GeoPoint.Of(90, 0), out GeodesicLine meridian, out _));
        Assert.Equal(10_001_965.729, meridian.DistanceM, 0.002);
        Assert.Equal(0, meridian.BearingDegrees, 1e-9);
    }

    /// <summary>
    /// Independent: the differential equations of a geodesic on the ellipsoid, walked from the first place, must arrive at the second.
    /// </summary>
    [Fact]
    public void TryBetween_walked_as_a_differential_equation_arrives() =>
        Gen.Select(Gen.Double[-70, 70], Gen.Double[-179, 179], Gen.Double[-8, 8], Gen.Double[-8, 8]).Sample(
            static (latitude, longitude, up, east) =>
            {
                GeoPoint from = GeoPoint.Of(latitude, longitude);
                GeoPoint to = GeoPoint.Of(latitude + up, Math.Clamp(longitude + east, -180, 180));
                Assert.True(Geodesic.TryBetween(from, to, out GeodesicLine line, out _));
                (double lat, double lon) = Walk(from, line.BearingDegrees, line.DistanceM);
                double metresNorth = (lat - to.LatitudeDegrees) * 111_000;
                double metresEast = (lon - to.LongitudeDegrees) * 111_000 * Math.Cos(lat * Math.PI / 180);
                Assert.InRange(Math.Sqrt(metresNorth * metresNorth + metresEast * metresEast), 0, 0.002);
            },
            iter: 50);

    [Fact]
    public void TryBetween_there_and_back_is_the_same_way() => Gen.Select(_points, _points).Sample(static (a, b) =>
    {
        if (Geodesic.TryBetween(a, b, out GeodesicLine there, out string problem))
        {
            Assert.True(Geodesic.TryBetween(b, a, out GeodesicLine back, out _));
            Assert.Equal(there.DistanceM, back.DistanceM, 0.001);
            Assert.Equal(0, OffAxis.Difference(there.BearingDegrees, back.BearingBackDegrees), 1e-6);
            Assert.Equal(0, OffAxis.Difference(there.BearingBackDegrees, back.BearingDegrees), 1e-6);
            Assert.InRange(there.DistanceM, 0, 20_004_000);
        }
        else
        {
            Assert.Contains("nearly opposite", problem, StringComparison.Ordinal);
        }
    });

    [Fact]
    public void TryBetween_of_one_place_is_nothing_and_of_opposite_ones_a_refusal()
    {
        Assert.True(Geodesic.TryBetween(GeoPoint.Of(40.5, -35.2), GeoPoint.Of(40.5, -35.2), out GeodesicLine none, out _));
        Assert.Equal(0, none.DistanceM);
        Assert.True(Geodesic.TryBetween(GeoPoint.Of(10, 180), GeoPoint.Of(10, -180), out GeodesicLine seam, out _));
        Assert.Equal(0, seam.DistanceM, 1e-6);
        Assert.True(Geodesic.TryBetween(GeoPoint.Of(10, 179.5), GeoPoint.Of(10, -179.5), out GeodesicLine across, out _));
        Assert.InRange(across.DistanceM, 109_000, 110_000);
        Assert.False(Geodesic.TryBetween(GeoPoint.Of(0, 0), GeoPoint.Of(0.5, 179.7), out _, out string problem));
        Assert.Contains("check the signs", problem, StringComparison.Ordinal);
        Assert.False(Geodesic.TryBetween(GeoPoint.Of(0, 0), GeoPoint.Of(0, 180), out _, out _));
    }

    [Theory]
    [InlineData(90.1, 0)]
    [InlineData(double.NaN, 0)]
    [InlineData(0, 180.1)]
    [InlineData(0, double.NegativeInfinity)]
    public void GeoPoint_off_the_earth_is_refused(double latitude, double longitude)
    {
        Assert.False(GeoPoint.TryCreate(latitude, longitude, out _, out string problem));
        Assert.Contains("is out of range; write", problem, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => GeoPoint.Of(latitude, longitude));
    }

    private static double Degrees(int degrees, int minutes, double seconds) => degrees + minutes / 60.0 + seconds / 3600;

    /// <summary>Runge-Kutta of fourth order: dphi/ds = cos a / M, dlambda/ds = sin a / (N cos phi), da/ds = tan phi sin a / N.</summary>
    private static (double Latitude, double Longitude) Walk(GeoPoint from, double bearing, double distance)
    {
        const double radius = 6_378_137;
        const double flattening = 1 / 298.257223563;
        const double e2 = flattening * (2 - flattening);
        static (double Phi, double Lambda, double Alpha) Slope(double phi, double alpha)
        {
            double w = 1 - e2 * Math.Sin(phi) * Math.Sin(phi);
            double n = radius / Math.Sqrt(w);
            double m = radius * (1 - e2) / (w * Math.Sqrt(w));
            return (Math.Cos(alpha) / m, Math.Sin(alpha) / (n * Math.Cos(phi)), Math.Tan(phi) * Math.Sin(alpha) / n);
        }

        const int steps = 2_000;
        double h = distance / steps;
        double phi = from.LatitudeDegrees * Math.PI / 180;
        double lambda = from.LongitudeDegrees * Math.PI / 180;
        double alpha = bearing * Math.PI / 180;
        for (int i = 0; i < steps; i++)
        {
            (double p1, double l1, double a1) = Slope(phi, alpha);
            (double p2, double l2, double a2) = Slope(phi + h / 2 * p1, alpha + h / 2 * a1);
            (double p3, double l3, double a3) = Slope(phi + h / 2 * p2, alpha + h / 2 * a2);
            (double p4, double l4, double a4) = Slope(phi + h * p3, alpha + h * a3);
            phi += h / 6 * (p1 + 2 * p2 + 2 * p3 + p4);
            lambda += h / 6 * (l1 + 2 * l2 + 2 * l3 + l4);
            alpha += h / 6 * (a1 + 2 * a2 + 2 * a3 + a4);
        }

        return (phi * 180 / Math.PI, lambda * 180 / Math.PI);
    }
}
