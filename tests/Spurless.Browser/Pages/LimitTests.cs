using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Net.WebSockets;
using System.Text;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>How much one run of the pages takes on.</summary>
public class LimitTests(BrowserFixture browser)
{
    private const int MostPages = 50; // as docs/pages.md says

    private static readonly HttpClient Client =
        new(new SocketsHttpHandler { AllowAutoRedirect = false, UseProxy = false, UseCookies = false });

    [Fact]
    public async Task Page_that_is_one_too_many_is_refused_in_words_until_another_is_closed()
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        List<ClientWebSocket> open = [];
        try
        {
            for (int i = 0; i < MostPages; i++)
            {
                open.Add(await ConnectAsync(empty));
            }

            (HttpStatusCode status, string text) = await DocumentAsync(empty);
            Assert.Equal(HttpStatusCode.ServiceUnavailable, status);
            Assert.Equal("50 pages of this folder are open already. Close one of them, then reload this one.", text);
            WebSocketException refused = await Assert.ThrowsAsync<WebSocketException>(() => ConnectAsync(empty));
            Assert.Contains("503", refused.Message, StringComparison.Ordinal);

            open[0].Abort();
            Stopwatch patience = Stopwatch.StartNew();
            while ((status = (await DocumentAsync(empty)).Status) != HttpStatusCode.OK)
            {
                Assert.True(patience.Elapsed < TimeSpan.FromSeconds(30), $"still {status}");
                await Task.Delay(50, TestContext.Current.CancellationToken);
            }

            Assert.Equal("", empty.Errors.Trim());
        }
        finally
        {
            open.ForEach(static s => s.Dispose());
        }
    }

    /// <summary>Who sends a head letter by letter, or a body at a few bytes a second, is cut; others are served meanwhile.</summary>
    [Fact]
    public async Task Sender_that_is_slow_on_purpose_is_cut()
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        string known = $"Host: {empty.Address.Authority}\r\nCookie: {empty.Cookie}\r\n";
        string head = $"GET / HTTP/1.1\r\n{known}";
        string body = $"POST /_blazor/negotiate?negotiateVersion=1 HTTP/1.1\r\n{known}"
            + $"Origin: http://{empty.Address.Authority}\r\nContent-Type: text/plain\r\nContent-Length: 200000\r\n\r\n";
        Task<TimeSpan>[] slow = [DripAsync(empty, head), DripAsync(empty, body)];
        Assert.Equal(HttpStatusCode.OK, (await DocumentAsync(empty)).Status);
        foreach (TimeSpan took in await Task.WhenAll(slow))
        {
            Assert.InRange(took.TotalSeconds, 0, 60); // 10 s for a head, 5 s of grace for a body; the rest is the machine's
        }
    }

    [Fact]
    public async Task Message_beyond_the_limit_ends_its_connection_and_no_other()
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        using ClientWebSocket large = await ConnectAsync(empty);
        using ClientWebSocket other = await ConnectAsync(empty);
        byte[] message = new byte[3 * 1024 * 1024];
        message.AsSpan().Fill(0xFF); // a length of the protocol that goes on
        try
        {
            await large.SendAsync(message, WebSocketMessageType.Binary, endOfMessage: true, TestContext.Current.CancellationToken);
            Assert.True(await EndsAsync(large, TimeSpan.FromSeconds(30)));
        }
        catch (WebSocketException)
        {
            // Cut while it was sending.
        }

        Assert.False(await EndsAsync(other, TimeSpan.FromSeconds(1)));
        Assert.Equal(HttpStatusCode.OK, (await DocumentAsync(empty)).Status);
    }

    /// <summary>
    /// 100 pages opened and closed: the second half takes no more memory than the first left. What a runtime keeps of freed memory differs
    /// by some tens of MB; 50 pages that were kept would be more.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public async Task Memory_is_flat_over_100_pages_opened_and_closed()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Resident memory is read where Linux tells it.");
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        List<long> resident = [];
        string[] pages =
            ["/", "/study/quernmoss.site.yaml", "/site/quernmoss.site.yaml", "/bench/filters/three-tank.circuit.yaml", "/coil"];
        for (int i = 0; i < 100; i++)
        {
            await watched.GoAsync(pages[i % pages.Length]);
            if (i % 10 == 9)
            {
                resident.Add(ResidentMb(demo.ProcessId));
                TestContext.Current.TestOutputHelper?.WriteLine($"{i + 1} pages: {resident[^1]} MB");
            }
        }

        Assert.InRange(resident[^1] - resident[4], -10_000, 60);
    }

    private static long ResidentMb(int process) => long.Parse(
        File.ReadLines($"/proc/{process}/status").Single(static l => l.StartsWith("VmRSS:", StringComparison.Ordinal))["VmRSS:".Length..]
            .Replace("kB", "", StringComparison.Ordinal).Trim(),
        CultureInfo.InvariantCulture) / 1024;

    private static async Task<(HttpStatusCode Status, string Text)> DocumentAsync(ServedFolder served)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, served.Address);
        request.Headers.Add("Cookie", served.Cookie);
        request.Headers.Add("Sec-Fetch-Dest", "document");
        request.Headers.Add("Sec-Fetch-Mode", "navigate");
        using HttpResponseMessage answer = await Client.SendAsync(request);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync());
    }

    private static async Task<ClientWebSocket> ConnectAsync(ServedFolder served)
    {
        ClientWebSocket socket = new();
        socket.Options.Proxy = null;
        socket.Options.SetRequestHeader("Cookie", served.Cookie);
        socket.Options.SetRequestHeader("Origin", $"http://{served.Address.Authority}");
        try
        {
            await socket.ConnectAsync(new Uri($"ws://{served.Address.Authority}/_blazor"), TestContext.Current.CancellationToken);
            // The protocol's greeting, without which a connection is cut after some seconds.
            byte[] greeting = Encoding.UTF8.GetBytes("{\"protocol\":\"blazorpack\",\"version\":1}\u001e");
            await socket.SendAsync(greeting, WebSocketMessageType.Binary, endOfMessage: true, TestContext.Current.CancellationToken);
            return socket;
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }

    private static async Task<bool> EndsAsync(ClientWebSocket socket, TimeSpan within)
    {
        using CancellationTokenSource patience = new(within);
        byte[] buffer = new byte[4096];
        try
        {
            while ((await socket.ReceiveAsync(buffer, patience.Token)).MessageType != WebSocketMessageType.Close)
            {
            }

            return true;
        }
        catch (WebSocketException)
        {
            return true;
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }

    private static async Task<TimeSpan> DripAsync(ServedFolder served, string begins)
    {
        using TcpClient client = new();
        await client.ConnectAsync(IPAddress.Loopback, served.Address.Port);
        NetworkStream stream = client.GetStream();
        Stopwatch watch = Stopwatch.StartNew();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(begins));
        Task<int> ended = EndAsync(stream);
        while (watch.Elapsed < TimeSpan.FromSeconds(90) && await Task.WhenAny(ended, Task.Delay(500)) != ended)
        {
            try
            {
                await stream.WriteAsync("x"u8.ToArray());
            }
            catch (IOException)
            {
                break;
            }
        }

        return watch.Elapsed;
    }

    private static async Task<int> EndAsync(NetworkStream stream)
    {
        byte[] buffer = new byte[4096];
        int read;
        try
        {
            while ((read = await stream.ReadAsync(buffer)) > 0)
            {
            }

            return read;
        }
        catch (IOException)
        {
            return -1;
        }
    }
}
