using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>The ground beside an emitter on a telephone's width; what it says is tested below the browser (GroundPanelTests).</summary>
public class GroundTests(BrowserFixture browser)
{
    [Fact]
    public async Task Ground_panel_at_390_pixels_is_whole_and_follows_the_choice()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(390, 844, server: demo.Address);
        await watched.GoAsync("/site/hill.site.yaml?path=plain%20base");
        ILocator panel = watched.Page.Locator("#ground");
        await Assertions.Expect(panel.Locator("svg.narrow")).ToBeVisibleAsync();
        await Assertions.Expect(panel.Locator("svg.wide")).ToBeHiddenAsync();
        await panel.Locator("select").SelectOptionAsync("valley relay");
        await Assertions.Expect(panel.Locator("figcaption")).ToContainTextAsync("160.525 MHz");
        LocatorBoundingBoxResult box = (await panel.Locator("svg.narrow").BoundingBoxAsync())!;
        Assert.InRange(box.X + box.Width, 300, 390.5);
        Assert.Empty(watched.Complaints);
    }
}
