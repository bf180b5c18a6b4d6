using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>What holds for every page: it becomes live, asks nobody else, and says nothing on the console.</summary>
public class ShellTests(BrowserFixture browser, ServeFixture serve)
{
    [Theory]
    [InlineData("/")]
    [InlineData("/study/quernmoss.site.yaml")]
    public async Task Page_becomes_live_without_a_word_on_the_console(string address)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync(address);
        Assert.NotEmpty(await watched.Page.Locator("h1").InnerTextAsync());
        Assert.Empty(watched.Complaints);
        Assert.Empty(demo.Errors);
    }

    [Fact]
    public async Task Change_in_an_editor_shows_up_in_the_page()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync("/study/quernmoss.site.yaml");
        demo.Write(
            "quernmoss.site.yaml",
            demo.Read("quernmoss.site.yaml").Replace("site: Quernmoss repeater", "site: Renamed by hand", StringComparison.Ordinal));
        await Assertions.Expect(watched.Page.Locator(".steps")).ToContainTextAsync("Renamed by hand");
        Assert.Empty(watched.Complaints);
    }
}
