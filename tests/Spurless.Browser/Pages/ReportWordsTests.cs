using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>Free words of the user's: typed on the site's page, written into its file, carried by the report.</summary>
public class ReportWordsTests(BrowserFixture browser)
{
    [Fact]
    public async Task Contact_notes_and_what_was_heard_stand_in_file_and_report()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/site/quernmoss.site.yaml");
        await page.GetByText("What the report carries").ClickAsync();
        await page.GetByLabel("Contact, for the report").FillAsync("the keeper of the repeater (invented)");
        await page.GetByLabel("Contact, for the report").PressAsync("Tab");
        await page.GetByLabel("What was heard, for the report").FillAsync("[two-tone warble, data bursts]");
        await page.GetByLabel("What was heard, for the report").PressAsync("Tab");
        await page.GetByLabel("Notes, for the report").FillAsync("The mast was rebuilt in spring.\nRust on the third guy.");
        await page.GetByLabel("Notes, for the report").PressAsync("Tab");
        await Assertions.Expect(page.Locator("#undo")).ToContainTextAsync("notes changed");
        string text = demo.Read("quernmoss.site.yaml");
        Assert.Contains("contact: the keeper of the repeater (invented)", text, StringComparison.Ordinal);
        Assert.Contains("heard: [two-tone warble, data bursts]", text, StringComparison.Ordinal);
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("nothing is wrong");
        await page.GetByRole(AriaRole.Link, new() { Name = "Report" }).ClickAsync();
        ILocator record = page.FrameLocator("iframe").Locator("section.record");
        await Assertions.Expect(record).ToContainTextAsync("What was heard: two-tone warble; data bursts.");
        await Assertions.Expect(record).ToContainTextAsync("The mast was rebuilt in spring.");
        await Assertions.Expect(record).ToContainTextAsync("Rust on the third guy.");
        await Assertions.Expect(record).ToContainTextAsync("Contact: the keeper of the repeater (invented)");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Bare_gain_shows_the_unit_it_will_be_taken_in_while_one_types()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/site/quernmoss.site.yaml");
        ILocator gain = page.GetByLabel("antenna gain of haulage base");
        await gain.FillAsync("6");
        await Assertions.Expect(page.GetByText("6 dBi", new() { Exact = true })).ToBeVisibleAsync();
        await gain.FillAsync("6 dBd");
        await Assertions.Expect(page.GetByText("6 dBi", new() { Exact = true })).ToHaveCountAsync(0);
        Assert.Empty(watched.Complaints);
    }
}
