using System.Globalization;
using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Reports.Html;
using Spurless.Reports.Studies;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using BandPlan = Spurless.Bench.ProductSearch.BandPlan;

namespace Spurless.Bench.Studies;

/// <summary>The rows 'Study and report': a site file of 200 emitters from the band plan, read, studied, and written as a page.</summary>
public static class StudyRows
{
    private const string Subject = "Study and report";
    private const int Emitters = 200;
    private static readonly TimeSpan Budget = TimeSpan.FromSeconds(2);

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(
            Subject,
            "whole study in process (read, orders 2-7, levels, verdicts), 200 emitters, 10 receivers",
            "<= 50 ms",
            static _ => Study()),
        new BenchRow(
            Subject,
            "the same, each receiver behind its own chain, every second with two active stages, every finding read",
            "<= 50 ms",
            static _ => StudyOfChains()),
        new BenchRow(Subject, "HTML report of 200 emitters, 1 receiver", "<= 1 s, <= 2 MB", static _ => Report()),
    ];

    private static BenchResult Study()
    {
        string text = SiteText(receivers: 10);
        StudyResult? study = null;
        double seconds = Timing.Best(() => study = StudyService.Run(Load(text), new StudyOptions()), Budget);
        return new BenchResult(
            Timing.Text(seconds), "", "", seconds <= 0.050,
            string.Create(
                CultureInfo.InvariantCulture, $"{study!.Receivers.Sum(static r => r.Products.Count):#,0} products at the default floor"));
    }

    private static BenchResult StudyOfChains()
    {
        string text = StudySite.Text(Emitters, 10);
        int products = 0;
        int harmful = 0;
        double seconds = Timing.Best(
            () =>
            {
                // Findings are made when they are read.
                (products, harmful) = (0, 0);
                foreach (
                    ProductFinding product in StudyService.Run(Load(text), new StudyOptions()).Receivers.SelectMany(static r => r.Products))
                {
                    products++;
                    harmful += product.Verdict == Verdict.Harmful ? 1 : 0;
                }
            },
            Budget);
        return new BenchResult(
            Timing.Text(seconds), "", "", seconds <= 0.050,
            string.Create(CultureInfo.InvariantCulture, $"{products:#,0} products at the default floor, {harmful:#,0} of them harmful"));
    }

    private static BenchResult Report()
    {
        StudyResult study = StudyService.Run(Load(SiteText(receivers: 1)), new StudyOptions());
        ReportContext context = new() { GeneratedAt = DateTimeOffset.UnixEpoch, ProgramVersion = "0" };
        string page = "";
        double first = Timing.Once(() => page = StudyReport.RenderAsync(study, context).GetAwaiter().GetResult());
        double seconds = Timing.Best(() => page = StudyReport.RenderAsync(study, context).GetAwaiter().GetResult(), Budget);
        double megabytes = Encoding.UTF8.GetByteCount(page) / 1e6;
        return new BenchResult(
            string.Create(CultureInfo.InvariantCulture, $"{Timing.Text(first)} the first time, {megabytes:0.00} MB"),
            "",
            "",
            first <= 1 && megabytes <= 2,
            string.Create(
                CultureInfo.InvariantCulture, $"{study.Receivers[0].Products.Count:#,0} products; once warm {Timing.Text(seconds)}"));
    }

    internal static LoadedSite Load(string text) =>
        SiteLoader.Load(text, "band-plan.site.yaml", new NoFiles(), out IReadOnlyList<Diagnostic> findings)
        ?? throw new InvalidOperationException(string.Join('\n', findings));

    private static string SiteText(int receivers)
    {
        SearchProblem problem = BandPlan.Problem(Emitters, receivers, 2, 7, null);
        StringBuilder text = new("spurless: 1\nsite: band plan (invented)\nreceivers:\n");
        for (int r = 0; r < receivers; r++)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"  - {{ name: receiver {r + 1}, frequency: {problem.Receivers[r].FrequencyHz / 1e6:0.000000} "
                    + $"MHz, channel: 12.5 kHz, noise_figure: 8 dB, iip3: -5 dBm }}\n");
        }

        text.Append("emitters:\n");
        for (int i = 0; i < Emitters; i++)
        {
            SearchEmitter emitter = problem.Emitters[i];
            text.Append(
                CultureInfo.InvariantCulture,
                $"  - {{ name: emitter {i + 1}, frequency: {emitter.FrequencyHz / 1e6:0.000000} MHz, bandwidth: "
                    + $"{emitter.BandwidthHz / 1e3:0.###} kHz, level: "
                        + $"{MicroDb.ToDecibels(problem.Receivers[0].Stages[0].LevelMicroDbm[i]):0.0} dBm }}\n");
        }

        return text.ToString();
    }

    private sealed class NoFiles : ISiteFiles
    {
        public bool Exists(string path) => false;

        public byte[]? Read(string path) => null;

        public string NameOf(string path) => path;
    }
}
