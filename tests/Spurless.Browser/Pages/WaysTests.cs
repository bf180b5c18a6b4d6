using System.Globalization;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>What would end it: the list, the picture of each way, and one that is kept.</summary>
public class WaysTests(BrowserFixture browser)
{
    private const string Site = "quernmoss.site.yaml";
    private const string Way = "Your filter filters/three-tank.circuit.yaml at the receiver's input, and a double isolator";

    [Fact]
    public async Task Way_that_is_chosen_shows_before_and_after_and_is_written_when_it_is_kept_by_the_keys_alone()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync("/study/" + Site);
        string before = demo.Read(Site);
        IPage page = watched.Page;
        await page.GetByRole(AriaRole.Link, new() { Name = "What would end it" }).ClickAsync();
        ILocator answer = page.Locator("h1");
        await Assertions.Expect(answer).ToContainTextAsync("No filter at the receiver alone ends it");
        ILocator ledger = page.Locator(".ledger");
        await Assertions.Expect(ledger).ToContainTextAsync("with this way out");

        // The demo's own figures of filter and double isolator: 14.4 dB under the noise.
        await page.GetByRole(AriaRole.Radio, new() { Name = Way }).TakeFocusAsync();
        await page.Keyboard.PressAsync("Space");
        await Assertions.Expect(ledger).ToContainTextAsync("−14.4");
        Assert.Equal(before, demo.Read(Site));
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Artifacts.File("ways-1280.png"), FullPage = true });

        ILocator keep = page.GetByRole(AriaRole.Button, new() { Name = "Keep way" });
        await keep.TakeFocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#undo")).ToContainTextAsync("way out kept");
        await Assertions.Expect(answer).ToContainTextAsync("Nothing to cure");
        string kept = demo.Read(Site);
        Assert.Contains("isolator: [55 dB at 171.55 MHz]", kept, StringComparison.Ordinal);
        Assert.Contains("- circuit: filters/three-tank.circuit.yaml", kept, StringComparison.Ordinal);
        foreach (string line in before.Split('\n').Where(static l => l.StartsWith('#')))
        {
            Assert.Contains(line, kept, StringComparison.Ordinal);
        }

        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(answer).ToContainTextAsync("No filter at the receiver alone ends it");
        Assert.Equal(before, demo.Read(Site));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Page_at_390_is_whole_and_keeps_the_rules()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(390, 800, server: demo.Address);
        await watched.GoAsync("/ways/" + Site);
        await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync(
            "No filter at the receiver alone ends it");
        await Assertions.Expect(watched.Page.Locator(".ledger")).ToContainTextAsync("with this way out");
        IReadOnlyDictionary<string, Box> boxes = await Boxes.OfAsync(watched.Page, [".ways .left", ".ways .right", ".ways .below"]);
        Assert.True(boxes[".ways .left"].Bottom <= boxes[".ways .right"].Top);
        Assert.True(boxes[".ways .right"].Bottom <= boxes[".ways .below"].Top, "the list comes before what a filter must do");
        (IReadOnlyList<string> problems, int texts) = await TextBoxes.LookAsync(watched.Page);
        await watched.Page.ScreenshotAsync(new PageScreenshotOptions { Path = Artifacts.File("ways-390.png"), FullPage = true });
        Assert.True(problems.Count == 0, string.Join('\n', problems));
        Assert.InRange(texts, 30, 10_000);
        AxeFindings axe = await watched.Page.RulesAsync();
        Assert.True(
            axe.Violations.Count == 0,
            string.Join('\n', axe.Violations.Select(v => string.Create(CultureInfo.InvariantCulture, $"{v.Id}: {v.Nodes[0].Html}"))));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Way_that_is_chosen_stands_in_the_report_as_the_one_chosen()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync("/ways/" + Site + "?way=2");
        IPage page = watched.Page;
        await Assertions.Expect(page.GetByRole(AriaRole.Radio).Nth(1)).ToBeCheckedAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "The report with the ways out" }).ClickAsync();
        IFrameLocator report = page.FrameLocator("#report");
        await Assertions.Expect(report.GetByText("Chosen: way 2.")).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByLabel("with the ways out")).ToBeCheckedAsync();
        await page.GetByLabel("with the ways out").UncheckAsync();
        await Assertions.Expect(report.GetByText("Ways out were not tried for this report")).ToBeVisibleAsync();
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Page_of_a_quiet_site_says_that_there_is_nothing_to_cure()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync("/ways/quernmoss-cured.site.yaml");
        await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("Nothing to cure");
        Assert.Empty(watched.Complaints);
    }
}
