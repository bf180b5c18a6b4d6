using System.Globalization;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>
/// The tour: from an empty folder to 'this filter cures it' and to what it does not cure, by mouse alone. Its pictures are those of the
/// README; with SPURLESS_PICTURES=write they are written to docs/pictures.
/// </summary>
public class TourTests(BrowserFixture browser)
{
    private const int MostClicks = 25;

    private int _clicks;

    [Fact]
    public async Task Tour_from_an_empty_folder_to_the_cure_takes_few_clicks_and_no_typing()
    {
        await using ServedFolder served = await ServedFolder.EmptyAsync("hill");
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: served.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/");
        await PictureAsync(page, "tour-1-folder");

        await ClickAsync(page.GetByRole(AriaRole.Button, new() { Name = "Open the demonstration" }));
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Six mixtures land on 145.0500");
        int answered = _clicks;
        await page.Locator("#study-picture svg.pic:not(.wide):not(.narrow)").First.WaitForAsync();
        await PictureAsync(page, "tour-2-what-lands");

        // The warble that one hears is the pager's: its arithmetic is drawn, and its sum opens.
        ILocator warble = page.Locator("#findings").GetByRole(AriaRole.Button, new() { Name = "466.1000 − 2 × 160.5250" });
        await ClickAsync(warble);
        await ClickAsync(warble);
        await Assertions.Expect(page.Locator("#study-picture")).ToContainTextAsync("466.1000 − 2 × 160.5250");
        await Assertions.Expect(page.Locator(".why")).ToContainTextAsync("data warble of regional paging");
        await PictureAsync(page, "tour-3-arithmetic");

        await ClickAsync(page.GetByLabel("Put three tanks for 145 MHz, as traced (invented) into the chain"));
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("With the filter in, five of the six harmful mixtures on 145.0500");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync(
            "from the transmitter of the telemetry scanner: no filter here will cure it");
        await PictureAsync(page, "tour-4-filter");

        await ClickAsync(
            page.Locator("#findings").GetByRole(AriaRole.Button, new() { Name = "made in the transmitter of the telemetry scanner" }));
        await Assertions.Expect(page.Locator(".why")).ToContainTextAsync("no filter at your receiver removes it");
        await ClickAsync(page.GetByLabel("Isolator, double, 55 dB: Transmitter of the telemetry scanner"));
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("all six harmful mixtures on 145.0500");
        await PictureAsync(page, "tour-5-cured");

        await ClickAsync(page.GetByRole(AriaRole.Button, new() { Name = "Keep this: write it to quernmoss.site.yaml" }));
        await Assertions.Expect(page.Locator(".changed")).ToHaveCountAsync(0);
        Assert.Contains("- circuit: filters/three-tank.circuit.yaml", served.Read("quernmoss.site.yaml"), StringComparison.Ordinal);
        Assert.Contains("isolator: [55 dB at 171.55 MHz]", served.Read("quernmoss.site.yaml"), StringComparison.Ordinal);
        string says = string.Create(
            CultureInfo.InvariantCulture,
            $"from an empty folder: first answer after {answered} click, cure written after {_clicks} clicks");
        TestContext.Current.TestOutputHelper?.WriteLine(says);
        TestContext.Current.SendDiagnosticMessage(says);
        Assert.InRange(answered, 1, 2);
        Assert.InRange(_clicks, 1, MostClicks);
        Assert.Empty(watched.Complaints);
        Assert.Equal("", served.Errors.Trim());
    }

    private async Task ClickAsync(ILocator control)
    {
        _clicks++;
        await control.ClickAsync();
    }

    private static async Task PictureAsync(IPage page, string name)
    {
        await page.EvaluateAsync("() => { scrollTo(0, 0); document.activeElement?.blur(); }");
        string file = Environment.GetEnvironmentVariable("SPURLESS_PICTURES") == "write"
            ? Path.Combine(Artifacts.Root, "docs", "pictures", name + ".png")
            : Artifacts.File(name + ".png");
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = file });
    }
}
