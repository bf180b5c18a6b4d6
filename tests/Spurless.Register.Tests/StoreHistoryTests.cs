using System.Globalization;
using CsCheck;
using Spurless.Radio.Paths;
using Spurless.Register.Importing;
using Spurless.Register.Records;

namespace Spurless.Register.Tests;

/// <summary>
/// A database after any history of imports against a plain list that is gone through: what replaces what, what goes, what is near and how
/// several of one name are numbered.
/// </summary>
public sealed class StoreHistoryTests
{
    private const string Mapping = """
        spurless_columns: 1
        register: invented
        columns:
          licence: L
          call_sign: C
          latitude: Lat
          longitude: Lon
          status: S
          kind: K
          frequency: { column: F, unit: Hz }
          erp: { column: P, unit: dBm }
        """;

    private static readonly (double Latitude, double Longitude)[] Places =
        [(50, 0), (50, 0.05), (50.05, 0), (50.4, 0.3), (-50, 0), (50, 179.98), (50, -179.98), (89.99, 0)];

    private static readonly Gen<Row> AnyRow =
        from licence in Gen.Int[0, 3]
        from call in Gen.Int[0, 2]
        from place in Gen.Int[0, Places.Length - 1]
        from hertz in Gen.Int[0, 1]
        from receives in Gen.Int[0, 5]
        from erp in Gen.Int[0, 60]
        from status in Gen.Int[0, 5]
        select new Row(licence, call == 0 ? "" : "C" + Station(call), place, 150_000_000 + hertz, receives > 0, erp, status > 0);

    [Fact]
    public void Database_after_any_imports_is_what_a_plain_list_says() => AnyRow.Array[1, 25].Array[1, 4].Sample(
        static imports =>
        {
            using Scratch scratch = new();
            List<Kept> model = [];
            HashSet<string> marks = [];
            scratch.Write("a.columns.yaml", Mapping);
            for (int i = 0; i < imports.Length; i++)
            {
                Write(scratch, imports[i]);
                ImportAnswer answer = scratch.Import().Answer!;
                Assert.Equal(Take(model, imports[i], i), answer with { Registers = [], Rejected = [], Rejects = null });
                Assert.Equal(answer.Read, answer.Accepted + answer.Rejected.Sum(static r => r.Count));
                using RegisterStore store = scratch.Open();
                Assert.Equal(model.Count, store.Count);
                Assert.True(marks.Add(store.ContentMark()), "the mark of an earlier content");
                foreach (bool transmits in (bool[])[true, false])
                {
                    Assert.Equal(
                        model.Where(k => k.Row.Transmits == transmits).Select(static k => k.Row.Said),
                        store.All(transmits).Select(Said));
                }
            }

            using RegisterStore last = scratch.Open();
            foreach (double radius in (double[])[100, 4_000, 60_000, 3_000_000, 19_000_000])
            {
                NearIsTheScan(last, model, Places[imports.Length], radius);
            }
        },
        iter: 6);

    [Fact]
    public void Import_cancelled_anywhere_and_run_again_ends_as_one_that_was_not() =>
        Gen.Select(AnyRow.Array[30, 90], Gen.Int[1, 12], Gen.Int[1, 9]).Sample(
            static (rows, reports, rowsPerCommit) =>
            {
                using Scratch whole = new(), cut = new();
                foreach (Scratch scratch in (Scratch[])[whole, cut])
                {
                    scratch.Write("a.columns.yaml", Mapping);
                    Write(scratch, rows);
                }

                ImportAnswer expected = whole.Import().Answer!;
                ImportQuestion question =
                    new() { Files = [cut.Input], Database = cut.Database, AsOf = Scratch.Today, RowsPerCommit = rowsPerCommit };
                using CancellationTokenSource cancel = new();
                Reports told = new(cancel, reports);
                try
                {
                    RegisterImport.Run(question, told, cancel.Token);
                }
                catch (OperationCanceledException)
                {
                    using RegisterStore half = cut.Open();
                    Assert.Equal(0, half.Count);
                    Assert.Empty(half.All(true));
                    Assert.Empty(half.Near(GeoPoint.Of(50, 0), 1e6));
                }

                ImportAnswer answer = RegisterImport.Run(question).Answer!;

                Assert.Equal(Scratch.Counts(expected), Scratch.Counts(answer));
                Assert.True(answer.Resumed % rowsPerCommit == 0 || answer.Resumed == 0 || answer.Replaced > 0);
                using RegisterStore first = whole.Open(), second = cut.Open();
                Assert.Equal(first.ContentHash(), second.ContentHash());
                if (expected.Rejects is { } rejects)
                {
                    Assert.Equal(
                        File.ReadAllText(rejects).Replace(whole.Input, cut.Input, StringComparison.Ordinal),
                        File.ReadAllText(answer.Rejects!));
                }
            },
            iter: 6);

    [Fact]
    public void Progress_rises_from_nothing_to_nearly_all_and_counts_every_row()
    {
        using Scratch scratch = new();
        ImportTests.Make("uls", scratch, 200);
        List<ImportProgress> told = [];

        ImportAnswer answer = RegisterImport.Run(
            new ImportQuestion { Files = [scratch.Input], Database = scratch.Database, AsOf = Scratch.Today, RowsPerCommit = 50 },
            new Listener(told.Add)).Answer!;

        Assert.Equal(told.OrderBy(static t => t.Fraction).ThenBy(static t => t.Rows), told);
        Assert.All(told, static t => Assert.InRange(t.Fraction, 0, 1));
        Assert.Equal(answer.Read, told[^1].Rows);
        Assert.True(told.Count > answer.Read / 60, "told too seldom");
    }

    private static void Write(Scratch scratch, Row[] rows) => scratch.Write("a.csv", "L,C,F,Lat,Lon,K,P,S\n" + string.Concat(
        rows.Select(static r => string.Create(
            CultureInfo.InvariantCulture,
            $"{r.Licence},{r.Call},{r.Hertz},{Places[r.Place].Latitude},{Places[r.Place].Longitude},{(r.Transmits ? "T" : "R")},{r.Erp},"
                + $"{(r.InForce ? "live" : "cancelled")}\n"))));

    /// <summary>What an import must do to the list, said row by row.</summary>
    private static ImportAnswer Take(List<Kept> model, Row[] rows, int import)
    {
        Dictionary<string, Kept> taken = [];
        HashSet<string> ended = [];
        for (int i = 0; i < rows.Length; i++)
        {
            if (!rows[i].InForce)
            {
                ended.Add(rows[i].Key);
            }
            else
            {
                taken.TryAdd(rows[i].Key, new Kept(rows[i], import, i + 1));
            }
        }

        int replaced = model.RemoveAll(k => taken.ContainsKey(k.Row.Key)), withdrawn = model.RemoveAll(k => ended.Contains(k.Row.Key));
        model.AddRange(taken.Values);
        return new ImportAnswer
        {
            Registers = [],
            Read = rows.Length,
            Accepted = taken.Count,
            Rejected = [],
            Replaced = replaced,
            Withdrawn = withdrawn,
        };
    }

    private static void NearIsTheScan(RegisterStore store, List<Kept> model, (double Latitude, double Longitude) about, double radiusM)
    {
        GeoPoint here = GeoPoint.Of(about.Latitude, about.Longitude);
        List<(double DistanceM, string Said)> wanted = [];
        foreach (Kept kept in model.Where(static k => k.Row.Transmits))
        {
            GeoPoint there = GeoPoint.Of(Places[kept.Row.Place].Latitude, Places[kept.Row.Place].Longitude);
            if (Geodesic.TryBetween(here, there, out GeodesicLine line, out _) && line.DistanceM <= radiusM)
            {
                // Of several of one name: how many stand before it in their files, the older import first.
                int number = 1 + model.Count(o => o.Row.Transmits && o.Row.Who == kept.Row.Who && o.Row.Hertz == kept.Row.Hertz
                    && (o.Number, o.Import).CompareTo((kept.Number, kept.Import)) < 0);
                wanted.Add((line.DistanceM, $"{kept.Row.Said} ({Station(number)})"));
            }
        }

        IReadOnlyList<NearRecord> found = store.Near(here, radiusM);
        Assert.Equal(
            wanted.Select(static w => w.Said).Order(StringComparer.Ordinal),
            found.Select(static f => $"{Said(f.Record)} ({Station(f.Record.Ordinal)})").Order(StringComparer.Ordinal));
        Assert.Equal(found.OrderBy(static f => f.Line.DistanceM), found);
        Assert.Equal(wanted.Select(static w => w.DistanceM).Order(), found.Select(static f => f.Line.DistanceM));
    }

    private static string Said(RegisterRecord r) => string.Create(
        CultureInfo.InvariantCulture,
        $"{r.Licence}|{r.CallSign}|{r.FrequencyHz}|{r.Place.LatitudeDegrees}|{r.Place.LongitudeDegrees}|{r.Transmits}|{r.EirpDbm:0.00}");

    private static string Station(int number) => number.ToString(CultureInfo.InvariantCulture);

    private sealed record Row(int Licence, string Call, int Place, long Hertz, bool Transmits, int Erp, bool InForce)
    {
        public string Who => Call.Length > 0 ? Call : Station(Licence);

        public string Key => $"{Licence}|{Call}|{Place}|{Hertz}|{Transmits}";

        // 2.15 dB over a dipole (ITU-R V.573); a receiver radiates nothing.
        public string Said => string.Create(
            CultureInfo.InvariantCulture,
            $"{Licence}|{Call}|{Hertz}|{Places[Place].Latitude}|{Places[Place].Longitude}|{Transmits}|"
                + $"{(Transmits ? Erp + 2.15 : null):0.00}");
    }

    private sealed record Kept(Row Row, int Import, int Number);

    private sealed class Reports(CancellationTokenSource cancel, int after) : IProgress<ImportProgress>
    {
        private int _told;

        public void Report(ImportProgress value)
        {
            if (++_told == after)
            {
                cancel.Cancel();
            }
        }
    }

    private sealed class Listener(Action<ImportProgress> told) : IProgress<ImportProgress>
    {
        public void Report(ImportProgress value) => told(value);
    }
}
