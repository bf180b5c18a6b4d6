using System.Diagnostics;
using System.Text;

namespace Spurless.Acceptance.Running;

/// <summary>What a process left behind.</summary>
/// <param name="Status">Its exit status.</param>
/// <param name="Output">Its standard output.</param>
/// <param name="Error">Its standard error.</param>
internal sealed record Ended(int Status, string Output, string Error);

/// <summary>The built program, and its wrapper, as processes of their own.</summary>
internal static class BuiltProgram
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(15);

    /// <summary>Runs the program that lies beside the tests.</summary>
    public static Task<Ended> RunAsync(string folder, params string[] args) =>
        RunAsync(folder, "dotnet", [System.IO.Path.Combine(AppContext.BaseDirectory, "spurless.dll"), .. args]);

    /// <summary>Runs any executable in a folder and waits for its end.</summary>
    public static async Task<Ended> RunAsync(
        string folder, string executable, IEnumerable<string> args, IReadOnlyDictionary<string, string?>? environment = null)
    {
        using Process process = StartAny(folder, executable, args, environment);
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        using CancellationTokenSource limit = new(Patience);
        try
        {
            await process.WaitForExitAsync(limit.Token);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException($"{executable} did not end within {Patience.TotalMinutes} minutes.");
        }

        return new Ended(process.ExitCode, await output, await error);
    }

    /// <summary>Starts the program that lies beside the tests.</summary>
    public static Process Start(string folder, params string[] args) =>
        StartAny(folder, "dotnet", [System.IO.Path.Combine(AppContext.BaseDirectory, "spurless.dll"), .. args]);

    /// <summary>Words of a command line as a shell splits them: by spaces, save within double quotation marks.</summary>
    public static string[] Split(string line)
    {
        List<string> words = [];
        StringBuilder word = new();
        bool quoted = false;
        bool any = false;
        foreach (char c in line)
        {
            switch (c)
            {
                case '"':
                    quoted = !quoted;
                    any = true;
                    break;
                case ' ' when !quoted:
                    if (any)
                    {
                        words.Add(word.ToString());
                        word.Clear();
                        any = false;
                    }

                    break;
                default:
                    word.Append(c);
                    any = true;
                    break;
            }
        }

        if (any)
        {
            words.Add(word.ToString());
        }

        return [.. words];
    }

    /// <summary>Starts any executable in a folder.</summary>
    public static Process StartAny(
        string folder, string executable, IEnumerable<string> args, IReadOnlyDictionary<string, string?>? environment = null)
    {
        ProcessStartInfo start = new(executable)
        {
            WorkingDirectory = folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = Encoding.UTF8,
            StandardErrorEncoding = Encoding.UTF8,
        };
        foreach (string arg in args)
        {
            start.ArgumentList.Add(arg);
        }

        foreach ((string name, string? value) in environment ?? new Dictionary<string, string?>())
        {
            start.Environment[name] = value;
        }

        Process process = Process.Start(start)!;
        process.StandardInput.Close();
        return process;
    }
}
