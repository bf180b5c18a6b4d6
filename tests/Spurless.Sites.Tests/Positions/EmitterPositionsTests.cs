using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;
using Spurless.Sites.Positions;
using Spurless.Sites.Sources;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Positions;

/// <summary>
/// Where emitters stand to each other, against a sphere of the ellipsoid's mean radius (haversine formula; within 0.6 %, as the radius of
/// curvature differs so much from pole to equator) and against the geometry of triangles.
/// </summary>
public sealed class EmitterPositionsTests
{
    private const double MeanRadiusM = 6_371_008.8;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 20)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Between_two_coordinates_is_near_the_sphere_and_the_same_from_both_ends(int seed)
    {
        Random random = new(seed);
        (double lat1, double lon1) = (random.Next(-70, 70) + random.NextDouble(), random.Next(-180, 180) + random.NextDouble());
        (double lat2, double lon2) = (lat1 + (random.NextDouble() * 2) - 1, lon1 + (random.NextDouble() * 2) - 1);
        SiteDocument site = Site(At("a", lat1, lon1), At("b", lat2, lon2));
        DistanceAndBearing there = EmitterPositions.Between(site, site.Emitters[0], site.Emitters[1])!.Value;
        DistanceAndBearing back = EmitterPositions.Between(site, site.Emitters[1], site.Emitters[0])!.Value;
        double sphere = Haversine(lat1, lon1, lat2, lon2);
        Assert.InRange(there.DistanceM / sphere, 0.994, 1.006);
        Assert.Equal(there.DistanceM, back.DistanceM, 1e-3);
        Assert.Equal(0, Turn(there.BearingDegrees, back.BackDegrees), 1e-6);
        Assert.Equal(0, Turn(there.BackDegrees, back.BearingDegrees), 1e-6);
        double bearing = Math.Atan2(
            Math.Sin(Rad(lon2 - lon1)) * Math.Cos(Rad(lat2)),
            (Math.Cos(Rad(lat1)) * Math.Sin(Rad(lat2))) - (Math.Sin(Rad(lat1)) * Math.Cos(Rad(lat2)) * Math.Cos(Rad(lon2 - lon1))));
        Assert.True(Turn(there.BearingDegrees, bearing * 180 / Math.PI) < 0.4, $"{there.BearingDegrees} and {bearing * 180 / Math.PI}");
    }

    /// <summary>Two distances and bearings make a triangle: the law of cosines, and the same place twice is no path.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Between_two_distances_and_bearings_is_the_third_side(int seed)
    {
        Random random = new(seed);
        (double d1, double b1) = (100 + random.Next(20_000), random.Next(360));
        (double d2, double b2) = (100 + random.Next(20_000), random.Next(360));
        SiteDocument site = Site(Off("a", d1, b1), Off("b", d2, b2));
        double side = Math.Sqrt((d1 * d1) + (d2 * d2) - (2 * d1 * d2 * Math.Cos(Rad(b1 - b2))));
        DistanceAndBearing line = EmitterPositions.Between(site, site.Emitters[0], site.Emitters[1])!.Value;
        Assert.Equal(side, line.DistanceM, 1e-6 * (d1 + d2));
        Assert.Equal(180, Turn(line.BearingDegrees, line.BackDegrees), 1e-9);

        // Walking from the site to a, then along the line, ends at b.
        (double east, double north) = (d1 * Math.Sin(Rad(b1)), d1 * Math.Cos(Rad(b1)));
        east += line.DistanceM * Math.Sin(Rad(line.BearingDegrees));
        north += line.DistanceM * Math.Cos(Rad(line.BearingDegrees));
        Assert.Equal(d2 * Math.Sin(Rad(b2)), east, 1e-6 * (d1 + d2));
        Assert.Equal(d2 * Math.Cos(Rad(b2)), north, 1e-6 * (d1 + d2));
    }

    /// <summary>The coordinates of what stands at a distance and bearing lie there: measured back along the ellipsoid.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void PointOf_a_distance_and_bearing_lies_at_it(int seed)
    {
        Random random = new(seed);
        (double d, double b) = (10 + random.Next(100_000), random.Next(360));
        SiteDocument site = Site(Off("a", d, b));
        Spurless.Radio.Paths.GeoPoint point = EmitterPositions.PointOf(site, site.Emitters[0])!.Value;
        SiteDocument other = Site(At("a", point.LatitudeDegrees, point.LongitudeDegrees));
        (double? distance, double? bearing) = EmitterPositions.FromSite(other, other.Emitters[0]);
        Assert.Equal(d, distance!.Value, 0.01);
        Assert.True(Turn(b, bearing!.Value) < 0.1, $"{b} and {bearing}");
    }

    [Fact]
    public void Between_what_is_not_known_is_null()
    {
        SiteDocument site = Site(
            At("a", 40.6, -35.2), At("same", 40.6, -35.2), Off("b", 500, 90), "name: nowhere", "name: far, distance: 2 km",
            "name: ours, path: { same structure: { vertical: 6 m, horizontal: 0 m } }");
        EmitterEntry Of(string name) => site.Emitters.Single(e => e.Name == name);
        Assert.Null(EmitterPositions.Between(site, Of("a"), Of("same")));
        Assert.Null(EmitterPositions.Between(site, Of("a"), Of("nowhere")));
        Assert.Null(EmitterPositions.Between(site, Of("a"), Of("far"))); // its bearing is not known
        Assert.Null(EmitterPositions.Between(site, Of("ours"), Of("ours")));
        Assert.Null(EmitterPositions.PointOf(site, Of("far")));

        // What stands on the site's own structure is as far from another as the site is.
        Assert.Equal(500, EmitterPositions.Between(site, Of("ours"), Of("b"))!.Value.DistanceM, 1e-9);
        Assert.Equal(90, EmitterPositions.Between(site, Of("ours"), Of("b"))!.Value.BearingDegrees, 1e-9);
        Assert.Equal((2_000.0, null), EmitterPositions.FromSite(site, Of("far")));
    }

    /// <summary>One place as coordinates, the other as distance and bearing: the same path to 0.1 % as both as coordinates.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Between_coordinates_and_a_bearing_agrees_with_both_as_coordinates(int seed)
    {
        Random random = new(seed);
        (double d, double b) = (500 + random.Next(50_000), random.Next(360));
        SiteDocument mixed = Site(At("a", 40.5 + (random.NextDouble() / 2), -35.2 + (random.NextDouble() / 2)), Off("b", d, b));
        Spurless.Radio.Paths.GeoPoint point = EmitterPositions.PointOf(mixed, mixed.Emitters[1])!.Value;
        AtEntryPlace a = new(mixed.Emitters[0].At!.Latitude, mixed.Emitters[0].At!.Longitude);
        SiteDocument both = Site(At("a", a.Latitude, a.Longitude), At("b", point.LatitudeDegrees, point.LongitudeDegrees));
        double flat = EmitterPositions.Between(mixed, mixed.Emitters[0], mixed.Emitters[1])!.Value.DistanceM;
        double ellipsoid = EmitterPositions.Between(both, both.Emitters[0], both.Emitters[1])!.Value.DistanceM;

        // Flat ground is good to 0.1 % of how far the two stand from the site, not of the side between them.
        Assert.True(Math.Abs(flat - ellipsoid) < 1e-3 * (d + 70_000), $"{flat} and {ellipsoid}");
    }

    private sealed record AtEntryPlace(double Latitude, double Longitude);

    private static string At(string name, double latitude, double longitude) => string.Create(
        CultureInfo.InvariantCulture,
        $"name: {name}, at: {{ latitude: {latitude:0.0########}, longitude: {Wrapped(longitude):0.0########} }}");

    private static string Off(string name, double metres, double bearing) => string.Create(
        CultureInfo.InvariantCulture, $"name: {name}, distance: {metres} m, bearing: {bearing}");

    private static double Wrapped(double longitude) => longitude > 180 ? longitude - 360 : longitude < -180 ? longitude + 360 : longitude;

    private static double Haversine(double lat1, double lon1, double lat2, double lon2)
    {
        double h = Math.Pow(Math.Sin(Rad(lat2 - lat1) / 2), 2)
            + (Math.Cos(Rad(lat1)) * Math.Cos(Rad(lat2)) * Math.Pow(Math.Sin(Rad(lon2 - lon1) / 2), 2));
        return 2 * MeanRadiusM * Math.Asin(Math.Sqrt(h));
    }

    private static double Rad(double degrees) => degrees * Math.PI / 180;

    private static double Turn(double a, double b)
    {
        double turn = Math.Abs(a - b) % 360;
        return Math.Min(turn, 360 - turn);
    }

    private static SiteDocument Site(params string[] emitters)
    {
        string text = "spurless: 1\nsite: made for a test\nplace: { latitude: 40.5, longitude: -35.2 }\nreceivers:\n"
            + "  - { name: r, frequency: 145 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }\nemitters:\n"
            + string.Concat(emitters.Select(static e => $"  - {{ {e}, frequency: 160 MHz, bandwidth: 0 kHz }}\n"));
        LoadedSite? site = SiteLoader.Load(text, "places.site.yaml", new StubFiles(), out IReadOnlyList<Diagnostic> findings);
        Assert.Equal("", string.Join('\n', findings));
        return site!.Document;
    }
}
