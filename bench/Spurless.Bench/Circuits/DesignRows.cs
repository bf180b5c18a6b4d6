using System.Diagnostics;
using System.Globalization;
using Spurless.Design.Designing;
using Spurless.Design.Questions;

namespace Spurless.Bench.Circuits;

/// <summary>
/// The rows 'design': all families for the demo's requirement, optimised, rounded to E24, wound, with yield as built and tuned.
/// </summary>
public static class DesignRows
{
    private const string Subject = "Circuits";

    private static readonly DesignQuestion _question = new()
    {
        Name = "bench",
        PassFromHz = 144.9e6,
        PassToHz = 145.2e6,
        MostLossDb = 3.5,
        LeastReturnLossDb = 12,
        Reject = [new(153.35e6, 153.35e6, 18), new(157.5e6, 157.5e6, 25), new(160.525e6, 160.525e6, 30), new(459e6, 467e6, 50)],
        Parts = new PartLimits
        {
            InductorQ = new(180, 146e6),
            CapacitorQ = new(500, 146e6),
            InductorsH = (8e-9, 300e-9),
            CapacitorsF = (0.5e-12, 100e-12),
            Series = 24,
        },
    };

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(Subject, "design, all families, with yield", "<= 10 s, first in 1 s", static _ => Design()),
    ];

    private static BenchResult Design()
    {
        DesignAnswer? answer = null;
        double first = double.PositiveInfinity;
        double seconds = Timing.Best(
            () =>
            {
                First watch = new();
                answer = Designer.Run(_question, watch);
                first = Math.Min(first, watch.Seconds);
            },
            TimeSpan.FromSeconds(5));
        int meet = answer!.Candidates.Count(static c => c.Meets);
        return new BenchResult(
            Timing.Text(seconds), "", "", seconds <= 10 && first <= 1 && meet >= 3,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{Environment.ProcessorCount} processors; first after {Timing.Text(first)}; "
                    + $"{answer.FamiliesTried.Count} families, {meet} circuits meet it"));
    }

    private sealed class First : IProgress<DesignProgress>
    {
        private readonly long _start = Stopwatch.GetTimestamp();

        public double Seconds { get; private set; } = double.PositiveInfinity;

        public void Report(DesignProgress value)
        {
            if (value.Newest is not null && double.IsPositiveInfinity(Seconds))
            {
                Seconds = Stopwatch.GetElapsedTime(_start).TotalSeconds;
            }
        }
    }
}
