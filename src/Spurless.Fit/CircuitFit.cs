using Spurless.Circuits.Parts;
using Spurless.Circuits.Series;
using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;
using Spurless.Numerics;

namespace Spurless.Fit;

/// <summary>Finds the values of a traced circuit from a sweep, says how sure each is, and what to measure next.</summary>
/// <remarks>
/// Weighted least squares on complex S-parameters (on dB for magnitudes), unknowns on a logarithmic scale within their ranges, estimates as
/// residuals of their own, gains and reference planes of the instrument unknown, weights from the sweep's third differences, many starts,
/// exact
/// gradients (see <see cref="FitModel"/>). Residuals of the calibration and parasitics that nobody traced are unknowns with a size
/// beforehand. What is
/// left over beyond noise counts as an error of the model, alike over a stretch of the sweep. 95 % intervals from the curvature at the
/// minimum, by
/// profile where that is not enough, and over all minima that explain the sweep as well.
/// </remarks>
public static class CircuitFit
{
    private const int NoiseRounds = 3;
    private const double AlsoExplains = 4;
    private const int SearchRounds = 3;
    private const double Explained = 1.6;
    private const double AtTheEnd = 1e-3;

    /// <summary>Why there is nothing to fit: the one refusal that is about the circuit's file, not the sweep's.</summary>
    public static readonly Refusal NothingUnknown =
        new("nothing in the circuit is unknown", "write a value as unknown with its range, or an estimate with 'about: 10 %'");

    /// <summary>Fits a circuit to a sweep.</summary>
    /// <param name="traced">The circuit with its unknown values and estimates.</param>
    /// <param name="sweep">The sweep, in the circuit's port impedance.</param>
    /// <param name="options">How.</param>
    /// <param name="refusal">Why there is no result; null where there is one.</param>
    /// <param name="progress">Hears the share done and the nearest to the sweep so far; it changes nothing of the result.</param>
    /// <param name="cancellation">Ends the run early; the result is then the best so far, and says so.</param>
    public static FitResult? TryRun(
        Circuit traced,
        FitSweep sweep,
        FitOptions options,
        out Refusal? refusal,
        IProgress<FitProgress>? progress = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(traced);
        ArgumentNullException.ThrowIfNull(sweep);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentOutOfRangeException.ThrowIfLessThan(options.Starts, 1, nameof(options));
        (Circuit circuit, CircuitSolver? solver, IReadOnlyList<FitUnknown> unknowns, IReadOnlyList<CircuitFault> faults) = FitUnknown.Of(
            traced);
        refusal = solver is null ? new Refusal(faults[0].What, faults[0].Remedy) : SweepCheck.Refuse(solver, unknowns, ref sweep);
        if (refusal is not null)
        {
            return null;
        }

        FitData data = new(sweep);
        TraceNoise[] noise = SweepWeights.Set(data, null);
        int[] left = SweepWeights.LeaveOutFloor(data, noise);
        if (data.Used < unknowns.Count)
        {
            refusal = new Refusal(
                "nearly all of the sweep lies in the instrument's floor",
                "sweep nearer to what the circuit passes, or with more averaging");
            return null;
        }

        InstrumentErrors errors = options.Errors ?? InstrumentErrors.Of(options.Calibration);
        FitProblem problem = FitProblem.TryMake(
            circuit,
            s => [.. FitUnknown.In(traced, s).Select(u => u is { Mean: not null, Quantity: not CircuitQuantity.Q }
                ? u.Wider(options.EstimateFactor) : u)],
            options.Parasitics,
            errors)!;
        FitWatch? watch = progress is null ? null : new FitWatch(progress, problem, data);

        // Where the best still leaves much more than noise, it is either no minimum of the right kind or the wrong circuit: look again,
        // longer.
        IReadOnlyList<FitCandidate> found = [];
        for (int again = 0; again < SearchRounds; again++)
        {
            FitSearch search = new(problem, data, noise, options.Seed + ((ulong)again << 32), options.Starts << again, options.Threads);
            (double from, double to) = (0.7 * again / SearchRounds, 0.7 * (again + 1) / SearchRounds);
            found =
            [
                .. found
                    .Concat(search.Run(watch is null ? null : new Part(watch, from, to), cancellation, watch))
                    .OrderBy(static f => f.Cost),
            ];
            int degrees = data.Magnitude.Select((m, t) => (m ? 1 : 2) * data.Weight[t].Count(static v => v > 0)).Sum();
            if (found[0].Cost < Explained * degrees || cancellation.IsCancellationRequested)
            {
                break;
            }
        }

        if (!double.IsFinite(found[0].Cost))
        {
            refusal = new Refusal(
                "the circuit has no solution at the sweep's frequencies", "look for lossless resonances and loops of ideal parts");
            return null;
        }

        FitModel model = problem.Fine(data);
        FitWorkspace w = model.CreateWorkspace();
        double[] x = [.. found[0].X];
        for (int round = 0; round < NoiseRounds; round++)
        {
            noise = Reweigh(model, x, w);
            left = Add(left, LeakageCheck.LeaveOut(model, x, w));
            model.Cost(x, w);
            data.Renew(w.S);
            BoundedLeastSquares.Run(new FitSquares(model, w), x, 60, 1e-10, CancellationToken.None);
        }

        watch?.Offer(x);
        watch?.Report(0.75);
        FitFinish finish = new(problem, data, traced, sweep, noise, left, options);
        return finish.Result(x, found, watch is null ? null : new Part(watch, 0.75, 1), cancellation);
    }

    // Weights from what the fit leaves: its third differences are free of the curve's own bends.
    private static TraceNoise[] Reweigh(FitModel model, double[] x, FitWorkspace w)
    {
        FitData data = model.Data;
        for (int t = 0; t < data.Parameters.Length; t++)
        {
            for (int i = 0; i < data.Points; i++)
            {
                data.Weight[t][i] = data.Weight[t][i] > 0 ? 1 : 0;
            }
        }

        return SweepWeights.Set(data, FitFinish.Residuals(model, x, w));
    }

    private static int[] Add(int[] a, int[] b) => [.. a.Zip(b, static (p, q) => p + q)];

    /// <summary>Minima that explain the sweep as well as the best one.</summary>
    internal static List<double[]> Others(FitModel model, FitWorkspace w, double[] best, IReadOnlyList<FitCandidate> found)
    {
        List<double[]> others = [];
        double least = model.Cost(best, w);
        foreach (FitCandidate one in found.Skip(1).Where(f => f.Cost < (2 * found[0].Cost) + 1000))
        {
            double[] x = [.. one.X];
            if (BoundedLeastSquares.Run(new FitSquares(model, w), x, 60, 1e-9).Cost < least + AlsoExplains)
            {
                others.Add(x);
            }
        }

        return others;
    }

    /// <summary>A value with its interval, which spans the other places too.</summary>
    internal static FittedValue Value(FitUnknown u, double x, (double Low, double High) ends, IEnumerable<double> others)
    {
        double[] shifts = [0, .. others.Select(o => o - x)];
        double low = u.From(Math.Max(u.Low, ends.Low + shifts.Min())), high = u.From(Math.Min(u.High, ends.High + shifts.Max()));
        double from = u.From(u.Low), to = u.From(u.High), value = u.From(x);
        return new FittedValue(u.Part, u.Quantity, value, Math.Min(low, high), Math.Max(low, high))
        {
            Estimate = u.Mean is { } mean ? u.From(mean) : null,
            RangeLow = Math.Min(from, to),
            RangeHigh = Math.Max(from, to),
            OnBound = x <= u.Low + AtTheEnd || x >= u.High - AtTheEnd,
            Marked = u.Quantity is CircuitQuantity.CapacitanceF or CircuitQuantity.InductanceH or CircuitQuantity.ResistanceOhm
                ? ESeries.Nearest(value, 24) : null,
        };
    }

    private sealed class Part(IProgress<double> whole, double from, double to) : IProgress<double>
    {
        public void Report(double value) => whole.Report(from + ((to - from) * value));
    }
}
