using System.Globalization;
using Spurless.Bench.Studies;
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
        new BenchRow(Subject, "of a site of 17 emitters, pairs included", "<= 1 s", static _ => Of(17, 1, 1)),
        new BenchRow(Subject, "of 100 emitters, 10 receivers, 400 ways and more", "<= 10 s", static _ => Of(100, 10, 10)),
    ];

    private static BenchResult Of(int emitters, int receivers, double goalS)
    {
        SourceFile source = SourceFile.OfText("plan.site.yaml", StudySite.Text(emitters, receivers), new SiteFolder("plan.site.yaml"));
        CureQuestion question = new() { Site = SiteLoader.Load(source, out _)!, Source = source };
        CureAnswer? answer = null;
        double seconds = Timing.Best(() => answer = CureService.Ask(question).Answer, Budget);
        int tried = answer!.Receivers.Sum(static r => r.Tried);
        return new BenchResult(
            Timing.Text(seconds), "", "", seconds <= goalS,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{tried:#,0} ways studied, {1e3 * seconds / Math.Max(1, tried):0.0} ms each; "
                    + $"{answer.Receivers.Count(static r => r.Cures.Count > 0)} of {receivers} receivers had something to cure"));
    }
}
