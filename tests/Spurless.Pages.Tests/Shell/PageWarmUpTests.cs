using System.Globalization;
using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Spurless.Sites.Sources;
using Spurless.Terminals;
using Spurless.Tests.Common;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Tests.Shell;

/// <summary>What a fresh program does while its first page is being read.</summary>
public sealed class PageWarmUpTests : IDisposable
{
    private static readonly DateTimeOffset Day = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("spurless-warm-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void Addresses_are_those_of_the_smallest_site_and_circuit_and_none_of_large_files()
    {
        IReadOnlyList<string> asked = PageWarmUp.Addresses(
        [
            new FolderFile("b.site.yaml", FileKind.Site, 3_000, Day),
            new FolderFile("in a hut/a.site.yaml", FileKind.Site, 400, Day),
            new FolderFile("c.site.yaml", FileKind.Site, 400, Day),
            new FolderFile("large.circuit.yaml", FileKind.Circuit, 100_001, Day),
            new FolderFile("small.circuit.yaml", FileKind.Circuit, 100_000, Day),
            new FolderFile("tiny.s2p", FileKind.Touchstone, 10, Day),
        ]);

        Assert.Equal(["/study/c.site.yaml", "/site/c.site.yaml", "/bench/small.circuit.yaml"], asked);
        Assert.Equal(
            ["/study/in%20a%20hut/%23a.site.yaml", "/site/in%20a%20hut/%23a.site.yaml"],
            PageWarmUp.Addresses([new FolderFile("in a hut/#a.site.yaml", FileKind.Site, 400, Day)]));
        Assert.Empty(PageWarmUp.Addresses([new FolderFile("large.site.yaml", FileKind.Site, 100_001, Day)]));
        Assert.Empty(PageWarmUp.Addresses([]));
    }

    [Fact]
    public async Task Nothing_is_asked_before_a_browser_got_its_first_page_and_all_after_it()
    {
        CancellationToken cancel = TestContext.Current.CancellationToken;
        await File.WriteAllTextAsync(Path.Combine(_folder.FullName, "desk.site.yaml"), "spurless: 1\nsite: bare (invented)\n", cancel);
        using OpenFolder open = new(_folder.FullName, TimeProvider.System);
        string secret = FolderKey.Fresh();
        await using Heard heard = await Heard.StartAsync(cancel);
        PageWarmUp warmUp = new(TimeProvider.System);
        Task<int> run = warmUp.RunAsync(heard.Address, secret, open, cancel);

        // What is no page of a browser, or was refused, is no first page.
        await warmUp.NoteAsync(Asked("image", StatusCodes.Status200OK), static _ => Task.CompletedTask);
        await warmUp.NoteAsync(Asked("document", StatusCodes.Status403Forbidden), static _ => Task.CompletedTask);
        await Task.Delay(900, cancel);
        Assert.False(run.IsCompleted);
        Assert.Empty(heard.Requests);

        await warmUp.NoteAsync(Asked("document", StatusCodes.Status200OK), static _ => Task.CompletedTask);
        Assert.Equal(2, await run);
        string cookie = string.Create(CultureInfo.InvariantCulture, $"spurless-{heard.Address.Port}={secret}");
        Assert.Equal([("/study/desk.site.yaml", cookie), ("/site/desk.site.yaml", cookie)], heard.Requests);
    }

    [Fact]
    public async Task It_ends_without_an_exception_whenever_it_is_told_and_where_nobody_hears()
    {
        CancellationToken cancel = TestContext.Current.CancellationToken;
        await File.WriteAllTextAsync(Path.Combine(_folder.FullName, "desk.site.yaml"), "spurless: 1\nsite: bare (invented)\n", cancel);
        using OpenFolder open = new(_folder.FullName, TimeProvider.System);
        using CancellationTokenSource ends = new();
        Task<int> waiting = new PageWarmUp(TimeProvider.System).RunAsync(new Uri("http://127.0.0.1:9/"), "none", open, ends.Token);
        await ends.CancelAsync();
        Assert.Equal(0, await waiting);

        Uri gone;
        await using (Heard heard = await Heard.StartAsync(cancel))
        {
            gone = heard.Address;
        }

        PageWarmUp warmUp = new(TimeProvider.System);
        await warmUp.NoteAsync(Asked("document", StatusCodes.Status200OK), static _ => Task.CompletedTask);
        Assert.Equal(0, await warmUp.RunAsync(gone, "none", open, cancel));
    }

    [Fact]
    public async Task Pages_of_a_folder_come_whole()
    {
        CancellationToken cancel = TestContext.Current.CancellationToken;
        DeskFiles files = new();
        await File.WriteAllTextAsync(Path.Combine(_folder.FullName, "desk.site.yaml"), DeskFiles.Site, cancel);
        Directory.CreateDirectory(Path.Combine(_folder.FullName, "filters"));
        await File.WriteAllBytesAsync(
            Path.Combine(_folder.FullName, "filters", "parts.circuit.yaml"), files.Read("filters/parts.circuit.yaml")!, cancel);
        string secret = FolderKey.Fresh();
        QuietTerminal terminal = new();
        await using PageServer server = await PageServer.StartAsync(_folder.FullName, 0, secret, TimeProvider.System, terminal);
        using OpenFolder open = new(_folder.FullName, TimeProvider.System);
        PageWarmUp warmUp = new(TimeProvider.System);
        await warmUp.NoteAsync(Asked("document", StatusCodes.Status200OK), static _ => Task.CompletedTask);
        Assert.Equal(3, await warmUp.RunAsync(server.Address, secret, open, cancel));
        PageWarmUp stranger = new(TimeProvider.System);
        await stranger.NoteAsync(Asked("document", StatusCodes.Status200OK), static _ => Task.CompletedTask);
        Assert.Equal(0, await stranger.RunAsync(server.Address, FolderKey.Fresh(), open, cancel)); // 403: the key is asked of everybody
        Assert.Equal("", terminal.Told);
    }

    private static DefaultHttpContext Asked(string destination, int status)
    {
        DefaultHttpContext context = new();
        context.Request.Headers["Sec-Fetch-Dest"] = destination;
        context.Response.StatusCode = status;
        return context;
    }

    /// <summary>A server that answers everything and keeps what it was asked.</summary>
    private sealed class Heard : IAsyncDisposable
    {
        private readonly WebApplication _app;
        private readonly List<(string Path, string Cookie)> _requests = [];

        private Heard(WebApplication app) => _app = app;

        public Uri Address => new(_app.Urls.First());

        public IReadOnlyList<(string Path, string Cookie)> Requests
        {
            get
            {
                lock (_requests)
                {
                    return [.. _requests];
                }
            }
        }

        public static async Task<Heard> StartAsync(CancellationToken cancel)
        {
            WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
            builder.WebHost.UseKestrelCore().ConfigureKestrel(static k => k.Listen(IPAddress.Loopback, 0));
            builder.Services.AddRoutingCore();
            Heard heard = new(builder.Build());
            heard._app.Run(heard.AnswerAsync);
            await heard._app.StartAsync(cancel);
            return heard;
        }

        public ValueTask DisposeAsync() => _app.DisposeAsync();

        private Task AnswerAsync(HttpContext context)
        {
            lock (_requests)
            {
                _requests.Add((context.Request.Path.ToUriComponent(), context.Request.Headers.Cookie.ToString()));
            }

            return Task.CompletedTask;
        }
    }

    private sealed class QuietTerminal : ITerminal
    {
        private readonly System.Text.StringBuilder _told = new();

        public QuietTerminal() => Error = new StringWriter(_told, CultureInfo.InvariantCulture);

        public string Told => _told.ToString();

        public Stream InputStream => Stream.Null;

        public Stream OutputStream => Stream.Null;

        public TextWriter Error { get; }

        public bool OutputIsTerminal => false;

        public bool ErrorIsTerminal => false;

        public string? Variable(string name) => null;
    }
}
