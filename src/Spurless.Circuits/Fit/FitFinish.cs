using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Circuits.Fit;

/// <summary>Turns the minimum of a fit into what is said of it.</summary>
internal sealed class FitFinish(
    FitModel model, FitWorkspace w, Circuit traced, Circuit circuit, FitSweep sweep, TraceNoise[] noise, int[] left, FitOptions options)
{
    private const double StructuredFrom = 1.4;
    private const double NothingExplained = 0.35;
    private const double Normal95 = 1.959964;

    /// <summary>From this sigma on an interval may be bent, and the curvature's is put right by a profile.</summary>
    private const double BentFrom = 0.02;

    /// <summary>Model less measured at every point, without weights: also where a point was left out.</summary>
    public static (double[] Re, double[] Im)[] Residuals(FitModel model, double[] x, FitWorkspace w)
    {
        FitData data = model.Data;
        (double[] Re, double[] Im)[] residuals = new (double[], double[])[data.Parameters.Length];
        model.Cost(x, w);
        for (int t = 0; t < residuals.Length; t++)
        {
            double[] weights = [.. data.Weight[t]];
            Array.Fill(data.Weight[t], 1, 0, data.Points);
            model.Residuals(x, t, w);
            residuals[t] = ([.. w.Re], [.. w.Im]);
            weights.CopyTo(data.Weight[t], 0);
        }

        return residuals;
    }

    /// <summary>The result.</summary>
    /// <param name="x">The minimum.</param>
    /// <param name="others">Minima that explain the sweep as well.</param>
    /// <param name="progress">Share done of what is left to do.</param>
    /// <param name="cancellation">Leaves out what takes long.</param>
    /// <param name="again">How often a deeper minimum was met already.</param>
    public FitResult Result(double[] x, IReadOnlyList<double[]> others, IProgress<double>? progress, CancellationToken cancellation, int again = 0)
    {
        FitUnknown[] unknowns = model.Unknowns;
        int n = unknowns.Length;
        ImmutableArray<TraceFit> traces = Traces(x);
        double used = Enumerable.Range(0, traces.Length).Sum(t => (double)model.Data.Weight[t].Count(static v => v > 0));
        double structure = Enumerable.Range(0, traces.Length).Sum(t => traces[t].Structure * model.Data.Weight[t].Count(static v => v > 0)) / used;
        bool structured = structure > StructuredFrom;
        double widened = structured ? Math.Sqrt(structure) : 1;
        double[] ofSweep = FitInformation.OfSweep(model, x, w);
        double[] certain = [.. ofSweep.Select(v => v / (widened * widened))];
        double[] information = FitInformation.WithBeforehand(certain, unknowns);
        double[] sigmas = FitInformation.Sigmas(information, n);
        (double Low, double High)[] ends = [.. sigmas.Select((sigma, i) => (x[i] - (Normal95 * sigma), x[i] + (Normal95 * sigma)))];
        if (!cancellation.IsCancellationRequested)
        {
            FitProfile profile = new(model, x, FitInformation.Inverse(information, n), widened, options.Threads);
            ends = profile.Ends(options.Profile ? 0 : BentFrom, options.Profile ? 0.01 : 0.08, !options.Profile, cancellation);
            if (profile.Better is { } better && again < 3)
            {
                // The profile has met a deeper place: that is the minimum.
                LevenbergMarquardt.Run(model, better, w, 100, 1e-10, CancellationToken.None);
                return Result(better, others, progress, cancellation, again + 1);
            }
        }

        FittedValue[] values = [.. unknowns.Select((u, i) => CircuitFit.Value(u, x[i], ends[i], others.Select(o => o[i])))];
        progress?.Report(0.2);
        FitSurroundings around = new(model, x, ofSweep, information, sigmas);
        bool advise = options.Advise && !cancellation.IsCancellationRequested;
        double unexplained = Unexplained(x);
        ImmutableArray<TracingFinding> tracings = advise && structured
            ? TracingCheck.Run(model, circuit, x, structure, options, progress, cancellation)
            : [];
        progress?.Report(0.9);
        NextMeasurement? next = options.Advise && !structured ? MeasurementAdvice.Best(model, w, circuit, noise, around, cancellation) : null;
        progress?.Report(1);
        return new FitResult
        {
            Traced = traced,
            Fitted = FittedCircuit.Of(circuit, values),
            Sweep = sweep,
            Values = [.. values],
            Inseparable = Inseparability.Find(around, circuit),
            Traces = traces,
            DelayS = model.HasInstrument && model.Count > model.DelayAt ? (x[model.DelayAt] * FitModel.DelaySigmaS, x[model.DelayAt + 1] * FitModel.DelaySigmaS) : (0, 0),
            RmsResidualDb = Rms(x),
            IsStructured = structured,
            Widened = widened,
            Tracings = tracings,
            Next = next,
            Remarks = [.. Remarks(values, traces, structure, structured, others.Count, unexplained)],
            IsComplete = !cancellation.IsCancellationRequested,
            Unexplained = unexplained,
        };
    }

    private ImmutableArray<TraceFit> Traces(double[] x)
    {
        FitData data = model.Data;
        (double[] Re, double[] Im)[] residuals = Residuals(model, x, w);
        ImmutableArray<TraceFit>.Builder fits = ImmutableArray.CreateBuilder<TraceFit>(residuals.Length);
        for (int t = 0; t < residuals.Length; t++)
        {
            (double[] re, double[] im) = residuals[t];
            double sum = 0, variance = 0, weighted = 0, floor = double.NegativeInfinity;
            int count = 0;
            ImmutableArray<Complex>.Builder curve = ImmutableArray.CreateBuilder<Complex>(data.Points);
            for (int i = 0; i < data.Points; i++)
            {
                curve.Add(new Complex(re[i] + data.Real[t][i], im[i] + data.Imaginary[t][i]));
                if (data.Weight[t][i] == 0)
                {
                    floor = Math.Max(floor, sweep.Traces[t].Decibels[i]);
                    continue;
                }

                double square = (re[i] * re[i]) + (im[i] * im[i]), z = square * data.Weight[t][i] * data.Weight[t][i] / (data.Magnitude[t] ? 1 : 2);
                sum += square;
                weighted += Math.Min(z, 1e6);
                variance += (data.Magnitude[t] ? 1 : 2) / (data.Weight[t][i] * data.Weight[t][i]);
                count++;
            }

            count = Math.Max(count, 1);
            Complex gain = data.Magnitude[t] ? Math.Pow(10, x[model.GainAt(t)] / 20) : new Complex(1 + x[model.GainAt(t)], x[model.GainAt(t) + 1]);
            fits.Add(new TraceFit
            {
                Parameter = data.Parameters[t],
                Noise = Math.Sqrt(variance / count),
                Residual = Math.Sqrt(sum / count),
                Structure = weighted / count,
                Gain = gain,
                LeftOut = left[t],
                FloorDb = left[t] > 0 && double.IsFinite(floor) ? floor : null,
                Model = curve.MoveToImmutable(),
            });
        }

        return fits.MoveToImmutable();
    }

    private double Rms(double[] x)
    {
        double sum = 0;
        int count = 0;
        bool db = model.Data.Magnitude[0];
        foreach ((double[] re, double[] im) in Residuals(model, x, w))
        {
            for (int i = 0; i < model.Data.Points; i++)
            {
                sum += (re[i] * re[i]) + (im[i] * im[i]);
                count++;
            }
        }

        double rms = Math.Sqrt(sum / count);
        return db ? rms : 20 * Math.Log10(Math.Max(rms, 1e-20));
    }

    // Share of the sweep's own variation that the fit leaves: rms of the residual over rms about the mean.
    private double Unexplained(double[] x)
    {
        FitData data = model.Data;
        double left = 0, whole = 0;
        (double[] Re, double[] Im)[] residuals = Residuals(model, x, w);
        for (int t = 0; t < residuals.Length; t++)
        {
            double mr = 0, mi = 0;
            int count = 0;
            for (int i = 0; i < data.Points; i++)
            {
                if (data.Weight[t][i] > 0)
                {
                    (mr, mi, count) = (mr + data.Real[t][i], mi + data.Imaginary[t][i], count + 1);
                }
            }

            for (int i = 0; i < data.Points; i++)
            {
                if (data.Weight[t][i] > 0)
                {
                    left += (residuals[t].Re[i] * residuals[t].Re[i]) + (residuals[t].Im[i] * residuals[t].Im[i]);
                    double dr = data.Real[t][i] - (mr / count), di = data.Imaginary[t][i] - (mi / count);
                    whole += (dr * dr) + (di * di);
                }
            }
        }

        return whole > 0 ? Math.Sqrt(left / whole) : 0;
    }

    private IEnumerable<string> Remarks(FittedValue[] values, ImmutableArray<TraceFit> traces, double structure, bool structured, int others, double unexplained)
    {
        foreach (TraceFit trace in traces.Where(static t => t.LeftOut > 0))
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{trace.LeftOut} of {sweep.FrequenciesHz.Length} points of {trace.Parameter}, all below {Math.Ceiling(trace.FloorDb ?? 0):0} dB, lie in the instrument's floor or its leakage and are left out");
        }

        if (unexplained > NothingExplained)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"the circuit does not explain this sweep: {100 * unexplained:0} % of its course is left over, so the values say nothing; is it the sweep of this circuit?");
        }
        else if (structured)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"what is left over is {10 * Math.Log10(structure):0.0} dB more than the sweep's noise and has a course of its own: the tracing, the parts' losses or the instrument are not quite as assumed; the intervals are widened by {Math.Sqrt(structure):0.0#}");
        }

        if (others > 0)
        {
            yield return others == 1
                ? "another set of values explains the sweep as well; the intervals span both"
                : string.Create(CultureInfo.InvariantCulture, $"{others} other sets of values explain the sweep as well; the intervals span all");
        }

        string[] bound = [.. values.Where(static v => v.OnBound).Select(static v => v.Part).Distinct()];
        if (bound.Length > 0)
        {
            yield return $"{string.Join(", ", bound)} {(bound.Length == 1 ? "stands" : "stand")} on an end of the range: the true value may lie beyond";
        }

        foreach (FittedValue value in values)
        {
            if (value.Estimate is { } estimate && model.Unknowns.First(u => u.Part == value.Part && u.Quantity == value.Quantity) is var unknown
                && Math.Abs(unknown.To(value.Value) - unknown.To(estimate)) > 3 * unknown.Sigma)
            {
                yield return $"{value.Part} came out more than three sigmas from its estimate: look at its drawing or its measures again";
            }
        }
    }
}
