namespace Spurless.Pages.Shell;

/// <summary>
/// What every request passes first. A page of another origin must not reach the user's files by way of the user's browser: the name asked
/// for must be this machine's own (a foreign name that was made to resolve here is refused), and whoever says where it comes from must come
/// from here. Nor must another user or program of this machine: who asks must know the secret.
/// </summary>
/// <param name="key">The secret.</param>
internal sealed class PageGuard(PageKey key)
{
    /// <summary>The policy of the pages: everything from here, no script or style within the page.</summary>
    public const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; media-src 'self'; "
            + "connect-src 'self'; frame-src 'self'; form-action 'self'; base-uri 'self'; frame-ancestors 'none'";

    /// <summary>Refuses what comes from elsewhere, and says how an answer may be used.</summary>
    public Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        HttpRequest request = context.Request;
        IHeaderDictionary answer = context.Response.Headers;
        answer.XContentTypeOptions = "nosniff";
        answer["Referrer-Policy"] = "no-referrer";
        answer["Cross-Origin-Resource-Policy"] = "same-origin";
        answer["Cross-Origin-Opener-Policy"] = "same-origin";
        answer["Permissions-Policy"] = "camera=(), geolocation=(), microphone=(self)";
        answer.ContentSecurityPolicy = Policy;
        answer.CacheControl = "no-store";

        int port = context.Connection.LocalPort;
        if (!IsHere(request.Host, port))
        {
            return RefuseAsync(context, "This address is not the one the program told. Open the address that it printed.");
        }

        string? origin = request.Headers.Origin;
        bool foreign = origin is not null && !string.Equals(origin, $"http://{request.Host.Value}", StringComparison.OrdinalIgnoreCase);
        string? site = request.Headers["Sec-Fetch-Site"];
        bool followed = HttpMethods.IsGet(request.Method)
            && request.Headers["Sec-Fetch-Mode"] == "navigate"
            && request.Headers["Sec-Fetch-Dest"] == "document";
        // a link to a view may stand in a letter; to look changes nothing
        bool crossed = (site is "cross-site" or "same-site") && !followed;
        bool changes = context.WebSockets.IsWebSocketRequest
            || request.Headers.Upgrade.Count > 0
            || !(HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method));
        bool unnamed = changes && origin is null && site is null;
        if (foreign || crossed || unnamed)
        {
            return RefuseAsync(context, "Another page asked for this. Open the address that the program printed yourself.");
        }

        if (HttpMethods.IsGet(request.Method) && !changes && request.Query[PageKey.Word] is [{ Length: > 0 } given])
        {
            if (!key.Opens(given))
            {
                return RefuseAsync(context, PageKey.Refusal);
            }

            key.LetIn(context, port);
            return Task.CompletedTask;
        }

        return key.Admits(request, port) ? next(context) : RefuseAsync(context, PageKey.Refusal);
    }

    private static bool IsHere(HostString host, int port) =>
        host.Host is "127.0.0.1" or "localhost" && (host.Port ?? 80) == port;

    private static Task RefuseAsync(HttpContext context, string why)
    {
        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(why);
    }
}
