using System.Globalization;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>The bench's step of tuning: a sweep is dropped again and again, and the page says what to turn.</summary>
public class TuneTests(BrowserFixture browser)
{
    private const string Circuit = "/tune/filters/three-tank.circuit.yaml";

    [Theory]
    [InlineData(1280)]
    [InlineData(390)]
    public async Task Sweep_after_sweep_says_what_to_turn(int width)
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(width, 800, server: demo.Address);
        await watched.GoAsync(Circuit);
        IPage page = watched.Page;
        ILocator answer = page.Locator("h1");
        await Assertions.Expect(answer).ToContainTextAsync("Tick what can be turned");
        foreach (string part in (string[])["C2", "C4", "C6"])
        {
            ILocator box = page.GetByRole(AriaRole.Checkbox, new() { Name = part });
            await box.TakeFocusAsync();
            await page.Keyboard.PressAsync("Space");
            await Assertions.Expect(box).ToBeCheckedAsync();
        }

        await Assertions.Expect(answer).ToContainTextAsync("Drop a sweep of what you built");

        // The demo's own sweep, as if all of it stood one and a half per cent lower.
        string built = Lower(demo.Read("filters/three-tank.s2p"), 0.985);
        demo.Write("filters/built.s2p", built);
        ILocator sweeps = page.GetByRole(AriaRole.Combobox, new() { Name = "Sweep" });
        await Assertions.Expect(sweeps.Locator("option[value='filters/built.s2p']")).ToHaveCountAsync(1);
        await sweeps.SelectOptionAsync("filters/built.s2p");
        ILocator list = page.GetByRole(AriaRole.Region, new() { Name = "What to turn" });
        await Assertions.Expect(list).ToContainTextAsync("less: plates further out", new() { Timeout = 180_000 });
        await Assertions.Expect(answer).ToContainTextAsync("It is not within the mask");
        await Assertions.Expect(answer).ToContainTextAsync("next, then sweep again.");
        (IReadOnlyList<string> problems, int texts) = await TextBoxes.LookAsync(page);
        await page.ScreenshotAsync(
            new PageScreenshotOptions { Path = Artifacts.File(FormattableString.Invariant($"tune-{width}.png")), FullPage = true });
        Assert.True(problems.Count == 0, string.Join('\n', problems));
        Assert.InRange(texts, 30, 10_000);
        AxeFindings axe = await page.RulesAsync();
        Assert.True(axe.Violations.Count == 0, string.Join('\n', axe.Violations.Select(static v => $"{v.Id}: {v.Nodes[0].Html}")));

        // The same name once more: nothing is written over, the second gets a number, and both stand in the list.
        await page.Locator("input[type=file][data-drop]").GiveAsync(
            new FilePayload { Name = "built.s2p", MimeType = "text/plain", Buffer = System.Text.Encoding.UTF8.GetBytes(built) });
        await Assertions.Expect(page.GetByRole(AriaRole.Region, new() { Name = "Sweeps so far" })).ToContainTextAsync(
            "filters/built-2.s2p", new() { Timeout = 180_000 });
        Assert.Equal(built, demo.Read("filters/built.s2p"));
        Assert.Empty(watched.Complaints);
    }

    private static string Lower(string sweep, double factor) => string.Join('\n', sweep.Split('\n').Select(line =>
    {
        string[] words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return words.Length == 9 && double.TryParse(words[0], CultureInfo.InvariantCulture, out double f)
            ? string.Join(' ', words.Skip(1).Prepend((f * factor).ToString("G12", CultureInfo.InvariantCulture)))
            : line;
    }));
}
