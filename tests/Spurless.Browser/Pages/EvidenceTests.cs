using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>The page that weighs what was observed: readings typed, moments tapped, logs dropped.</summary>
public class EvidenceTests(BrowserFixture browser)
{
    private const string Site = "quernmoss-heard.site.yaml";
    private const string Address = "/evidence/" + Site;

    /// <summary>
    /// The demo's two that are left, by hand: with the telemetry scanner down 3 dB its own transmitter's mixture stays (0.0 dB), that of a
    /// joint falls twice as far (6.0 dB).
    /// </summary>
    [Fact]
    public async Task Reading_that_is_typed_moves_the_bars_and_is_written_when_it_is_kept_by_the_keys_alone()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync("/study/" + Site);
        string before = demo.Read(Site);
        await watched.Page.GetByRole(AriaRole.Link, new() { Name = "Evidence", Exact = true }).ClickAsync();
        IPage page = watched.Page;
        ILocator answer = page.Locator("h1");
        await Assertions.Expect(answer).ToContainTextAsync("the telemetry scanner lowered by 3");
        ILocator places = page.Locator("#places-w-d");
        await Assertions.Expect(places).ToContainTextAsync("in the transmitter of the telemetry scanner");

        ILocator read = page.GetByLabel("Read, observation 1, in dB");
        await read.TakeFocusAsync();
        await page.Keyboard.TypeAsync("6.0");
        await Assertions.Expect(answer).ToContainTextAsync("made outside, in a joint, a fence or a clamp (sure to");
        Assert.Equal(before, demo.Read(Site));

        // What is impossible is said as it would be of the file, and cannot be kept.
        ILocator keep = page.GetByRole(AriaRole.Button, new() { Name = "Keep this" });
        await read.FillAsync("60");
        await Assertions.Expect(page.Locator(".asks .fault")).ToContainTextAsync("60");
        await Assertions.Expect(keep).ToBeDisabledAsync();
        await read.FillAsync("0.2");
        await Assertions.Expect(answer).ToContainTextAsync("made in the transmitter of the telemetry scanner (sure to");

        // Tab to the give-or-take, Tab to the button, Enter.
        await read.TakeFocusAsync();
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(keep).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#undo")).ToContainTextAsync("reading kept");
        await Assertions.Expect(keep).ToHaveCountAsync(0);
        Assert.StartsWith(before.TrimEnd(), demo.Read(Site), StringComparison.Ordinal);
        Assert.Contains("emitter_reduced", demo.Read(Site), StringComparison.Ordinal);
        await Assertions.Expect(answer).ToContainTextAsync("made in the transmitter of the telemetry scanner (sure to");

        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(answer).ToContainTextAsync("the telemetry scanner lowered by 3");
        Assert.Equal(before, demo.Read(Site));
        Assert.Empty(watched.Complaints);
    }

    /// <summary>Another program's save is weighed anew; what is typed and not kept is weighed with it, not forgotten.</summary>
    [Fact]
    public async Task Reading_that_is_typed_outlives_a_change_of_the_file()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync(Address);
        IPage page = watched.Page;
        ILocator read = page.GetByLabel("Read, observation 1, in dB");
        await read.FillAsync("6.0");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("made outside, in a joint, a fence or a clamp (sure to");
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("more emitters$") }).ClickAsync();
        demo.Write(Site, demo.Read(Site).Replace("airfield tower", "airfield mast", StringComparison.Ordinal));
        await Assertions.Expect(page.GetByLabel("airfield mast on", new() { Exact = true })).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("made outside, in a joint, a fence or a clamp (sure to");
        await Assertions.Expect(read).ToHaveValueAsync("6.0");
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Keep this" })).ToBeEnabledAsync();
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Phone_log_is_taken_with_one_tap_for_each_emitter_and_taken_back()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(390, 800, server: demo.Address);
        await watched.GoAsync(Address);
        IPage page = watched.Page;
        string before = demo.Read(Site);
        await page.Locator(".now").WaitForAsync();
        await page.GetByLabel("telemetry scanner on", new() { Exact = true }).CheckAsync();
        await page.GetByLabel("gauging station off", new() { Exact = true }).CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Not heard now", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator(".now [role=status]")).ToContainTextAsync("not heard, two looked at");
        string log = Assert.Single(Directory.GetFiles(demo.Folder, "live-*.log.csv"));
        string[] lines = await File.ReadAllLinesAsync(log);
        Assert.Equal(2, lines.Length);
        string[] head = lines[0].Split(','), row = lines[1].Split(',');
        Assert.Equal(
            [("repeater input", "0"), ("telemetry scanner", "1"), ("gauging station", "0")],
            head.Zip(row).Skip(1).Where(static c => c.Second.Length > 0));
        Assert.Contains(Path.GetFileName(log), demo.Read(Site), StringComparison.Ordinal);
        await Assertions.Expect(page.Locator("figcaption").Filter(new() { HasTextString = Path.GetFileName(log) })).ToBeVisibleAsync();

        // One step each for the site file and the log.
        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(page.Locator("#undo")).ToContainTextAsync("moment written");
        Assert.Equal(before, demo.Read(Site));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Log_that_is_dropped_is_weighed_and_one_with_mistakes_is_told_and_harms_nothing()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync(Address);
        IPage page = watched.Page;
        string before = demo.Read(Site);
        await page.Locator(".logs").WaitForAsync();
        await page.GetByLabel("Choose logs, *.log.csv").GiveAsync(
        [
            File("bad.log.csv", "time,repeater input,telemetry scaner\n2031-03-06T19:00:00Z,1,1\n"),
            File("good.log.csv", "time,repeater input,telemetry scanner\n2031-03-06T19:00:00Z,1,1\n2031-03-06T19:02:00Z,0,0\n"),
        ]);
        await Assertions.Expect(page.Locator("p.fault[role=alert]")).ToContainTextAsync("bad.log.csv:1:21");
        await Assertions.Expect(page.Locator("p.fault[role=alert]")).ToContainTextAsync("telemetry scanner");
        await Assertions.Expect(page.Locator("figcaption").Filter(new() { HasTextString = "good.log.csv" })).ToBeVisibleAsync();
        Assert.StartsWith(before.TrimEnd(), demo.Read(Site), StringComparison.Ordinal);
        Assert.Contains("good.log.csv", demo.Read(Site), StringComparison.Ordinal);
        Assert.DoesNotContain("bad.log.csv", demo.Read(Site), StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);

        static FilePayload File(string name, string text) =>
            new() { Name = name, MimeType = "text/csv", Buffer = System.Text.Encoding.UTF8.GetBytes(text) };
    }

    [Fact]
    public async Task Page_and_sheet_in_both_themes_are_whole_and_keep_the_rules()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        List<string> wrong = [];
        foreach ((int width, bool dark) in ((int, bool)[])[(1280, false), (390, true)])
        {
            await using WatchedPage watched = await browser.OpenAsync(width, 800, server: demo.Address);
            await watched.Page.EmulateMediaAsync(
                new PageEmulateMediaOptions { ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light });
            foreach (string address in (string[])[Address, "/reports/evidence/" + Site])
            {
                await watched.Page.GotoAsync(address);
                await watched.Page.Locator("svg.pic >> visible=true").First.WaitForAsync();
                await PageLookTests.SettledAsync(watched.Page);
                string name = $"evidence-{(address == Address ? "page" : "sheet")}-{width}.png";
                await watched.Page.ScreenshotAsync(new PageScreenshotOptions { Path = Artifacts.File(name), FullPage = true });
                wrong.AddRange((await TextBoxes.LookAsync(watched.Page)).Problems.Select(p => $"{name}: {p}"));
                AxeFindings axe = await watched.Page.RulesAsync();
                wrong.AddRange(axe.Violations.Select(
                    v => $"{name}: {v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Take(3).Select(static n => n.Html))}"));
                Assert.NotEmpty(axe.Passes);
            }

            Assert.Empty(watched.Complaints);
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong.Take(30)));
    }
}
