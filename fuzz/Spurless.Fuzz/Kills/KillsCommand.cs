using System.Globalization;

namespace Spurless.Fuzz.Kills;

/// <summary><c>fuzz/run kills</c>: kills in saves, and what else may come between.</summary>
internal static class KillsCommand
{
    public static async Task<int> RunAsync(string[] args, TextWriter to)
    {
        Arguments given = new(args);
        int seed = (int)(given.Number("--seed") ?? 1);
        bool held = true;
        foreach ((string way, string name) in ((string, string)[])[("pages", "--pages"), ("out", "--outs")])
        {
            KillReport r = await KillRun.RunAsync(way, (int)(given.Number(name) ?? 1000), seed).ConfigureAwait(false);
            to.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{(way == "pages" ? "saves of pages" : "--out")}: {r.Kills} kills among {r.Saves:#,0} saves, {r.Within} within one; ")
                + string.Create(CultureInfo.InvariantCulture, $"{r.Lost} saves lost, {r.Torn} files torn"));
            to.Flush();
            held &= r is { Lost: 0, Torn: 0 };
        }

        foreach ((string what, string outcome, bool good) in Trouble.Run((int)(given.Number("--rounds") ?? 200), seed))
        {
            to.WriteLine($"{what}: {outcome}");
            held &= good;
        }

        return held ? 0 : 1;
    }
}
