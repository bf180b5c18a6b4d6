using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Reports.Html;
using Spurless.Reports.Lists;

namespace Spurless.Reports.Registers;

/// <summary>The report of a screening: one self-contained page with the receivers that are worst off.</summary>
public static class ScreenReport
{
    private const int Most = 1_000;
    private const int OverNoise = 6;

    /// <summary>Makes it of the lines of the screening.</summary>
    /// <param name="to">Where to.</param>
    /// <param name="lines">The lines, the head first.</param>
    /// <param name="context">When and by what it was made.</param>
    public static async Task WriteAsync(TextWriter to, IEnumerable<string> lines, ReportContext context)
    {
        ArgumentNullException.ThrowIfNull(to);
        ArgumentNullException.ThrowIfNull(lines);
        long count = 0;
        long harmed = 0;
        long marginal = 0;
        long unknown = 0;
        long incomplete = 0;
        PriorityQueue<string[], double> worst = new();
        foreach (string line in lines.Where(static l => l != ScreenWriter.Head))
        {
            string[] cells = [.. ScreenWriter.Cells(line)];
            count++;
            harmed += cells[4] == "0" ? 0 : 1;
            marginal += cells[4] == "0" && cells[5] != "0" ? 1 : 0;
            unknown += cells[9] == "0" ? 0 : 1;
            incomplete += cells[10] == "yes" ? 0 : 1;
            if (cells[OverNoise].Length > 0)
            {
                worst.Enqueue(cells, double.Parse(cells[OverNoise], CultureInfo.InvariantCulture));
                if (worst.Count > Most)
                {
                    worst.Dequeue();
                }
            }
        }

        string[][] rows = [.. Falling(worst)];
        ListView view = View(count, harmed, marginal, rows, [.. Said(unknown, incomplete, rows.Any(static r => r[11] == "yes"))]);
        await to.WriteAsync(await ListReport.RenderAsync(view, context).ConfigureAwait(false)).ConfigureAwait(false);
    }

    private static ListView View(long count, long harmed, long marginal, string[][] rows, string[] said) => new()
    {
        Kind = "screening",
        Title = "What a register’s transmitters do to many receivers",
        Lead = $"{Several(harmed)} of {Several(count)} receivers {(harmed == 1 ? "has" : "have")} a harmful mixture, "
            + (marginal == 0 ? "none else a marginal one." : $"{Several(marginal)} more a marginal one."),
        Tables = rows.Length == 0
            ? []
            :
            [
                new ListTable(
                    "The worst off",
                    [
                        new("receiver"), new("MHz", true), new("harmful", true), new("marginal", true), new("worst over noise dB", true),
                        new("mixture"), new("of"),
                    ],
                    [.. rows.Select(static r => (IReadOnlyList<string>)Row(r))],
                    $"The {rows.Length} worst of {Several(count)} receivers; a result in CSV has all."),
            ],
        Notes = [new ListNotes("To be said", said)],
        Method = "docs/method/registers.md",
    };

    private static IEnumerable<string> Said(long unknown, long incomplete, bool capped)
    {
        yield return "Counted are mixtures that are made in the receivers, at levels that are predicted: measure before money is spent.";
        if (capped)
        {
            yield return "Capped: by the law of its order the mixture would be stronger than the receiver can make it; "
                + "said is the most that it delivers.";
        }

        if (unknown > 0)
        {
            yield return $"On {Several(unknown)} receivers some transmitters stand within a wavelength: what they make is not counted.";
        }

        if (incomplete > 0)
        {
            yield return $"On {Several(incomplete)} receivers there are more mixtures than are counted: "
                + "their counts are the least there are.";
        }
    }

    private static string[] Row(string[] cells) =>
    [
        cells[0],
        Figures.MegahertzExact(long.Parse(cells[3], CultureInfo.InvariantCulture)),
        cells[4],
        cells[5],
        Figures.Db(double.Parse(cells[OverNoise], CultureInfo.InvariantCulture), Typography.Fine)
            + (cells[11] == "yes" ? " (capped)" : ""),
        cells[7].Replace(" - ", " − ", StringComparison.Ordinal).Replace(" x ", " × ", StringComparison.Ordinal),
        cells[8],
    ];

    private static Stack<string[]> Falling(PriorityQueue<string[], double> worst)
    {
        Stack<string[]> falling = new();
        while (worst.TryDequeue(out string[]? row, out _))
        {
            falling.Push(row);
        }

        return falling;
    }

    private static string Several(long count) => Figures.Count(count, Typography.Fine);
}
