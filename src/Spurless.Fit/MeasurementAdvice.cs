using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Fit;

/// <summary>
/// Computes which one further measurement would shrink the intervals most: the information of each possible one is simulated at the values
/// found, with the noise of the sweep there is, and added.
/// </summary>
internal static class MeasurementAdvice
{
    /// <summary>How well a part is measured by itself, one sigma as a ratio: a hand-held meter's figure, common practice.</summary>
    private const double MeterSigma = 0.02;

    /// <summary>Nobody needs a value better than this.</summary>
    private const double Enough = 0.005;
    private const double LeastGain = 0.25;
    private const double ShortOhm = 1e-3;

    /// <summary>The best one; null where no one would bring much.</summary>
    public static NextMeasurement? Best(
        FitModel model, FitProblem problem, TraceNoise[] noise, FitSurroundings around, CancellationToken cancellation)
    {
        Circuit circuit = problem.Circuit;
        FitUnknown[] unknowns = around.Unknowns;
        int n = unknowns.Length;
        List<(NextMeasurement What, double[] Information)> possible = [];
        for (int i = 0; i < n; i++)
        {
            if (Alone(unknowns[i]) is { } alone && around.Sigmas[i] > MeterSigma)
            {
                double[] with = [.. around.All];
                with[(i * n) + i] += 1 / (MeterSigma * MeterSigma);
                possible.Add((alone, with));
            }
        }

        Circuit fitted = FittedCircuit.With(circuit, unknowns.Select((u, i) => (u.Part, u.Quantity, u.From(around.X[i]))));
        Missing(model, problem, fitted, noise, around, possible);
        foreach (string node in circuit.Parts.SelectMany(static p => p.Nodes).Distinct())
        {
            if (node == Circuit.Ground || node == circuit.PortIn || node == circuit.PortOut || cancellation.IsCancellationRequested)
            {
                continue;
            }

            Resistor piece = new() { Name = "short at " + node, From = node, To = Circuit.Ground, Resistance = PartValue.Known(ShortOhm) };
            FitSweep again = model.Data.Sweep;
            if (Simulated(problem, fitted with { Parts = [.. fitted.Parts, piece] }, unknowns, again, noise) is { } information)
            {
                NextMeasurement shorted = new(MeasurementKind.ShortedNode, node, null)
                {
                    AcrossNode =
                    [
                        .. circuit.Parts.OfType<TwoTerminalPart>()
                            .Where(p => (p.From == node && p.To == Circuit.Ground) || (p.To == node && p.From == Circuit.Ground))
                            .Select(static p => p.Name),
                    ],
                };
                possible.Add((shorted, Sum(around.All, information)));
            }
        }

        NextMeasurement? best = null;
        foreach ((NextMeasurement what, double[] information) in possible)
        {
            double[] sigmas = FitInformation.Sigmas(information, n);
            double gain = 0;
            for (int i = 0; i < n; i++)
            {
                gain += unknowns[i].Quantity == CircuitQuantity.Q
                    ? 0
                    : Math.Log(Math.Max(around.Sigmas[i], Enough) / Math.Max(sigmas[i], Enough));
            }

            if (gain > LeastGain && gain > (best?.Gain ?? 0) * 1.02)
            {
                best = what with { Narrows = Narrowed(unknowns, around.Sigmas, sigmas), Gain = gain };
            }
        }

        return best;
    }

    private static NextMeasurement? Alone(FitUnknown u) => u.Quantity switch
    {
        CircuitQuantity.CapacitanceF or CircuitQuantity.InductanceH or CircuitQuantity.ResistanceOhm =>
            new(MeasurementKind.PartAlone, u.Part, null),
        CircuitQuantity.LengthM => new(MeasurementKind.Length, u.Part, null),
        _ => null,
    };

    // S-parameters that the sweep does not have.
    private static void Missing(FitModel model, FitProblem problem, Circuit fitted, TraceNoise[] noise, FitSurroundings around,
        List<(NextMeasurement, double[])> possible)
    {
        FitSweep sweep = model.Data.Sweep;
        foreach (SweepParameter parameter in (SweepParameter[])[SweepParameter.S11, SweepParameter.S21, SweepParameter.S22])
        {
            if (sweep.Traces.Any(t => t.Parameter == parameter)
                || (parameter == SweepParameter.S21 && sweep.Traces.Any(static t => t.Parameter == SweepParameter.S12)))
            {
                continue;
            }

            SweepTrace trace = new(parameter, sweep.Traces[0].Values, sweep.Traces[0].Decibels);
            if (Simulated(problem, fitted, around.Unknowns, sweep.With(trace), noise) is { } information)
            {
                possible.Add((new NextMeasurement(MeasurementKind.FurtherParameter, null, parameter), Sum(around.All, information)));
            }
        }
    }

    // Information of a sweep of a circuit, its own gains and planes unknown.
    private static double[]? Simulated(FitProblem problem, Circuit circuit, FitUnknown[] unknowns, FitSweep like, TraceNoise[] noise)
    {
        if (FitProblem.TryMake(circuit, s => [.. unknowns.Select(u => u.With(s))], problem.Capacitors.Count > 0,
            problem.Errors) is not { } simulated)
        {
            return null;
        }

        CircuitSolver solver = simulated.Solver;
        double[] frequencies = [.. like.FrequenciesHz];
        ScatteringMatrix[] s = new ScatteringMatrix[frequencies.Length];
        if (solver.Solve(frequencies, solver.NominalValues(), solver.CreateWorkspace(), s) is not null)
        {
            return null;
        }

        FitData data = new(like.Select(t => Trace(t, s)));
        for (int t = 0; t < data.Parameters.Length; t++)
        {
            TraceNoise own = noise[Math.Min(t, noise.Length - 1)];
            for (int i = 0; i < data.Points; i++)
            {
                double growth = data.Magnitude[t]
                    ? Math.Pow(10, -data.Real[t][i] / 10)
                    : (data.Real[t][i] * data.Real[t][i]) + (data.Imaginary[t][i] * data.Imaginary[t][i]);
                double variance = Math.Max(own.Floor + (own.Share * growth), 1e-12);
                data.Weight[t][i] = 1 / Math.Sqrt(data.Magnitude[t] ? variance : variance / 2);
            }
        }

        FitModel model = simulated.Fine(data);
        double[] x = new double[model.Count], nominal = solver.NominalValues();
        for (int i = 0; i < model.Unknowns.Length; i++)
        {
            x[i] = model.Unknowns[i].To(nominal[model.Unknowns[i].Number]);
        }

        return FitInformation.OfSweep(model, x, model.CreateWorkspace());
    }

    private static SweepTrace Trace(SweepTrace like, ScatteringMatrix[] s)
    {
        Complex Of(ScatteringMatrix m) =>
            like.Parameter switch { SweepParameter.S11 => m.S11, SweepParameter.S22 => m.S22, SweepParameter.S12 => m.S12, _ => m.S21 };
        ImmutableArray<Complex> values = [.. s.Select(Of)];
        SweepTrace full = SweepTrace.Of(like.Parameter, values);
        return like.Values.IsEmpty ? SweepTrace.Of(like.Parameter, full.Decibels) : full;
    }

    private static double[] Sum(double[] a, double[] b) => [.. a.Zip(b, static (p, q) => p + q)];

    // The three that are narrowed most.
    private static ImmutableArray<NarrowedInterval> Narrowed(FitUnknown[] unknowns, double[] before, double[] after) =>
    [
        .. Enumerable.Range(0, unknowns.Length)
            .Where(i => unknowns[i].Quantity != CircuitQuantity.Q && before[i] > 1.2 * after[i])
            .OrderByDescending(i => Math.Log(Math.Max(before[i], Enough) / Math.Max(after[i], Enough))).Take(3)
            .Select(i => new NarrowedInterval(unknowns[i].Part, unknowns[i].Quantity, before[i], after[i])),
    ];
}
