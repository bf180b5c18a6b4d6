using System.Globalization;
using Spurless.Bench.Studies;
using Spurless.Files.Diagnostics;
using Spurless.Fuzz;
using Spurless.Sites.Cures;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Bench.Cures;

/// <summary>Ways out: each written into the site file's text, read and studied.</summary>
public static class CureRows
{
    private const string Subject = "Ways out";
    private static readonly TimeSpan Budget = TimeSpan.FromSeconds(2);

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(Subject, "of the demo, pairs included", "<= 1 s", static _ => Of(Demo(), 1, 1)),
        new BenchRow(Subject, "of 100 emitters, 10 receivers, 400 ways and more", "<= 10 s", static _ => Of(
            SourceFile.OfText("plan.site.yaml", StudySite.Text(100, 10), new SiteFolder("plan.site.yaml")), 10, 10)),
    ];

    private static BenchResult Of(SourceFile source, int receivers, double goalS)
    {
        CureQuestion question = new() { Site = SiteLoader.Load(source, out _)!, Source = source };
        CureAnswer? answer = null;
        double seconds = Timing.Best(() => answer = CureService.Ask(question).Answer, Budget);
        int tried = answer!.Receivers.Sum(static r => r.Tried);
        int cured = answer.Receivers.Count(static r => r.Cures.Count > 0);
        return new BenchResult(
            Timing.Text(seconds), "", "", cured == receivers && seconds <= goalS,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{tried:#,0} ways studied, {1e3 * seconds / Math.Max(1, tried):0.0} ms each; "
                    + $"{cured} of {receivers} receivers had something to cure"));
    }

    private static SourceFile Demo() =>
        SourceFile.Read(Places.Of("demo", "quernmoss.site.yaml"), FileKind.Site, new DiagnosticBag())!;
}
