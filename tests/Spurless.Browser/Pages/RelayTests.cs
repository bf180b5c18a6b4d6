using System.Globalization;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;
using static Microsoft.Playwright.Assertions;

namespace Spurless.Browser.Pages;

/// <summary>The bypass relay on the bench, as its user has it.</summary>
public class RelayTests(BrowserFixture browser, ServeFixture serve)
{
    private const string Relay = "/relay/quernmoss.bypass.yaml";

    [Theory]
    [InlineData(1280, false)]
    [InlineData(390, true)]
    public async Task Page_breaks_no_rule_and_no_text_meets_another(int width, bool dark)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(width, 900, dark, demo.Address);
        await watched.GoAsync(Relay);
        IPage page = watched.Page;
        await Expect(page.Locator("h1")).ToContainTextAsync("it comes over in 4.56 ms; until then L2 takes 34.2 mJ");
        await Expect(page.Locator("h1")).ToContainTextAsync("chatter"); // tried a moment later
        Assert.Empty((await TextBoxes.LookAsync(page)).Problems);
        AxeFindings axe = await page.RulesAsync();
        Assert.Empty(
            axe.Violations.Select(static v => $"{v.Id}: {v.Help} at {string.Join(", ", v.Nodes.Take(3).Select(static n => n.Html))}"));
        await page.ScreenshotAsync(
            new PageScreenshotOptions
            {
                Path = Artifacts.File(string.Create(CultureInfo.InvariantCulture, $"relay-{width}.png")),
                FullPage = true,
            });
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Slider_moves_the_picture_without_writing_and_keep_this_writes_into_the_file()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        string before = demo.Read("quernmoss.bypass.yaml");
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync(Relay);
        IPage page = watched.Page;
        await Expect(page.Locator("h1")).ToContainTextAsync("comes over in 4.56 ms");
        await page.GetByLabel("Supply", new() { Exact = true }).FillAsync("20");
        await Expect(page.Locator("h1")).Not.ToContainTextAsync("comes over in 4.56 ms");
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("supply="));
        Assert.Equal(before, demo.Read("quernmoss.bypass.yaml"));
        ILocator typed = page.GetByLabel("Supply, typed");
        await typed.FillAsync("11 V");
        await typed.PressAsync("Enter");
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("supply=11"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this" }).ClickAsync();
        await Expect(page.GetByText("It is in the file.")).ToBeVisibleAsync();
        Assert.Equal(before.Replace("supply: 12 V", "supply: 11 V", StringComparison.Ordinal), demo.Read("quernmoss.bypass.yaml"));
        Assert.Empty(watched.Complaints);
    }
}
