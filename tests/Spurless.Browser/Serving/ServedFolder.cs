using System.Diagnostics;
using System.Text;
using Spurless.Browser.Browsing;

namespace Spurless.Browser.Serving;

/// <summary>The built program serving a temporary folder, as a process of its own: what a user runs.</summary>
public sealed class ServedFolder : IAsyncDisposable
{
    private readonly StringBuilder _errors = new();
    private Process _process = null!;

    private ServedFolder(string folder) => Folder = folder;

    /// <summary>The folder.</summary>
    public string Folder { get; }

    /// <summary>Where it hears, with a slash at its end.</summary>
    public Uri Address { get; private set; } = null!;

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

    /// <summary>Serves an empty folder.</summary>
    public static Task<ServedFolder> EmptyAsync() => StartAsync(Directory.CreateTempSubdirectory("spurless-pages-").FullName);

    /// <summary>Serves an empty folder of a given name, for pictures that are to be the same tomorrow.</summary>
    public static Task<ServedFolder> EmptyAsync(string name) => StartAsync(Directory.CreateDirectory(Path.Combine(Directory.CreateTempSubdirectory("spurless-pages-").FullName, name)).FullName);

    /// <summary>Serves a copy of the demo.</summary>
    public static Task<ServedFolder> DemoAsync()
    {
        string folder = Directory.CreateTempSubdirectory("spurless-pages-").FullName;
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
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "spurless.dll"), "serve", Folder, "--port", port.ToString(System.Globalization.CultureInfo.InvariantCulture), "--no-browser"])
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
        using CancellationTokenSource patience = new(TimeSpan.FromSeconds(30));
        string? line = await _process.StandardOutput.ReadLineAsync(patience.Token);
        const string Words = "listening on ";
        Assert.True(line?.StartsWith(Words, StringComparison.Ordinal), $"'{line}' {Errors}");
        Address = new Uri(line![Words.Length..]);
    }
}
