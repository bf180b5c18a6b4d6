using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;
using static Microsoft.Playwright.Assertions;

namespace Spurless.Browser.Pages;

/// <summary>Finding one's way in a long list, and what the bench says of a sweep and takes from the coil calculator.</summary>
public class ListAndCoilTests(BrowserFixture browser, ServeFixture serve)
{
    [Fact]
    public async Task Findings_are_searched_grouped_by_emitter_and_folded()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: demo.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/study/quernmoss.site.yaml");
        ILocator who = page.Locator(".finds .find .who");
        await Expect(page.Locator("#finding-1")).ToBeVisibleAsync();
        int all = await who.CountAsync();
        ILocator search = page.GetByLabel("Find mixtures of an emitter, by name or frequency");
        await search.FillAsync("TELEMETRY");
        await Expect(who).Not.ToHaveCountAsync(all);
        Assert.All(await who.AllTextContentsAsync(), static w => Assert.Contains("telemetry", w, StringComparison.OrdinalIgnoreCase));
        Assert.NotEqual(0, await who.CountAsync());
        await search.FillAsync("no such thing");
        await Expect(page.GetByText("No mixture here is of such an emitter.")).ToBeVisibleAsync();
        await search.FillAsync("");
        await page.GetByLabel("Part the list by the emitter that takes part").CheckAsync();
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("by=emitter"));
        ILocator first = page.Locator(".finds h3").First;
        string name = await first.Locator("button").InnerTextAsync();
        ILocator rows = page.Locator(".finds h3 + ol").First.Locator(".who");
        Assert.All(await rows.AllTextContentsAsync(), w => Assert.Contains(name, w, StringComparison.Ordinal));
        int shown = await who.CountAsync();
        await first.Locator("button").ClickAsync();
        await Expect(first.Locator("button")).ToHaveAttributeAsync("aria-expanded", "false");
        await Expect(who).Not.ToHaveCountAsync(shown);
        Assert.Empty((await TextBoxes.LookAsync(page)).Problems);
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Sweep_is_told_against_the_circuit_in_words_and_lies_in_the_smith_chart()
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/bench/filters/three-tank.circuit.yaml?site=quernmoss.site.yaml&sweep=filters%2Funmarked.s2p");
        await Expect(page.Locator(".against")).ToContainTextAsync("Measured, filters/unmarked.s2p:");
        string says = await page.Locator(".against").InnerTextAsync();
        const string told =
            @"^Measured, filters/unmarked\.s2p: .*(than|loss) computed at 145\.05 MHz, centre .*(high|low|where computed)\.$";
        Assert.Matches(told, says.Replace('\u00A0', ' '));
        Assert.InRange(await page.Locator("figure.smith path.meas").CountAsync(), 5, 400);

        // The circuit against the sweep that was computed from it: no difference is told (demo/filters/three-tank.s2p is the same circuit).
        await page.Locator("select", new() { HasText = "none laid over" }).SelectOptionAsync("filters/three-tank.s2p");
        await Expect(page.Locator(".against")).ToContainTextAsync("Measured, filters/three-tank.s2p:");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Coil_calculator_is_reached_from_an_empty_folder_and_winds_a_part_of_a_circuit()
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 800, server: empty.Address);
        IPage page = watched.Page;
        await watched.GoAsync("/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Wind a coil" }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("are 27.51 nH");
        await Expect(page.Locator(".use")).ToHaveCountAsync(0);
        empty.Write("tank.circuit.yaml",
            "# ours\nspurless_circuit: 1\nname: tank (invented)\nports: { in: a, out: b, impedance: 50 ohm }\nparts:\n"
            + "  C1: { capacitor: 4 pF, between: [a, b] }\n"
            + "  L1: { inductor: unknown, range: [10 nH, 50 nH], between: [b, gnd], q: 160 at 145 MHz }   # wound later\n");
        await page.GetByRole(AriaRole.Button, new() { Name = "Use in L1 of tank.circuit.yaml" }).ClickAsync();
        await Expect(page.GetByText("L1 of tank.circuit.yaml is wound so now")).ToBeVisibleAsync();
        Assert.Contains("  L1: { coil: { turns: 2, diameter: 7 mm, length: 3.8 mm, wire: 1 mm }, between: [b, gnd], q: 160 at 145 MHz "
            + "}   # wound later\n", empty.Read("tank.circuit.yaml"), StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }
}
