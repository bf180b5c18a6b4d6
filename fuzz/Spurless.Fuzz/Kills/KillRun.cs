using System.Diagnostics;
using System.Globalization;
using System.Text;
using Spurless.Workbench.Folders;

namespace Spurless.Fuzz.Kills;

/// <summary>What many kills came to.</summary>
/// <param name="Way"><c>pages</c> or <c>out</c>.</param>
/// <param name="Kills">How often the process was killed.</param>
/// <param name="Saves">How many saves it had told in all.</param>
/// <param name="Within">Kills within a save: a text in the making was left, or a save was done and not yet told.</param>
/// <param name="Lost">Kills after which a save that had been told was not there.</param>
/// <param name="Torn">Kills after which the file was neither the old text nor the new one.</param>
internal sealed record KillReport(string Way, int Kills, long Saves, int Within, int Lost, int Torn);

/// <summary>Kills a saving process at random moments and looks at what is left.</summary>
internal static class KillRun
{
    /// <summary>Kills.</summary>
    public static async Task<KillReport> RunAsync(string way, int kills, int seed)
    {
        Random random = new(seed);
        byte[][] outs = [await Saver.OutAsync(0).ConfigureAwait(false), await Saver.OutAsync(1).ConfigureAwait(false)];
        byte[] Text(int number) => way == "pages" ? Encoding.UTF8.GetBytes(Saver.Text(number)) : outs[number % 2];
        string folder = Directory.CreateTempSubdirectory("spurless-kills-").FullName;
        string file = Path.Combine(folder, Saver.File);
        KillReport report = new(way, 0, 0, 0, 0, 0);
        int number = 0;
        await File.WriteAllBytesAsync(file, Text(0)).ConfigureAwait(false);
        try
        {
            for (int i = 0; i < kills; i++)
            {
                int told = Kill(way, folder, number, random);
                byte[] there = await File.ReadAllBytesAsync(file).ConfigureAwait(false);
                bool old = there.AsSpan().SequenceEqual(Text(told));
                bool next = there.AsSpan().SequenceEqual(Text(told + 1));
                string[] left = Directory.GetFiles(folder, ".*");
                bool earlier = !old && !next && way == "pages"
                    && Enumerable.Range(number, told - number + 1).Any(n => there.AsSpan().SequenceEqual(Text(n)));
                report = report with
                {
                    Kills = report.Kills + 1,
                    Saves = report.Saves + told - number,
                    Within = report.Within + (left.Length > 0 || next ? 1 : 0),
                    Lost = report.Lost + (earlier ? 1 : 0),
                    Torn = report.Torn + (old || next || earlier ? 0 : 1),
                };
                number = next ? told + 1 : told;
                if (!old && !next)
                {
                    await File.WriteAllBytesAsync(file, Text(number)).ConfigureAwait(false);
                }

                // Now and then the next start comes, a while later, and clears away.
                if (i % 10 == 9 && FolderLock.TryTake(folder, out FolderLock? taken))
                {
                    using (taken)
                    {
                        _ = taken!.ClearAway(TimeProvider.System.GetUtcNow().AddHours(1));
                    }

                    if (Directory.GetFiles(folder, ".*saving").Length > 0)
                    {
                        throw new Violation("what was left behind was not cleared away");
                    }
                }
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        return report;
    }

    // Returns the last number that was told.
    private static int Kill(string way, string folder, int number, Random random)
    {
        ProcessStartInfo start = new("dotnet") { RedirectStandardOutput = true };
        start.ArgumentList.Add(typeof(KillRun).Assembly.Location);
        start.ArgumentList.Add("saver");
        start.ArgumentList.Add(way);
        start.ArgumentList.Add(folder);
        start.ArgumentList.Add(number.ToString(CultureInfo.InvariantCulture));
        using Process process = Process.Start(start)!;
        // Some saves, the last of them timed; then at any moment of the next one.
        string first = "";
        Stopwatch save = new();
        for (int saves = 2 + random.Next(3); saves > 0; saves--)
        {
            save.Restart();
            first = process.StandardOutput.ReadLine() ?? throw new Violation($"the saving process ended with a save refused ({way})");
        }

        TimeSpan until = random.NextDouble() * save.Elapsed;
        save.Restart();
        SpinWait.SpinUntil(() => save.Elapsed >= until);
        process.Kill();
        string rest = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        // A number without its line feed was not told.
        string[] lines = [first, .. rest.Split('\n')[..^1]];
        return int.Parse(lines[^1], CultureInfo.InvariantCulture);
    }
}
