using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace Spurless.Pages.Shell;

/// <summary>
/// How much one run of the pages takes on: what is beyond is refused in words, cut, or slowed down, never kept for later.
/// </summary>
internal sealed class PageLimits
{
    /// <summary>The most pages that may be open, each with its lasting connection.</summary>
    public const int MostPages = 50;

    /// <summary>The largest message of a page, in bytes: a pasted table.</summary>
    public const long LargestMessage = 2 * 1024 * 1024;

    private const int LargestRequest = 256 * 1024; // files travel over the lasting connection, piece by piece
    private const int MostConnections = 250; // a browser opens up to six beside each lasting one
    private static readonly TimeSpan HeadWithin = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan IdleUntil = TimeSpan.FromSeconds(60);

    private int _pages;

    /// <summary>How many lasting connections there are.</summary>
    public int Pages => Volatile.Read(ref _pages);

    /// <summary>Sets the web server's own limits.</summary>
    public static void Set(KestrelServerLimits limits)
    {
        limits.MaxRequestBodySize = LargestRequest;
        limits.MaxConcurrentConnections = MostConnections;
        limits.RequestHeadersTimeout = HeadWithin;
        limits.KeepAliveTimeout = IdleUntil;
        limits.MinRequestBodyDataRate = new MinDataRate(bytesPerSecond: 1024, gracePeriod: TimeSpan.FromSeconds(5));
    }

    /// <summary>Counts the lasting connections and refuses what is one too many.</summary>
    public async Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        bool lasting = context.Request.Headers.Upgrade.Count > 0;
        if (!lasting)
        {
            bool page = HttpMethods.IsGet(context.Request.Method) && context.Request.Headers["Sec-Fetch-Dest"] == "document";
            await (page && Pages >= MostPages ? RefuseAsync(context) : next(context)).ConfigureAwait(false);
            return;
        }

        if (Interlocked.Increment(ref _pages) > MostPages)
        {
            Interlocked.Decrement(ref _pages);
            await RefuseAsync(context).ConfigureAwait(false);
            return;
        }

        try
        {
            await next(context).ConfigureAwait(false);
        }
        finally
        {
            Interlocked.Decrement(ref _pages);
        }
    }

    private static Task RefuseAsync(HttpContext context)
    {
        context.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(
            FormattableString.Invariant($"{MostPages} pages of this folder are open already. Close one of them, then reload this one."));
    }
}
