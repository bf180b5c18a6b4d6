using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;
using static Microsoft.Playwright.Assertions;

namespace Spurless.Browser.Pages;

/// <summary>
/// What a user did, saw or typed is there when he comes back to it, and nothing leads him to another file than the one he looks at.
/// </summary>
public class NothingLostTests(BrowserFixture browser)
{
    private const string Other = "zz-other.site.yaml";

    [Fact]
    public async Task Head_links_after_a_direct_load_follow_the_address_and_the_report_follows_the_site_shown()
    {
        await using ServedFolder demo = await WithOtherAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync("/report/quernmoss.site.yaml");
        await watched.GoAsync("/study/" + Other);
        ILocator head = watched.Page.Locator("header nav");
        foreach (string page in (string[])["site", "study", "report"])
        {
            await Expect(head.Locator($"a[href='/{page}/{Other}']")).ToHaveCountAsync(1);
        }

        await head.GetByText("Report", new() { Exact = true }).ClickAsync();
        await Expect(watched.Page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/report/zz-other"));
        await head.GetByText("Study", new() { Exact = true }).ClickAsync();
        await Expect(watched.Page.Locator(".steps")).ToContainTextAsync("The other hill");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Undo_on_the_study_takes_back_the_control_moved_last_and_asks_before_it_changes_a_file_that_is_not_shown()
    {
        await using ServedFolder demo = await WithOtherAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/site/quernmoss.site.yaml");
        string before = demo.Read("quernmoss.site.yaml");
        await page.GetByLabel("Name of the site").FillAsync("Quernmoss by another name");
        await page.GetByLabel("Name of the site").PressAsync("Enter");
        await Expect(page.Locator("#undo")).ToHaveTextAsync("Undo: name of the site Quernmoss by another name in quernmoss.site.yaml");
        string written = demo.Read("quernmoss.site.yaml");

        // A control of another site: Undo is its own, and no file is touched.
        await watched.GoAsync("/study/" + Other);
        ILocator isolator = page.GetByLabel("Isolator, double, 55 dB: Transmitter of the telemetry scanner");
        await isolator.ClickAsync();
        await Expect(page.Locator("#undo")).ToContainTextAsync("isolator 55 dB, not written");
        await page.Locator("h1").ClickAsync();
        await page.Keyboard.PressAsync("Control+z");
        await Expect(page.Locator(".changed")).ToHaveCountAsync(0);
        await Expect(page.Locator("#redo")).ToContainTextAsync("isolator 55 dB");
        Assert.Equal(written, demo.Read("quernmoss.site.yaml"));

        // The next step is another file's: it is named, and asked for.
        await page.Keyboard.PressAsync("Control+z");
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("in quernmoss.site.yaml, which is not shown here");
        Assert.Equal(written, demo.Read("quernmoss.site.yaml"));

        // What is picked meanwhile changes the address of the page, and is no answer.
        await page.Locator("#finding-2").ClickAsync();
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("finding=2"));
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("which is not shown here");
        await page.GetByRole(AriaRole.Button, new() { Name = "Take it back" }).ClickAsync();
        await Expect(page.Locator("#undo")).ToBeDisabledAsync();
        Assert.Equal(before, demo.Read("quernmoss.site.yaml"));
        Assert.Empty(watched.Complaints);
    }

    /// <summary>Waits until an answer is in the program's own draft: until then it is in the browser alone.</summary>
    private static async Task KeptAsync(ServedFolder served, string answer)
    {
        string drafts = Path.Combine(served.Folder, ".spurless", "drafts");
        for (int i = 0; i < 600; i++)
        {
            if (Directory.Exists(drafts)
                && Directory.GetFiles(drafts, "*.json").Any(f => File.ReadAllText(f).Contains(answer, StringComparison.Ordinal)))
            {
                return;
            }

            await Task.Delay(100);
        }

        Assert.Fail($"'{answer}' is in no draft of {drafts}.");
    }

    [Fact]
    public async Task Four_questions_keep_what_was_typed_over_a_reload_and_a_restart_of_the_server()
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: empty.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/");
        await page.GetByLabel("Frequency of your channel").FillAsync("145.050 MHz");
        await page.GetByLabel("Frequency of your channel").PressAsync("Tab");
        await page.GetByLabel("buzz or hum").CheckAsync();
        await page.GetByLabel("name, row 1").FillAsync("mast on the moor");
        await page.GetByLabel("name, row 1").PressAsync("Tab");
        await page.GetByLabel("frequency, row 1").FillAsync("158.3 MHz"); // not left yet
        await KeptAsync(empty, "mast on the moor");
        await page.ReloadAsync();
        await watched.LiveAsync();
        await Expect(page.GetByLabel("Frequency of your channel")).ToHaveValueAsync("145.050 MHz");
        await Expect(page.GetByLabel("buzz or hum")).ToBeCheckedAsync();
        await Expect(page.GetByLabel("name, row 1")).ToHaveValueAsync("mast on the moor");
        await Expect(page.GetByLabel("frequency, row 1")).ToHaveValueAsync("158.3 MHz");

        await empty.KillAsync();
        await Expect(page.Locator("#lost")).ToBeVisibleAsync();
        await empty.RestartAsync();
        await Expect(page.Locator("#lost")).ToBeHiddenAsync();
        await watched.LiveAsync();
        await Expect(page.GetByLabel("name, row 1")).ToHaveValueAsync("mast on the moor");
        await page.GetByRole(AriaRole.Button, new() { Name = "Begin anew" }).ClickAsync();
        await Expect(page.GetByLabel("Frequency of your channel")).ToHaveValueAsync("");

        // The browser brings a token of the run before: that is no fault of the program.
        Assert.DoesNotContain("fault", empty.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task File_with_a_mistake_keeps_its_last_good_study_on_show_with_a_link_to_the_cell()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/study/quernmoss.site.yaml");
        await Expect(page.Locator("#study-picture svg").First).ToBeVisibleAsync();
        string good = demo.Read("quernmoss.site.yaml");
        demo.Write("quernmoss.site.yaml", good.Replace("frequency: 158.300 MHz", "frequency: 158.300", StringComparison.Ordinal));
        Assert.NotEqual(good, demo.Read("quernmoss.site.yaml"));
        ILocator stale = page.Locator(".stale");
        await Expect(stale).ToContainTextAsync("one mistake now; what is shown is the last good study");
        await Expect(page.Locator("#study-picture svg").First).ToBeVisibleAsync();
        ILocator cell = stale.GetByRole(AriaRole.Link, new() { Name = "telemetry scanner, frequency" });
        await cell.ClickAsync();
        await Expect(page.GetByLabel("frequency of telemetry scanner")).ToBeFocusedAsync();

        // Loaded anew the mistake is told by its cell too, never by line and column of a compiler.
        await watched.GoAsync("/report/quernmoss.site.yaml");
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "telemetry scanner, frequency" })).ToBeVisibleAsync();
        Assert.DoesNotMatch(@"site\.yaml:\d+:\d+", await page.Locator("main").InnerTextAsync());
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Findings_after_an_edit_from_outside_stand_worst_first()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/study/quernmoss.site.yaml");
        await Expect(page.Locator("#finding-1")).ToBeVisibleAsync();
        string[] names = [.. await page.Locator(".finds .who").AllInnerTextsAsync()];

        // A carrier of the worst mixtures falls by 20 dB, so that they cannot stay where they were.
        demo.Write(
            "quernmoss.site.yaml", demo.Read("quernmoss.site.yaml").Replace("level: -25 dBm", "level: -45 dBm", StringComparison.Ordinal));
        await Expect(page.GetByText("was changed by an editor")).ToBeVisibleAsync();
        await Expect(page.Locator(".finds .who")).Not.ToHaveTextAsync(names);
        double[] over = [.. (await page.Locator(".finds h3 + ol").First.Locator(".ba").AllInnerTextsAsync()).Select(static t =>
            double.Parse(
                t.Split('→')[^1].Replace('\u2212', '-').Replace("+", "", StringComparison.Ordinal).Trim(),
                System.Globalization.CultureInfo.InvariantCulture))];
        Assert.Equal(over.OrderDescending(), over);
        Assert.Empty(watched.Complaints);
    }

    private static async Task<ServedFolder> WithOtherAsync()
    {
        ServedFolder demo = await ServedFolder.DemoAsync();
        demo.Write(
            Other,
            demo.Read("quernmoss.site.yaml").Replace(
                "site: Quernmoss repeater", "site: The other hill (invented)", StringComparison.Ordinal));
        return demo;
    }
}
