using System.Globalization;

namespace Spurless.Fuzz.Commands;

/// <summary><c>fuzz/run commands</c>: random sites and circuits through the commands.</summary>
internal static class CommandsCommand
{
    public static async Task<int> RunAsync(string[] args, TextWriter to)
    {
        Arguments given = new(args);
        int seed = (int)(given.Number("--seed") ?? 1);
        CommandReport report;
        using (CommandRun run = new(seed))
        {
            int sites = (int)(given.Number("--sites") ?? 1000);
            report = await run.RunAsync(sites, (int)(given.Number("--circuits") ?? 1000)).ConfigureAwait(false);
        }

        to.WriteLine(Words(report));
        foreach (string found in report.Found)
        {
            to.WriteLine("FOUND " + found);
        }

        return report.Found.Count == 0 ? 0 : 1;
    }

    /// <summary>A report in words.</summary>
    public static string Words(CommandReport r) => string.Create(CultureInfo.InvariantCulture,
        $"{r.Sites:#,0} sites, {r.Circuits:#,0} circuits, {r.Commands:#,0} commands: {r.Refused:#,0} refused with words, ")
        + string.Create(CultureInfo.InvariantCulture,
        $"{r.Stopped:#,0} stopped on their way, slowest after {r.LongestStopMs:0} ms ({r.LongestStopProcessorMs:0} ms of processor, ")
        + $"{r.SlowestToStop}); {r.Found.Count} faults";
}
