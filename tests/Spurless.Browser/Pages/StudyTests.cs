using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>The study page as its user has it: in Chromium, against the built program, on the invented demo.</summary>
public partial class StudyTests(BrowserFixture browser, ServeFixture serve)
{
    private const string Plain = "/study/quernmoss.site.yaml";
    private const string Filtered = "/study/quernmoss-filtered.site.yaml";

    [Theory]
    [InlineData(1280, true)]
    [InlineData(390, false)]
    public async Task Page_at_both_widths_and_themes_breaks_no_rule_and_no_text_meets_another(int width, bool dark)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo, Filtered + "?sum=open", width, dark);
        await watched.Page.ScreenshotAsync(
            new PageScreenshotOptions
            {
                Path = Artifacts.File(string.Create(CultureInfo.InvariantCulture, $"study-{width}{(dark ? "-dark" : "")}.png")),
                FullPage = true,
            });
        Assert.Empty((await TextBoxes.LookAsync(watched.Page)).Problems);
        AxeFindings axe = await watched.Page.RulesAsync();
        Assert.Empty(
            axe.Violations.Select(static v => $"{v.Id}: {v.Help} at {string.Join(", ", v.Nodes.Take(3).Select(static n => n.Html))}"));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task By_mouse_alone_one_sees_what_the_filter_does_not_cure_and_that_a_double_isolator_does()
    {
        // Figures of the demo: 2 x 158.3000 - 171.5500 stands 40.6 dB over the noise with the filter in; with a double isolator too all is
        // quiet.
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo, Plain);
        IPage page = watched.Page;
        await Expect(page.Locator("h1")).ToContainTextAsync("Six mixtures land on 145.0500");
        await page.GetByLabel("Put three tanks for 145 MHz, as traced (invented) into the chain").ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("no filter here will cure it");
        await Expect(Row(page, 1)).ToContainTextAsync("+40.6");
        await Expect(Row(page, 1)).ToContainTextAsync("no filter at your receiver removes it");
        await Expect(page.Locator(".ledger tbody tr").Last.Locator("td").First).ToHaveTextAsync("1");
        // The filter's 2.92 dB: what a weak signal needs at the antenna, before and after.
        await Expect(page.Locator(".ledger .sensitivity")).ToContainTextAsync(NeedsBeforeAndAfter());
        await page.GetByLabel("Isolator, double, 55 dB: Transmitter of the telemetry scanner").ClickAsync();
        await Expect(page.Locator(".ledger tbody tr").Last.Locator("td").First).ToHaveTextAsync("0");
        await Expect(page.Locator(".ledger tbody tr").First.Locator("td").First).ToHaveTextAsync("6");
        await Expect(page.Locator("h1")).ToContainTextAsync("all six harmful mixtures");
        await ShotAsync(page, "study-cured");
        await page.GetByLabel("Part the list by whose work the cure is").ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Cured at the transmitter of the telemetry scanner" }))
            .ToBeVisibleAsync();
        await ShotAsync(page, "study-by-cure");
        Assert.DoesNotContain("isolator", demo.Read("quernmoss.site.yaml"), StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task By_keyboard_alone_findings_are_picked_opened_and_closed_and_a_slider_moves_and_returns()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo, Filtered);
        IPage page = watched.Page;
        await page.Locator("#finding-1").TakeFocusAsync();
        await page.Keyboard.PressAsync("ArrowDown");
        await Expect(page.Locator("#finding-2")).ToBeFocusedAsync();
        await Expect(page.Locator("#finding-2")).ToHaveAttributeAsync("aria-current", "true");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#finding-2")).ToHaveAttributeAsync("aria-expanded", "true");
        await Expect(page.Locator(".why")).ToContainTextAsync("over noise, dB");
        await page.Keyboard.PressAsync("Escape");
        await Expect(page.Locator("#finding-2")).ToHaveAttributeAsync("aria-expanded", "false");
        await page.Keyboard.PressAsync("Home");
        await Expect(page.Locator("#finding-1")).ToBeFocusedAsync();
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("finding=1"));

        ILocator pad = Slider(page, "Attenuator");
        await pad.TakeFocusAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        await Expect(pad).ToHaveValueAsync("1");
        await page.Keyboard.PressAsync("Shift+ArrowRight");
        await Expect(pad).ToHaveValueAsync("11");
        await Expect(page.Locator(".changed")).ToContainTextAsync("attenuator 11 dB");
        await ShotAsync(page, "study-attenuator");
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("set=.*attenuator.*11"));
        await page.Keyboard.PressAsync("Backspace");
        await Expect(pad).ToHaveValueAsync("0");
        await Expect(page.Locator(".changed")).ToHaveCountAsync(0);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Keep_this_writes_the_file_with_its_comments_and_undo_takes_it_back()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        string before = demo.Read("quernmoss.site.yaml");
        await using WatchedPage watched = await OpenAsync(demo, Plain);
        IPage page = watched.Page;
        await page.GetByLabel("Put three tanks for 145 MHz, as traced (invented) into the chain").ClickAsync();
        await Expect(page.Locator(".changed")).ToContainTextAsync("three tanks for 145 MHz, as traced (invented) in");
        Assert.Equal(before, demo.Read("quernmoss.site.yaml"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this: write it to quernmoss.site.yaml" }).ClickAsync();
        await Expect(page.Locator(".changed")).ToHaveCountAsync(0);
        Assert.Equal(
            before.Replace(
                "- feedline: { loss: 1.2 dB at 145 MHz }\n",
                "- feedline: { loss: 1.2 dB at 145 MHz }\n      - circuit: filters/three-tank.circuit.yaml\n",
                StringComparison.Ordinal),
            demo.Read("quernmoss.site.yaml"));
        await Expect(page.Locator("h1")).ToContainTextAsync("With the filter in, five of the six");
        await page.Locator("#undo").ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("Six mixtures land");
        Assert.Equal(before, demo.Read("quernmoss.site.yaml"));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Carrier_picked_in_the_picture_leaves_the_list_what_it_takes_part_in()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo, Filtered);
        IPage page = watched.Page;
        // On a mark of it: the two of a carrier are one button, with nothing between them.
        await page.Locator("#study-picture [role=button][aria-label*='broadcast'] .hit").First.ClickAsync(new() { Force = true });
        await Expect(page.Locator("#findings")).ToContainTextAsync("Only what broadcast takes part in");
        await Expect(page.Locator("#findings")).ToContainTextAsync("94.2000 + 50.8500");
        await Expect(page.Locator("#finding-3")).ToHaveCountAsync(0);
        await ShotAsync(page, "study-carrier");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show all" }).ClickAsync();
        await Expect(page.Locator("#finding-3")).ToBeVisibleAsync();
        await page.Locator("#study-picture [role=button][aria-label*='finding 3']").First.ClickAsync();
        await Expect(page.Locator("#finding-3")).ToHaveAttributeAsync("aria-current", "true");
        await Expect(page.Locator("#study-picture")).ToContainTextAsync("finding 3");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Picture_and_data_are_saved_as_files_of_the_view_that_is_shown()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await OpenAsync(demo, Filtered);
        IPage page = watched.Page;
        IDownload svg = await page.RunAndWaitForDownloadAsync(() => page.GetByText("Picture as SVG").ClickAsync());
        Assert.Equal("quernmoss-filtered-study.svg", svg.SuggestedFilename);
        string text = await System.IO.File.ReadAllTextAsync((await svg.PathAsync())!, TestContext.Current.CancellationToken);
        System.Xml.Linq.XDocument drawing = System.Xml.Linq.XDocument.Parse(text);
        Assert.Equal("svg", drawing.Root!.Name.LocalName);
        Assert.DoesNotContain("var(", text, StringComparison.Ordinal);
        IDownload csv = await page.RunAndWaitForDownloadAsync(() => page.GetByText("Data as CSV").ClickAsync());
        string[] rows = await System.IO.File.ReadAllLinesAsync((await csv.PathAsync())!, TestContext.Current.CancellationToken);
        Assert.Equal(801, rows.Count(static r => r.StartsWith("response,", StringComparison.Ordinal)));
        Assert.Equal(17, rows.Count(static r => r.StartsWith("carrier,", StringComparison.Ordinal)));
        Assert.Contains(
            rows, static r => r.StartsWith("mixture,1,", StringComparison.Ordinal) && r.Contains("158.3000", StringComparison.Ordinal));
    }

    [GeneratedRegex(
        @"12 dB SINAD takes\s.?117\.3\sdBm at the antenna connector; [a-z ]+\s.?120\.2\sdBm\.", RegexOptions.None, 2000)]
    private static partial Regex NeedsBeforeAndAfter();

    private static Task ShotAsync(IPage page, string name) =>
        page.ScreenshotAsync(new PageScreenshotOptions { Path = Artifacts.File(name + ".png") });

    private static ILocatorAssertions Expect(ILocator locator) => Assertions.Expect(locator);

    private static IPageAssertions Expect(IPage page) => Assertions.Expect(page);

    private static ILocator Row(IPage page, int finding) =>
        page.Locator(string.Create(CultureInfo.InvariantCulture, $"#finding-{finding}"));

    private static ILocator Slider(IPage page, string effect) => page.Locator($"input[type=range][aria-label^='{effect}']");

    private async Task<WatchedPage> OpenAsync(ServedFolder demo, string address, int width = 1280, bool dark = false)
    {
        WatchedPage watched = await browser.OpenAsync(width, 900, dark, demo.Address);
        await watched.GoAsync(address);
        await watched.Page.Locator("#study-picture svg.pic:not(.wide):not(.narrow)").First.WaitForAsync();
        return watched;
    }
}
