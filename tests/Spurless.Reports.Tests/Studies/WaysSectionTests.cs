using Spurless.Files.Diagnostics;
using Spurless.Reports.Cures;
using Spurless.Reports.Html;
using Spurless.Reports.Studies;
using Spurless.Sites.Cures;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Studies;

/// <summary>The section 'Ways out' of the invented demo's report.</summary>
public sealed class WaysSectionTests
{
    private static readonly Lazy<CureAnswer> Demo = new(() => Ask("quernmoss.site.yaml"));

    private static readonly ReportContext Context = new()
    {
        GeneratedAt = new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero),
        ProgramVersion = "0.1.0",
    };

    [Fact]
    public async Task Report_with_ways_has_the_best_three_and_the_one_chosen_with_its_rank()
    {
        Cure ninth = Demo.Value.Receivers[0].Cures[8];
        string html = await Render(Demo.Value, 9);

        Assert.Contains("Chosen: way 9.", html, StringComparison.Ordinal);
        Assert.Contains(Escaped(CureWords.Chosen(ninth, Drawing.Words.Typography.Fine)), html, StringComparison.Ordinal);
        string section = html[html.IndexOf(">Ways out<", StringComparison.Ordinal)..html.IndexOf(">Findings<", StringComparison.Ordinal)];
        Assert.Equal(1 + 3 + 1, section.Split("<tr").Length - 1);
        Assert.Single(section.Split("<tr class=\"sel\">").Skip(1));
        string says = CureWords.AboveList(Demo.Value.Receivers[0], Drawing.Words.Typography.Fine);
        Assert.Contains(Escaped(says), section, StringComparison.Ordinal);
    }

    // A rank beyond the list names nothing: better no way than a wrong one.
    [Theory]
    [InlineData(null)]
    [InlineData(900)]
    public async Task Report_without_a_choice_names_none(int? rank)
    {
        string html = await Render(Demo.Value, rank);

        Assert.DoesNotContain("Chosen: way", html, StringComparison.Ordinal);
        Assert.DoesNotContain("class=\"sel\"", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Report_without_ways_says_so_where_something_is_harmful_and_else_nothing()
    {
        Assert.Contains(Escaped(CureWords.NotTried), await StudyReport.RenderAsync(Demo.Value.Study, Context), StringComparison.Ordinal);
        string cured = await StudyReport.RenderAsync(Ask("quernmoss-cured.site.yaml").Study, Context);
        Assert.DoesNotContain("Ways out", cured, StringComparison.Ordinal);
    }

    private static Task<string> Render(CureAnswer answer, int? rank) => StudyReport.RenderAsync(
        answer.Study, Context, null,
        new ReportedWays(answer, rank is { } r ? new Dictionary<int, int> { [0] = r } : new Dictionary<int, int>()));

    private static string Escaped(string text) => System.Text.Encodings.Web.HtmlEncoder.Default.Encode(text);

    private static CureAnswer Ask(string file)
    {
        SourceFile source = SourceFile.Read(DemoSites.PathOf(file), FileKind.Site, new DiagnosticBag())!;
        LoadedSite site = SiteLoader.Load(source, out _)!;
        return CureService.Ask(
            new CureQuestion { Site = site, Source = source, Filters = FiltersAtHand.Beside(source.Path, site) }).Answer!;
    }
}
