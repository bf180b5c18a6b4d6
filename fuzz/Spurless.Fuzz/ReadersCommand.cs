using System.Globalization;
using Spurless.Fuzz.Readers;
using Spurless.Fuzz.Running;

namespace Spurless.Fuzz;

/// <summary><c>fuzz/run readers</c>: one reader after another, a row each.</summary>
internal static class ReadersCommand
{
    private const long UsualInputs = 10_000;

    public static int Run(string[] args, TextWriter to)
    {
        Arguments given = new(args);
        double? minutes = given.Number("--minutes");
        long inputs = (long)(given.Number("--inputs") ?? (minutes is null ? UsualInputs : long.MaxValue));
        int seed = (int)(given.Number("--seed") ?? 1);
        string? keep = given.Text("--keep");
        string[] names = given.Rest.Count > 0 ? [.. given.Rest] : [.. Reading.All.Select(static r => r.Name)];

        string[] unknown = [.. names.Where(static n => Reading.All.All(r => r.Name != n))];
        if (unknown.Length > 0)
        {
            string known = string.Join(", ", Reading.All.Select(static r => r.Name));
            to.WriteLine($"no reader '{string.Join("', '", unknown)}'; there are {known}");
            return 2;
        }

        to.WriteLine(ReaderTable.Head);
        List<ReaderReport> reports = [];
        foreach (string name in names)
        {
            ReaderReport report =
                ReaderProcess.Run(name, inputs, (minutes ?? 1e6) * 60, seed, keep is null ? null : Path.GetFullPath(keep));
            reports.Add(report);
            to.WriteLine(ReaderTable.Row(report));
            to.Flush();
        }

        to.WriteLine();
        to.WriteLine(ReaderTable.Legend);
        foreach (string found in reports.SelectMany(static r => r.Found.Select(f => $"FOUND {r.Reader}: {f}")))
        {
            to.WriteLine(found);
        }

        ReaderReport all = reports.Aggregate(static (a, b) => a.Plus(b));
        to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{all.Inputs:#,0} inputs, {all.Crashes} crashes, {all.Hangs} hangs"));
        return reports.TrueForAll(static r => r.IsClean) ? 0 : 1;
    }
}
