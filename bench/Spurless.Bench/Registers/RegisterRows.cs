using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Screening;
using Spurless.Radio.Paths;
using Spurless.Register;
using Spurless.Register.Importing;

namespace Spurless.Bench.Registers;

/// <summary>The rows 'Register': import of a country, near, screening.</summary>
public static class RegisterRows
{
    private const string Subject = "Register";

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(Subject, "import, 1.5 M frequency rows, 5 record kinds", "<= 90 s, < 1 GB, database < 1.5 GB", Import),
        new BenchRow(Subject, "near 10 km / some 200 emitters", "<= 50 ms", Near),
        new BenchRow(Subject, "screen 1 M emitters, 200,000 receivers, orders 2 3 5 7", "<= 120 s on 2 cores, < 2 GB", ScreenAll),
    ];

    private static BenchResult Import(BenchContext context)
    {
        const int rows = 1_500_000;
        Imported tenth = Import(context, rows / 10);
        Imported all = Import(context, rows);

        // Time against the number of frequency rows: 1 is a straight line.
        double exponent = Math.Log10(all.Seconds / tenth.Seconds);
        return new BenchResult(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{Timing.Text(all.Seconds)}, {all.MostBytes / 1e9:0.00} GB, database {all.DatabaseBytes / 1e9:0.00} GB"),
            "",
            string.Create(CultureInfo.InvariantCulture, $"rows^{exponent:0.00}"),
            all is { Seconds: <= 90, MostBytes: < 1_000_000_000, DatabaseBytes: < 1_500_000_000 },
            string.Create(
                CultureInfo.InvariantCulture,
                $"{all.Accepted:#,0} of {all.Read:#,0} accepted, {all.Read / all.Seconds:#,0} rows a second; "
                    + $"a tenth of it in {Timing.Text(tenth.Seconds)}"));
    }

    private static Imported Import(BenchContext context, int rows)
    {
        string folder = Directory.CreateTempSubdirectory("spurless-bench-").FullName;
        try
        {
            context.Log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"writing a country's files with {rows:#,0} frequency rows"));
            new Country(rows, 1).WritePublicAccess(folder);
            GC.Collect();
            string database = Path.Combine(folder, "register.db");
            ImportOutcome? outcome = null;
            long most = 0;
            using Timer watch = new(_ => most = Math.Max(most, Environment.WorkingSet), null, 0, 200);
            double seconds = Timing.Once(
                () => outcome = RegisterImport.Run(
                    new ImportQuestion { Files = [folder], Database = database, AsOf = new DateOnly(2031, 3, 4) }));
            ImportAnswer answer = outcome!.Answer ?? throw new InvalidOperationException(string.Join('\n', outcome.Diagnostics));
            context.Log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{seconds:0.0} s, {most / 1e9:0.00} GB"));
            return new Imported(seconds, most, new FileInfo(database).Length, answer.Read, answer.Accepted);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static BenchResult Near(BenchContext context)
    {
        string folder = Directory.CreateTempSubdirectory("spurless-bench-").FullName;
        try
        {
            Country country = new(200_000, 1);
            country.WritePublicAccess(folder);
            string database = Path.Combine(folder, "register.db");
            RegisterImport.Run(new ImportQuestion { Files = [folder], Database = database, AsOf = new DateOnly(2031, 3, 4) });
            using RegisterStore store = RegisterStore.Open(database, new DiagnosticBag())!;
            GeoPoint place = country.Emitters.Select(static e => e.Place)
                .First(p => store.Near(p, 10_000).Count is > 180 and < 260);
            int count = 0;
            double seconds = Timing.Best(() => count = store.Near(place, 10_000).Count, TimeSpan.FromSeconds(2));
            return new BenchResult(
                Timing.Text(seconds),
                "",
                "",
                seconds <= 0.050,
                string.Create(CultureInfo.InvariantCulture, $"{count} emitters, of {store.Count:#,0}"));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static BenchResult ScreenAll(BenchContext context)
    {
        (double small, _, _) = Run(context, 250_000, 20_000);
        (double seconds, long most, string beside) = Run(context, 1_000_000, 200_000);

        // Time a receiver against the number of emitters.
        double exponent = Math.Log(seconds / 200_000 / (small / 20_000)) / Math.Log(4);
        return new BenchResult(
            string.Create(CultureInfo.InvariantCulture, $"{seconds:0} s, {most / 1e9:0.00} GB"),
            "",
            string.Create(CultureInfo.InvariantCulture, $"emitters^{exponent:0.00}"),
            seconds <= 120 && most < 2_000_000_000,
            beside);
    }

    private static (double Seconds, long Most, string Beside) Run(BenchContext context, int emitters, int receivers)
    {
        context.Log.WriteLine(
            string.Create(CultureInfo.InvariantCulture, $"screening {receivers:#,0} receivers against {emitters:#,0} emitters"));
        Country country = new(emitters, 1);
        ScreenReceiver[] all = country.Receivers(receivers);
        GC.Collect();
        long most = 0;
        using Timer watch = new(_ => most = Math.Max(most, Environment.WorkingSet), null, 0, 200);
        ScreenFinding[] found = [];
        double seconds = Timing.Once(
            () => found = Screen.Run(ScreenField.Of(country.Emitters), all, new ScreenOptions { Orders = [2, 3, 5, 7], Threads = 2 }));
        context.Log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{seconds:0.0} s"));
        return (seconds, most, string.Create(
            CultureInfo.InvariantCulture,
            $"{found.Sum(static f => f.Harmful):#,0} harmful and {found.Sum(static f => f.Marginal):#,0} marginal "
                + $"products on {found.Count(static f => f.Worst is not null):#,0} receivers"));
    }

    /// <summary>What an import took and gave.</summary>
    private sealed record Imported(double Seconds, long MostBytes, long DatabaseBytes, long Read, long Accepted);
}
