using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text;
using Spurless.Browser.Browsing;

namespace Spurless.Browser.Serving;

/// <summary>The built program serving a temporary folder, as a process of its own: what a user runs.</summary>
public sealed class ServedFolder : IAsyncDisposable
{
    private static readonly ConcurrentDictionary<string, string> Keys = [];

    private readonly StringBuilder _errors = new();
    private Process _process = null!;

    private ServedFolder(string folder) => Folder = folder;

    /// <summary>The folder.</summary>
    public string Folder { get; }

    /// <summary>
    /// Where it hears, with a slash at its end and without the key: a page of <see cref="BrowserFixture.OpenAsync"/> has its cookie
    /// already.
    /// </summary>
    public Uri Address { get; private set; } = null!;

    /// <summary>The address as it was printed, with the key.</summary>
    public Uri Printed { get; private set; } = null!;

    /// <summary>What a client that is let in sends in its Cookie header.</summary>
    public string Cookie => CookieOf(Address)!.Value is var (name, value) ? $"{name}={value}" : "";

    /// <summary>What it wrote on standard error.</summary>
    public string Errors
    {
        get
        {
            lock (_errors)
            {
                return _errors.ToString();
            }
        }
    }

    /// <summary>The program's number among the processes.</summary>
    public int ProcessId => _process.Id;

    /// <summary>The cookie that lets a browser in; null for a server that no test started.</summary>
    public static (string Name, string Value)? CookieOf(Uri server) =>
        Keys.TryGetValue(server.Authority, out string? key) ? ($"spurless-{server.Port}", key) : null;

    /// <summary>Serves an empty folder.</summary>
    public static Task<ServedFolder> EmptyAsync() => EmptyAsync("empty");

    /// <summary>Serves an empty folder of a given name, for pictures that are to be the same tomorrow.</summary>
    public static Task<ServedFolder> EmptyAsync(string name) =>
        StartAsync(Directory.CreateDirectory(Path.Combine(Directory.CreateTempSubdirectory("spurless-pages-").FullName, name)).FullName);

    /// <summary>Serves a copy of the demo. The folder's name stands in the head of every page: one that is not drawn by lot.</summary>
    public static Task<ServedFolder> DemoAsync() => DemoAsync("demo");

    /// <summary>Serves a copy of the demo in a folder of a given name, for pictures that are to be the same tomorrow.</summary>
    public static Task<ServedFolder> DemoAsync(string name) =>
        DemoOfAsync(Directory.CreateDirectory(Path.Combine(Directory.CreateTempSubdirectory("spurless-pages-").FullName, name)).FullName);

    private static Task<ServedFolder> DemoOfAsync(string folder)
    {
        string demo = Path.Combine(Artifacts.Root, "demo");
        foreach (string file in Directory.EnumerateFiles(demo, "*", SearchOption.AllDirectories))
        {
            string copy = Path.Combine(folder, Path.GetRelativePath(demo, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }

        return StartAsync(folder);
    }

    /// <summary>The text of a file of the folder.</summary>
    public string Read(string name) => File.ReadAllText(Path.Combine(Folder, name));

    /// <summary>Writes a file as an editor would.</summary>
    public void Write(string name, string text) => File.WriteAllText(Path.Combine(Folder, name), text);

    /// <summary>Ends the process without a word, as a crash does.</summary>
    public async Task KillAsync()
    {
        _process.Kill();
        await _process.WaitForExitAsync();
    }

    /// <summary>Starts it again on the same port.</summary>
    public Task RestartAsync() => RunAsync(Address.Port);

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            await KillAsync();
        }

        _process.Dispose();
        Directory.Delete(Folder, recursive: true);
    }

    private static async Task<ServedFolder> StartAsync(string folder)
    {
        ServedFolder served = new(folder);
        await served.RunAsync(0);
        return served;
    }

    private async Task RunAsync(int port)
    {
        ProcessStartInfo start = new(
            "dotnet",
            [
                Path.Combine(AppContext.BaseDirectory, "spurless.dll"),
                "serve",
                Folder,
                "--port",
                port.ToString(System.Globalization.CultureInfo.InvariantCulture),
                "--no-browser",
            ])
        {
            WorkingDirectory = Path.GetTempPath(),
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        _process = Process.Start(start)!;
        _process.ErrorDataReceived += (_, e) =>
        {
            lock (_errors)
            {
                _errors.AppendLine(e.Data);
            }
        };
        _process.BeginErrorReadLine();
        using CancellationTokenSource patience = new(TimeSpan.FromMinutes(2));
        string? line = await _process.StandardOutput.ReadLineAsync(patience.Token);
        const string Words = "listening on ";
        Assert.True(line?.StartsWith(Words, StringComparison.Ordinal), $"'{line}' {Errors}");
        Printed = new Uri(line![Words.Length..]);
        Address = new Uri(Printed.GetLeftPart(UriPartial.Path));
        Keys[Address.Authority] = Printed.Query["?key=".Length..];
    }
}
