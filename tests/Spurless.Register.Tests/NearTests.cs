using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Paths;
using Spurless.Register.Records;

namespace Spurless.Register.Tests;

public sealed class NearTests
{
    private const string Mapping = """
        spurless_columns: 1
        register: invented
        columns: { licence: L, latitude: Lat, longitude: Lon, frequency: { column: F, unit: Hz } }
        """;

    private static Scratch Filled(IEnumerable<(double Latitude, double Longitude)> places)
    {
        Scratch scratch = new();
        scratch.Write("a.columns.yaml", Mapping);
        scratch.Write("a.csv", "L,F,Lat,Lon\n"
            + string.Concat(places.Select(static (p, i) =>
            FormattableString.Invariant($"{i},{150_000_000 + i},{p.Latitude:0.0000000},{p.Longitude:0.0000000}\n"))));
        Assert.NotNull(scratch.Import().Answer);
        return scratch;
    }

    [Fact]
    public void Near_finds_what_going_through_all_finds()
    {
        Random random = new(5);
        List<(double, double)> places = [];
        for (int i = 0; i < 4_000; i++)
        {
            // Crowded round the places asked for: inland, across the 180th meridian, at both poles.
            (double lat, double lon) = (i % 4) switch { 0 => (51.5, -0.1), 1 => (-17.8, 179.9), 2 => (89.7, 20), _ => (-89.9, -100) };
            lon += (random.NextDouble() - 0.5) * (i % 4 >= 2 ? 360 : 3);
            places.Add((Math.Clamp(lat + ((random.NextDouble() - 0.5) * 2), -90, 90), Math.IEEERemainder(lon, 360)));
        }

        using Scratch scratch = Filled(places);
        using RegisterStore store = scratch.Open();
        RegisterRecord[] all = [.. store.All(true)];
        (double, double)[] about = [(51.5, -0.1), (-17.8, 179.9), (-17.8, -179.95), (89.8, 20.0), (-90.0, 0.0)];
        Gen.Select(Gen.Int[0, about.Length - 1], Gen.Double[-0.4, 0.4], Gen.Double[1, 120_000]).Sample(
            (which, shift, radius) =>
            {
                GeoPoint place = GeoPoint.Of(Math.Clamp(about[which].Item1 + shift, -90, 90), Math.IEEERemainder(about[which].Item2
                    + shift, 360));
                long[] wanted = [.. all.Where(r => Geodesic.TryBetween(place, r.Place, out GeodesicLine line, out _)
                    && line.DistanceM <= radius).Select(static r => r.Id).Order()];
                long[] found = [.. store.Near(place, radius).Select(static n => n.Record.Id).Order()];
                return wanted.AsSpan().SequenceEqual(found);
            },
            iter: 60);
    }

    [Fact]
    public void Near_takes_a_record_exactly_at_the_radius()
    {
        using Scratch scratch = Filled([(51.5, 0.1)]);
        using RegisterStore store = scratch.Open();
        GeoPoint here = GeoPoint.Of(51.5, 0);
        Assert.True(Geodesic.TryBetween(here, GeoPoint.Of(51.5, 0.1), out GeodesicLine line, out _));

        Assert.Single(store.Near(here, line.DistanceM));
        Assert.Empty(store.Near(here, line.DistanceM - 0.001));
    }

    [Fact]
    public void Near_numbers_places_of_one_licence_alike_however_far_it_looks()
    {
        using Scratch scratch = new();
        scratch.Write("a.columns.yaml", Mapping);
        scratch.Write("a.csv", "L,F,Lat,Lon\nX1,155500000,50.2,0\nX1,155500000,50.01,0\nX1,160000000,50.01,0\n");
        scratch.Import();
        using RegisterStore store = scratch.Open();

        string[] wide = [.. store.Near(GeoPoint.Of(50, 0), 50_000).Select(static n => n.Record.Name).Order()];
        string[] close = [.. store.Near(GeoPoint.Of(50, 0), 5_000).Select(static n => n.Record.Name).Order()];

        Assert.Equal(["X1 155.5 MHz", "X1 155.5 MHz (2)", "X1 160 MHz"], wide);
        Assert.Equal(["X1 155.5 MHz (2)", "X1 160 MHz"], close);
    }

    [Fact]
    public void Open_of_what_is_no_register_says_what_to_do()
    {
        using Scratch scratch = new();
        DiagnosticBag bag = new();

        Assert.Null(RegisterStore.Open(scratch.Write("none.db", "this is a text and no database, " + new string('x', 2000)), bag));
        Assert.Null(RegisterStore.Open(Path.Combine(scratch.Folder, "missing.db"), bag));

        Assert.Equal(2, bag.InOrder().Count);
        Assert.Contains("no register database", bag.InOrder()[0].What, StringComparison.Ordinal);
        Assert.Contains("spurless register import", bag.InOrder()[1].Remedy, StringComparison.Ordinal);
    }
}
