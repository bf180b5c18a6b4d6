using System.Net;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.SignalR;
using Spurless.Pages.Report;
using Spurless.Pages.Shell;
using Spurless.Terminals;
using Spurless.Workbench.Folders;

namespace Spurless.Pages;

/// <summary>
/// The pages' web server. It hears on the loopback address alone: nothing of the environment or of a settings file can change that, since
/// none is read.
/// </summary>
internal sealed class PageServer : IAsyncDisposable
{
    // How long a page and the program wait for a word of each other (shell.js has the other half). On one machine a connection that ended
    // is told at once; what only keeps silent is a machine that is busy, and no page is to be taken down for that.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    private readonly WebApplication _app;
    private readonly OpenFolder _folder;

    private readonly PageKey _key;
    private readonly CancellationTokenSource _ends = new();
    private Task _warmUp = Task.CompletedTask;

    private PageServer(WebApplication app, OpenFolder folder, PageKey key) => (_app, _folder, _key) = (app, folder, key);

    /// <summary>Where it hears, with a slash at its end; without the secret.</summary>
    public Uri Address { get; private set; } = new("http://127.0.0.1/");

    /// <summary>An address that lets one browser in, once and soon.</summary>
    public Uri Ticketed() => PageKey.AddressOf(Address, _key.Ticket());

    /// <summary>Starts it.</summary>
    /// <param name="folder">The folder of files; must exist.</param>
    /// <param name="port">The port; 0 for any free one.</param>
    /// <param name="secret">What who asks must know.</param>
    /// <param name="time">The clock.</param>
    /// <param name="terminal">Where faults are told.</param>
    /// <exception cref="IOException">The port is taken.</exception>
    public static async Task<PageServer> StartAsync(string folder, int port, string secret, TimeProvider time, ITerminal terminal)
    {
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions
        {
            ApplicationName = typeof(PageServer).Assembly.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
            EnvironmentName = Environments.Production,
        });
        builder.WebHost.UseKestrelCore();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            PageLimits.Set(kestrel.Limits);
            kestrel.Listen(IPAddress.Loopback, port);
        });
        builder.Services.AddRoutingCore();
        builder.Services.AddDataProtection().UseEphemeralDataProtectionProvider();
        builder.Services.AddAntiforgery(static o => o.SuppressXFrameOptionsHeader = true); // the policy's frame-ancestors says it
        builder.Services.AddRazorComponents().AddInteractiveServerComponents(static circuit =>
        {
            circuit.DisconnectedCircuitRetentionPeriod = TimeSpan.FromMinutes(30); // a laptop that slept finds its page as it was
            circuit.DisconnectedCircuitMaxRetained = 10; // of pages that were closed in order none is kept
            circuit.JSInteropDefaultCallTimeout = Patience; // a file is read in such calls
        });
        EventRate rate = new(time);
        builder.Services.Configure<HubOptions>(hub =>
        {
            hub.MaximumReceiveMessageSize = PageLimits.LargestMessage;
            hub.ClientTimeoutInterval = Patience;
            hub.HandshakeTimeout = Patience;
            hub.AddFilter(rate);
        });
        builder.Logging.AddProvider(new TerminalLog(terminal)).SetMinimumLevel(LogLevel.Error);
        OpenFolder open = new(folder, time);
        builder.Services.AddSingleton(open);
        builder.Services.AddSingleton(time);
        builder.Services.AddSingleton<Spurless.Workbench.Desk.DeskShelf>();
        builder.Services.AddSingleton<Spurless.Workbench.Bench.BenchShelf>();
        builder.Services.AddSingleton<Spurless.Workbench.Relays.RelayShelf>();
        builder.Services.AddSingleton<Spurless.Workbench.Receivers.ReceiverShelf>();
        builder.Services.AddSingleton<Spurless.Workbench.Designs.DesignShelf>();
        builder.Services.AddSingleton<Spurless.Workbench.Recordings.RecordingShelf>();
        builder.Services.AddSingleton<FolderReadings>();
        builder.Services.AddSingleton(
            new ProgramRun(Convert.ToHexStringLower(System.Security.Cryptography.RandomNumberGenerator.GetBytes(8))));
        builder.Services.AddScoped<TabState>();

        WebApplication app = builder.Build();
        PageKey key = new(secret, time);
        PageWarmUp warmUp = new(time);
        app.Use(warmUp.NoteAsync);
        app.Use(new PageGuard(key).CheckAsync);
        app.Use(new PageLimits().CheckAsync);
        app.UseStatusCodePagesWithReExecute("/no-such-page", createScopeForStatusCodePages: true);
        app.UseWebSockets();
        app.UseRouting();
        app.UseAntiforgery();
        PageAssets.Map(app);
        Study.StudyDownloads.Map(app);
        Bench.BenchDownloads.Map(app);
        Bench.DesignDownloads.Map(app);
        Listen.RecordingFiles.Map(app);
        ReportFiles.Map(app);
        Newcomers.NewcomerSheet.Map(app);
        app.MapGet("/alive", static (ProgramRun run) => run.Id);
        app.MapRazorComponents<Document>().AddInteractiveServerRenderMode(static o =>
        {
            o.ContentSecurityFrameAncestorsPolicy = null; // PageGuard sends the whole policy
            o.ConfigureWebSocketAcceptContext = null;
        });
        PageServer server = new(app, open, key);
        try
        {
            await app.StartAsync().ConfigureAwait(false);
        }
        catch
        {
            await server.DisposeAsync().ConfigureAwait(false);
            throw;
        }

        server.Address = new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());
        server._warmUp = warmUp.RunAsync(server.Address, secret, open, server._ends.Token);
        return server;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _ends.CancelAsync().ConfigureAwait(false);
        await _warmUp.ConfigureAwait(false);
        _ends.Dispose();

        // Open pages hold a connection that never ends by itself: they are cut, and say so.
        using CancellationTokenSource patience = new(TimeSpan.FromMilliseconds(200));
        await _app.StopAsync(patience.Token).ConfigureAwait(false);
        await _app.DisposeAsync().ConfigureAwait(false);
        _folder.Dispose();
    }
}
