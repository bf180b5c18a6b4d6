using System.Net;
using System.Net.WebSockets;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Spurless.Browser.Browsing;
using Spurless.Browser.Serving;

namespace Spurless.Browser.Pages;

/// <summary>Other users and programs of the machine reach the port: who does not know the secret sees and changes nothing.</summary>
public class SecretTests(BrowserFixture browser, ServeFixture serve)
{
    private static readonly HttpClient Client =
        new(new SocketsHttpHandler { AllowAutoRedirect = false, UseProxy = false, UseCookies = false });

    // One address of each kind that the program maps.
    private static readonly string[] Paths =
    [
        "", "site/quernmoss.site.yaml", "study/quernmoss.site.yaml", "around/quernmoss.site.yaml", "listen", "coil", "help",
        "bench/filters/three-tank.circuit.yaml", "build/filters/three-tank.circuit.yaml", "report/quernmoss.site.yaml",
        "reports/json/quernmoss.site.yaml", "reports/html/quernmoss.site.yaml", "assets/shell.js", "assets/shell.css", "alive",
        "_blazor/initializers", "_blazor/negotiate?negotiateVersion=1", "_framework/blazor.web.js", "no-such-page", "?key=", "?key",
        "?key=0123456789abcdef0123456789abcdef", "alive?key=%00",
    ];

    [Fact]
    public async Task Path_without_the_secret_answers_403_and_tells_nothing()
    {
        ServedFolder demo = await serve.DemoAsync();
        string wrong = demo.Cookie[..^1] + (demo.Cookie[^1] == '0' ? '1' : '0');
        foreach (string? cookie in (string?[])[null, wrong, $"spurless-{demo.Address.Port}=", demo.Cookie.Replace("spurless", "other")])
        {
            foreach (string path in Paths)
            {
                foreach (HttpMethod method in (HttpMethod[])[HttpMethod.Get, HttpMethod.Head, HttpMethod.Post, HttpMethod.Delete])
                {
                    using HttpRequestMessage request = new(method, new Uri(demo.Address, path));
                    request.Headers.Add("Origin", $"http://{demo.Address.Authority}"); // what a program can write into a request
                    request.Headers.Add("Sec-Fetch-Site", "same-origin");
                    if (cookie is not null)
                    {
                        request.Headers.Add("Cookie", cookie);
                    }

                    using HttpResponseMessage answer = await Client.SendAsync(request);
                    Assert.True(answer.StatusCode == HttpStatusCode.Forbidden, $"{method} {path} with '{cookie}': {answer.StatusCode}");
                    Assert.False(answer.Headers.Contains("Set-Cookie"));
                    string text = await answer.Content.ReadAsStringAsync();
                    Assert.DoesNotContain("Quernmoss", text, StringComparison.OrdinalIgnoreCase);
                    Assert.DoesNotContain(demo.Printed.Query["?key=".Length..], text, StringComparison.Ordinal);
                }
            }
        }
    }

    [Fact]
    public async Task Lasting_connection_without_the_secret_is_refused()
    {
        ServedFolder demo = await serve.DemoAsync();
        foreach (string address in (string[])["_blazor", $"_blazor{demo.Printed.Query}"]) // in the address it opens a page, no connection
        {
            using ClientWebSocket socket = new();
            socket.Options.Proxy = null;
            socket.Options.SetRequestHeader("Origin", $"http://{demo.Address.Authority}");
            WebSocketException refused = await Assert.ThrowsAsync<WebSocketException>(
                () => socket.ConnectAsync(new Uri($"ws://{demo.Address.Authority}/{address}"), TestContext.Current.CancellationToken));
            Assert.Contains("403", refused.Message, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("/", "/")]
    [InlineData("/study/quernmoss.site.yaml", "/study/quernmoss.site.yaml")]
    [InlineData("//evil.example/x", "//evil.example/x")]
    public async Task Address_with_the_secret_gives_a_strict_cookie_and_leads_to_the_address_without_it(string path, string leads)
    {
        ServedFolder demo = await serve.DemoAsync();
        using HttpRequestMessage request = new(HttpMethod.Get, $"http://{demo.Address.Authority}{path}{demo.Printed.Query}&a=b%20c");
        using HttpResponseMessage answer = await Client.SendAsync(request);
        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        // Whole, with the machine's own name: a path that begins with two slashes leads nowhere else.
        Assert.Equal($"http://{demo.Address.Authority}{leads}?a=b%20c", answer.Headers.Location!.OriginalString);
        string cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"));
        Assert.StartsWith(demo.Cookie + ";", cookie, StringComparison.Ordinal);
        Assert.Matches(new Regex("samesite=strict; httponly$", RegexOptions.IgnoreCase), cookie);
        Assert.Equal("no-store", answer.Headers.CacheControl!.ToString());
    }

    [Fact]
    public async Task Browser_is_let_in_by_the_printed_address_and_stays_so_when_the_program_starts_again()
    {
        await using ServedFolder demo = await ServedFolder.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address, letIn: false);
        await watched.Page.GotoAsync("/");
        await Assertions.Expect(watched.Page.Locator("body")).ToContainTextAsync("the address that it printed behind 'listening on'");
        watched.Forgive(); // the refusal, and the console's word of it
        await watched.GoAsync(demo.Printed.AbsoluteUri);
        Assert.Equal(demo.Address.AbsoluteUri, watched.Page.Url); // the secret stands in no history and on no screen
        await watched.GoAsync("/study/quernmoss.site.yaml");
        // No script reads it; what a script reads is how wide the picture was.
        Assert.Matches("^(spurless-width-studyview=[0-9]+)?$", await watched.Page.EvaluateAsync<string>("document.cookie"));
        Uri before = demo.Printed;
        await watched.Page.GotoAsync("about:blank"); // a page that is open would load itself again by then
        await demo.KillAsync();
        await demo.RestartAsync();
        Assert.Equal(before, demo.Printed);
        watched.Forgive();
        await watched.GoAsync("/site/quernmoss.site.yaml");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task Answers_with_what_the_folder_holds_are_kept_by_no_cache()
    {
        ServedFolder demo = await serve.DemoAsync();
        foreach (
            string path in Paths.Where(
                static p => !p.StartsWith("assets/", StringComparison.Ordinal) && !p.Contains("key", StringComparison.Ordinal)))
        {
            using HttpRequestMessage request = new(HttpMethod.Get, new Uri(demo.Address, path));
            request.Headers.Add("Cookie", demo.Cookie);
            using HttpResponseMessage answer = await Client.SendAsync(request);
            Assert.True(answer.Headers.CacheControl is { NoStore: true }, $"{path}: {answer.StatusCode} {answer.Headers.CacheControl}");
        }
    }

    /// <summary>What somebody typed where a number belongs is no fault of the program.</summary>
    [Theory]
    [InlineData("study/quernmoss.site.yaml?receiver=a&finding=b&carrier=-1")]
    [InlineData("study/quernmoss.site.yaml?receiver=99999999999999999999")]
    [InlineData("study/quernmoss.site.yaml?receiver=2147483647&finding=2147483647&carrier=2147483647")]
    [InlineData("site/quernmoss.site.yaml?text=yes&line=x&column=1e9")]
    [InlineData("site/quernmoss.site.yaml?text=yes&line=2147483647&column=2147483647")]
    [InlineData("build/filters/three-tank.circuit.yaml?text=yes&line=&column=%00")]
    [InlineData("around/quernmoss.site.yaml?km=far")]
    public async Task Address_with_no_number_where_one_belongs_shows_its_page(string path)
    {
        ServedFolder demo = await serve.DemoAsync();
        await using WatchedPage watched = await browser.OpenAsync(1280, 900, server: demo.Address);
        await watched.GoAsync("/" + path);
        await watched.Page.Locator("h1, h2").First.WaitForAsync();
        Assert.Equal("", demo.Errors.Trim());
        Assert.Empty(watched.Complaints);
    }
}
