using System.Net;
using Microsoft.AspNetCore.Components.Server;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.SignalR;
using Spurless.Pages.Report;
using Spurless.Sites.Folders;
using Spurless.Terminals;

namespace Spurless.Pages.Shell;

/// <summary>
/// The pages' web server. It hears on the loopback address alone: nothing of the environment or of a settings file can change that, since none is read.
/// </summary>
internal sealed class PageServer : IAsyncDisposable
{
    private readonly WebApplication _app;
    private readonly OpenFolder _folder;

    private PageServer(WebApplication app, OpenFolder folder) => (_app, _folder) = (app, folder);

    /// <summary>Where it hears, with a slash at its end.</summary>
    public Uri Address { get; private set; } = new("http://127.0.0.1/");

    /// <summary>Starts it.</summary>
    /// <param name="folder">The folder of files; must exist.</param>
    /// <param name="port">The port; 0 for any free one.</param>
    /// <param name="time">The clock.</param>
    /// <param name="terminal">Where faults are told.</param>
    /// <exception cref="IOException">The port is taken.</exception>
    public static async Task<PageServer> StartAsync(string folder, int port, TimeProvider time, ITerminal terminal)
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
            kestrel.Limits.MaxRequestBodySize = 256 * 1024; // files travel over the circuit, piece by piece
            kestrel.Listen(IPAddress.Loopback, port);
        });
        builder.Services.AddRoutingCore();
        builder.Services.AddDataProtection().UseEphemeralDataProtectionProvider();
        builder.Services.AddAntiforgery(static o => o.SuppressXFrameOptionsHeader = true); // the policy's frame-ancestors says it
        builder.Services.AddRazorComponents().AddInteractiveServerComponents(static circuit =>
        {
            circuit.DisconnectedCircuitRetentionPeriod = TimeSpan.FromMinutes(30); // a laptop that slept finds its page as it was
        });
        builder.Services.Configure<HubOptions>(static hub => hub.MaximumReceiveMessageSize = 2 * 1024 * 1024); // a pasted table
        builder.Logging.AddProvider(new TerminalLog(terminal)).SetMinimumLevel(LogLevel.Error);
        OpenFolder open = new(folder, time);
        builder.Services.AddSingleton(open);
        builder.Services.AddSingleton(time);
        builder.Services.AddSingleton<Spurless.Sites.Desk.DeskShelf>();
        builder.Services.AddSingleton<Spurless.Sites.Bench.BenchShelf>();
        builder.Services.AddSingleton<FolderReadings>();
        builder.Services.AddSingleton(new ProgramRun(Convert.ToHexStringLower(System.Security.Cryptography.RandomNumberGenerator.GetBytes(8))));
        builder.Services.AddScoped<TabState>();

        WebApplication app = builder.Build();
        app.Use(PageGuard.CheckAsync);
        app.UseStatusCodePagesWithReExecute("/no-such-page", createScopeForStatusCodePages: true);
        app.UseWebSockets();
        app.UseRouting();
        app.UseAntiforgery();
        PageAssets.Map(app);
        Study.StudyDownloads.Map(app);
        Bench.BenchDownloads.Map(app);
        ReportFiles.Map(app);
        app.MapGet("/alive", static (ProgramRun run) => run.Id);
        app.MapRazorComponents<Document>().AddInteractiveServerRenderMode(static o =>
        {
            o.ContentSecurityFrameAncestorsPolicy = null; // PageGuard sends the whole policy
            o.ConfigureWebSocketAcceptContext = null;
        });
        PageServer server = new(app, open);
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
        return server;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        // Open pages hold a connection that never ends by itself: they are cut, and say so.
        using CancellationTokenSource patience = new(TimeSpan.FromMilliseconds(200));
        await _app.StopAsync(patience.Token).ConfigureAwait(false);
        await _app.DisposeAsync().ConfigureAwait(false);
        _folder.Dispose();
    }
}
