using System.Globalization;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Reports;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>
/// Every page and state: whole from 390 to 1920 px and at 200 % zoom, by the rules of accessibility in both themes, reached by the keys,
/// the
/// same on a machine without any typeface, and with a picture in the documentation.
/// </summary>
[Trait("Category", "Long")]
public class EveryPageTests(BrowserFixture browser, ServeFixture serve)
{
    // Name, address, what is clicked first (null for nothing).
    public static TheoryData<string, string, string?> Pages => new()
    {
        { "folder", "/", null },
        { "questions", "/?begin=site", null },
        { "site", "/site/quernmoss.site.yaml", null },
        { "around", "/around/quernmoss.site.yaml", null },
        { "study", "/study/quernmoss-filtered.site.yaml", null },
        { "study-by-cure", "/study/quernmoss-filtered.site.yaml?sum=open&by=cure", null },
        { "ways", "/ways/quernmoss.site.yaml", null },
        { "channels", "/channels/quernmoss.site.yaml?band=145.0%20MHz-145.8%20MHz&raster=12.5%20kHz", null },
        { "newcomer", "/newcomer/quernmoss-cured.site.yaml?new=newcomer-dale-link.site.yaml", null },
        { "evidence", "/evidence/quernmoss-heard.site.yaml", null },
        { "bench", "/bench/filters/three-tank.circuit.yaml?part=C3", null },
        { "bench-tolerances", "/bench/filters/three-tank.circuit.yaml?spread=5&part=C3", "Tolerances" },
        { "bench-transmitting", "/bench/filters/three-tank.circuit.yaml?part=C3", "Transmitting through it" },
        { "bench-files", "/bench/filters/three-tank.circuit.yaml?part=C3", "Pictures and table" },
        { "build", "/build/filters/three-tank.circuit.yaml", null },
        { "fit", "/fit/filters/unmarked.circuit.yaml", null },
        { "design", "/design/filters/quiet-input.requirement.yaml?run=yes", null },
        { "tune", "/tune/filters/three-tank.circuit.yaml?sweep=filters/three-tank.s2p&turn=C2,C4,C6", null },
        { "coil", "/coil", null },
        { "relay", "/relay/quernmoss.bypass.yaml", null },
        { "receiver", "/receiver/quernmoss.receiver.yaml", null },
        { "listen", "/listen", null },
        { "report", "/report/quernmoss-filtered.site.yaml", null },
        { "help", "/help/words", null },
    };

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_at_every_width_is_whole(string name, string address, string? tab)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo, 1280, address, tab, fonts: true);
        List<string> wrong = [];
        // 640 is 1280 at 200 % (WCAG 2.2, 1.4.4 and 1.4.10 are met at 320 to 1280 by one layout).
        foreach (int width in (int[])[1920, 1181, 800, 640, 390])
        {
            await watched.Page.SetViewportSizeAsync(width, width == 640 ? 400 : 800);
            await DrawnAsync(watched.Page);
            (IReadOnlyList<string> problems, int texts) = await TextBoxes.LookAsync(watched.Page);
            wrong.AddRange(problems.Select(p => string.Create(CultureInfo.InvariantCulture, $"{name} {width}: {p}")));
            Assert.InRange(texts, 3, 10_000);
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong.Take(30)));
        Assert.Empty(watched.Complaints);
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_in_both_themes_keeps_the_rules_and_every_control_is_reached_by_the_keys(string name, string address, string? tab)
    {
        ServedFolder demo = await serve.DemoAsync();
        List<string> wrong = [];
        foreach (int width in (int[])[1280, 390])
        {
            await using WatchedPage watched = await OpenAsync(demo, width, address, tab, fonts: true);
            foreach (bool dark in (bool[])[false, true])
            {
                await watched.Page.EmulateMediaAsync(
                    new PageEmulateMediaOptions { ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light });
                string shot = string.Create(CultureInfo.InvariantCulture, $"every-{name}-{width}-{(dark ? "dark" : "light")}.png");
                // On the phone the whole of it, as it is looked at by rolling.
                await watched.Page.ScreenshotAsync(
                    new PageScreenshotOptions { Path = Artifacts.File(shot), FullPage = width == 390 });
                if (dark != (width == 390))
                {
                    // Colours are rules of their own: each theme is held against them at one width, the rest does not depend on it.
                    continue;
                }

                AxeFindings axe = await watched.Page.RulesAsync();
                wrong.AddRange(axe.Violations.Select(
                    v => $"{name} {width} {dark}: {v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Take(3).Select(static n => n.Html))}"));
                Assert.NotEmpty(axe.Passes);
            }

            // A control that neither is a stop for the keys nor belongs to a group that is one.
            wrong.AddRange(await watched.Page.EvaluateAsync<string[]>(
                """
                () => [...document.querySelectorAll('main a, main button, main input, main select, main textarea')]
                  .filter(e => e.getClientRects().length > 0 && !e.disabled && e.tabIndex < 0
                    && !e.closest('[role=tablist], [data-findings], [aria-hidden=true]'))
                  .map(e => 'not reached by the keys: ' + e.outerHTML.slice(0, 120)).concat(
                    [...document.querySelectorAll('main [role=tablist]')]
                      .filter(e => e.getClientRects().length > 0
                        && (e.querySelectorAll('[tabindex="0"]').length !== 1 || e.querySelectorAll('[aria-selected=true]').length !== 1))
                      .map(e => 'tabs without one stop and one chosen: ' + e.innerHTML.slice(0, 120)))
                """));
            Assert.Empty(watched.Complaints);
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong.Take(30)));
    }

    // All pages bring the same typefaces along; these have between them every kind of text: tables, pictures, fields, prose.
    public static TheoryData<string, string, string?> PagesOfEachKind =>
        [.. Pages.Where(static p => p.Data.Item1 is "folder" or "site" or "study" or "evidence" or "bench" or "listen" or "help")];

    [Theory]
    [MemberData(nameof(PagesOfEachKind))]
    public async Task Page_on_a_machine_without_typefaces_is_the_same(string name, string address, string? tab)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo, 1280, address, tab, fonts: false);
        List<string> wrong = [];
        foreach (int width in (int[])[1280, 390])
        {
            await watched.Page.SetViewportSizeAsync(width, 800);
            await DrawnAsync(watched.Page);
            wrong.AddRange((await TextBoxes.LookAsync(watched.Page)).Problems.Select(p => $"{name} {width}: {p}"));
        }

        wrong.AddRange(await UsedFaces.ForeignAsync(watched));
        await watched.Page.ScreenshotAsync(new PageScreenshotOptions { Path = Artifacts.File($"nofonts-{name}.png") });
        Assert.True(wrong.Count == 0, string.Join('\n', wrong.Take(30)));
        Assert.Empty(watched.Complaints);
    }

    [Theory]
    [InlineData("demo-filtered")]
    [InlineData("response")]
    [InlineData("schematics")]
    [InlineData("tolerance")]
    public async Task Report_on_a_machine_without_typefaces_is_the_same(string report)
    {
        foreach (int width in (int[])[1280, 390])
        {
            await using WatchedPage watched = await browser.OpenWithoutFontsAsync(width, 900);
            await watched.Page.GotoAsync(await ReportPages.AddressAsync(report));
            await watched.Page.EvaluateAsync("() => document.fonts.ready.then(() => true)");
            Assert.Equal("", string.Join(" | ", (await TextBoxes.LookAsync(watched.Page)).Problems));
            Assert.Equal("", string.Join(" | ", await UsedFaces.ForeignAsync(watched)));
            Assert.Empty(watched.Complaints);
        }
    }

    /// <summary>With SPURLESS_PICTURES=write the pictures of docs/pages.md are made anew.</summary>
    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_has_its_picture_in_the_documentation(string name, string address, string? tab)
    {
        ServedFolder served = await serve.HillAsync();
        await using WatchedPage watched = await OpenAsync(served, 1280, address, tab, fonts: true);
        await watched.Page.EvaluateAsync("() => { scrollTo(0, 0); document.activeElement?.blur(); }");
        string file = Path.Combine(Artifacts.Root, "docs", "pictures", $"page-{name}.png");
        bool write = Environment.GetEnvironmentVariable("SPURLESS_PICTURES") == "write";
        await watched.Page.ScreenshotAsync(new PageScreenshotOptions { Path = write ? file : Artifacts.File($"page-{name}.png") });
        Assert.True(File.Exists(file), $"There is no picture {file}; SPURLESS_PICTURES=write makes it.");
        Assert.InRange(new FileInfo(file).Length, 5_000, 320_000);
        Assert.Contains(
            $"pictures/page-{name}.png", File.ReadAllText(Path.Combine(Artifacts.Root, "docs", "pages.md")), StringComparison.Ordinal);
    }

    private async Task<WatchedPage> OpenAsync(ServedFolder served, int width, string address, string? tab, bool fonts)
    {
        WatchedPage watched = fonts
            ? await browser.OpenAsync(width, 800, server: served.Address)
            : await browser.OpenWithoutFontsAsync(width, 800, server: served.Address);
        await watched.GoAsync(address);
        await PageLookTests.SettledAsync(watched.Page);
        if (tab is not null)
        {
            await watched.Page.GetByRole(AriaRole.Tab, new() { Name = tab }).ClickAsync();
            await Assertions.Expect(watched.Page.GetByRole(AriaRole.Tabpanel, new() { Name = tab })).ToBeVisibleAsync();
        }

        await DrawnAsync(watched.Page);
        return watched;
    }

    // The faces are there, and every picture has been drawn for the width of its place.
    private static async Task DrawnAsync(IPage page)
    {
        await page.EvaluateAsync("() => document.fonts.ready.then(() => true)");
        await page.WaitForFunctionAsync(
            """
            () => [...document.querySelectorAll('#study-picture, #bench-picture')].every(f => {
              const drawn = [...f.querySelectorAll('svg.pic')].find(s => s.getClientRects().length > 0);
              return drawn && Math.abs(drawn.getAttribute('width') - Math.max(300, Math.floor(f.clientWidth))) <= 1;
            })
            """);
    }
}
