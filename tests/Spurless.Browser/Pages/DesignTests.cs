using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>The bench's step of design: a mask typed and drawn, candidates, one of them opened; and what is there is cancelled.</summary>
public class DesignTests(BrowserFixture browser)
{
    private const string Requirement = "filters/quiet-input.requirement.yaml";
    private const string Address = "/design/" + Requirement;
    private static readonly LocatorAssertionsToContainTextOptions _long = new() { Timeout = 180_000 };

    [Fact]
    public async Task Mask_is_designed_for_and_the_circuit_chosen_opens_on_the_bench()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync(Address);
        IPage page = watched.Page;
        ILocator answer = page.Locator("h1");
        await Assertions.Expect(answer).ToContainTextAsync("the most at 459.0 MHz, by 50 dB. Nothing is designed yet.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Design", Exact = true }).TakeFocusAsync();
        await page.Keyboard.PressAsync("Enter");

        // Circuits stand there while more are sought.
        await Assertions.Expect(page.Locator(".mini").First).ToBeVisibleAsync(new() { Timeout = 180_000 });
        await Assertions.Expect(answer).ToContainTextAsync("circuits meet what is asked. Best:", _long);
        Assert.Contains("run=yes", page.Url, StringComparison.Ordinal);
        ILocator minis = page.GetByRole(AriaRole.Group, new() { Name = "Circuits found, best first" }).GetByRole(AriaRole.Button);
        Assert.InRange(await minis.CountAsync(), 3, 8);
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Artifacts.File("design-1280.png"), FullPage = true });
        ILocator second = minis.Nth(1);
        await second.TakeFocusAsync();
        await page.Keyboard.PressAsync("Space");
        await Assertions.Expect(second).ToHaveAttributeAsync("aria-pressed", "true");
        Assert.Contains("rank=2", page.Url, StringComparison.Ordinal);

        // The build sheet is of the one that is chosen.
        string family = (await second.Locator("b").InnerTextAsync())[3..];
        string sheet = await (await page.RunAndWaitForDownloadAsync(() => page.GetByText("Build sheet").ClickAsync())).PathAsync();
        Assert.Contains($"<h2 class=\"part\">{family}</h2>", await File.ReadAllTextAsync(sheet), StringComparison.Ordinal);

        await page.GetByRole(AriaRole.Button, new() { Name = "Open on the bench" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/bench/designed/2-"));
        string file = Uri.UnescapeDataString(new Uri(page.Url).AbsolutePath["/bench/".Length..]);
        Assert.Contains("# Requirement: ../" + Requirement, demo.Read(file), StringComparison.Ordinal);

        // Who comes back finds what was designed; the circuit is ready to be tuned.
        await page.Locator(".steps").GetByRole(AriaRole.Link, new() { Name = "Tune" }).ClickAsync();
        await Assertions.Expect(answer).ToContainTextAsync("Drop a sweep of what you built");
        await page.Locator(".steps").GetByRole(AriaRole.Link, new() { Name = "Design" }).ClickAsync();
        await Assertions.Expect(answer).ToContainTextAsync("circuits meet what is asked. Best:");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Mask_is_typed_and_drawn_and_written_as_a_requirement_of_its_own()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync(Address);
        IPage page = watched.Page;
        string before = demo.Read(Requirement);
        ILocator by = page.GetByRole(AriaRole.Textbox, new() { Name = "C, least loss, dB" });
        await Assertions.Expect(by).ToHaveValueAsync("30");
        await by.FillAsync("26.5");
        await by.PressAsync("Enter");
        ILocator changed = page.Locator(".changed");
        await Assertions.Expect(changed).ToContainTextAsync("The mask is another than that of " + Requirement);

        // What cannot be is said, and stays as it was typed.
        await by.FillAsync("much");
        await by.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".fault")).ToContainTextAsync("much");
        await by.FillAsync("26.5 dB");
        await by.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".fault")).ToHaveCountAsync(0);

        // A bar by its foot; the table follows, and the address.
        ILocator board = page.Locator(".boards [data-board=close]");
        await DragAsync(page, board.Locator("g.pick[data-target='bar 0']").First, 0, 30);
        ILocator first = page.GetByRole(AriaRole.Textbox, new() { Name = "A, least loss, dB" });
        await Assertions.Expect(first).Not.ToHaveValueAsync("18");
        Assert.InRange(double.Parse(await first.InputValueAsync(), System.Globalization.CultureInfo.InvariantCulture), 19, 40);

        // A new bar where none stands.
        LocatorBoundingBoxResult place = (await board.BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(place.X + 60, place.Y + 60);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(place.X + 75, place.Y + 80);
        await page.Mouse.MoveAsync(place.X + 90, place.Y + 110);
        await Assertions.Expect(board.Locator(".picked-text").Filter(new() { HasText = " dB" })).ToBeVisibleAsync();
        await page.Mouse.UpAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Textbox, new() { Name = "E, least loss, dB" })).ToBeVisibleAsync();
        Assert.Contains("mask=", page.Url, StringComparison.Ordinal);
        Assert.Equal(before, demo.Read(Requirement));

        await changed.GetByRole(AriaRole.Button, new() { Name = "Write it as a requirement" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/design/designed/needs.requirement.yaml"));
        Assert.Contains("by: 26.5 dB", demo.Read("designed/needs.requirement.yaml"), StringComparison.Ordinal);
        await Assertions.Expect(changed).ToHaveCountAsync(0);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Page_at_390_is_whole_and_a_design_that_is_cancelled_keeps_the_best_so_far()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(390, 800, server: demo.Address);
        await watched.GoAsync(Address);
        IPage page = watched.Page;
        await page.GetByRole(AriaRole.Button, new() { Name = "Design", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator(".mini").First).ToBeVisibleAsync(new() { Timeout = 180_000 });
        await page.GetByRole(AriaRole.Button, new() { Name = "Cancel: keep the best so far" }).ClickAsync();
        await Assertions.Expect(page.Locator("progress")).ToHaveCountAsync(0, new() { Timeout = 180_000 });
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("It was stopped early: this is the best so far.");
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Open on the bench" })).ToBeVisibleAsync();
        (IReadOnlyList<string> problems, int texts) = await TextBoxes.LookAsync(page);
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Artifacts.File("design-390.png"), FullPage = true });
        Assert.True(problems.Count == 0, string.Join('\n', problems));
        Assert.InRange(texts, 30, 10_000);
        AxeFindings axe = await page.RulesAsync();
        Assert.True(axe.Violations.Count == 0, string.Join('\n', axe.Violations.Select(static v => $"{v.Id}: {v.Nodes[0].Html}")));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Mask_of_a_site_is_what_its_receiver_needs_and_one_of_ones_own_begins_with_what_must_pass()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync("/design/quernmoss.site.yaml");
        IPage page = watched.Page;
        await Assertions.Expect(page.Locator(".mask-t")).ToContainTextAsync("waterworks base", _long);
        ILocator margin = page.GetByRole(AriaRole.Textbox, new() { Name = "Margin added to each need, dB" });
        await Assertions.Expect(margin).ToHaveValueAsync("6");

        await watched.GoAsync("/design");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Say what must pass");
        await page.GetByRole(AriaRole.Textbox, new() { Name = "Lower edge of what must pass" }).FillAsync("50.2");
        await page.Keyboard.PressAsync("Enter");
        await page.GetByRole(AriaRole.Textbox, new() { Name = "Upper edge of what must pass" }).FillAsync("50.4 MHz");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("50.2 to 50.4 MHz must pass with 3 dB of loss at most");
        await page.GetByRole(AriaRole.Textbox, new() { Name = "A further frequency to keep out" }).FillAsync("61");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("at 61.0 MHz, by 20 dB");
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Design", Exact = true })).ToBeEnabledAsync();
        Assert.Empty(watched.Complaints);
    }

    private static async Task DragAsync(IPage page, ILocator from, float right, float down)
    {
        LocatorBoundingBoxResult box = (await from.BoundingBoxAsync())!;
        float x = box.X + (box.Width / 2), y = box.Y + (box.Height / 2);
        await page.Mouse.MoveAsync(x, y);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(x + (right / 2), y + (down / 2));
        await page.Mouse.MoveAsync(x + right, y + down);
        await page.Mouse.UpAsync();
    }
}
