using System.Collections.Concurrent;
using Microsoft.Playwright;

namespace Spurless.Browser.Browsing;

/// <summary>A page with a watcher: anything on the console, any error and any request beyond the page itself is remembered.</summary>
public sealed class WatchedPage : IAsyncDisposable
{
    private readonly IBrowserContext _context;
    private readonly ConcurrentQueue<string> _complaints = new();

    internal WatchedPage(IBrowserContext context, IPage page)
    {
        (_context, Page) = (context, page);
        page.Console += (_, message) => _complaints.Enqueue($"console {message.Type}: {message.Text}");
        page.PageError += (_, error) => _complaints.Enqueue($"page error: {error}");
        page.RequestFailed += (_, request) => _complaints.Enqueue($"failed request: {request.Url}");
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith("file:", StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal))
            {
                _complaints.Enqueue($"outside request: {request.Url}");
            }
        };
    }

    public IPage Page { get; }

    /// <summary>What the watcher saw, in order.</summary>
    public IReadOnlyList<string> Complaints => [.. _complaints];

    public async ValueTask DisposeAsync() => await _context.CloseAsync();
}
