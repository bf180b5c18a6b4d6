using System.Globalization;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>Quiet channels: what is typed, the strip and the list, and a channel that is kept.</summary>
public class ChannelsTests(BrowserFixture browser, ServeFixture serve)
{
    private const string Site = "quernmoss.site.yaml";
    private const string Band = "?band=145.0%20MHz-145.8%20MHz&raster=12.5%20kHz";

    [Fact]
    public async Task Channel_that_is_chosen_by_the_keys_is_written_when_it_is_kept_and_undo_takes_it_back()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync("/channels/" + Site + Band);
        IPage page = watched.Page;
        string before = demo.Read(Site);

        // The figures of the command on the same files: docs/how-to.md has them.
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Of 65 channels from 145.0000 to 145.8000 MHz");
        await Assertions.Expect(page.GetByRole(AriaRole.Radio)).ToHaveCountAsync(8);
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Artifacts.File("channels-1280.png"), FullPage = true });
        await page.GetByRole(AriaRole.Radio).First.TakeFocusAsync();
        await page.Keyboard.PressAsync("ArrowDown");
        await Assertions.Expect(page.GetByRole(AriaRole.Radio).Nth(1)).ToBeCheckedAsync();
        await Assertions.Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("channel="));
        await Assertions.Expect(page.Locator(".asks li").Nth(1)).ToHaveClassAsync("sel");
        string chosen = (await page.Locator(".asks li.sel b").First.InnerTextAsync()).Trim();
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this" }).TakeFocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#undo")).ToContainTextAsync("moved to " + chosen.TrimEnd('0'));
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Keep this" })).ToBeDisabledAsync();
        Assert.NotEqual(before, demo.Read(Site));
        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Keep this" })).ToBeEnabledAsync();
        Assert.Equal(before, demo.Read(Site));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task What_is_typed_wrong_is_said_at_its_field_and_what_is_right_is_asked()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync("/channels/" + Site);
        IPage page = watched.Page;
        ILocator raster = page.GetByLabel("raster", new() { Exact = true });
        await raster.FillAsync("12.5");
        await raster.PressAsync("Enter");
        await Assertions.Expect(raster).ToHaveAttributeAsync("aria-invalid", "true");
        await Assertions.Expect(page.Locator("#asked-wrong")).ToContainTextAsync("; ");
        await raster.FillAsync("25 kHz");
        await raster.PressAsync("Enter");
        ILocator together = page.GetByLabel("side by side", new() { Exact = true });
        await together.FillAsync("2");
        await together.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Region, new() { Name = "Side by side" })).ToContainTextAsync("MHz");
        await Assertions.Expect(page.Locator("#asked-wrong")).ToBeEmptyAsync();
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Page_at_390_is_whole_keeps_the_rules_and_has_the_list_before_the_rest()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(390, 800, server: demo.Address);
        await watched.GoAsync("/channels/" + Site + Band);
        await Assertions.Expect(watched.Page.GetByRole(AriaRole.Radio)).ToHaveCountAsync(8);
        (IReadOnlyList<string> problems, int texts) = await TextBoxes.LookAsync(watched.Page);
        await watched.Page.ScreenshotAsync(new PageScreenshotOptions { Path = Artifacts.File("channels-390.png"), FullPage = true });
        Assert.True(problems.Count == 0, string.Join('\n', problems));
        Assert.InRange(texts, 30, 10_000);
        IReadOnlyDictionary<string, Box> boxes = await Boxes.OfAsync(
            watched.Page, [".ways .left svg.narrow", ".ways .right", ".ways .below"]);
        Assert.True(boxes[".ways .left svg.narrow"].Bottom <= boxes[".ways .right"].Top);
        Assert.True(boxes[".ways .right"].Bottom <= boxes[".ways .below"].Top);
        AxeFindings axe = await watched.Page.RulesAsync();
        Assert.True(
            axe.Violations.Count == 0,
            string.Join('\n', axe.Violations.Select(v => string.Create(CultureInfo.InvariantCulture, $"{v.Id}: {v.Nodes[0].Html}"))));
        Assert.Empty(watched.Complaints);
    }
}
