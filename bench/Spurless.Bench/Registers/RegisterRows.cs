using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Screening;
using Spurless.Radio.Paths;
using Spurless.Register;
using Spurless.Sites.Documents;
using Spurless.Sites.Registers;

namespace Spurless.Bench.Registers;

/// <summary>The rows 'Register': import of a country, near, screening.</summary>
public static class RegisterRows
{
    private const string Subject = "Register";
    private const int Rows = 1_500_000;
    private static readonly TimeSpan Budget = TimeSpan.FromSeconds(3);

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(Subject, "import, 1.5 M frequency rows, 5 record kinds", "<= 90 s, < 1 GB, database < 1.5 GB", Import),
        new BenchRow(Subject, "near 10 km / some 200 emitters of 200,000 records", "<= 50 ms", Near),
        new BenchRow(Subject, "screen 1 M emitters, 200,000 receivers, orders 2 3 5 7", "<= 120 s on 2 cores, < 2 GB", ScreenAll),
    ];

    private static BenchResult Import(BenchContext context)
    {
        double tenthProcessor;
        using (CountryDatabase tenth = new(context, Rows / 10))
        {
            tenthProcessor = tenth.Own.Processor;
        }

        using CountryDatabase all = new(context, Rows);
        return new BenchResult(
            string.Create(CultureInfo.InvariantCulture, $"{all.Own}, database {all.Bytes / 1e9:0.00} GB"),
            "lines cut and put into a bare table: " + all.Plain,
            string.Create(CultureInfo.InvariantCulture, $"{all.Own.Processor / all.Plain.Processor:0.0} times its processor time"),
            all is { Own: { Seconds: <= 90, MostBytes: < 1_000_000_000 }, Bytes: < 1_500_000_000 },
            string.Create(
                CultureInfo.InvariantCulture,
                $"{all.Answer.Accepted:#,0} of {all.Answer.Read:#,0} accepted, {all.Answer.Read / all.Own.Seconds:#,0} rows a second; ")
                + Growth("rows", Math.Log10(all.Own.Processor / tenthProcessor)));
    }

    /// <summary>From the call to the answer with levels: the database opened, too.</summary>
    private static BenchResult Near(BenchContext context)
    {
        const int records = 200_000;
        using CountryDatabase database = new(context, records);
        using RegisterStore store = RegisterStore.Open(database.DatabasePath, new DiagnosticBag())!;
        GeoPoint place = new Country(records, 1).Emitters.Select(static e => e.Place)
            .First(p => store.Near(p, 10_000).Count is > 180 and < 260);
        SiteDocument site = SiteReader.Read(
            string.Create(
                CultureInfo.InvariantCulture,
                $$"""
                spurless: 1
                site: invented
                place: { latitude: {{place.LatitudeDegrees:0.0000000}}, longitude: {{place.LongitudeDegrees:0.0000000}}, ground: 100 m }
                receivers:
                  - name: input
                    frequency: 145.05 MHz
                    channel: 12.5 kHz
                    noise_figure: 6 dB
                    iip3: -8 dBm
                    antenna: { gain: 2.15 dBi, height: 15 m }
                """),
            "made.site.yaml",
            new SiteFolder("made.site.yaml")).Document!;
        NearAnswer? answer = null;
        int counted = 0;
        (double ours, double plain, double ratio, _) = Timing.ByTurns(
            () => answer = NearService.Run(
                site, new NearQuestion { Database = database.DatabasePath, RadiusM = 10_000 }, new DiagnosticBag()),
            () => counted = PlainRegister.Near(store, place, 10_000),
            Budget,
            least: 3);
        return new BenchResult(
            Timing.Text(ours),
            "every record read and its distance taken: " + Timing.Text(plain),
            Timing.Times(ratio),
            ours <= 0.050,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{answer!.Emitters.Count} emitters with their levels, plain {counted} without, of {store.Count:#,0} records"));
    }

    /// <summary>
    /// Every receiver against every emitter of the country: no distance is cut off. In quick mode one receiver in fifty, and the rest
    /// said as extrapolated: all of them take far over a few seconds. Emitters are laid out once, however many receivers there are.
    /// </summary>
    private static BenchResult ScreenAll(BenchContext context)
    {
        const int goal = 200_000;
        int receivers = context.Quick ? goal / 50 : goal;
        Screened small = Run(context, 250_000, receivers / (context.Quick ? 1 : 10));
        Screened all = Run(context, 1_000_000, receivers);
        double exponent = Math.Log(all.ProcessorEach / small.ProcessorEach) / Math.Log(4);
        double times = goal / (double)receivers;
        double whole = all.Laid.Seconds + (all.Took.Seconds * times);
        double processor = all.Laid.Processor + (all.Took.Processor * times);
        return new BenchResult(
            string.Create(CultureInfo.InvariantCulture, $"{receivers:#,0} receivers: {all.Took}, emitters laid out: {all.Laid}")
                + (context.Quick
                    ? string.Create(CultureInfo.InvariantCulture, $"; all extrapolated: {whole:#,0} s ({processor:#,0} s of processor)")
                    : ""),
            string.Create(CultureInfo.InvariantCulture, $"levels alone of every emitter at {receivers:#,0} receivers: ")
                + string.Create(CultureInfo.InvariantCulture, $"{all.PlainSeconds:#,0} s of processor (extrapolated from 20 of them)"),
            Timing.Times(all.PlainSeconds / all.Took.Processor),
            whole <= 120 && Math.Max(all.Laid.MostBytes, all.Took.MostBytes) < 2_000_000_000,
            all.Beside + "; a receiver's processor time: " + Growth("emitters", exponent));
    }

    private static Screened Run(BenchContext context, int emitters, int receivers)
    {
        context.Log.WriteLine(
            string.Create(CultureInfo.InvariantCulture, $"screening {receivers:#,0} receivers against {emitters:#,0} emitters"));
        Country country = new(emitters, 1);
        ScreenReceiver[] all = country.Receivers(receivers);
        ScreenFinding[] found = [];
        ScreenField field = null!;
        Measured laid = Measured.Of(() => field = ScreenField.Of(country.Emitters));
        ScreenOptions options = new() { Orders = [2, 3, 5, 7], Threads = 2 };
        Measured took = Measured.Of(() => found = Screen.Run(field, all, options));
        context.Log.WriteLine($"laid out: {laid}; screened: {took}");
        const int sample = 20;
        long heard = 0;
        Measured plain = Measured.Of(() => heard = all.Take(sample).Sum(r => (long)PlainRegister.Heard(country.Emitters, r)));
        return new Screened(laid, took, took.Processor / receivers, plain.Processor / sample * receivers, string.Create(
            CultureInfo.InvariantCulture,
            $"{found.Sum(static f => f.Harmful):#,0} harmful and {found.Sum(static f => f.Marginal):#,0} marginal "
                + $"products on {found.Count(static f => f.Worst is not null):#,0} receivers, each held against the whole country, "
                + $"of which {heard / sample:#,0} emitters would be over its noise in free space alone"));
    }

    private static string Growth(string of, double exponent) =>
        string.Create(CultureInfo.InvariantCulture, $"growth {of}^{exponent:0.00}");

    /// <summary>What laying out and screening took, what the levels alone would take the plain way, and what it found.</summary>
    private sealed record Screened(Measured Laid, Measured Took, double ProcessorEach, double PlainSeconds, string Beside);
}
