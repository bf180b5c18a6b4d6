using System.Globalization;
using Spurless.Pages.Shell;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Pages;

/// <summary>
/// Asks a fresh program for the pages that are opened next, while its first one is being read: the runtime compiles what a study needs when
/// it first runs, and that takes two to three times as long as the study itself.
/// </summary>
/// <param name="time">The clock.</param>
internal sealed class PageWarmUp(TimeProvider time)
{
    // A large file would hold a processor for longer than is saved.
    private const long LargestBytes = 100_000;

    // The first page comes whole, with what it fetches and its lasting connection, before anything else is begun.
    private static readonly TimeSpan AfterFirst = TimeSpan.FromMilliseconds(500);

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private readonly TaskCompletionSource _first = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>The addresses that are asked for.</summary>
    /// <param name="files">The files of the folder.</param>
    /// <returns>The study and the list of the smallest site, then the bench of the smallest circuit, where there are any that are not
    /// large.</returns>
    public static IReadOnlyList<string> Addresses(IReadOnlyList<FolderFile> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        List<string> asked = [];
        if (Smallest(files, FileKind.Site) is { } site)
        {
            asked.Add(PageLinks.AddressOf("study", site));
            asked.Add(PageLinks.AddressOf("site", site));
        }

        if (Smallest(files, FileKind.Circuit) is { } circuit)
        {
            asked.Add(PageLinks.AddressOf("bench", circuit));
        }

        return asked;
    }

    /// <summary>Passes a request on, and takes note of the first page that a browser got.</summary>
    public async Task NoteAsync(HttpContext context, RequestDelegate next)
    {
        await next(context).ConfigureAwait(false);
        if (context.Response.StatusCode == StatusCodes.Status200OK && context.Request.Headers["Sec-Fetch-Dest"] == "document")
        {
            _first.TrySetResult();
        }
    }

    /// <summary>
    /// Waits for the first page, then asks for the others, one after the other. What goes wrong is told to nobody: who opens that page will
    /// see it.
    /// </summary>
    /// <param name="address">Where the program hears.</param>
    /// <param name="secret">What who asks must know.</param>
    /// <param name="folder">The folder.</param>
    /// <param name="cancellationToken">Ends it, at any time and without an exception.</param>
    /// <returns>How many pages came whole.</returns>
    public async Task<int> RunAsync(Uri address, string secret, OpenFolder folder, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(address);
        ArgumentNullException.ThrowIfNull(folder);
        using SocketsHttpHandler handler = new() { UseProxy = false, UseCookies = false, AllowAutoRedirect = false };
        using HttpClient client = new(handler) { Timeout = Patience };
        client.DefaultRequestHeaders.Add(
            "Cookie", string.Create(CultureInfo.InvariantCulture, $"{PageKey.CookieOf(address.Port)}={secret}"));
        int whole = 0;
        try
        {
            await _first.Task.WaitAsync(cancellationToken).ConfigureAwait(false);
            await Task.Delay(AfterFirst, time, cancellationToken).ConfigureAwait(false);
            foreach (string page in Addresses(folder.Files))
            {
                using HttpResponseMessage answer =
                    await client.GetAsync(new Uri(address, page), cancellationToken).ConfigureAwait(false);
                whole += answer.IsSuccessStatusCode ? 1 : 0;
            }
        }
        catch (Exception e) when (e is HttpRequestException or IOException or OperationCanceledException)
        {
            // The program ends, or the machine has other things to do.
        }

        return whole;
    }

    private static string? Smallest(IReadOnlyList<FolderFile> files, FileKind kind) => files
        .Where(f => f.Kind == kind && f.Bytes <= LargestBytes)
        .OrderBy(static f => f.Bytes)
        .ThenBy(static f => f.Name, StringComparer.Ordinal)
        .Select(static f => f.Name)
        .FirstOrDefault();
}
