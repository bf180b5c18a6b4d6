using Microsoft.Playwright;
using Spurless.Browser.Browsing;

namespace Spurless.Browser.Reports;

/// <summary>The reports in a real browser: screens, phone, dark, paper.</summary>
public class ReportLookTests(BrowserFixture browser)
{
    public static TheoryData<string, int> Looks()
    {
        TheoryData<string, int> all = [];
        foreach (string report in (string[])["demo", "demo-filtered", "surviving", "response", "schematics", "stress", "tolerance"])
        {
            foreach (int width in (int[])[1280, 390])
            {
                all.Add(report, width);
            }
        }

        return all;
    }

    [Theory]
    [MemberData(nameof(Looks))]
    public async Task Report_at_any_width_and_theme_no_text_overlaps_nothing_is_asked_and_rules_hold(string report, int width)
    {
        await using WatchedPage watched = await browser.OpenAsync(width, 900);
        await watched.Page.GotoAsync(await ReportPages.AddressAsync(report));
        foreach (bool dark in (bool[])[false, true])
        {
            await watched.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light });
            await watched.Page.ScreenshotAsync(new PageScreenshotOptions
            {
                Path = Artifacts.File($"{report}-{width}-{(dark ? "dark" : "light")}.png"),
                FullPage = true,
            });
        }

        (IReadOnlyList<string> problems, int texts) = await TextBoxes.LookAsync(watched.Page);
        Assert.Empty(problems);
        Assert.InRange(texts, 100, 10_000);

        // Colours are rules of their own: each theme is held against them at one width, the rest does not depend on it.
        await watched.Page.EmulateMediaAsync(
            new PageEmulateMediaOptions { ColorScheme = width == 1280 ? ColorScheme.Dark : ColorScheme.Light });
        AxeFindings axe = await watched.Page.RulesAsync();
        Assert.Empty(axe.Violations.Select(static v => $"{v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Select(static n => n.Html))}"));
        Assert.NotEmpty(axe.Passes);
        Assert.Empty(watched.Complaints);
    }

    [Theory]
    [InlineData("demo", "A4", 794)]
    [InlineData("demo-filtered", "A4", 794)]
    [InlineData("surviving", "Letter", 816)]
    [InlineData("response", "A4", 794)]
    [InlineData("stress", "Letter", 816)]
    [InlineData("tolerance", "A4", 794)]
    public async Task Report_on_paper_prints_without_cut_pictures(string report, string sheet, int width)
    {
        await using WatchedPage watched = await browser.OpenAsync(width, 1100);
        await watched.Page.GotoAsync(await ReportPages.AddressAsync(report));
        byte[] pdf = await watched.Page.PdfAsync(
            new PagePdfOptions
            {
                Path = Artifacts.File($"{report}-{sheet}.pdf"),
                Format = sheet,
                PreferCSSPageSize = false,
                PrintBackground = true,
            });
        Assert.Equal("%PDF"u8, pdf.AsSpan(0, 4));

        // The same layout on the screen: a sheet less its margins of 15 mm is wide enough for the picture, and taller than it.
        await watched.Page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        await watched.Page.SetViewportSizeAsync(width - 114, 1100);
        (IReadOnlyList<string> problems, _) = await TextBoxes.LookAsync(watched.Page);
        Assert.Empty(problems);
        foreach (ILocator picture in await watched.Page.Locator("figure").AllAsync())
        {
            Assert.Equal("avoid", await picture.EvaluateAsync<string>("e => getComputedStyle(e).breakInside"));
            Assert.InRange(await picture.EvaluateAsync<double>("e => e.getBoundingClientRect().height"), 100, 900);
        }

        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Text_boxes_that_overlap_or_are_cut_off_are_found()
    {
        await using WatchedPage watched = await browser.OpenAsync(400, 300);
        await watched.Page.SetContentAsync(
            "<style>p{position:absolute;margin:0;white-space:nowrap}"
            + "div{overflow:hidden;width:30px;height:20px;position:absolute;top:200px}</style>"
            + "<p style='left:10px;top:10px'>one text</p><p style='left:20px;top:12px'>another text</p><p "
                + "style='left:380px;top:90px'>over the edge</p><div><span style='white-space:nowrap'>clipped by its box</span></div>");
        (IReadOnlyList<string> problems, int texts) = await TextBoxes.LookAsync(watched.Page);
        Assert.Equal(4, texts);
        Assert.Contains(problems, static p => p.Contains("'one text' lies over 'another text'", StringComparison.Ordinal));
        Assert.Contains(problems, static p => p.Contains("'over the edge' is cut off", StringComparison.Ordinal));
        Assert.Contains(problems, static p => p.Contains("'clipped by its box' is clipped", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Watcher_sees_console_and_outside_requests()
    {
        await using WatchedPage watched = await browser.OpenAsync(400, 300);
        await watched.Page.SetContentAsync("<img src='http://127.0.0.1:9/none.png'><script>console.log('hello')</script>");
        string[] expected = ["console log: hello", "outside request: http://127.0.0.1:9/none.png"];
        for (int tries = 0; tries < 200 && expected.Except(watched.Complaints).Any(); tries++)
        {
            await watched.Page.WaitForTimeoutAsync(50); // what the browser tells comes when it comes; soon enough as a rule
        }

        Assert.Empty(expected.Except(watched.Complaints));
    }

    [Fact]
    public void Finder_without_a_browser_says_how_to_get_one()
    {
        InvalidOperationException none = Assert.Throws<InvalidOperationException>(
            static () => ChromiumFinder.Find(static name => name == "PATH" ? "nowhere" : null));
        Assert.Contains("apt-get install chromium", none.Message, StringComparison.Ordinal);
        Assert.Contains(ChromiumFinder.Variable, none.Message, StringComparison.Ordinal);
    }
}
