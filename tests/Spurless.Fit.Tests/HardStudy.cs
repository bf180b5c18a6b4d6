using System.Globalization;
using System.Text;
using Spurless.Files.Diagnostics;

namespace Spurless.Fit.Tests;

/// <summary>Runs the fit as a user does on hard cases and counts how often what it calls known is so.</summary>
internal sealed class HardStudy
{
    private const double Far = 3;

    private readonly List<Line> _lines = [];
    private readonly List<(HardKind Kind, bool Doubted)> _cases = [];
    private readonly Lock _lock = new();

    /// <summary>One value of one case.</summary>
    /// <param name="Kind">What is wrong with the case.</param>
    /// <param name="Number">The case.</param>
    /// <param name="Name">Part and quantity.</param>
    /// <param name="Known">Whether the fit calls it known.</param>
    /// <param name="Miss">Distance of the truth from the middle of the interval, in half widths, on a logarithmic scale.</param>
    /// <param name="Width">Upper over lower end.</param>
    public sealed record Line(HardKind Kind, int Number, string Name, bool Known, double Miss, double Width);

    public IReadOnlyList<Line> Lines => _lines;

    public List<string> Alarms { get; } = [];

    /// <summary>Of each case what is left over and what the instrument had to be.</summary>
    public List<string> Beside { get; } = [];

    public double Coverage => Share(_lines.Where(static l => l.Known), static l => l.Miss <= 1);

    public double FarOff => Share(_lines.Where(static l => l.Known), static l => l.Miss > Far);

    public double CoverageOf(HardKind kind) => Share(_lines.Where(l => l.Known && l.Kind == kind), static l => l.Miss <= 1);

    public double FarOffOf(HardKind kind) => Share(_lines.Where(l => l.Known && l.Kind == kind), static l => l.Miss > Far);

    public double Known => Share(_lines, static l => l.Known);

    public static HardStudy Run(IEnumerable<int> numbers)
    {
        HardStudy study = new();
        Parallel.ForEach(numbers, number => study.Add(HardCase.Make(number)));
        return study;
    }

    /// <summary>The table, one row for what is wrong and one for all.</summary>
    public string Table()
    {
        StringBuilder table = new();
        table.AppendLine(
            "| what is wrong | cases | told to be no such circuit | values | called known | of those held | off by over 3 intervals |");
        table.AppendLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: |");
        foreach (HardKind kind in Enum.GetValues<HardKind>())
        {
            Row(kind.ToString(), l => l == kind);
        }

        Row("all", static _ => true);
        return table.ToString();

        void Row(string name, Func<HardKind, bool> which)
        {
            Line[] all = [.. _lines.Where(l => which(l.Kind))], known = [.. all.Where(static l => l.Known)];
            (HardKind, bool Doubted)[] cases = [.. _cases.Where(c => which(c.Kind))];
            table.AppendLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {name} | {cases.Length} | {cases.Count(static c => c.Doubted)} | {all.Length} | "
                    + $"{100 * Share(all, static l => l.Known):0.0} % | {100 * Share(known, static l => l.Miss <= 1):0.0} % | "
                    + $"{100 * Share(known, static l => l.Miss > Far):0.0} % |"));
        }
    }

    private static double Share(IEnumerable<Line> lines, Func<Line, bool> of) => lines.Any() ? lines.Average(l => of(l) ? 1.0 : 0.0)
        : double.NaN;

    private static string Whole(double value) => value.ToString("0", CultureInfo.InvariantCulture);

    private void Add(HardCase one)
    {
        FitSweep sweep = FitSweep.From(one.Sweep(), 50);
        FitResult result = CircuitFit.TryRun(one.Traced, sweep, new FitOptions { Threads = 1, Advise = false }, out Refusal? problem)
            ?? throw new InvalidOperationException($"case {one.Number}: {problem}");
        lock (_lock)
        {
            _cases.Add((one.Kind, result.Values[0].Doubted));
            string left = string.Join(' ', result.Traces.Select(static t => Whole(10 * Math.Log10(
                Math.Max(1e-9, (t.Residual * t.Residual) - (t.Noise * t.Noise))))));
            string missing = one.Missing is { } part ? $", missing {part.Capacitance.Require():E2} F {part.From}-{part.To}" : "";
            Beside.Add(
                $"{one.Number} {one.Kind}: left over {left} dB, weighs {Whole(result.Widened)} less{missing}");
            foreach (InstrumentAlarm alarm in result.InstrumentAlarms)
            {
                Alarms.Add($"{one.Number} {one.Kind}: {alarm}");
            }

            foreach (FittedValue v in result.Values)
            {
                double half = Math.Log(v.High / v.Low) / 2, miss = Math.Abs(Math.Log(one.Truth(v.Part, v.Quantity) / v.Low) - half) / half;
                _lines.Add(
                    new Line(one.Kind, one.Number,
                    $"{v.Part} {v.Quantity} true {one.Truth(v.Part, v.Quantity):E3} found {v.Value:E3} {v.Low:E3} to {v.High:E3} struct "
                    + $"{result.IsStructured} wid {result.Widened:F1}", v.Identifiable, miss, v.High / v.Low));
            }
        }
    }
}
