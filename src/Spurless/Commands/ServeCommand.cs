using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Pages.Shell;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>serve [FOLDER]</c>: a folder of files in the browser.</summary>
internal static class ServeCommand
{
    /// <summary>The port where none is given, so that a page's address holds from one day to the next.</summary>
    public const int UsualPort = 8473;

    public static Command Create(ITerminal terminal)
    {
        Argument<string> folder = OptionKinds.OptionalFile("FOLDER", "the folder with the files; default the one you are in", ".");
        Option<int?> port = OptionKinds.Parsed<int>("--port", "N", "the port; 0 for any free one; default 8473, or any free one where it is taken", Port);
        Option<bool> noBrowser = OptionKinds.Switch("--no-browser", "only tell the address; do not open a browser");
        Option<bool> quiet = OptionKinds.Switch("--quiet", "no remarks; the address and errors are still told");
        Verb serve = new("serve", "opens a folder of site, circuit and sweep files in the browser, on this machine alone")
        {
            Details = "Prints 'listening on' with the address and runs until Ctrl-C. What a page changes is the file itself, at once and with its comments kept; " +
                "what an editor changes shows up in the page. Nothing leaves this machine.",
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
        serve.SetAction((parsed, cancel) => RunAsync(terminal, parsed.GetValue(folder)!, parsed.GetValue(port), !parsed.GetValue(noBrowser), parsed.GetValue(quiet), cancel));
        return serve;
    }

    private static async Task<int> RunAsync(ITerminal terminal, string folder, int? port, bool browser, bool quiet, CancellationToken cancel)
    {
        if (!Directory.Exists(folder))
        {
            throw new UsageException(File.Exists(folder)
                ? $"'{folder}' is a file; write the folder that holds it"
                : $"there is no folder '{folder}'; write one that is there");
        }

        await using PageServer server = await StartAsync(terminal, folder, port).ConfigureAwait(false);
        terminal.OutputStream.Write(System.Text.Encoding.UTF8.GetBytes($"listening on {server.Address}\n"));
        terminal.OutputStream.Flush();
        if (browser && !Open(server.Address) && !quiet)
        {
            terminal.Error.WriteLine("spurless: no browser could be opened; open the address yourself");
        }

        await Task.Delay(Timeout.Infinite, cancel).ConfigureAwait(false);
        return ExitStatus.Done;
    }

    private static async Task<PageServer> StartAsync(ITerminal terminal, string folder, int? port)
    {
        try
        {
            return await PageServer.StartAsync(folder, port ?? UsualPort, TimeProvider.System, terminal).ConfigureAwait(false);
        }
        catch (IOException) when (port is null)
        {
            return await PageServer.StartAsync(folder, 0, TimeProvider.System, terminal).ConfigureAwait(false);
        }
        catch (Exception e) when (port is not null && e is IOException or System.Net.Sockets.SocketException)
        {
            throw new UsageException(string.Create(CultureInfo.InvariantCulture, $"--port: {port} cannot be used ({e.Message.TrimEnd('.')}); write another one, or 0 for any that is free"));
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
