using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>A site of which no level is known yet: what can land at all, and what to measure first.</summary>
public class NoLevelsTests(BrowserFixture browser)
{
    // 2 x 160 - 175 = 145: order 3 of two emitters; 160.5 + 159.5 - 175 = 145: order 3 of three. The rest lands by no low order.
    private const string Site = """
        spurless: 1
        site: silent hill (invented)
        receivers:
          - { name: input, frequency: 145 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -10 dBm }
        emitters:
          - { name: crane, frequency: 160 MHz, emission: 11K2F3E }
          - { name: pager, frequency: 175 MHz, emission: 16K0F1D }
          - { name: ferry, frequency: 160.5 MHz, emission: 11K2F3E }
          - { name: pilots, frequency: 159.5 MHz, emission: 11K2F3E }
          - { name: bus, frequency: 167.31 MHz, emission: 11K2F3E }
        search: { orders: 2-3, signals: 3 }

        """;

    [Theory]
    [InlineData(1280)]
    [InlineData(390)]
    public async Task Arithmetic_alone_is_shown_by_order_and_what_to_measure_first(int width)
    {
        await using ServedFolder served = await ServedFolder.EmptyAsync();
        served.Write("silent.site.yaml", Site);
        await using WatchedPage watched = await browser.OpenAsync(width, 900, server: served.Address);
        await watched.GoAsync("/study/silent.site.yaml");
        IPage page = watched.Page;
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync(
            "No level is known yet. By arithmetic alone two mixtures can land on");
        await Assertions.Expect(page.Locator(".finds h3").First).ToContainTextAsync("Order 3, two emitters");
        await Assertions.Expect(page.Locator(".finds h3").Nth(1)).ToContainTextAsync("Order 3, three emitters");
        await Assertions.Expect(page.Locator(".ledger")).Not.ToContainTextAsync("harmful");

        // Carriers without height: five rings on the axis, no stick.
        ILocator picture = page.Locator("#study-picture svg.pic:visible").First;
        await Assertions.Expect(picture.Locator("circle.ball")).ToHaveCountAsync(5);
        await Assertions.Expect(picture.Locator("path.stem")).ToHaveCountAsync(0);
        await Assertions.Expect(picture).ToContainTextAsync("order");

        // The pager takes part in both; with the crane it settles one: 1/2 + 1/3 for the pager, 1/2 for the crane, 1/3 for each other.
        ILocator measure = page.GetByRole(AriaRole.Region, new() { Name = "Measure these first" });
        await Assertions.Expect(measure.Locator("tbody tr").First).ToContainTextAsync("pager");
        await Assertions.Expect(measure.Locator("tbody tr").Nth(1)).ToContainTextAsync("crane");
        await Assertions.Expect(measure.Locator("tbody tr").Nth(1)).ToContainTextAsync("1 of 2");
        await Assertions.Expect(measure).Not.ToContainTextAsync("bus");
        await page.ScreenshotAsync(new() { Path = Artifacts.File($"no-levels-{width}.png"), FullPage = true });
        Assert.Empty((await TextBoxes.LookAsync(page)).Problems);

        await measure.GetByRole(AriaRole.Link, new() { Name = "pager" }).ClickAsync();
        ILocator level = page.GetByLabel("level of pager");
        await Assertions.Expect(level).ToBeFocusedAsync();
        await level.FillAsync("-25");
        await level.PressAsync("Enter");
        await Assertions.Expect(level).ToHaveValueAsync("-25 dBm");
        await page.GetByLabel("level of crane").FillAsync("-20");
        await page.GetByLabel("level of crane").PressAsync("Enter");
        await page.GetByRole(AriaRole.Link, new() { Name = "Study" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("One mixture lands on");
        await Assertions.Expect(measure.Locator("tbody tr")).ToHaveCountAsync(2);
        Assert.Empty(watched.Complaints);
    }
}
