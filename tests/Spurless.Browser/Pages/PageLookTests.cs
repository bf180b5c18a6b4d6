using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>
/// Every page at both widths, light and dark: a picture to look at, no text cut off or over another, no accessibility rule broken.
/// </summary>
public class PageLookTests(BrowserFixture browser, ServeFixture serve)
{
    public static TheoryData<string, string> Pages => new()
    {
        // The others are looked at by EveryPageTests.
        { "site-text", "/site/quernmoss.site.yaml?text=yes" },
        { "report-filter", "/report/filters/three-tank.circuit.yaml" },
        { "lost", "/no/such/page" },
    };

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_at_any_width_and_theme_is_whole_and_keeps_the_rules(string name, string address)
    {
        ServedFolder demo = await serve.DemoAsync();
        List<string> wrong = [];
        foreach (int width in (int[])[1280, 390])
        {
            await using WatchedPage watched = await browser.OpenAsync(width, 900, server: demo.Address);
            await watched.GoAsync(address);
            await SettledAsync(watched.Page);
            foreach (bool dark in (bool[])[false, true])
            {
                string place = $"{name} {width} {(dark ? "dark" : "light")}: ";
                await watched.Page.EmulateMediaAsync(
                    new PageEmulateMediaOptions { ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light });
                await watched.Page.ScreenshotAsync(
                    new PageScreenshotOptions
                    {
                        Path = Artifacts.File($"page-{name}-{width}-{(dark ? "dark" : "light")}.png"),
                        FullPage = true,
                    });
                if (dark != (width == 390))
                {
                    // colours are rules of their own: each theme is held against them at one width, the rest does not depend on it
                    continue;
                }

                (IReadOnlyList<string> problems, int texts) = await TextBoxes.LookAsync(watched.Page);
                wrong.AddRange(problems.Select(p => place + p));
                Assert.InRange(texts, 3, 10_000);
                AxeFindings axe = await watched.Page.RulesAsync();
                wrong.AddRange(
                    axe.Violations.Select(v => $"{place}{v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Select(static n => n.Html))}"));
                Assert.NotEmpty(axe.Passes);
            }

            wrong.AddRange(
                watched.Complaints
                    .Where(c => name != "lost" || !c.Contains("404", StringComparison.Ordinal))
                    .Select(c => $"{name} {width}: {c}"));
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        Assert.Empty(demo.Errors);
    }

    /// <summary>Waits until nothing is being read any more and a frame is filled.</summary>
    internal static async Task SettledAsync(IPage page)
    {
        await Assertions.Expect(page.Locator("progress")).ToHaveCountAsync(0);
        foreach (IFrame frame in page.Frames)
        {
            await frame.WaitForLoadStateAsync(LoadState.Load);
        }
    }
}
