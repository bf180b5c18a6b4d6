using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Pages;
using Spurless.Pages.Shell;
using Spurless.Reports.Text;
using Spurless.Terminals;
using Spurless.Workbench.Folders;

namespace Spurless.Commands;

/// <summary><c>serve [FOLDER]</c>: a folder of files in the browser.</summary>
internal static class ServeCommand
{
    /// <summary>The port where none is given, so that a page's address holds from one day to the next.</summary>
    public const int UsualPort = 8473;

    public static Command Create(ITerminal terminal)
    {
        Argument<string> folder = OptionKinds.OptionalFile("FOLDER", "the folder with the files; default the one you are in", ".");
        Option<int?> port = OptionKinds.Parsed<int>(
            "--port", "N", "the port; 0 for any free one; default 8473, or any free one where it is taken", Port);
        Option<bool> noBrowser = OptionKinds.Switch("--no-browser", "only tell the address; do not open a browser");
        Option<bool> quiet = OptionKinds.Switch("--quiet", "no remarks; the address and errors are still told");
        Verb serve = new("serve", "opens a folder of site, circuit and sweep files in the browser, on this machine alone")
        {
            Details =
                "Prints 'listening on' with the address and runs until Ctrl-C. The address holds a key: without it nobody else on this "
                    + "machine sees the pages; each browser needs it once. What a page changes is the file itself, at once and with its "
                    + "comments kept; what an editor changes shows up in the page. Nothing leaves this machine.",
            Examples =
            [
                new("serve demo", "Opens the invented demo.") { RunsOn = true },
                new("serve demo --port 0 --no-browser", "The same without opening a browser, on any free port.") { RunsOn = true },
            ],
        };
        serve.Add(folder);
        serve.Add(port);
        serve.Add(noBrowser);
        serve.Add(quiet);
        serve.SetAction(
            (parsed, cancel) => RunAsync(
                terminal, parsed.GetValue(folder)!, parsed.GetValue(port), !parsed.GetValue(noBrowser), parsed.GetValue(quiet), cancel));
        return serve;
    }

    private static async Task<int> RunAsync(
        ITerminal terminal, string folder, int? port, bool browser, bool quiet, CancellationToken cancel)
    {
        if (!Directory.Exists(folder))
        {
            throw new UsageException(File.Exists(folder)
                ? $"'{folder}' is a file; write the folder that holds it"
                : $"there is no folder '{folder}'; write one that is there");
        }

        if (!FolderLock.TryTake(folder, out FolderLock? alone))
        {
            return Join(terminal, folder, browser);
        }

        using FolderLock? held = alone;
        if (held?.ClearAway(TimeProvider.System.GetUtcNow()) is var (removed, kept))
        {
            TellLeftOvers(terminal, removed, kept, quiet);
        }

        string secret = held is null ? FolderKey.Fresh() : FolderKey.Of(folder);
        await using PageServer server = await StartAsync(terminal, folder, secret, port).ConfigureAwait(false);
        held?.Tell(server.Address);
        terminal.OutputStream.Write(
            System.Text.Encoding.UTF8.GetBytes($"listening on {PageKey.AddressOf(server.Address, secret)}\n"));
        terminal.OutputStream.Flush();
        if (browser && !Open(server.Ticketed()) && !quiet)
        {
            terminal.Error.WriteLine("spurless: no browser could be opened; open the address yourself");
        }

        await Task.Delay(Timeout.Infinite, cancel).ConfigureAwait(false);
        return ExitStatus.Done;
    }

    // Two programs that write to one folder would lose each other's edits: the second sends the user to the first.
    private static int Join(ITerminal terminal, string folder, bool browser)
    {
        string? address = FolderLock.Address(folder);
        if (address is null)
        {
            throw new UsageException($"'{folder}' is open in another run of spurless; end that one first");
        }

        Uri told = FolderKey.Known(folder) is { } secret ? PageKey.AddressOf(new Uri(address), secret) : new Uri(address);
        terminal.Error.WriteLine($"spurless: this folder is open already at {told}; that run goes on, this one ends");
        if (browser)
        {
            Open(new Uri(address)); // a browser that was let in before has the secret; a command line is no place for it
        }

        return ExitStatus.Done;
    }

    private static void TellLeftOvers(ITerminal terminal, IReadOnlyList<string> removed, IReadOnlyList<string> kept, bool quiet)
    {
        if (removed.Count > 0 && !quiet)
        {
            string files = removed.Count == 1 ? "file" : "files";
            terminal.Error.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"spurless: {removed.Count} half-written {files} of a run that was ended while it saved cleared away"));
        }

        foreach (string name in kept)
        {
            terminal.Error.WriteLine(
                $"spurless: '{TextFlow.Printable(name)}' holds a whole text that a run was ended "
                    + $"over; compare it with the file of that name, "
                    + "then delete it");
        }
    }

    private static async Task<PageServer> StartAsync(ITerminal terminal, string folder, string secret, int? port)
    {
        try
        {
            return await PageServer.StartAsync(folder, port ?? UsualPort, secret, TimeProvider.System, terminal).ConfigureAwait(false);
        }
        catch (Exception e) when (port is null && e is IOException or System.Net.Sockets.SocketException)
        {
            return await PageServer.StartAsync(folder, 0, secret, TimeProvider.System, terminal).ConfigureAwait(false);
        }
        catch (Exception e) when (e is IOException or System.Net.Sockets.SocketException)
        {
            throw new UsageException(string.Create(
                CultureInfo.InvariantCulture,
                $"--port: {port} cannot be used ({e.Message.TrimEnd('.')}); write another one, or 0 for any that is free"));
        }
    }

    private static bool Open(Uri address)
    {
        try
        {
            ProcessStartInfo start = OperatingSystem.IsWindows() ? new(address.AbsoluteUri) { UseShellExecute = true }
                : OperatingSystem.IsMacOS() ? new("open", address.AbsoluteUri)
                : new("xdg-open", address.AbsoluteUri);
            start.RedirectStandardOutput = start.RedirectStandardError = !start.UseShellExecute; // its words are not ours
            using Process? process = Process.Start(start);
            return process is not null || OperatingSystem.IsWindows();
        }
        catch (Exception e) when (e is System.ComponentModel.Win32Exception or FileNotFoundException or PlatformNotSupportedException)
        {
            return false;
        }
    }

    private static bool Port(string text, out int value, out string problem)
    {
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value <= 65535)
        {
            problem = "";
            return true;
        }

        problem = $"'{text}' is no port; write a whole number from 0 to 65535";
        return false;
    }
}
