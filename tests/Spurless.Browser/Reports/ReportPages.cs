using System.Collections.Concurrent;
using System.Globalization;
using Spurless.Browser.Browsing;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Bench;
using Spurless.Reports.Cures;
using Spurless.Reports.Html;
using Spurless.Reports.Responses;
using Spurless.Reports.Studies;
using Spurless.Sites.Cures;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Locating;
using Spurless.Sites.Responses;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Browser.Reports;

/// <summary>The reports that are looked at, written to files as a user would get them.</summary>
internal static class ReportPages
{
    private static readonly ReportContext Context = new()
    {
        GeneratedAt = new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero),
        ProgramVersion = "0.1.0",
        Notice = "an invented site, for demonstration",
    };

    private static readonly ConcurrentDictionary<string, Lazy<Task<string>>> Written = new(StringComparer.Ordinal);

    /// <summary>Writes the report of that name once and gives its address.</summary>
    public static Task<string> AddressAsync(string name) =>
        Written.GetOrAdd(name, static n => new Lazy<Task<string>>(() => WriteAsync(n))).Value;

    private static async Task<string> WriteAsync(string name)
    {
        string html = name switch
        {
            "demo" => await StudyReport.RenderAsync(Study("quernmoss.site.yaml"), Context),
            "demo-ways" => await WithWaysAsync("quernmoss.site.yaml"),
            "demo-filtered" => await StudyReport.RenderAsync(Study("quernmoss-filtered.site.yaml"), Context),
            // Typed in by hand: one mixture survives the filter because it arrives already mixed.
            "surviving" => await StudyReport.RenderAsync(DemoStudy.WithFilter(), Context, DemoStudy.Response),
            "stress" => await BenchReport.RenderAsync(BenchSheets.Stress(), Context),
            "tolerance" => await BenchReport.RenderAsync(BenchSheets.Tolerance(), Context),
            "response" => await ResponseReport.RenderAsync(Response(), Context),
            "schematics" => await SchematicsAsync(),
            _ => throw new ArgumentOutOfRangeException(nameof(name)),
        };
        string file = Artifacts.File(name + ".html");
        await File.WriteAllTextAsync(file, html);
        return new Uri(file).AbsoluteUri;
    }

    /// <summary>With the ways out, the second as the one chosen.</summary>
    private static async Task<string> WithWaysAsync(string site)
    {
        SourceFile source = SourceFile.Read(DemoSites.PathOf(site), FileKind.Site, new DiagnosticBag())!;
        CureQuestion question = new()
        {
            Site = SiteLoader.Load(source, out _)!,
            Source = source,
            Filters = FiltersAtHand.Beside(source.Path, SiteLoader.Load(source, out _)!),
        };
        CureAnswer answer = CureService.Ask(question).Answer!;
        return await StudyReport.RenderAsync(
            answer.Study, Context, null, new ReportedWays(answer, new Dictionary<int, int> { [0] = 2 }));
    }

    /// <summary>All topologies one under another.</summary>
    private static async Task<string> SchematicsAsync()
    {
        System.Text.StringBuilder page = new(
            $"<!DOCTYPE html><html lang=\"en\"><head><meta charset=\"utf-8\"><title>Schematics</title><link rel=\"icon\" "
                + $"href=\"data:,\"><style>{PageRenderer.Styles("schematics")}</style></head><body "
                    + $"class=\"sheet\"><main class=\"page\"><h1>Schematics</h1>");
        int id = 0;
        foreach (string name in Topologies.Names)
        {
            string drawing = await PageRenderer.RenderAsync<Spurless.Drawing.Schematics.Schematic>(new Dictionary<string, object?>
            {
                ["Circuit"] = Topologies.Of(name),
                ["Id"] = FormattableString.Invariant($"s{++id}"),
            });
            page.Append(
                CultureInfo.InvariantCulture,
                $"<h2 class=\"part\">{name}</h2><figure><div class=\"roll\" role=\"region\" "
                    + $"tabindex=\"0\" aria-label=\"{name}\">{drawing}</div></figure>");
        }

        return page.Append("</main></body></html>").ToString();
    }

    private static StudyResult Study(string file)
    {
        LoadedSite? site = SiteLoader.Load(Path.Combine(Artifacts.Root, "demo", file), out IReadOnlyList<Diagnostic> findings);
        Assert.DoesNotContain(findings, static f => f.Severity == Severity.Error);
        StudyResult study = StudyService.Run(site!, new StudyOptions());
        // The name as a user in that folder would write it.
        return study with
        {
            Inputs =
            [
                .. study.Inputs.Select(
                    i =>
                        i with
                        {
                            Name = Path.GetRelativePath(Path.Combine(Artifacts.Root, "demo"), Path.Combine(Artifacts.Root, "demo", i.Name)),
                        }),
            ],
        };
    }

    private static ResponseAnswer Response()
    {
        const string Name = "three-tank.circuit.yaml";
        DiagnosticBag findings = new();
        using FileStream stream = File.OpenRead(Path.Combine(Artifacts.Root, "demo", "filters", Name));
        CircuitDocument document = CircuitReader.Read(stream, Name, static (string _, out Refusal? refusal) =>
        {
            refusal = new Refusal("the demo's filter names no file", "leave it so");
            return null;
        }, findings)!;
        Assert.False(findings.HasErrors);
        CircuitTwoPort network = new(CircuitSolver.Create(document.Circuit));
        return new ResponseAnswer
        {
            Result = ResponseCalculator.Compute(network, document.Circuit.Name, ResponseCalculator.DefaultFrequencies(network)),
            Network = network,
            Circuit = document.Circuit,
            Receiver = Study("quernmoss.site.yaml").Receivers[0],
        };
    }
}
