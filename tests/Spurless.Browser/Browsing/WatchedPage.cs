using System.Collections.Concurrent;
using Microsoft.Playwright;

namespace Spurless.Browser.Browsing;

/// <summary>A page with a watcher: anything on the console, any error and any request beyond the page itself is remembered.</summary>
public sealed class WatchedPage : IAsyncDisposable
{
    private readonly IBrowserContext _context;
    private readonly ConcurrentQueue<string> _complaints = new();

    /// <param name="context">Its context, closed with it.</param>
    /// <param name="page">The page.</param>
    /// <param name="authority">The one server that it may ask, like <c>127.0.0.1:8473</c>; null for none.</param>
    internal WatchedPage(IBrowserContext context, IPage page, string? authority = null)
    {
        (_context, Page) = (context, page);
        page.Console += (_, message) => _complaints.Enqueue($"console {message.Type}: {message.Text}");
        page.PageError += (_, error) => _complaints.Enqueue($"page error: {error}");
        page.RequestFailed += (_, request) =>
        {
            // Who leaves a page before its frame has come ends that request: no fault.
            if (request.Failure != "net::ERR_ABORTED")
            {
                _complaints.Enqueue($"failed request: {request.Url} {request.Failure}");
            }
        };
        page.Response += (_, response) =>
        {
            if (response.Status >= 400)
            {
                _complaints.Enqueue($"status {response.Status}: {response.Url}");
            }
        };
        page.WebSocket += (_, socket) =>
        {
            if (authority is null || !socket.Url.StartsWith($"ws://{authority}/", StringComparison.Ordinal))
            {
                _complaints.Enqueue($"outside connection: {socket.Url}");
            }
        };
        page.Request += (_, request) =>
        {
            bool inside = request.Url.StartsWith("data:", StringComparison.Ordinal)
                || (authority is null
                    ? request.Url.StartsWith("file:", StringComparison.Ordinal)
                    : request.Url.StartsWith($"http://{authority}/", StringComparison.Ordinal)
                        || request.Url.StartsWith($"blob:http://{authority}/", StringComparison.Ordinal));
            if (!inside)
            {
                _complaints.Enqueue($"outside request: {request.Url}");
            }
        };
    }

    public IPage Page { get; }

    /// <summary>What the watcher saw, in order.</summary>
    public IReadOnlyList<string> Complaints => [.. _complaints];

    /// <summary>Forgets what it saw: a test that cuts the connection on purpose does so once it is back.</summary>
    public void Forgive() => _complaints.Clear();

    /// <summary>Waits until the page hears its user.</summary>
    public Task LiveAsync() => Page.Locator(".page[data-live=yes]").WaitForAsync();

    /// <summary>Goes to an address of a page and waits until it is live.</summary>
    public async Task GoAsync(string address)
    {
        await Page.GotoAsync(address);
        await LiveAsync();
    }

    public async ValueTask DisposeAsync() => await _context.CloseAsync();
}
