using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Numerics;

namespace Spurless.Fit;

/// <summary>Turns the minimum of a fit into what is said of it.</summary>
/// <param name="problem">The circuit and what is looked for.</param>
/// <param name="data">The sweep, weighted by its noise.</param>
/// <param name="traced">The circuit as the file has it.</param>
/// <param name="sweep">The sweep.</param>
/// <param name="noise">Noise of each trace.</param>
/// <param name="left">Points left out of each.</param>
/// <param name="options">How the fit is run.</param>
internal sealed class FitFinish(
    FitProblem problem, FitData data, Circuit traced, FitSweep sweep, TraceNoise[] noise, int[] left, FitOptions options)
{
    private const double StructuredFrom = 1.4;
    private const double NothingExplained = 0.35;
    private const double Normal95 = 1.959964;
    private const double WiderFrom = 1.3;
    private const int ErrorRounds = 2;

    /// <summary>From this sigma on an interval may be bent, and the curvature's is put right by a profile.</summary>
    private const double BentFrom = 0.02;

    /// <summary>From this share of a direction that the sweep leaves open a value takes part in it.</summary>
    private const double TakesPart = 1e-3;

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
    /// <param name="minimum">The minimum by noise alone.</param>
    /// <param name="found">What else the search met.</param>
    /// <param name="progress">Share done of what is left to do.</param>
    /// <param name="cancellation">Leaves out what takes long.</param>
    public FitResult Result(double[] minimum, IReadOnlyList<FitCandidate> found, IProgress<double>? progress,
        CancellationToken cancellation)
    {
        FitModel byNoise = problem.Fine(data);
        double structure = Structure(Traces(byNoise, minimum, byNoise.CreateWorkspace()));
        bool structured = structure > StructuredFrom;
        (FitModel model, double[] x, double widened) = Counted(byNoise, minimum);
        FitWorkspace w = model.CreateWorkspace();
        int n = model.Sought;
        FitUnknown[] unknowns = model.Unknowns[..n];
        List<double[]> others = CircuitFit.Others(model, w, x, found);
        (FitSurroundings around, (double Low, double High)[] ends) = Intervals(model, ref x, w, cancellation);
        FittedValue[] values = [.. unknowns.Select((u, i) => CircuitFit.Value(u, x[i], ends[i], others.Select(o => o[i])))];
        values = [.. AlikeParts.Reach(problem.Circuit, unknowns, values)];
        progress?.Report(0.2);
        bool advise = options.Advise && !cancellation.IsCancellationRequested;
        double unexplained = Unexplained(byNoise, x, structured);
        ImmutableArray<TracingFinding> tracings = advise && structured
            ? TracingCheck.Run(byNoise, problem, minimum, structure, options, progress, cancellation)
            : [];
        progress?.Report(0.9);
        NextMeasurement? next = options.Advise && !structured ? MeasurementAdvice.Best(model, problem, noise, around, cancellation) : null;
        progress?.Report(1);
        InstrumentAlarm[] alarms = [.. InstrumentCheck.Alarms(model, x)];
        LeftOverAlarm? leftOver = InstrumentCheck.LeftOver(
            data, ModelError.LeftOver(byNoise, x, byNoise.CreateWorkspace()), problem.Errors);
        if (alarms.Length > 0 || leftOver is not null || unexplained > NothingExplained)
        {
            values = [.. values.Select(static v => v with { Doubted = true })];
        }

        ImmutableArray<TraceFit> traces = Traces(byNoise, x, w);
        FittedLead[] leads = [.. problem.Capacitors.Select((c, k) => Lead(model, x, w, c, n + k))];
        return new FitResult
        {
            Traced = traced,
            Fitted = FittedCircuit.WithLeads(FittedCircuit.Of(problem.Circuit, values), leads.Select(static l => (l.Capacitor, l.ValueH))),
            Sweep = sweep,
            Values = [.. values],
            Leads = [.. leads],
            Inseparable = Inseparability.Find(around, problem.Circuit),
            Traces = traces,
            DelayS = model.Instrument is { DelayAt: >= 0 } own ? (x[own.DelayAt] * own.DelayUnitS, x[own.DelayAt + 1] * own.DelayUnitS)
                : (0, 0),
            Calibration = options.Calibration,
            InstrumentAlarms = [.. alarms],
            LeftOver = leftOver,
            RmsResidualDb = Rms(byNoise, x, w),
            IsStructured = structured,
            Widened = structured ? widened : 1,
            Tracings = tracings,
            Next = next,
            Remarks =
            [
                .. alarms.Length > 0 ? [new FitRemark.InstrumentOff(options.Calibration, [.. alarms])] : Array.Empty<FitRemark>(),
                .. leftOver is { } much ? [new FitRemark.TooMuchLeftOver(options.Calibration, much)] : Array.Empty<FitRemark>(),
                .. Remarks(values, traces, structured ? 10 * Math.Log10(structure) : null, widened, others.Count, unexplained),
                .. EstimateCheck.Leaning([.. problem.Unknowns.Take(n)], x, options.EstimateFactor),
            ],
            IsComplete = !cancellation.IsCancellationRequested,
            Unexplained = unexplained,
        };
    }

    // The fit with what is left over counted as an error of the model, and with estimates as sure as they turn out to be.
    private (FitModel Model, double[] X, double Widened) Counted(FitModel byNoise, double[] minimum)
    {
        double[] x = [.. minimum];
        FitWorkspace w = byNoise.CreateWorkspace();
        FitModel model = byNoise;
        double widened = 1;
        for (int round = 0; round < ErrorRounds; round++)
        {
            FitData counted = ModelError.Counted(byNoise, x, w, out widened);
            if (widened <= 1)
            {
                break;
            }

            model = problem.Fine(counted);
            BoundedLeastSquares.Run(new FitSquares(model, model.CreateWorkspace()), x, 60, 1e-9, CancellationToken.None);
        }

        int n = model.Sought;
        FitUnknown[] unknowns = model.Unknowns[..n];
        FitWorkspace own = model.CreateWorkspace();
        double[] sigmas = FitInformation.Sigmas(FitInformation.WithBeforehand(FitInformation.OfSweep(model, x, own), unknowns), n);
        IReadOnlyDictionary<CircuitQuantity, double> factors = EstimateCheck.Factors(unknowns, x, sigmas);
        if (factors.Values.Any(static f => f > WiderFrom))
        {
            model = problem.Wider(u => u is { Mean: not null, IsParasitic: false } && u.Quantity != CircuitQuantity.Q ? factors[u.Quantity]
                : 1).Fine(model.Data);
            BoundedLeastSquares.Run(new FitSquares(model, model.CreateWorkspace()), x, 60, 1e-9, CancellationToken.None);
        }

        return (model, x, widened);
    }

    private (FitSurroundings Around, (double Low, double High)[] Ends) Intervals(FitModel model, ref double[] x, FitWorkspace w,
        CancellationToken cancellation)
    {
        int n = model.Sought;
        FitUnknown[] unknowns = model.Unknowns[..n];
        for (int again = 0; ; again++)
        {
            double[] ofSweep = FitInformation.OfSweep(model, x, w);
            double[] information = FitInformation.WithBeforehand(ofSweep, unknowns);
            double[] sigmas = FitInformation.Sigmas(information, n), at = x;
            FitSurroundings around = new(model, x, ofSweep, information, sigmas);
            double excess = InstrumentCheck.Excess(model, x, w);
            (double Low, double High)[] ends = [.. sigmas.Select((sigma, i) =>
                (at[i] - (Normal95 * excess * sigma), at[i] + (Normal95 * excess * sigma)))];
            if (cancellation.IsCancellationRequested)
            {
                return (around, ends);
            }

            FitProfile profile = new(model, x, FitInformation.Inverse(information, n), excess, options.Threads);
            ends = profile.Ends(
                options.Profile ? 0 : BentFrom, options.Profile ? 0.01 : 0.08, wider: true, TakePart(ofSweep, unknowns), cancellation);
            if (profile.Better is not { } better || again == 3)
            {
                return (around, ends);
            }

            // The profile has met a deeper place: that is the minimum.
            BoundedLeastSquares.Run(new FitSquares(model, w), better, 100, 1e-10, CancellationToken.None);
            x = better;
        }
    }

    // A direction that is open here may bend: whatever takes part in it is followed to the end of its range.
    private bool[] TakePart(double[] ofSweep, FitUnknown[] unknowns)
    {
        int n = unknowns.Length;
        (double[] values, double[] vectors) = SymmetricEigen.Of(ofSweep, n);
        int[] open = [.. Enumerable.Range(0, n).Where(k => Inseparability.IsOpen(values[k]))];
        HashSet<string> alike = [.. AlikeParts.Find(problem.Circuit, unknowns).SelectMany(static s => s.Parts)];
        return
        [
            .. Enumerable.Range(0, n).Select(i => unknowns[i].Quantity != CircuitQuantity.Q
                && (alike.Contains(unknowns[i].Part) || Array.Exists(open, k => Math.Abs(vectors[(i * n) + k]) > TakesPart))),
        ];
    }

    private static FittedLead Lead(FitModel model, double[] x, FitWorkspace w, string capacitor, int at)
    {
        int n = model.Count;
        double[] a = new double[n * n], g = new double[n];
        model.Normal(x, w, a, g);
        double sigma = Math.Sqrt(Math.Max(0, FitInformation.Inverse(a, n)[(at * n) + at]));
        FitUnknown u = model.Unknowns[at];
        return new FittedLead(
            capacitor, u.From(x[at]), u.From(Math.Max(u.Low, x[at] - (Normal95 * sigma))),
                u.From(Math.Min(u.High, x[at] + (Normal95 * sigma))));
    }

    private double Structure(ImmutableArray<TraceFit> traces)
    {
        double used = Enumerable.Range(0, traces.Length).Sum(t => (double)data.Weight[t].Count(static v => v > 0));
        return Enumerable.Range(0, traces.Length).Sum(t => traces[t].Structure * data.Weight[t].Count(static v => v > 0)) / used;
    }

    private ImmutableArray<TraceFit> Traces(FitModel model, double[] x, FitWorkspace w)
    {
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

                double square = (re[i] * re[i]) + (im[i] * im[i]),
                z = square * data.Weight[t][i] * data.Weight[t][i] / (data.Magnitude[t] ? 1 : 2);
                sum += square;
                weighted += Math.Min(z, 1e6);
                variance += (data.Magnitude[t] ? 1 : 2) / (data.Weight[t][i] * data.Weight[t][i]);
                count++;
            }

            count = Math.Max(count, 1);
            int at = model.Instrument!.GainAt[t];
            Complex gain = data.Magnitude[t] ? Math.Pow(10, x[at] / 20) : new Complex(1 + x[at], x[at + 1]);
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

    private static double Rms(FitModel model, double[] x, FitWorkspace w)
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

    // Share of the sweep's own variation that the fit leaves beyond noise: rms of the residual over rms about the mean. A response that is
    // flat has no
    // variation to explain: a tenth of its level counts as one.
    private double Unexplained(FitModel model, double[] x, bool structured)
    {
        const double Flat = 0.1;
        if (!structured)
        {
            return 0;
        }

        double over = 0, whole = 0;
        (double[] Re, double[] Im)[] residuals = Residuals(model, x, model.CreateWorkspace());
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

            double level = data.Magnitude[t] ? Flat * 8.686 : Flat * double.Hypot(mr, mi) / Math.Max(count, 1);
            for (int i = 0; i < data.Points; i++)
            {
                if (data.Weight[t][i] > 0)
                {
                    over += (residuals[t].Re[i] * residuals[t].Re[i]) + (residuals[t].Im[i] * residuals[t].Im[i]);
                    double dr = data.Real[t][i] - (mr / count), di = data.Imaginary[t][i] - (mi / count);
                    whole += (dr * dr) + (di * di) + (level * level);
                }
            }
        }

        return whole > 0 ? Math.Sqrt(over / whole) : 0;
    }

    private IEnumerable<FitRemark> Remarks(FittedValue[] values, ImmutableArray<TraceFit> traces, double? overNoiseDb, double widened,
        int others, double unexplained)
    {
        foreach (TraceFit trace in traces.Where(static t => t.LeftOut > 0))
        {
            yield return new FitRemark.PointsLeftOut(trace.Parameter, trace.LeftOut, sweep.FrequenciesHz.Length, trace.FloorDb);
        }

        if (unexplained > NothingExplained)
        {
            yield return new FitRemark.NothingExplained(unexplained);
        }
        else if (overNoiseDb is { } over)
        {
            yield return new FitRemark.ErrorOfModel(over, widened);
        }

        if (others > 0)
        {
            yield return new FitRemark.OtherSets(others);
        }

        string[] bound = [.. values.Where(static v => v.OnBound).Select(static v => v.Part).Distinct()];
        if (bound.Length > 0)
        {
            yield return new FitRemark.OnEndOfRange([.. bound]);
        }

        foreach (FittedValue value in values)
        {
            if (value.Estimate is { } estimate && problem.Sought.First(u => u.Part == value.Part
                && u.Quantity == value.Quantity) is var unknown
                && Math.Abs(unknown.To(value.Value) - unknown.To(estimate)) > 3 / options.EstimateFactor * unknown.Sigma)
            {
                yield return new FitRemark.FarFromEstimate(value.Part);
            }
        }
    }
}
