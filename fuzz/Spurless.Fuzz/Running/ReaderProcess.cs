using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using Spurless.Fuzz.Coverage;

namespace Spurless.Fuzz.Running;

/// <summary>
/// Runs a reader in processes of its own, with the memory of the program limited: what ends a process is found and told, and another goes
/// on.
/// </summary>
internal static class ReaderProcess
{
    /// <summary>What the heap of such a process may hold, inputs kept by the fuzzer included: less than what is promised.</summary>
    public const long HeapBytes = 200_000_000;

    private const int MostProcesses = 10;

    /// <summary>Runs a reader.</summary>
    /// <param name="reader">Its name.</param>
    /// <param name="inputs">How many inputs.</param>
    /// <param name="seconds">How much processor time.</param>
    /// <param name="seed">Decides the changes.</param>
    /// <param name="keep">A folder for the inputs that took new paths; null to forget them.</param>
    public static ReaderReport Run(string reader, long inputs, double seconds, int seed, string? keep)
    {
        string program = Instrumented.Program();
        ReaderReport all = new() { Reader = reader };
        for (int process = 0; process < MostProcesses && all.Inputs < inputs && all.ProcessorS < seconds; process++)
        {
            string current = Places.Kept("current", $"{reader}-{Environment.ProcessId}");
            ReaderReport one = Once(program, current,
                ["one", reader, N(inputs - all.Inputs), N(seconds - all.ProcessorS), N(seed + process), current, keep ?? ""], reader);
            all = all.Plus(one);
            CurrentInput.Forget(current);
            if (one.Inputs > 0)
            {
                break; // it came to its end
            }
        }

        return all;
    }

    private static ReaderReport Once(string program, string current, string[] args, string reader)
    {
        ProcessStartInfo start = new("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        start.ArgumentList.Add(program);
        foreach (string arg in args)
        {
            start.ArgumentList.Add(arg);
        }

        start.Environment["DOTNET_GCHeapHardLimit"] = "0x" + HeapBytes.ToString("X", CultureInfo.InvariantCulture);
        start.Environment["DOTNET_gcConcurrent"] = "0";
        using Process process = Process.Start(start)!;
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        string? line = output.Split('\n').LastOrDefault(static l => l.StartsWith('{'));
        if (process.ExitCode == 0 && line is not null)
        {
            return JsonSerializer.Deserialize<ReaderReport>(line)!;
        }

        bool endless = process.ExitCode == ReaderRun.Endless;
        string said = error.Result.Split('\n').FirstOrDefault(static l => l.Length > 0) ?? "";
        string what = endless ? "an input without end" : $"the process ended with {process.ExitCode}: {said}";
        return new ReaderReport
        {
            Reader = reader,
            Crashes = endless ? 0 : 1,
            Hangs = endless ? 1 : 0,
            ProcessorS = endless ? 30 : 1,
            Found = [$"{what} [{ReaderRun.Keep(reader, endless ? "hang" : "end", CurrentInput.Of(current))}]"],
        };
    }

    private static string N(double number) => number.ToString("0.###", CultureInfo.InvariantCulture);
}
