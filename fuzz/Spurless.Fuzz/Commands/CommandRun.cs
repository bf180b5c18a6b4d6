using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Spurless.Fuzz.Running;

namespace Spurless.Fuzz.Commands;

/// <summary>What a run came to.</summary>
internal sealed record CommandReport
{
    /// <summary>Sites that were made.</summary>
    public int Sites { get; set; }

    /// <summary>Circuits that were made.</summary>
    public int Circuits { get; set; }

    /// <summary>Commands that were carried out.</summary>
    public int Commands { get; set; }

    /// <summary>Those that told something of the input and gave no result.</summary>
    public int Refused { get; set; }

    /// <summary>Commands that were stopped on their way.</summary>
    public int Stopped { get; set; }

    /// <summary>Longest from the request to stop until the command had ended, in milliseconds of the clock.</summary>
    public double LongestStopMs { get; set; }

    /// <summary>The same in processor time of the process, which another program's load does not lengthen.</summary>
    public double LongestStopProcessorMs { get; set; }

    /// <summary>Which command that was.</summary>
    public string SlowestToStop { get; set; } = "";

    /// <summary>What went wrong.</summary>
    public List<string> Found { get; } = [];
}

/// <summary>Random sites and circuits through the commands of the program, in process.</summary>
internal sealed partial class CommandRun : IDisposable
{
    /// <summary>
    /// Processor time within which a command that is stopped must have ended. It is the whole process's, tests that run beside included:
    /// a command that does not listen is found by it, how fast one stops is for <c>bench/</c> to measure.
    /// </summary>
    public const double StopsWithinMs = 3_000;

    private const int MostFound = 30;
    private static readonly string[] SiteFormats = ["text", "json", "csv", "html"];
    private readonly string _folder;
    private readonly int _seed;
    private readonly CommandReport _report = new();

    public CommandRun(int seed)
    {
        _seed = seed;
        string memory = "/dev/shm";
        string name = "spurless-commands-" + Path.GetRandomFileName();
        _folder = Directory.CreateDirectory(Path.Combine(Directory.Exists(memory) ? memory : Path.GetTempPath(), name)).FullName;
        Directory.CreateDirectory(At("filters"));
        foreach (string file in Directory.GetFiles(Places.Of("demo", "filters")))
        {
            File.Copy(file, At("filters/" + Path.GetFileName(file)));
        }

        File.WriteAllText(At("x.circuit.yaml"), new RandomCircuits(new Random(seed)).Make().Circuit);
    }

    /// <summary>Runs.</summary>
    public async Task<CommandReport> RunAsync(int sites, int circuits)
    {
        for (int i = 0; i < Math.Max(sites, circuits); i++)
        {
            // A seed for each, so that one that fails can be made again by itself.
            Random random = new(unchecked(_seed * 1_000_003 + i));
            if (i < circuits)
            {
                await CircuitAsync(random, i).ConfigureAwait(false);
            }

            if (i < sites)
            {
                await SiteAsync(random, i).ConfigureAwait(false);
            }
        }

        return _report;
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private async Task CircuitAsync(Random random, int number)
    {
        (string text, double centre) = new RandomCircuits(random).Make();
        string file = At("x.circuit.yaml");
        await File.WriteAllTextAsync(file, text).ConfigureAwait(false);
        _report.Circuits++;
        string at = string.Create(CultureInfo.InvariantCulture, $"{centre / 1e6:0.0000} MHz");
        string format = SiteFormats[random.Next(4)];
        string[][] commands =
        [
            ["check", file, "--format", random.Next(2) == 0 ? "text" : "json"],
            random.Next(2) == 0 ? ["response", file, "--format", random.Next(5) == 0 ? "s2p" : format]
                : ["response", file, "--at", at, "--format", format],
            ["stress", file, "--power", "25 W", "--at", at, "--format", format, .. random.Next(2) == 0 ? (string[])["--swr", "3"] : []],
            ["tolerance", file, "--at", at, "--samples", "100", "--others", "5 %", "--format", format],
            ["response", file, "--near", at, "--with", Places.Of("demo", "quernmoss.site.yaml"), "--format", format],
        ];
        await EachAsync(commands, random, $"circuit {number}").ConfigureAwait(false);
    }

    private async Task SiteAsync(Random random, int number)
    {
        string file = At("x.site.yaml");
        string other = At("y.site.yaml");
        if (File.Exists(file))
        {
            File.Move(file, other, overwrite: true);
        }

        await File.WriteAllTextAsync(file, new RandomSites(random).Make()).ConfigureAwait(false);
        _report.Sites++;
        string format = SiteFormats[random.Next(4)];
        List<string[]> commands =
        [
            ["check", file, "--format", random.Next(2) == 0 ? "text" : "json"],
            ["study", file, "--format", format, .. random.Next(3) == 0 ? (string[])["--top", "3"] : []],
            ["response", At("filters/three-tank.circuit.yaml"), "--with", file, "--format", format],
        ];
        if (File.Exists(other))
        {
            commands.Add(["study", file, "--against", other, "--format", format == "json" ? "json" : "text"]);
        }

        await EachAsync(commands, random, $"site {number}").ConfigureAwait(false);
    }

    private async Task EachAsync(IEnumerable<string[]> commands, Random random, string which)
    {
        foreach (string[] command in commands)
        {
            bool stop = random.Next(10) == 0;
            Screen screen = new();
            using CancellationTokenSource cancel = new();
            Stopwatch clock = new();
            TimeSpan asked = default;
            if (stop)
            {
                cancel.Token.Register(() =>
                {
                    asked = Environment.CpuUsage.TotalTime;
                    clock.Start();
                });
                cancel.CancelAfter(TimeSpan.FromMilliseconds(random.NextDouble() * 20));
            }

            int status = await Task.Run(() => CommandFront.RunAsync(command, screen, cancel.Token)).ConfigureAwait(false);
            _report.Commands++;
            if (stop && clock.IsRunning)
            {
                Stopped(command, clock.Elapsed.TotalMilliseconds, (Environment.CpuUsage.TotalTime - asked).TotalMilliseconds);
            }

            _report.Refused += status == 1 ? 1 : 0;
            if (Problem(command, status, screen, stop) is { } problem && _report.Found.Count < MostFound)
            {
                string input = command[1].EndsWith(".yaml", StringComparison.Ordinal) ? File.ReadAllText(command[1]) : "";
                string kept = ReaderRun.Keep("commands", "command", System.Text.Encoding.UTF8.GetBytes($"# {problem}\n{input}"));
                _report.Found.Add($"{which} of seed {_seed}: {string.Join(' ', command.Select(Path.GetFileName))}: {problem} [{kept}]");
            }
        }
    }

    private void Stopped(string[] command, double ms, double processorMs)
    {
        _report.Stopped++;
        _report.LongestStopMs = Math.Max(_report.LongestStopMs, ms);
        if (processorMs > _report.LongestStopProcessorMs)
        {
            (_report.LongestStopProcessorMs, _report.SlowestToStop) = (processorMs, string.Join(' ', command.Select(Path.GetFileName)));
        }

        if (processorMs > StopsWithinMs)
        {
            _report.Found.Add(string.Create(CultureInfo.InvariantCulture,
                $"{string.Join(' ', command.Select(Path.GetFileName))}: {processorMs:0} ms of processor time until it had stopped"));
        }
    }

    /// <summary>What is wrong with what a command gave; null where nothing is.</summary>
    public static string? Problem(string[] command, int status, Screen screen, bool mayStop)
    {
        string output = screen.OutputText;
        string error = screen.ErrorText;
        if (status is not (0 or 1) && !(mayStop && status == 130))
        {
            return $"status {status}: {error.Split('\n')[0]}";
        }

        if (error.Contains("fault of the program", StringComparison.Ordinal) || (status == 1 && error.Trim().Length == 0))
        {
            return error.Split('\n')[0] + " (status 1)";
        }

        if (NotANumber().Match(output) is { Success: true } match)
        {
            return $"'{match.Value}' in the output, at {output[Math.Max(0, match.Index - 60)..match.Index].ReplaceLineEndings(" ")}";
        }

        if (status == 0 && command.Contains("json"))
        {
            try
            {
                using JsonDocument read = JsonDocument.Parse(output);
            }
            catch (JsonException e)
            {
                return "no JSON: " + e.Message;
            }
        }

        return null;
    }

    private string At(string name) => Path.Combine(_folder, name);

    [GeneratedRegex(@"(?<![\w/+=])(NaN|-?Infinity|1\.#INF)(?!\w)")]
    private static partial Regex NotANumber();
}
