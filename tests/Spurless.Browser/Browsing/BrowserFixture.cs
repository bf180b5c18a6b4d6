using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

[assembly: AssemblyFixture(typeof(BrowserFixture))]

namespace Spurless.Browser.Browsing;

/// <summary>One browser for all tests of the assembly.</summary>
public sealed class BrowserFixture : IAsyncLifetime
{
    private IPlaywright _playwright = null!;
    private readonly DirectoryInfo _noFonts = Directory.CreateTempSubdirectory("spurless-fonts-");
    private readonly SemaphoreSlim _launching = new(1);
    private IBrowser _browser = null!;
    private IBrowser? _withoutFonts;

    public async ValueTask InitializeAsync()
    {
        // A machine that builds beside the tests answers late; a page that never answers still fails.
        Assertions.SetDefaultExpectTimeout(180_000);
        _playwright = await Playwright.CreateAsync();
        _browser = await LaunchAsync(NoFonts.AreAsked);
    }

    /// <summary>Opens a page in a context of its own, watched from the beginning.</summary>
    /// <param name="width">Width of the window, in CSS pixels.</param>
    /// <param name="height">Its height.</param>
    /// <param name="dark">Whether the system is set to dark.</param>
    /// <param name="server">The one server that it may ask; null for pages that ask none.</param>
    /// <param name="letIn">Whether it has the cookie of that server, as after a first visit.</param>
    public Task<WatchedPage> OpenAsync(int width, int height, bool dark = false, Uri? server = null, bool letIn = true) =>
        OpenInAsync(_browser, width, height, dark, server, letIn);

    /// <summary>The same in a browser that finds no typeface on its machine; it is started when it is first asked for.</summary>
    public async Task<WatchedPage> OpenWithoutFontsAsync(int width, int height, bool dark = false, Uri? server = null)
    {
        await _launching.WaitAsync();
        try
        {
            _withoutFonts ??= NoFonts.AreAsked ? _browser : await LaunchAsync(withoutFonts: true);
        }
        finally
        {
            _launching.Release();
        }

        return await OpenInAsync(_withoutFonts, width, height, dark, server, letIn: true);
    }

    private Task<IBrowser> LaunchAsync(bool withoutFonts) => _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
    {
        ExecutablePath = ChromiumFinder.Find(Environment.GetEnvironmentVariable),
        Args =
        [
            "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
            "--disable-component-update", "--disable-sync",
        ],
        Env = withoutFonts ? NoFonts.EnvironmentOf(_noFonts.FullName) : null,
        Timeout = 60_000,
    });

    private static async Task<WatchedPage> OpenInAsync(IBrowser browser, int width, int height, bool dark, Uri? server, bool letIn)
    {
        IBrowserContext context = await browser.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = height },
            ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
            ReducedMotion = ReducedMotion.Reduce,
            BaseURL = server?.AbsoluteUri,
        });
        context.SetDefaultTimeout(180_000);
        if (letIn && server is not null && ServedFolder.CookieOf(server) is var (name, value))
        {
            await context.AddCookiesAsync([new Cookie
            {
                Name = name, Value = value, Url = server.AbsoluteUri, HttpOnly = true, SameSite = SameSiteAttribute.Strict,
            }]);
        }

        return new WatchedPage(context, await context.NewPageAsync(), server?.Authority);
    }

    public async ValueTask DisposeAsync()
    {
        if (_withoutFonts is not null && _withoutFonts != _browser)
        {
            await _withoutFonts.CloseAsync();
        }

        if (_browser is not null)
        {
            await _browser.CloseAsync();
        }

        _playwright?.Dispose();
        _launching.Dispose();
        _noFonts.Delete(recursive: true);
    }
}
