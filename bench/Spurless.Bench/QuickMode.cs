using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;

namespace Spurless.Bench;

/// <summary>Measures every row by the stop watch, prints it, and writes the table of docs/performance.md.</summary>
internal static class QuickMode
{
    private const string Begin = "<!-- bench/run --quick writes from here -->";
    private const string End = "<!-- to here -->";

    public static int Run(string[] args, TimeProvider time, TextWriter output, TextWriter log)
    {
        string? only = Value(args, "--only");
        string root = Value(args, "--root") ?? Directory.GetCurrentDirectory();
        long begin = time.GetTimestamp();
        List<(BenchRow Row, BenchResult Result)> results = [];
        foreach (BenchRow row in Rows.All)
        {
            if (only is not null && !row.Name.Contains(only, StringComparison.OrdinalIgnoreCase)
                && !row.Subject.Contains(only, StringComparison.OrdinalIgnoreCase))
            {
                continue;
            }

            BenchResult result = row.Measure(new BenchContext(true, log));
            results.Add((row, result));
            output.WriteLine($"{row.Subject}: {row.Name}");
            output.WriteLine($"    {Join(result.Measured, Vs(result.Baseline), result.Ratio)}   goal {row.Goal}: {Verdict(result)}");
            if (result.Note.Length > 0)
            {
                output.WriteLine($"    {result.Note}");
            }
        }

        output.WriteLine(
            string.Create(CultureInfo.InvariantCulture, $"{results.Count} rows in {time.GetElapsedTime(begin).TotalSeconds:0} s"));
        string file = Path.Combine(root, "docs", "performance.md");
        if (only is null && !args.Contains("--no-report") && File.Exists(file))
        {
            Write(file, Table(results, time));
        }

        return results.Exists(static r => r.Result.Met == false) ? 1 : 0;
    }

    private static string Table(List<(BenchRow Row, BenchResult Result)> results, TimeProvider time)
    {
        StringBuilder text = new();
        text.AppendLine();
        text.AppendLine(CultureInfo.InvariantCulture, $"Measured {time.GetUtcNow():yyyy-MM-dd} on {Machine()}.");
        foreach (IGrouping<string, (BenchRow Row, BenchResult Result)> subject in results.GroupBy(static r => r.Row.Subject))
        {
            text.AppendLine();
            text.AppendLine(CultureInfo.InvariantCulture, $"### {subject.Key}");
            text.AppendLine();
            text.AppendLine("| what | measured | baseline, same run | ratio | goal | met | beside it |");
            text.AppendLine("| --- | --- | --- | --- | --- | --- | --- |");
            foreach ((BenchRow row, BenchResult r) in subject)
            {
                text.AppendLine(
                    CultureInfo.InvariantCulture,
                    $"| {row.Name} | {r.Measured} | {r.Baseline} | {r.Ratio} | {row.Goal} | {Verdict(r)} | {r.Note} |");
            }
        }

        text.AppendLine();
        return text.ToString();
    }

    private static string Machine()
    {
        string cpu = File.Exists("/proc/cpuinfo")
            ? File
                .ReadLines("/proc/cpuinfo")
                .FirstOrDefault(static l => l.StartsWith("model name", StringComparison.Ordinal))?
                .Split(':')[^1]
                .Trim() ?? ""
            : "";
        string load = File.Exists("/proc/loadavg") ? "load average " + File.ReadAllText("/proc/loadavg").Split(' ')[0] : "";
        return Join(
            cpu,
            $"{Environment.ProcessorCount} processors, {RuntimeInformation.OSArchitecture}, {RuntimeInformation.FrameworkDescription}",
            load);
    }

    private static void Write(string file, string table)
    {
        string text = File.ReadAllText(file);
        int from = text.IndexOf(Begin, StringComparison.Ordinal);
        int to = text.IndexOf(End, StringComparison.Ordinal);
        if (from >= 0 && to > from)
        {
            File.WriteAllText(file, text[..(from + Begin.Length)] + "\n" + table + text[to..]);
        }
    }

    private static string Verdict(BenchResult result) => result.Met switch { true => "met", false => "NOT met", null => "guide" };

    private static string Vs(string baseline) => baseline.Length == 0 ? "" : "against " + baseline;

    private static string Join(params string[] parts) => string.Join(", ", parts.Where(static p => p.Length > 0));

    private static string? Value(string[] args, string name)
    {
        int at = Array.IndexOf(args, name);
        return at >= 0 && at + 1 < args.Length ? args[at + 1] : null;
    }
}
