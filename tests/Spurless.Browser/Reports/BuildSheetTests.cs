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
    private const string Name = "quiet-input.requirement.yaml";

    // Five tanks have five steps of alignment and sixteen parts to list: they take a third.
    private const string FiveTanks = """
        spurless_requirement: 1
        name: steep on both sides (invented)
        pass: { from: 144.9 MHz, to: 145.2 MHz, loss: 7 dB, return_loss: 10 dB }
        reject: [ { at: 151 MHz, by: 50 dB }, { at: 139.5 MHz, by: 50 dB } ]
        parts: { inductor_q: 250 at 146 MHz, capacitor_q: 600 at 146 MHz, inductors: [8 nH, 300 nH],
                 capacitors: [0.5 pF, 100 pF], series: E24 }
        """;

    [Fact]
    public async Task Build_sheet_prints_on_two_sheets_or_three_for_five_tanks_and_is_whole()
    {
        DesignReading reading = Reading(File.ReadAllBytes(Path.Combine(Artifacts.Root, "demo", "filters", Name)), 4);
        DesignReading steep = Reading(Encoding.UTF8.GetBytes(FiveTanks), 8);
        int five = steep.Files.Single(static f => f.Candidate.Family == "five tanks, top capacitors").Rank;
        foreach ((DesignReading of, int rank, int sheets) in new[] { (reading, 1, 2), (reading, reading.Files.Count, 2), (steep, five, 3) })
        {
            string file = Artifacts.File(FormattableString.Invariant($"build-sheet-{sheets}-{rank}.html"));
            await File.WriteAllTextAsync(file, await DesignSheet.RenderAsync(of, rank, new ReportContext
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
            Assert.Equal(sheets, SheetObject().Count(Encoding.Latin1.GetString(pdf)));
            Assert.Empty(watched.Complaints);
        }
    }

    // With few builds: the sheet's size does not depend on their number.
    private static DesignReading Reading(byte[] bytes, int candidates)
    {
        DiagnosticBag findings = new();
        RequirementFile file = SourceReader.Requirement(new SourceFile(Name, bytes, new Sites.Documents.SiteFolder(Name)), findings)!;
        DesignBrief brief = DesignBrief.Of(file, new DesignOptions { MostCandidates = candidates }, findings)!;
        return DesignService.Run(brief with { Question = brief.Question with { Samples = 300, TunedSpecimens = 30 } });
    }

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)", RegexOptions.CultureInvariant, 2000)]
    private static partial Regex SheetObject();
}
