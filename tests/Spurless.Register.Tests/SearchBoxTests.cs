using CsCheck;
using Spurless.Radio.Paths;

namespace Spurless.Register.Tests;

/// <summary>
/// The boxes that a search round a place looks into, against the geodesic on the ellipsoid itself (held to published lines in the tests of
/// <see cref="Geodesic"/>): none that is near enough may stand outside, and they must not be so wide that they are of no use.
/// </summary>
public sealed class SearchBoxTests
{
    [Fact]
    public void Every_place_within_the_radius_stands_in_a_box() =>
        Gen.Select(Gen.Double[-90, 90], Gen.Double[-180, 180], Gen.Double[0, 6], Gen.Double[-1, 1], Gen.Double[-1, 1]).Sample(
            static (latitude, longitude, decades, north, east) =>
            {
                GeoPoint place = GeoPoint.Of(latitude, longitude);
                double radius = Math.Pow(10, decades);

                // Somewhere about, out to a little further than the radius whatever the latitude.
                double reach = radius / 100_000;
                double lat = Math.Clamp(latitude + (reach * north), -90, 90);
                double wide = Math.Min(180, reach / Math.Max(0.001, Math.Cos(lat * Math.PI / 180)));
                GeoPoint other = GeoPoint.Of(lat, Math.IEEERemainder(longitude + (wide * east), 360));
                bool inside = SearchBox.Round(place, radius).Any(b =>
                    other.LatitudeDegrees >= b.South && other.LatitudeDegrees <= b.North
                    && other.LongitudeDegrees >= b.West && other.LongitudeDegrees <= b.East);
                return inside || !Geodesic.TryBetween(place, other, out GeodesicLine line, out _) || line.DistanceM > radius;
            },
            iter: 20_000);

    /// <summary>A box of 10 km at the equator is 20 km high and wide, one at 60 degrees twice as many degrees wide (a degree there is half
    /// as long).</summary>
    [Theory]
    [InlineData(0, 0.0898)]
    [InlineData(60, 0.1796)]
    public void Boxes_are_no_wider_than_they_must_be(double latitude, double halfWidthDegrees)
    {
        (double south, double north, double west, double east) = Assert.Single(SearchBox.Round(GeoPoint.Of(latitude, 10), 10_000));

        Assert.InRange(north - south, 2 * 0.0895, 2 * 0.0925);
        Assert.InRange((east - west) / 2 / halfWidthDegrees, 0.99, 1.04);
    }

    [Fact]
    public void Round_the_180th_meridian_there_are_two_and_round_a_pole_all_longitudes()
    {
        Assert.Equal(2, SearchBox.Round(GeoPoint.Of(-17, 179.99), 5_000).Count());
        Assert.Equal(2, SearchBox.Round(GeoPoint.Of(-17, -179.99), 5_000).Count());
        (_, double north, double west, double east) = Assert.Single(SearchBox.Round(GeoPoint.Of(89.99, 40), 5_000));
        Assert.Equal((90, -180, 180), (north, west, east));
    }
}
