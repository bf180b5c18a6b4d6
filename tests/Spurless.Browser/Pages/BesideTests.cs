using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>Two circuits, or two sweeps, in one picture, with their difference in words.</summary>
public class BesideTests(BrowserFixture browser)
{
    private const string Bench = "/bench/filters/three-tank.circuit.yaml?site=quernmoss.site.yaml";

    [Fact]
    public async Task Circuit_beside_another_is_dashed_in_every_picture_and_told_in_words()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        // The same filter with its inductors up by 2 %: its centre falls by 1 % of 145 MHz, 1.4 MHz, somewhat less where others couple.
        string other = demo.Read("filters/three-tank.circuit.yaml").Replace("27.6 nH", "28.15 nH", StringComparison.Ordinal)
            .Replace("28.6 nH", "29.17 nH", StringComparison.Ordinal);
        demo.Write("filters/other.circuit.yaml", other);
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        IPage page = watched.Page;
        await watched.GoAsync(Bench);
        await page.GetByLabel("Another circuit or sweep, laid beside it").SelectOptionAsync("filters/other.circuit.yaml");
        ILocator says = page.Locator(".against.beside");
        await Assertions.Expect(says).ToContainTextAsync("filters/other.circuit.yaml:");
        string told = (await says.InnerTextAsync()).Replace('\u00A0', ' ');
        Assert.Matches(@"more loss at 145\.05 MHz, centre (1|1\.[0-6]\d*) MHz lower, .*than the circuit here\.$", told);
        await Assertions.Expect(page.Locator("#bench-picture path.curve.second")).Not.ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator("figure.smith path.curve.second")).ToHaveCountAsync(1);
        await Assertions.Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("beside=filters%2Fother"));
        await page.ScreenshotAsync(new() { Path = Artifacts.File("beside-1280.png"), FullPage = true });
        Assert.Empty((await TextBoxes.LookAsync(page)).Problems);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Two_sweeps_are_held_against_each_other()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(390, 844, server: demo.Address);
        IPage page = watched.Page;
        await watched.GoAsync(Bench + "&sweep=filters%2Fthree-tank.s2p&beside=filters%2Funmarked.s2p");
        await Assertions.Expect(page.Locator(".against.beside")).ToContainTextAsync("filters/unmarked.s2p:");
        await Assertions.Expect(page.Locator(".against.beside")).ToContainTextAsync("than filters/three-tank.s2p");
        await Assertions.Expect(page.Locator("#bench-picture")).ToContainTextAsync("measured, filters/unmarked.s2p");
        await page.ScreenshotAsync(new() { Path = Artifacts.File("beside-390.png"), FullPage = true });
        Assert.Empty(watched.Complaints);
    }
}
