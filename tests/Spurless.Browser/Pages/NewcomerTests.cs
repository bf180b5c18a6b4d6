using System.Globalization;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>A newcomer: a file of the folder or a dropped one, the verdict receiver by receiver, and the sheet.</summary>
public class NewcomerTests(BrowserFixture browser, ServeFixture serve)
{
    private const string Site = "quernmoss-cured.site.yaml";
    private const string Newcomer = "newcomer-dale-link.site.yaml";

    [Fact]
    public async Task Newcomer_of_the_folder_is_chosen_by_the_keys_and_has_verdict_needs_and_sheet()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync("/newcomer/" + Site);
        IPage page = watched.Page;
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Who asks to join this site?");
        await page.GetByLabel("the newcomer’s file").TakeFocusAsync();
        await page.GetByLabel("the newcomer’s file").SelectOptionAsync(Newcomer);

        // By hand in docs/method/newcomer.md: 44.6 dB over the noise, 44.7 and 7.4 dB of isolation.
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("No, not as it stands");
        ILocator first = page.Locator(".asks li").First;
        await Assertions.Expect(first).ToContainTextAsync("−44.6");
        await Assertions.Expect(first).ToContainTextAsync("44.7 dB of isolation");
        await Assertions.Expect(first).ToContainTextAsync("7.4 dB of isolation");
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Artifacts.File("newcomer-1280.png"), FullPage = true });
        await page.GetByRole(AriaRole.Radio).First.TakeFocusAsync();
        await page.Keyboard.PressAsync("ArrowDown");
        await Assertions.Expect(page.GetByRole(AriaRole.Radio).Nth(1)).ToBeCheckedAsync();
        await Assertions.Expect(page.Locator("figcaption")).ToContainTextAsync("Dale input");

        string sheet = (await page.GetByRole(AriaRole.Link, new() { Name = "The sheet for the site’s owner" }).GetAttributeAsync("href"))!;
        IAPIResponse told = await page.APIRequest.GetAsync(new Uri(demo.Address, sheet).ToString());
        Assert.True(told.Ok);
        Assert.Contains("asks to join", await told.TextAsync(), StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Newcomer_that_is_dropped_is_taken_into_the_folder_and_what_is_wrong_with_it_leads_to_its_cell()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync("/newcomer/" + Site);
        IPage page = watched.Page;
        string text = demo.Read(Newcomer).Replace("power: 10 W", "power: ten", StringComparison.Ordinal);
        await page.Locator("input[type=file]").GiveAsync(
            new FilePayload { Name = "other.site.yaml", MimeType = "text/yaml", Buffer = System.Text.Encoding.UTF8.GetBytes(text) });
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("cannot be weighed before the mistakes are corrected");
        await Assertions.Expect(page.Locator(".fault a").First).ToHaveAttributeAsync(
            "href", new System.Text.RegularExpressions.Regex("other.site.yaml"));
        Assert.Equal(text, demo.Read("other.site.yaml"));
        demo.Write("other.site.yaml", demo.Read(Newcomer));
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("No, not as it stands");
        await page.Locator("input[type=file]").GiveAsync(
            new FilePayload { Name = "other.txt", MimeType = "text/plain", Buffer = [65] });
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("name it *.site.yaml");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Page_at_390_is_whole_and_keeps_the_rules()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(390, 800, server: demo.Address);
        await watched.GoAsync($"/newcomer/{Site}?new={Newcomer}");
        await Assertions.Expect(watched.Page.GetByRole(AriaRole.Radio)).ToHaveCountAsync(2);
        (IReadOnlyList<string> problems, int texts) = await TextBoxes.LookAsync(watched.Page);
        await watched.Page.ScreenshotAsync(new PageScreenshotOptions { Path = Artifacts.File("newcomer-390.png"), FullPage = true });
        Assert.True(problems.Count == 0, string.Join('\n', problems));
        Assert.InRange(texts, 30, 10_000);
        AxeFindings axe = await watched.Page.RulesAsync();
        Assert.True(
            axe.Violations.Count == 0,
            string.Join('\n', axe.Violations.Select(v => string.Create(CultureInfo.InvariantCulture, $"{v.Id}: {v.Nodes[0].Html}"))));
        Assert.Empty(watched.Complaints);
    }
}
