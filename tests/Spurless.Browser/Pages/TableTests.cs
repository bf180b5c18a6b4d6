using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>Somebody's table into a site: columns are shown and changed before anything is written.</summary>
public class TableTests(BrowserFixture browser)
{
    private const string File = "quernmoss.site.yaml";

    [Fact]
    public async Task Foreign_rows_that_are_pasted_ask_which_column_is_which_and_are_written_in_one_step()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync($"/site/{File}");
        IPage page = watched.Page;
        string before = demo.Read(File);
        ILocator next = page.GetByLabel("name of new emitter");
        await next.TakeFocusAsync();
        await next.EvaluateAsync(
            "(e, text) => { const d = new DataTransfer(); d.setData('text/plain', text); "
                + "e.dispatchEvent(new ClipboardEvent('paste', { clipboardData: d, bubbles: true, cancelable: true })); }",
            "Station;Frequency (MHz);Heard;Gain\nferry pier;156,800;-41,5;3\nport tugs;156,6;;\nlost;;-40;\n");
        ILocator step = page.GetByRole(AriaRole.Region, new() { Name = "A table on its way into the site" });
        await Assertions.Expect(step.GetByRole(AriaRole.Heading).First).ToContainTextAsync(
            "Two emitters of the table can be written, one row left out");
        await Assertions.Expect(step).ToContainTextAsync("line 4: the row has no frequency");
        await Assertions.Expect(step).ToContainTextAsync("156.800 MHz");
        Assert.Equal(before, demo.Read(File));

        await step.GetByLabel("Heard is taken for").SelectOptionAsync("level");
        await Assertions.Expect(step).ToContainTextAsync("-41.5 dBm");
        await Assertions.Expect(step.GetByLabel("Unit of Gain")).ToHaveValueAsync("");
        await Assertions.Expect(step).ToContainTextAsync("line 2, Gain, this cell alone: '3' has no unit");
        await step.GetByLabel("Unit of Gain").SelectOptionAsync("dBd");
        await Assertions.Expect(step).ToContainTextAsync("3 dBd");
        await step.ScreenshotAsync(new() { Path = Artifacts.File("table-step.png") });
        await step.GetByRole(AriaRole.Button, new() { Name = $"Write two emitters into {File}" }).ClickAsync();
        await Assertions.Expect(page.GetByLabel("level of ferry pier")).ToHaveValueAsync("-41.5 dBm");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("19 emitters; nothing is wrong");
        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("17 emitters");
        Assert.Equal(before, demo.Read(File));

        // The same maker's next table is known by its head.
        await page.GetByText("Emitters from a table", new() { Exact = true }).ClickAsync();
        await page.GetByLabel("Rows from a spreadsheet").FillAsync("Station;Frequency (MHz);Heard;Gain\nquay crane;157,100;-50;2\n");
        await page.GetByRole(AriaRole.Button, new() { Name = "Look at its columns" }).ClickAsync();
        await Assertions.Expect(step).ToContainTextAsync("2 dBd");
        await Assertions.Expect(step).ToContainTextAsync("-50 dBm");
        await step.GetByRole(AriaRole.Button, new() { Name = "Leave it" }).ClickAsync();
        await Assertions.Expect(step).ToHaveCountAsync(0);
        Assert.Empty(watched.Complaints);
    }

    [Theory]
    [InlineData(1280)]
    [InlineData(390)]
    public async Task Table_that_was_dropped_into_the_folder_is_attached_to_a_site_by_a_button(int width)
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(width, 900, server: demo.Address);
        await watched.GoAsync("/");
        IPage page = watched.Page;
        await page.GetByLabel("Add files").GiveAsync(new FilePayload
        {
            Name = "port.csv",
            MimeType = "text/csv",
            Buffer = "Station,TX freq,RX freq,Signal\nferry pier,156.800,156.800,-41\nport tugs,161.500,156.900,-50\n"u8.ToArray(),
        });
        await page.GetByRole(AriaRole.Link, new() { Name = "Put into a site of port.csv" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync($"port.csv goes into");
        await page.GetByLabel("The site that it goes into").SelectOptionAsync(File);
        await Assertions.Expect(page.GetByLabel("TX freq is taken for")).ToHaveValueAsync("frequency");
        await Assertions.Expect(page.GetByLabel("RX freq is taken for")).ToHaveValueAsync("");
        await page.ScreenshotAsync(new() { Path = Artifacts.File($"table-{width}.png"), FullPage = true });
        await page.GetByRole(AriaRole.Button, new() { Name = $"Attach the table to {File}" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync($"{File} takes emitters from port.emitters.csv now");
        Assert.Contains("emitters_from: port.emitters.csv", demo.Read(File), StringComparison.Ordinal);
        await page.GetByRole(AriaRole.Link, new() { Name = "Look at the site" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("19 emitters; nothing is wrong");
        Assert.Empty(watched.Complaints);
        Assert.Empty(demo.Errors);
    }
}
