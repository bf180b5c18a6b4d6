using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Shell;

/// <summary>
/// Who may look: other users and programs of this machine reach its ports too. The printed address has the secret; a browser that was there
/// once keeps it in a cookie that pages of other sites can neither read nor send.
/// </summary>
/// <param name="secret">The secret.</param>
/// <param name="time">The clock.</param>
internal sealed class PageKey(string secret, TimeProvider time)
{
    /// <summary>The word of the address before the secret.</summary>
    public const string Word = "key";

    /// <summary>What who does not know the secret is told.</summary>
    public const string Refusal =
        "These pages are for who started the program. Open the address that it printed behind 'listening on', with its key; "
            + "each browser needs it once.";

    private static readonly TimeSpan TicketHolds = TimeSpan.FromMinutes(2);
    private static readonly TimeSpan CookieHolds = TimeSpan.FromDays(30);

    private readonly Lock _gate = new();
    private (byte[] Text, DateTimeOffset End)? _ticket;

    private byte[] Secret { get; } = Encoding.ASCII.GetBytes(secret);

    /// <summary>An address with the secret.</summary>
    public static Uri AddressOf(Uri address, string secret) => new(address, $"?{Word}={secret}");

    /// <summary>The name of the cookie: browsers keep one cookie of a name for all ports of a machine.</summary>
    public static string CookieOf(int port) => string.Create(CultureInfo.InvariantCulture, $"spurless-{port}");

    /// <summary>
    /// A word that opens the pages once, within two minutes, for the command that starts the browser: what stands on a command line can be
    /// read by other users of the machine.
    /// </summary>
    public string Ticket()
    {
        string ticket = FolderKey.Fresh();
        lock (_gate)
        {
            _ticket = (Encoding.ASCII.GetBytes(ticket), time.GetUtcNow() + TicketHolds);
        }

        return ticket;
    }

    /// <summary>Whether a request brings the cookie.</summary>
    public bool Admits(HttpRequest request, int port) => request.Cookies[CookieOf(port)] is { } given && IsSecret(given);

    /// <summary>Whether a word of an address opens the pages; a ticket does so once.</summary>
    public bool Opens(string given)
    {
        if (IsSecret(given))
        {
            return true;
        }

        lock (_gate)
        {
            if (_ticket is not { } ticket || !IsSame(ticket.Text, given))
            {
                return false;
            }

            _ticket = null;
            return time.GetUtcNow() <= ticket.End;
        }
    }

    /// <summary>Lets a browser in: it gets the cookie, and the address without the secret.</summary>
    public void LetIn(HttpContext context, int port)
    {
        HttpRequest request = context.Request;
        context.Response.Cookies.Append(CookieOf(port), secret, new CookieOptions
        {
            HttpOnly = true,
            SameSite = SameSiteMode.Strict,
            Path = "/",
            MaxAge = CookieHolds,
            IsEssential = true,
        });
        QueryString rest = QueryString.Create(request.Query.Where(static q => q.Key != Word));
        context.Response.StatusCode = StatusCodes.Status303SeeOther;
        context.Response.Headers.Location = $"http://{request.Host.Value}{request.Path.ToUriComponent()}{rest.ToUriComponent()}";
    }

    private static bool IsSame(byte[] text, string given) => CryptographicOperations.FixedTimeEquals(text, Encoding.UTF8.GetBytes(given));

    private bool IsSecret(string given) => IsSame(Secret, given);
}
