using System.Globalization;
using System.Text;
using Spurless.Bench.Studies;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Evidence;
using Spurless.Sites.Documents;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Workbench.Folders;
using Spurless.Workbench.Locating;

namespace Spurless.Bench.Locating;

/// <summary>Evidence: a large invented case weighed, with what to look at next; a long log read.</summary>
public static class LocateRows
{
    private const string Subject = "Evidence";
    private const int Emitters = 200;
    private const int Products = 500;
    private const int Tests = 50;
    private const int Moments = 10_000;
    private static readonly TimeSpan Budget = TimeSpan.FromSeconds(2);

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(
            Subject, "200 emitters, 500 products, 50 tests, 10,000 log rows, with next observation", "<= 1 s", static _ => Weigh()),
        new BenchRow(Subject, "a reading typed on the page, 300 emitters: spliced, read, weighed", "p95 <= 60 ms", static _ => Typed()),
        new BenchRow(Subject, "a log of 100,000 rows and 12 columns read", "<= 1 s", static _ => Read()),
    ];

    private static BenchResult Weigh()
    {
        Random random = new(1);
        EvidenceProduct[] products = [.. Enumerable.Range(0, Products).Select(_ => Product(random))];
        bool?[][] rows =
        [
            .. Enumerable.Range(0, Moments)
                .Select(_ => Enumerable.Range(0, Emitters + 1).Select(_ => (bool?)(random.Next(2) == 0)).ToArray()),
        ];
        Observation[] tests = [.. Enumerable.Range(0, Tests).Select(i => i % 2 == 0
            ? (Observation)new PadInLine { OverNoiseDb = 40, FallDb = 6 + random.NextDouble(), PadDb = 1 + (i % 10) }
            : new EmitterDown { OverNoiseDb = 40, FallDb = 3 * random.NextDouble(), Emitter = i, ByDb = 3 })];
        Observation[] asks =
        [
            .. new[] { 3.0, 6, 10 }.Select(static a => new PadInLine { OverNoiseDb = 40, PadDb = a }),
            .. Enumerable.Range(0, Emitters).Select(static e => new EmitterDown { OverNoiseDb = 40, Emitter = e, ByDb = 3 }),
            .. Enumerable.Range(0, Emitters)
                .Select(static e => new EmitterDown { OverNoiseDb = 40, Emitter = e, ByDb = double.PositiveInfinity }),
            new OffsetReading(),
        ];
        int hypotheses = 0;
        Processor processor = new();
        double seconds = Timing.Best(
            () =>
            {
                processor.Begin();
                LogMoments moments = LogMoments.Of(rows, 0, [.. Enumerable.Range(1, Emitters)], new bool[Emitters]);
                WeighedEvidence weighed = Weighing.Weigh(new EvidenceCase
                {
                    Products = products,
                    Observations = [.. tests, new LogReading(moments)],
                    ChannelHz = 12_500,
                });
                hypotheses = weighed.Hypotheses.Count;
                NextObservations.Rank(weighed, asks);
                processor.End();
            },
            Budget);
        return new BenchResult(
            Timing.Text(seconds), "", "", seconds <= 1,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{processor}; {hypotheses:#,0} hypotheses, {asks.Length} observations to choose from"));
    }

    private static EvidenceProduct Product(Random random)
    {
        int[] of = [.. Enumerable.Range(0, 3).Select(i => (random.Next(Emitters / 3) * 3) + i)];
        return new EvidenceProduct
        {
            Terms = [new EvidenceTerm(of[0], 1), new EvidenceTerm(of[1], 1), new EvidenceTerm(of[2], -1)],
            OffsetHz = random.Next(-3000, 3000),
            OffsetSigmaHz = 700,
            Places =
            [
                new EvidencePlace { Kind = MakingPlace.Receiver, Index = 0, OverNoiseDb = random.Next(50), SigmaDb = 7 },
                new EvidencePlace { Kind = MakingPlace.Transmitter, Index = of[0] }, new EvidencePlace { Kind = MakingPlace.Outside },
            ],
        };
    }

    private static BenchResult Typed()
    {
        string path = Directory.CreateTempSubdirectory("spurless-bench-").FullName;
        try
        {
            const string Name = "plan.site.yaml";
            File.WriteAllText(Path.Combine(path, Name), StudySite.Text(300, 1));
            using OpenFolder folder = new(path, TimeProvider.System);
            FolderText text = folder.Session.Read(Name)!;
            LoadedSite site = folder.Site(Name)!.Site!;
            StudyResult study = StudyService.Ask(new StudyQuestion { Site = site }).Answer!;
            LocateAnswer kept = LocateService.Weigh(FolderEvidence.Question(folder, Name, site, study.Options), study);
            LocatedReceiver located = kept.Receivers[0];
            PadInLine pad = new() { OverNoiseDb = located.OverNoiseDb, PadDb = 3 };
            int n = 0;
            Processor processor = new();
            double[] seconds =
            [
                .. Enumerable.Range(0, 220).Select(_ => Timing.Once(() =>
                {
                    processor.Begin();
                    FolderEvidence.Try(
                        folder, text, kept, located, pad,
                        new TypedReading("30", string.Create(CultureInfo.InvariantCulture, $"{3 + (n++ % 60 / 10.0):0.0}"), ""));
                    processor.End();
                })),
            ];
            double[] sorted = [.. seconds.Skip(20).Order()];
            return new BenchResult(
                Timing.Text(sorted[(int)(0.95 * sorted.Length)]), "", "", sorted[(int)(0.95 * sorted.Length)] <= 0.060,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"median {Timing.Text(Timing.Median(sorted))}; {processor}; {located.Weighed.Hypotheses.Count:#,0} hypotheses"));
        }
        finally
        {
            Directory.Delete(path, recursive: true);
        }
    }

    private static BenchResult Read()
    {
        StringBuilder text = new("time," + string.Join(',', Enumerable.Range(1, 12).Select(static i => $"name {i}")) + "\n");
        DateTime time = new(2031, 3, 4, 0, 0, 0, DateTimeKind.Utc);
        Random random = new(1);
        for (int r = 0; r < 100_000; r++)
        {
            text.Append(time.AddSeconds(r).ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture));
            for (int c = 0; c < 12; c++)
            {
                text.Append(random.Next(2) == 0 ? ",0" : ",1");
            }

            text.Append('\n');
        }

        byte[] bytes = Encoding.UTF8.GetBytes(text.ToString());
        ObservationLog? log = null;
        Processor processor = new();
        double seconds = Timing.Best(
            () =>
            {
                processor.Begin();
                log = ObservationLogReader.Read(bytes, "made.log.csv", null, new DiagnosticBag());
                processor.End();
            },
            Budget);
        return new BenchResult(
            Timing.Text(seconds), "", "", seconds <= 1 && log?.Rows.Count == 100_000,
            string.Create(CultureInfo.InvariantCulture, $"{processor}; {bytes.Length / 1e6:0.0} MB"));
    }

    /// <summary>The least processor time of many runs: what a time by the clock is worth on a busy machine.</summary>
    private sealed class Processor
    {
        private TimeSpan _begin;
        private double _least = double.PositiveInfinity;

        public void Begin() => _begin = Environment.CpuUsage.TotalTime;

        public void End() => _least = Math.Min(_least, (Environment.CpuUsage.TotalTime - _begin).TotalSeconds);

        public override string ToString() => $"{Timing.Text(_least)} of processor time a run at least";
    }
}
