using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;
using static Microsoft.Playwright.Assertions;

namespace Spurless.Browser.Pages;

/// <summary>
/// Every page leads to its words, cautions and how-to, and they are read without a network: the watcher complains of any other request.
/// </summary>
public class HelpTests(BrowserFixture browser, ServeFixture serve)
{
    [Fact]
    public async Task Every_page_leads_to_its_words_cautions_and_how_to_and_no_link_of_them_is_dead()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        IPage page = watched.Page;
        HashSet<string> texts = [];
        foreach (string address in (string[])
        [
            "/", "/site/quernmoss.site.yaml", "/study/quernmoss.site.yaml", "/around/quernmoss.site.yaml",
                "/bench/filters/three-tank.circuit.yaml",
            "/build/filters/three-tank.circuit.yaml", "/fit/filters/unmarked.circuit.yaml", "/coil", "/relay/quernmoss.bypass.yaml",
            "/receiver/quernmoss.receiver.yaml",
            "/report/quernmoss.site.yaml",
        ])
        {
            await watched.GoAsync(address);
            if (address.StartsWith("/report/", StringComparison.Ordinal))
            {
                await page.WaitForLoadStateAsync(LoadState.NetworkIdle); // its frame has come: leaving it half-way would be a complaint
            }

            string[] to = await page.EvaluateAsync<string[]>(
                "() => [...document.querySelectorAll('nav[aria-label=Help] a')].map(a => a.getAttribute('href'))");
            Assert.Contains("/help/words", to);
            Assert.Contains("/help/cautions", to);
            Assert.Contains("/help/how-to", to);
            texts.UnionWith(to);
        }

        // From text to text, until all that is linked was seen, with its heading where the link names one.
        Queue<string> open = new(texts);
        while (open.TryDequeue(out string? at))
        {
            await page.GotoAsync(at);
            await Expect(page.Locator("article.help h1")).ToHaveCountAsync(1);
            if (at.Split('#') is [_, { Length: > 0 } place])
            {
                Assert.True(await page.EvaluateAsync<bool>("id => document.getElementById(id) !== null", place), at);
            }

            foreach (string next in await page.EvaluateAsync<string[]>(
                "() => [...document.querySelectorAll('article.help a')].map(a => a.getAttribute('href'))"))
            {
                Assert.StartsWith("/help/", next, StringComparison.Ordinal);
                if (texts.Add(next))
                {
                    open.Enqueue(next);
                }
            }
        }

        Assert.Empty(watched.Complaints);
    }

    [Theory]
    [InlineData("/study/quernmoss.site.yaml", "#study-picture svg")]
    [InlineData("/bench/filters/three-tank.circuit.yaml", "#bench-picture svg")]
    [InlineData("/build/filters/three-tank.circuit.yaml", "svg.onestop")]
    [InlineData("/site/quernmoss.site.yaml", "table.edit")]
    [InlineData("/", "table.files-t")]
    public async Task Print_of_a_page_holds_its_content_and_not_its_controls(string address, string content)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync(address);
        await Expect(watched.Page.Locator(content).First).ToBeVisibleAsync();
        await watched.Page.EmulateMediaAsync(new() { Media = Media.Print });
        await Expect(watched.Page.Locator(content).First).ToBeVisibleAsync();
        await Expect(watched.Page.Locator("h1")).ToBeVisibleAsync();
        string[] controls = await watched.Page.EvaluateAsync<string[]>("""
            () => [...document.querySelectorAll('header.head, nav, footer, select, input[type=range], button.do, button.may, button.plain')]
              .filter(e => !e.matches('.part-name'))
              .filter(e => e.checkVisibility() && e.getClientRects().length > 0).map(e => e.outerHTML.slice(0, 120))
            """);
        Assert.Empty(controls);
    }

    [Theory]
    [InlineData(1280)]
    [InlineData(390)]
    public async Task Texts_break_no_rule(int width)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(width, 900, server: demo.Address);
        foreach (string text in (string[])["how-to", "words", "cautions"])
        {
            await watched.GoAsync("/help/" + text);
            AxeFindings axe = await watched.Page.RulesAsync();
            Assert.Empty(axe.Violations.Select(static v =>
                $"{v.Id}: {v.Help} at {string.Join(", ", v.Nodes.Take(3).Select(static n => n.Html))}"));
            Assert.True(await watched.Page.EvaluateAsync<bool>(
                "() => document.documentElement.scrollWidth <= document.documentElement.clientWidth"), $"{text} is wider than {width}");
            await watched.Page.ScreenshotAsync(new() { Path = Artifacts.File($"help-{text}-{width}.png") });
        }

        Assert.Empty(watched.Complaints);
    }
}
