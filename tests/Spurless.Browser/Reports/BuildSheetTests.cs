using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Designs;
using Spurless.Reports.Html;
using Spurless.Sites.Designs;
using Spurless.Sites.Sources;

namespace Spurless.Browser.Reports;

/// <summary>The build sheet of a design: two A4 that one builds from.</summary>
public partial class BuildSheetTests(BrowserFixture browser)
{
    [Fact]
    public async Task Build_sheet_prints_on_two_sheets_and_is_whole()
    {
        DesignReading reading = Reading();
        foreach (int rank in (int[])[1, reading.Files.Count])
        {
            string file = Artifacts.File(FormattableString.Invariant($"build-sheet-{rank}.html"));
            await File.WriteAllTextAsync(file, await DesignSheet.RenderAsync(reading, rank, new ReportContext
            {
                GeneratedAt = new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero),
                ProgramVersion = "0.1.0",
                Notice = "invented, for demonstration",
            }));
            await using WatchedPage watched = await browser.OpenAsync(794, 1100);
            await watched.Page.GotoAsync(new Uri(file).AbsoluteUri);
            foreach (int width in (int[])[1280, 390])
            {
                await watched.Page.SetViewportSizeAsync(width, 900);
                await watched.Page.EvaluateAsync("() => document.fonts.ready.then(() => true)");
                Assert.Equal("", string.Join(" | ", (await TextBoxes.LookAsync(watched.Page)).Problems));
            }

            string body = await watched.Page.Locator("main").InnerTextAsync();
            string[] parts =
            [
                "Schematic.", "Parts, but for the coils", "Coils, of wire on a rod that is taken out", "wire to cut, mm",
                "Gain against what is asked", "Tuning", "Asked, and has", "What power does to it", "Layout", "Assumed", "Cautions",
            ];
            foreach (string part in parts)
            {
                Assert.Contains(part, body, StringComparison.Ordinal);
            }

            byte[] pdf = await watched.Page.PdfAsync(
                new PagePdfOptions { Path = Path.ChangeExtension(file, ".pdf"), Format = "A4", PrintBackground = true });
            Assert.Equal(2, SheetObject().Count(Encoding.Latin1.GetString(pdf)));
            Assert.Empty(watched.Complaints);
        }
    }

    // The demo's requirement, with few builds: the sheet's size does not depend on their number.
    private static DesignReading Reading()
    {
        const string name = "quiet-input.requirement.yaml";
        DiagnosticBag findings = new();
        byte[] bytes = File.ReadAllBytes(Path.Combine(Artifacts.Root, "demo", "filters", name));
        RequirementFile file = SourceReader.Requirement(new SourceFile(name, bytes, new Sites.Documents.SiteFolder(name)), findings)!;
        DesignBrief brief = DesignBrief.Of(file, new DesignOptions { MostCandidates = 4 }, findings)!;
        return DesignService.Run(brief with { Question = brief.Question with { Samples = 300, TunedSpecimens = 30 } });
    }

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)", RegexOptions.CultureInvariant, 2000)]
    private static partial Regex SheetObject();
}
