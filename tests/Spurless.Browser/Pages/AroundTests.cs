using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>The page of what transmits round a site.</summary>
public class AroundTests(BrowserFixture browser)
{
    [Fact]
    public async Task Register_files_and_a_sweep_that_are_dropped_fill_the_site_file_with_clicks()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync("/site/unlisted.site.yaml");
        await watched.Page.GetByRole(AriaRole.Link, new() { Name = "From the register" }).ClickAsync();
        await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("is not known here yet");

        string register = Path.Combine(demo.Folder, "register");
        await Assertions.Expect(watched.Page.Locator("fieldset.asked legend")).ToHaveTextAsync("From the register");
        await watched.Page.GetByLabel("Choose your regulator’s files").GiveAsync(
            [Path.Combine(register, "extract.register.csv"), Path.Combine(register, "extract.columns.yaml")]);
        await Assertions.Expect(watched.Page.Locator("h1")).ToContainTextAsync("licensed transmitters stand within 25 km");
        await Assertions.Expect(watched.Page.GetByRole(AriaRole.Img, new() { Name = "What is licensed round", Exact = false }))
            .ToBeVisibleAsync();

        await watched.Page.GetByRole(AriaRole.Button, new() { Name = "Take QQA1 153.35 MHz over" }).ClickAsync();
        await Assertions.Expect(watched.Page.GetByText("QQA1 153.35 MHz taken over", new() { Exact = true })).ToBeVisibleAsync();
        Assert.Contains(
            "- name: QQA1 153.35 MHz    # from the register invented extract", demo.Read("unlisted.site.yaml"), StringComparison.Ordinal);

        await watched.GoAsync("/around/unlisted.site.yaml?intake=sweep");
        await Assertions.Expect(watched.Page.Locator("fieldset legend").First).ToHaveTextAsync("From a sweep");
        await watched.Page.GetByLabel("Choose a sweep or a recording").GiveAsync([Path.Combine(demo.Folder, "sweeps", "hill.sweep.csv")]);
        await watched.Page.GetByRole(AriaRole.Button, new() { Name = "Take line 157.5 MHz over", Exact = true }).ClickAsync();
        await Assertions.Expect(watched.Page.GetByText("line 157.5 MHz taken over", new() { Exact = true })).ToBeVisibleAsync();
        Assert.Contains("- name: line 157.5 MHz", demo.Read("unlisted.site.yaml"), StringComparison.Ordinal);
        Assert.Empty(watched.Complaints);
    }
}
