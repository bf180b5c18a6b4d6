using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>The frame of all pages: what is moved and what it does are in one view, and nothing jumps.</summary>
public class FrameTests(BrowserFixture browser, ServeFixture serve)
{
    private const string Study = "/study/quernmoss-filtered.site.yaml";
    private const string Bench = "/bench/filters/three-tank.circuit.yaml?part=C3";

    private static readonly string[] Pages =
    [
        "/", "/site/quernmoss.site.yaml", "/around/quernmoss.site.yaml", Study, "/ways/quernmoss.site.yaml",
        "/channels/quernmoss.site.yaml", "/newcomer/quernmoss-cured.site.yaml",
        "/evidence/quernmoss-heard.site.yaml", Bench, "/coil", "/fit/filters/unmarked.circuit.yaml",
        "/listen", "/report/quernmoss.site.yaml", "/help/pages",
    ];

    [Theory]
    [InlineData(1280)]
    [InlineData(390)]
    public async Task Links_of_the_head_keep_their_place_on_every_page(int width)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(width, 800, server: demo.Address);
        string[] links = [.. Enumerable.Range(1, 8).Select(static i => FormattableString.Invariant($".head nav li:nth-child({i}) a"))];
        IReadOnlyDictionary<string, Box>? first = null;
        foreach (string address in Pages)
        {
            await watched.GoAsync(address);
            await watched.Page.EvaluateAsync("() => document.fonts.ready.then(() => true)");
            IReadOnlyDictionary<string, Box> boxes = await Boxes.OfAsync(watched.Page, [.. links, ".head .name", ".head .kept"]);
            first ??= boxes;
            Assert.Equal(address + ": ", address + ": " + string.Join("; ", Boxes.Moved(first, boxes)));
        }
    }

    [Fact]
    public async Task Study_answer_picture_and_controls_are_in_one_view_and_nothing_moves_from_finding_to_finding()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync(Study);
        IPage page = watched.Page;
        await page.Locator("#study-picture svg.pic:not(.wide):not(.narrow)").First.WaitForAsync();
        string[] kept =
        [
            ".head nav", ".said", "#study-picture svg.pic", "#study-picture figcaption", ".ledger", "#findings",
            ".chain.desk .stage input[type=range]",
        ];
        IReadOnlyDictionary<string, Box> before = await Boxes.OfAsync(page, kept);
        Assert.All(kept[..5], k => Assert.InRange(before[k].Bottom, 0, 800));
        Assert.InRange(
            await page.EvaluateAsync<double>(
                "() => Math.max(...[...document.querySelectorAll('.chain.desk:not(.theirs) input[type=range]')]"
                    + ".map(e => e.getBoundingClientRect().bottom))"),
            0,
            800);
        foreach (int finding in (int[])[2, 3, 5, 6, 1])
        {
            await page.Locator($"#finding-{finding}").ClickAsync();
            await Assertions.Expect(page.Locator($"#finding-{finding}")).ToHaveAttributeAsync("aria-current", "true");
            await page.EvaluateAsync("() => scrollTo(0, 0)");
            Assert.Equal($"{finding}: ", $"{finding}: " + string.Join("; ", Boxes.Moved(before, await Boxes.OfAsync(page, kept))));
        }

        // The first move of a slider: what is under the hand stays there, so does all that is looked at.
        ILocator slider = page.Locator(".chain.desk .stage input[type=range]").First;
        await slider.TakeFocusAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        await Assertions.Expect(page.Locator(".changed")).ToBeVisibleAsync();
        await page.EvaluateAsync("() => scrollTo(0, 0)");
        Assert.Equal("", string.Join("; ", Boxes.Moved(before, await Boxes.OfAsync(page, kept))));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Bench_schematic_slider_parts_and_response_are_in_one_view_and_the_steps_under_tabs()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync(Bench);
        IPage page = watched.Page;
        await page.Locator("#bench-picture svg.pic:not(.wide):not(.narrow)").Nth(2).WaitForAsync();
        string[] seen = [".said", ".b-left svg.pic", ".tune input[type=range]", ".parts", "#bench-picture", ".bench-tabs"];
        IReadOnlyDictionary<string, Box> boxes = await Boxes.OfAsync(page, seen);
        Assert.All(seen, s => Assert.True(boxes[s].Bottom <= 800, $"{s} ends at {boxes[s]}"));
        Assert.True(boxes["#bench-picture"].Left >= boxes[".parts"].Right, "the response stands beside the parts");
        Assert.InRange(await page.EvaluateAsync<double>("() => document.documentElement.scrollHeight"), 700, 1500);

        await page.Locator(".tune input[type=range]").TakeFocusAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        await Assertions.Expect(page.Locator(".changed")).ToBeVisibleAsync();
        string[] kept = [".said", ".b-left svg.pic", ".tune input[type=range]", "#bench-picture"];
        IReadOnlyDictionary<string, Box> after = await Boxes.OfAsync(page, kept);
        Assert.Equal("", string.Join("; ", Boxes.Moved(kept.ToDictionary(static k => k, k => boxes[k]), after)));

        // By the keys: one stop, arrows from tab to tab, one panel shown.
        await page.GetByRole(AriaRole.Tab, new() { Name = "Needs and Smith chart" }).TakeFocusAsync();
        foreach (string tab in (string[])["Tolerances", "Transmitting through it", "Pictures and table"])
        {
            await page.Keyboard.PressAsync("ArrowRight");
            await Assertions.Expect(page.GetByRole(AriaRole.Tab, new() { Name = tab })).ToBeFocusedAsync();
            await Assertions.Expect(page.GetByRole(AriaRole.Tab, new() { Selected = true })).ToHaveTextAsync(tab);
            await Assertions.Expect(page.GetByRole(AriaRole.Tabpanel)).ToHaveCountAsync(1);
            await Assertions.Expect(page.GetByRole(AriaRole.Tabpanel, new() { Name = tab })).ToBeVisibleAsync();
        }

        Assert.Empty(watched.Complaints);
    }

    [Theory]
    [InlineData("/coil", ".coil > .ask", ".coil table.figures")]
    [InlineData("/fit/filters/unmarked.circuit.yaml", ".said", ".fitting button.do")]
    [InlineData("/site/quernmoss.site.yaml", ".said", "[data-grid=receivers]")]
    [InlineData("/", ".said", "button.may")]
    [InlineData("/report/quernmoss.site.yaml", ".said", "button.do")]
    public async Task Page_answer_and_controls_are_in_one_view(string address, string one, string other)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        await watched.GoAsync(address);

        // On a busy machine the report is still being made when the page stands.
        await Assertions.Expect(watched.Page.Locator(other).First).ToBeVisibleAsync();
        IReadOnlyDictionary<string, Box> boxes = await Boxes.OfAsync(watched.Page, ".said", one, other);
        Assert.All(boxes, static b => Assert.True(b.Value.Bottom <= 800, $"{b.Key} ends at {b.Value}"));
        Assert.Equal(80, boxes[".said"].Bottom - boxes[".said"].Top, 1.0);
    }

    [Fact]
    public async Task Phone_table_of_emitters_shows_the_level_without_scrolling()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(390, 800, server: demo.Address);
        await watched.GoAsync("/site/quernmoss.site.yaml");
        ILocator level = watched.Page.Locator("[data-grid=emitters] thead th", new() { HasTextString = "level" });
        LocatorBoundingBoxResult box = (await level.BoundingBoxAsync())!;
        Assert.InRange(box.X + box.Width, 0, 390);
        Assert.Equal("", await watched.Page.EvaluateAsync<string>(
            "() => [...document.querySelectorAll('[data-grid=emitters] tbody input')].filter(e => e.getBoundingClientRect().right < 390 "
                + "&& e.scrollWidth > e.clientWidth && /Hz|dBm|^\\d+[HKMG]\\d*[A-Z]\\d[A-Z]$/.test(e.value))"
                + ".map(e => e.value).join(', ')"));
    }
}
