using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Reports;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>Every page on paper: what it says and shows, without what is operated; the demonstration's report on four sheets.</summary>
[Trait("Category", "Long")]
public partial class PaperTests(BrowserFixture browser, ServeFixture serve)
{
    [Theory]
    [InlineData("/", 3)]
    [InlineData("/site/quernmoss.site.yaml", 3)]
    [InlineData("/study/quernmoss-filtered.site.yaml", 5)]
    [InlineData("/ways/quernmoss.site.yaml", 3)]
    [InlineData("/channels/quernmoss.site.yaml", 3)]
    [InlineData("/newcomer/quernmoss-cured.site.yaml?new=newcomer-dale-link.site.yaml", 2)]
    [InlineData("/bench/filters/three-tank.circuit.yaml", 5)]
    [InlineData("/coil", 2)]
    [InlineData("/fit/filters/unmarked.circuit.yaml", 1)]
    [InlineData("/evidence/quernmoss-heard.site.yaml", 4)]
    [InlineData("/listen", 1)]
    [InlineData("/around/quernmoss.site.yaml", 3)]
    [InlineData("/help/words", 0)]
    public async Task Page_on_paper_has_its_content_and_no_control(string address, int most)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync(address);
        await PageLookTests.SettledAsync(watched.Page);
        await watched.Page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        await watched.Page.SetViewportSizeAsync(680, 1000);
        string left = await watched.Page.EvaluateAsync<string>(
            """
            () => [...document.querySelectorAll('button, select, input[type=range], input[type=radio], input[type=file], nav a')]
              .filter(e => e.getClientRects().length > 0 && getComputedStyle(e).visibility !== 'hidden'
                && !e.closest('.gone, .find, .parts, .fold'))
              .map(e => (e.textContent || e.getAttribute('aria-label') || e.type).trim().slice(0, 40)).join(' | ')
            """);
        Assert.Equal("", left);
        Assert.NotEqual("", await watched.Page.Locator("h1").InnerTextAsync());
        (IReadOnlyList<string> problems, _) = await TextBoxes.LookAsync(watched.Page);
        Assert.True(problems.Count == 0, string.Join(" | ", problems.Take(30)));
        // A list that grows with the program has at least 25 of its rows on a sheet.
        int sheets = most > 0 ? most : 1 + (await watched.Page.Locator("tbody tr").CountAsync() / 25);
        Assert.InRange(await SheetsAsync(watched.Page, $"paper{address.Split('?')[0].Replace('/', '-')}"), 1, sheets);
        Assert.Empty(watched.Complaints);
    }

    [Theory]
    [InlineData("demo")]
    [InlineData("demo-filtered")]
    public async Task Report_of_the_demonstration_is_at_most_four_sheets(string report)
    {
        await using WatchedPage watched = await browser.OpenAsync(794, 1100);
        await watched.Page.GotoAsync(await ReportPages.AddressAsync(report));
        Assert.InRange(await SheetsAsync(watched.Page, $"{report}-four"), 2, 4);
    }

    /// <summary>The section of the ways out, where it is asked for, is worth one sheet at most.</summary>
    [Fact]
    public async Task Report_of_the_demonstration_with_the_ways_out_is_one_sheet_more_at_most()
    {
        await using WatchedPage watched = await browser.OpenAsync(794, 1100);
        await watched.Page.GotoAsync(await ReportPages.AddressAsync("demo-ways"));
        Assert.InRange(await SheetsAsync(watched.Page, "demo-ways-five"), 2, 5);
    }

    /// <summary>The sheet to take along begins a sheet of its own and does not reach into the next.</summary>
    [Fact]
    public async Task Worksheet_of_what_to_observe_is_one_sheet()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(680, 1000, server: demo.Address);
        await watched.Page.GotoAsync("/reports/evidence/quernmoss-heard.site.yaml");
        await watched.Page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        int all = await SheetsAsync(watched.Page, "worksheet");
        await watched.Page.EvaluateAsync("() => document.querySelector('.worksheet').remove()");
        Assert.Equal(all - 1, await SheetsAsync(watched.Page, "worksheet-without"));
        Assert.Empty(watched.Complaints);
    }

    // Prints on A4 and counts the sheets; the print is kept to be looked at.
    private static async Task<int> SheetsAsync(IPage page, string name)
    {
        byte[] pdf = await page.PdfAsync(new PagePdfOptions
        {
            Path = Artifacts.File(name + ".pdf"),
            Format = "A4",
            PreferCSSPageSize = false,
            PrintBackground = true,
        });
        return SheetObject().Count(Encoding.Latin1.GetString(pdf));
    }

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)", RegexOptions.CultureInvariant, 2000)]
    private static partial Regex SheetObject();
}
