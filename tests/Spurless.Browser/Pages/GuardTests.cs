using System.Net;
using System.Net.Sockets;
using System.Net.WebSockets;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>Who is let in: asked without a browser, as an attacker would.</summary>
public class GuardTests(ServeFixture serve)
{
    // A redirection is an answer too, and a path must arrive as it is written.
    private static readonly HttpClient Client =
        new(new SocketsHttpHandler { AllowAutoRedirect = false, UseProxy = false, UseCookies = false });

    [Theory]
    [InlineData("Host", "evil.example")]
    [InlineData("Host", "127.0.0.1:1")]
    [InlineData("Host", "127.0.0.1.evil.example")]
    [InlineData("Origin", "http://evil.example")]
    [InlineData("Origin", "null")]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    public async Task Request_that_comes_from_elsewhere_is_refused(string header, string value)
    {
        ServedFolder demo = await serve.DemoAsync();
        foreach (
            string path in new[]
            {
                "",
                "study/quernmoss.site.yaml",
                "reports/json/quernmoss.site.yaml",
                "assets/shell.js",
                "alive",
                "_blazor/initializers",
            })
        {
            using HttpRequestMessage request = LetIn(demo, HttpMethod.Get, path);
            request.Headers.TryAddWithoutValidation(header, value);
            using HttpResponseMessage answer = await Client.SendAsync(request);
            Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
            Assert.DoesNotContain("Quernmoss", await answer.Content.ReadAsStringAsync(), StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public async Task Post_that_does_not_say_where_it_comes_from_is_refused()
    {
        ServedFolder demo = await serve.DemoAsync();
        using HttpRequestMessage request = LetIn(demo, HttpMethod.Post, "_blazor/negotiate?negotiateVersion=1");
        using HttpResponseMessage answer = await Client.SendAsync(request);
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    [Theory]
    [InlineData("http://evil.example")]
    [InlineData("http://localhost:1")]
    [InlineData(null)]
    public async Task Connection_from_a_page_of_another_origin_is_refused(string? origin)
    {
        ServedFolder demo = await serve.DemoAsync();
        using ClientWebSocket socket = new();
        socket.Options.Proxy = null;
        socket.Options.SetRequestHeader("Cookie", demo.Cookie);
        if (origin is not null)
        {
            socket.Options.SetRequestHeader("Origin", origin);
        }

        WebSocketException refused = await Assert.ThrowsAsync<WebSocketException>(
            () => socket.ConnectAsync(new Uri($"ws://{demo.Address.Authority}/_blazor"), TestContext.Current.CancellationToken));
        Assert.Contains("403", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Link_from_a_letter_opens_the_page()
    {
        ServedFolder demo = await serve.DemoAsync();
        using HttpRequestMessage request = LetIn(demo, HttpMethod.Get, "site/quernmoss.site.yaml");
        request.Headers.Add("Sec-Fetch-Site", "cross-site");
        request.Headers.Add("Sec-Fetch-Mode", "navigate");
        request.Headers.Add("Sec-Fetch-Dest", "document");
        using HttpResponseMessage answer = await Client.SendAsync(request);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Fact]
    public async Task Answers_forbid_what_a_page_does_not_need()
    {
        ServedFolder demo = await serve.DemoAsync();
        using HttpRequestMessage request = LetIn(demo, HttpMethod.Get, "");
        using HttpResponseMessage answer = await Client.SendAsync(request);
        string policy = answer.Headers.GetValues("Content-Security-Policy").Single();
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.Contains("connect-src 'self'", policy, StringComparison.Ordinal);
        Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.Equal("no-referrer", answer.Headers.GetValues("Referrer-Policy").Single());
        Assert.False(answer.Headers.Contains("Server"));
        Assert.All(
            answer.Headers.TryGetValues("Set-Cookie", out IEnumerable<string>? cookies) ? cookies : [],
            static c => Assert.Contains("samesite=strict; httponly", c, StringComparison.OrdinalIgnoreCase));
        string html = await answer.Content.ReadAsStringAsync();
        Assert.DoesNotContain(" style=", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<style", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotMatch("<script(?![^>]* src=)", html);
        Assert.DoesNotMatch("(src|href)=\"https?:", html);
    }

    [Theory]
    [InlineData("/reports/json/..%2Fsecret.site.yaml")]
    [InlineData("/reports/json/%2E%2E/secret.site.yaml")]
    [InlineData("/reports/json//etc/passwd")]
    [InlineData("/reports/json/%2Fetc%2Fpasswd")]
    [InlineData("/reports/json/link.site.yaml")]
    [InlineData("/reports/json/out/secret.site.yaml")]
    [InlineData("/reports/json/.hidden.site.yaml")]
    [InlineData("/reports/json/..%5Csecret.site.yaml")]
    [InlineData("/site/..%2Fsecret.site.yaml")]
    [InlineData("/study/link.site.yaml")]
    [InlineData("/report/out/secret.site.yaml")]
    [InlineData("/assets/..%2F..%2Fspurless.dll")]
    public async Task Path_out_of_the_folder_gives_nothing_away(string path)
    {
        await using ServedFolder empty = await ServedFolder.EmptyAsync();
        string outside = Directory.CreateTempSubdirectory("spurless-secret-").FullName;
        try
        {
            const string Secret = "spurless: 1\nsite: topsecret\n";
            File.WriteAllText(Path.Combine(outside, "secret.site.yaml"), Secret);
            File.WriteAllText(Path.Combine(Path.GetDirectoryName(empty.Folder)!, "secret.site.yaml"), Secret);
            empty.Write(".hidden.site.yaml", Secret);
            File.CreateSymbolicLink(Path.Combine(empty.Folder, "link.site.yaml"), Path.Combine(outside, "secret.site.yaml"));
            Directory.CreateSymbolicLink(Path.Combine(empty.Folder, "out"), outside);
            // Raw, since a client that tidies paths would hide what is tested.
            string answer = await RawAsync(empty, path);
            Assert.StartsWith("HTTP/1.1 ", answer, StringComparison.Ordinal);
            Assert.DoesNotContain("topsecret", answer, StringComparison.Ordinal);
            Assert.DoesNotContain("root:", answer, StringComparison.Ordinal);
            Assert.DoesNotContain(outside, answer, StringComparison.Ordinal);
        }
        finally
        {
            Directory.Delete(outside, recursive: true);
            File.Delete(Path.Combine(Path.GetDirectoryName(empty.Folder)!, "secret.site.yaml"));
        }
    }

    [Fact]
    public async Task Program_hears_on_the_loopback_address_alone()
    {
        ServedFolder demo = await serve.DemoAsync();
        foreach (
            IPAddress address in (await Dns.GetHostAddressesAsync(Dns.GetHostName())).Where(
                static a => !IPAddress.IsLoopback(a) && a.AddressFamily == AddressFamily.InterNetwork))
        {
            using Socket socket = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
            await Assert.ThrowsAsync<SocketException>(() => socket.ConnectAsync(address, demo.Address.Port));
        }

        using Socket here = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
        await here.ConnectAsync(IPAddress.Loopback, demo.Address.Port);
    }

    private static HttpRequestMessage LetIn(ServedFolder served, HttpMethod method, string path)
    {
        HttpRequestMessage request = new(method, new Uri(served.Address, path));
        request.Headers.Add("Cookie", served.Cookie);
        return request;
    }

    private static async Task<string> RawAsync(ServedFolder served, string path)
    {
        using TcpClient client = new();
        await client.ConnectAsync(IPAddress.Loopback, served.Address.Port);
        await using NetworkStream stream = client.GetStream();
        await stream.WriteAsync(
            System.Text.Encoding.ASCII.GetBytes(
                $"GET {path} HTTP/1.1\r\nHost: {served.Address.Authority}\r\nCookie: {served.Cookie}\r\nConnection: close\r\n\r\n"));
        using StreamReader reader = new(stream);
        return await reader.ReadToEndAsync();
    }
}
