using System.Globalization;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;
using static Microsoft.Playwright.Assertions;

namespace Spurless.Browser.Pages;

/// <summary>A receiver's own measurements on the bench, as its user has them.</summary>
public class ReceiverTests(BrowserFixture browser, ServeFixture serve)
{
    private const string Receiver = "/receiver/quernmoss.receiver.yaml";

    [Theory]
    [InlineData(1280, false)]
    [InlineData(390, true)]
    public async Task Page_breaks_no_rule_and_no_text_meets_another(int width, bool dark)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(width, 900, dark, demo.Address);
        await watched.GoAsync(Receiver);
        IPage page = watched.Page;
        await page.ScreenshotAsync(
            new PageScreenshotOptions
            {
                Path = Artifacts.File(string.Create(CultureInfo.InvariantCulture, $"receiver-{width}.png")),
                FullPage = true,
            });
        Assert.Equal("", string.Join(" | ", (await TextBoxes.LookAsync(page)).Problems));
        AxeFindings axe = await page.RulesAsync();
        Assert.Empty(
            axe.Violations.Select(static v => $"{v.Id}: {v.Help} at {string.Join(", ", v.Nodes.Take(3).Select(static n => n.Html))}"));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Reading_that_is_typed_moves_the_figures_and_one_that_cannot_be_stays_as_typed()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        string before = demo.Read("quernmoss.receiver.yaml");
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync(Receiver);
        IPage page = watched.Page;
        ILocator sensitivity = page.Locator("tr", new() { HasText = "sensitivity" }).First;
        await Expect(sensitivity).ToContainTextAsync("121.2");
        ILocator level = page.GetByLabel("level, reading 1", new() { Exact = true });
        await level.FillAsync("-118.2 dBm");
        await level.PressAsync("Enter");
        await Expect(sensitivity).ToContainTextAsync("118.2");
        Assert.Equal(
            before.Replace("level: -121.2 dBm", "level: -118.2 dBm", StringComparison.Ordinal), demo.Read("quernmoss.receiver.yaml"));

        await level.FillAsync("-118");
        await level.PressAsync("Enter");
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("has no unit; write -118 dBm");
        await Expect(level).ToHaveValueAsync("-118");
        await Expect(sensitivity).ToContainTextAsync("118.2");

        await page.GetByLabel("kind").SelectOptionAsync("response");
        await page.GetByLabel("at, new reading").FillAsync("100 MHz");
        await page.GetByLabel("level, new reading").FillAsync("-50 dBm");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add it" }).ClickAsync();
        await Expect(page.Locator("tr", new() { HasText = "rejection at 100" })).ToBeVisibleAsync();
        await page.GetByText("take reading 10 away").ClickAsync();
        await Expect(page.Locator("tr", new() { HasText = "rejection at 100" })).ToHaveCountAsync(0);
        Assert.Empty(watched.Complaints);
    }
}
