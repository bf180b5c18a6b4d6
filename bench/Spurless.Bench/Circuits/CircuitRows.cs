using System.Globalization;
using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Bench.Circuits;

/// <summary>The rows 'Circuits': 20 nodes and 59 lossy elements.</summary>
public static class CircuitRows
{
    private const string Subject = "Circuits";
    private static readonly TimeSpan Budget = TimeSpan.FromSeconds(1);

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(Subject, "20 nodes, 59 elements x 2,001 points vs library", ">= 60 x", static _ => Analysis()),
        new BenchRow(
            Subject,
            "gradients of S21 by all 59 parts, 2,001 points, vs one analysis",
            "<= 2.2 x",
            static _ => Gradient(GradientParts.S21)),
        new BenchRow(Subject, "gradients of S21 and S11 by all 59 parts", "guide", static _ => Gradient(GradientParts.Values)),
        new BenchRow(Subject, "10,000 x 201 Monte Carlo, 20 nodes, with bands and ranking", "<= 0.25 s", static _ => MonteCarlo()),
    ];

    private static BenchResult Analysis()
    {
        Circuit circuit = BenchCircuit.Make();
        double[] f = BenchCircuit.Frequencies(2001);
        LibraryAnalysis library = new(circuit);
        Complex[] expected = new Complex[f.Length];
        (double ours, ScatteringMatrix[] s, long pivoted) = Ours(circuit, f);
        double theirs = Timing.Best(() => library.Run(f, expected), Budget);
        double worst = 0;
        for (int i = 0; i < f.Length; i++)
        {
            worst = Math.Max(worst, (expected[i] - s[i].S21).Magnitude);
        }

        return new BenchResult(
            Timing.Text(ours), Timing.Text(theirs), Timing.Times(theirs / ours), theirs / ours >= 60 && worst < 1e-11,
            string.Create(CultureInfo.InvariantCulture, $"largest difference {worst:0.0e0}; {pivoted} points by the pivoted solver"));
    }

    private static BenchResult Gradient(GradientParts parts)
    {
        Circuit circuit = BenchCircuit.Make();
        double[] f = BenchCircuit.Frequencies(2001);
        (double analysis, ScatteringMatrix[] s, _) = Ours(circuit, f);
        CircuitSolver solver = CircuitSolver.Create(circuit);
        SolverWorkspace w = solver.CreateWorkspace();
        double[] values = solver.NominalValues();
        GradientBuffer gradient = new(solver, f.Length, parts);
        double with = Timing.Best(() => solver.SolveWithGradient(f, values, w, s, gradient), Budget);
        return new BenchResult(
            Timing.Text(with),
            Timing.Text(analysis),
            Timing.Times(with / analysis),
            parts == GradientParts.S21 ? with / analysis <= 2.2 : null,
            "analysis included");
    }

    private static BenchResult MonteCarlo()
    {
        CircuitSolver solver = CircuitSolver.Create(BenchCircuit.Make(PartTolerance.Uniform(0.05)));
        ToleranceRequest request = new() { FrequenciesHz = BenchCircuit.Frequencies(201), Samples = 10_000 };
        int runs = 0;
        TimeSpan before = TimeSpan.Zero;
        double seconds = Timing.Best(
            () =>
            {
                // The first run warms up and does not count.
                before = runs++ == 1 ? Environment.CpuUsage.TotalTime : before;
                ToleranceAnalysis.TryRun(solver, request, out _);
            },
            Budget);
        double processor = (Environment.CpuUsage.TotalTime - before).TotalSeconds / (runs - 1);
        return new BenchResult(
            Timing.Text(seconds), "", "", seconds <= 0.25,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{Environment.ProcessorCount} processors, {Timing.Text(processor)} of processor time a run; 59 toleranced parts"));
    }

    private static (double Seconds, ScatteringMatrix[] S, long Pivoted) Ours(Circuit circuit, double[] f)
    {
        CircuitSolver solver = CircuitSolver.Create(circuit);
        SolverWorkspace w = solver.CreateWorkspace();
        double[] values = solver.NominalValues();
        ScatteringMatrix[] s = new ScatteringMatrix[f.Length];
        solver.Solve(f, values, w, s);
        long pivoted = w.PivotedPoints;
        double seconds = Timing.Best(() => solver.Solve(f, values, w, s), Budget);
        return (seconds, s, pivoted);
    }
}
