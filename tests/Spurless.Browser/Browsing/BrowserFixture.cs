using Microsoft.Playwright;
using Spurless.Browser.Browsing;

[assembly: AssemblyFixture(typeof(BrowserFixture))]

namespace Spurless.Browser.Browsing;

/// <summary>One browser for all tests of the assembly.</summary>
public sealed class BrowserFixture : IAsyncLifetime
{
    private IPlaywright _playwright = null!;
    private IBrowser _browser = null!;

    public async ValueTask InitializeAsync()
    {
        // A machine that builds beside the tests answers late; a page that never answers still fails.
        Assertions.SetDefaultExpectTimeout(20_000);
        string executable = ChromiumFinder.Find(Environment.GetEnvironmentVariable);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = executable,
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
            Timeout = 20_000,
        });
    }

    /// <summary>Opens a page in a context of its own, watched from the beginning.</summary>
    /// <param name="width">Width of the window, in CSS pixels.</param>
    /// <param name="height">Its height.</param>
    /// <param name="dark">Whether the system is set to dark.</param>
    /// <param name="server">The one server that it may ask; null for pages that ask none.</param>
    public async Task<WatchedPage> OpenAsync(int width, int height, bool dark = false, Uri? server = null)
    {
        IBrowserContext context = await _browser.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = height },
            ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
            ReducedMotion = ReducedMotion.Reduce,
            BaseURL = server?.AbsoluteUri,
        });
        context.SetDefaultTimeout(15_000);
        return new WatchedPage(context, await context.NewPageAsync(), server?.Authority);
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.CloseAsync();
        }

        _playwright?.Dispose();
    }
}
