using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Spurless.Circuits.Solving;
using V = System.Runtime.Intrinsics.Vector512<double>;

namespace Spurless.Fit;

/// <summary>
/// The sum of squares that a fit makes small, with its exact derivatives. Its unknowns are those of the circuit, the ones asked for before
/// its parasitics, then those of the instrument (<see cref="FitInstrument"/>).
/// </summary>
/// <remarks>
/// Measured is <c>M (1 + g) e^{-j w t}</c>, t twice the port's delay for a reflection, the sum of both for a transmission, M the
/// S-parameter with the residuals of the calibration. Residuals are weighted by one over sigma. A point beyond <see cref="Reach"/>
/// sigmas counts linearly (Huber), so that a few wild ones do not steer. What is known beforehand is a residual of its own. The
/// derivatives come from the adjoint network.
/// </remarks>
internal sealed class FitModel
{
    /// <summary>Sigmas from which on a point counts linearly.</summary>
    public const double Reach = 4;

    private const double PerNeper = 8.685889638065035;

    private readonly double[] _values;
    private readonly InstrumentErrors? _errors;
    private readonly int[][] _active;

    /// <param name="solver">The circuit.</param>
    /// <param name="unknowns">What is looked for, parasitics last.</param>
    /// <param name="data">The sweep, on frequencies that the circuit has.</param>
    /// <param name="errors">How large the instrument's errors may be; null where gains, delays and residuals are taken as none.</param>
    public FitModel(CircuitSolver solver, IReadOnlyList<FitUnknown> unknowns, FitData data, InstrumentErrors? errors)
    {
        Solver = solver;
        Unknowns = [.. unknowns];
        Sought = Unknowns.Count(static u => !u.IsParasitic);
        Data = data;
        _errors = errors;
        _values = solver.NominalValues();
        Instrument = errors is null ? null : new FitInstrument(data, errors, Unknowns.Length);
        double[] sigmas = Instrument?.Sigmas ?? [];
        Count = Unknowns.Length + sigmas.Length;
        Low = [.. Unknowns.Select(static u => u.Low), .. sigmas.Select(static s => -FitInstrument.MostSigmas * s)];
        High = [.. Unknowns.Select(static u => u.High), .. sigmas.Select(static s => FitInstrument.MostSigmas * s)];
        _active = [.. Enumerable.Range(0, data.Parameters.Length).Select(Active)];
    }

    public CircuitSolver Solver { get; }

    public FitUnknown[] Unknowns { get; }

    public FitData Data { get; }

    /// <summary>Number of the unknowns that were asked for: the first ones; parasitics follow.</summary>
    public int Sought { get; }

    /// <summary>The instrument's part; null where it is taken as perfect.</summary>
    public FitInstrument? Instrument { get; }

    /// <summary>Number of unknowns, the instrument's included.</summary>
    public int Count { get; }

    /// <summary>Lower bounds.</summary>
    public double[] Low { get; }

    /// <summary>Upper bounds.</summary>
    public double[] High { get; }

    /// <summary>The same with bounds of its own.</summary>
    public FitModel Copy() => new(Solver, Unknowns, Data, _errors);

    /// <summary>Memory for one thread.</summary>
    public FitWorkspace CreateWorkspace() => new(this);

    /// <summary>The circuit's values at a point.</summary>
    public void Values(ReadOnlySpan<double> x, Span<double> values)
    {
        _values.CopyTo(values);
        for (int i = 0; i < Unknowns.Length; i++)
        {
            values[Unknowns[i].Number] = Unknowns[i].From(x[i]);
        }
    }

    /// <summary>
    /// Half of nothing: the whole weighted sum of squares, robust, with what is known beforehand. Infinite where the circuit has no
    /// solution.
    /// </summary>
    public double Cost(ReadOnlySpan<double> x, FitWorkspace w)
    {
        Values(x, w.Values);
        if (Solver.Solve(Data.FrequenciesHz, w.Values, w.Solver, w.S) is not null)
        {
            return double.PositiveInfinity;
        }

        double sum = Beforehand(x);
        for (int t = 0; t < Data.Parameters.Length; t++)
        {
            Residuals(x, t, w);
            sum += Robust(w, null);
        }

        return double.IsFinite(sum) ? sum : double.PositiveInfinity;
    }

    /// <summary>
    /// Weighted residuals of a trace after <see cref="Cost"/> or <see cref="Normal"/> at the same point, real and imaginary parts.
    /// </summary>
    public void Residuals(ReadOnlySpan<double> x, int trace, FitWorkspace w)
    {
        double[] weight = Data.Weight[trace], re = Data.Real[trace], im = Data.Imaginary[trace];
        Seen(x, trace, w);
        double gain = Instrument is null || !Data.Magnitude[trace] ? 0 : x[Instrument.GainAt[trace]];
        for (int i = 0; i < Data.Points; i++)
        {
            Complex s = w.Seen[i];
            if (Data.Magnitude[trace])
            {
                double power = (s.Real * s.Real) + (s.Imaginary * s.Imaginary) + Data.Bias[trace] + 1e-40;
                w.Re[i] = weight[i] == 0 ? 0 : ((0.5 * PerNeper * Math.Log(power)) + gain - re[i]) * weight[i];
                w.Im[i] = 0;
                continue;
            }

            Complex model = s * w.Factor(x, trace, i);
            w.Re[i] = (model.Real - re[i]) * weight[i];
            w.Im[i] = (model.Imaginary - im[i]) * weight[i];
        }
    }

    /// <summary>
    /// The cost, with the normal equations: <c>J^T J</c> and <c>J^T r</c> of the residuals at this point, what is known beforehand
    /// included.
    /// </summary>
    /// <param name="x">The point.</param>
    /// <param name="w">Memory.</param>
    /// <param name="a">Receives the symmetric matrix, row by row.</param>
    /// <param name="g">Receives the right side.</param>
    /// <param name="beforehand">Whether what is known beforehand of the parts is counted.</param>
    public unsafe double Normal(ReadOnlySpan<double> x, FitWorkspace w, Span<double> a, Span<double> g, bool beforehand = true)
    {
        Values(x, w.Values);
        if (Solver.SolveWithGradient(Data.FrequenciesHz, w.Values, w.Solver, w.S, w.Gradient) is not null)
        {
            return double.PositiveInfinity;
        }

        int n = Count;
        a.Clear();
        g.Clear();
        double cost = beforehand ? Beforehand(x) : 0;
        for (int i = 0; i < Unknowns.Length; i++)
        {
            w.Slopes[i] = Unknowns[i].Slope(x[i]);
        }

        for (int t = 0; t < Data.Parameters.Length; t++)
        {
            Residuals(x, t, w);
            cost += Robust(w, w.Root);
            double* plane = w.Gradient.Plane(Data.Parameters[t] switch { SweepParameter.S11 => 0, SweepParameter.S22 => 2, _ => 1 });
            int[] active = _active[t];
            int columns = active.Length + 1;
            w.ClearSums(columns);
            for (int start = 0; start < Data.Padded; start += 8)
            {
                Columns(x, t, start, plane, w);
                FitLanes.Accumulate(w.Columns, columns, w.Sums);
            }

            for (int i = 0, at = 0; i < columns; i++)
            {
                for (int j = i; j < columns; j++, at++)
                {
                    double sum = FitLanes.Sum(w.Sums + (at * 8));
                    if (j < columns - 1)
                    {
                        a[(active[i] * n) + active[j]] += sum;
                    }
                    else if (i < columns - 1)
                    {
                        g[active[i]] += sum;
                    }
                }
            }
        }

        for (int i = 0; i < n; i++)
        {
            for (int j = i + 1; j < n; j++)
            {
                a[(j * n) + i] = a[(i * n) + j];
            }
        }

        AddBeforehand(x, a, g, beforehand);
        return double.IsFinite(cost) ? cost : double.PositiveInfinity;
    }

    private double Beforehand(ReadOnlySpan<double> x)
    {
        double sum = 0;
        for (int i = 0; i < Unknowns.Length; i++)
        {
            if (Unknowns[i].Mean is { } mean)
            {
                double z = (x[i] - mean) / Unknowns[i].Sigma;
                sum += z * z;
            }
        }

        for (int i = Unknowns.Length; i < Count; i++)
        {
            double z = x[i] / Instrument!.Sigmas[i - Unknowns.Length];
            sum += z * z;
        }

        return sum;
    }

    // Places of the unknowns that a trace depends on, rising.
    private int[] Active(int trace)
    {
        SortedSet<int> places = [.. Enumerable.Range(0, Unknowns.Length)];
        if (Instrument is { } own)
        {
            places.Add(own.GainAt[trace]);
            if (!Data.Magnitude[trace])
            {
                places.Add(own.GainAt[trace] + 1);
                places.UnionWith(
                    Enumerable.Range(0, 2).Where(p => TraceOf.Times(Data.Parameters[trace], p) > 0).Select(p => own.DelayAt + p));
            }

            places.UnionWith(own.Terms(trace).Select(static t => t.At));
        }

        return [.. places];
    }

    // What the instrument sees of an S-parameter before gain and plane, and its derivative by the S-parameter.
    private void Seen(ReadOnlySpan<double> x, int trace, FitWorkspace w)
    {
        if (Instrument is not { } own || own.Terms(trace).Length == 0)
        {
            for (int i = 0; i < Data.Points; i++)
            {
                w.Seen[i] = TraceOf.Pick(w.S[i], Data.Parameters[trace]);
                w.BySeen[i] = Complex.One;
            }

            return;
        }

        InstrumentView.Compute(this, own, x, trace, w);
    }

    private void AddBeforehand(ReadOnlySpan<double> x, Span<double> a, Span<double> g, bool parts)
    {
        for (int i = 0; i < Count; i++)
        {
            (double mean, double sigma) = i >= Unknowns.Length ? (0, Instrument!.Sigmas[i - Unknowns.Length])
                : (Unknowns[i].Mean ?? 0, Unknowns[i].Sigma);
            if (i < Unknowns.Length && (Unknowns[i].Mean is null || (!parts && !Unknowns[i].IsParasitic)))
            {
                continue;
            }

            double weight = 1 / (sigma * sigma);
            a[(i * Count) + i] += weight;
            g[i] += weight * (x[i] - mean);
        }
    }

    // Huber's function of each residual; the root of its weight, where asked for.
    private double Robust(FitWorkspace w, double[]? root)
    {
        double sum = 0;
        for (int i = 0; i < Data.Points; i++)
        {
            double square = (w.Re[i] * w.Re[i]) + (w.Im[i] * w.Im[i]);
            bool inside = square <= Reach * Reach;
            double size = inside ? 0 : Math.Sqrt(square);
            sum += inside ? square : (2 * Reach * size) - (Reach * Reach);
            if (root is not null)
            {
                root[i] = inside ? 1 : Math.Sqrt(Reach / size);
            }
        }

        return sum;
    }

    // Derivatives of eight weighted residuals by the unknowns that the trace depends on, and the residuals themselves as the last column.
    [SkipLocalsInit]
    private unsafe void Columns(ReadOnlySpan<double> x, int trace, int start, double* plane, FitWorkspace w)
    {
        const int Fixed = 6;
        double* into = w.Columns;
        int[] active = _active[trace];
        FitInstrument? own = Instrument;
        bool terms = own is not null && own.Terms(trace).Length > 0;
        double* lanes = stackalloc double[(Fixed + (2 * InstrumentView.Kinds)) * 8];
        bool magnitude = Data.Magnitude[trace];
        for (int k = 0; k < 8; k++)
        {
            int i = start + k;
            double weight = i < Data.Points ? Data.Weight[trace][i] * w.Root[i] : 0;
            Complex seen = weight > 0 ? w.Seen[i] : Complex.Zero, factor = Complex.Zero, gain = Complex.Zero, delayed = Complex.Zero;
            if (weight > 0 && magnitude)
            {
                double power = (seen.Real * seen.Real) + (seen.Imaginary * seen.Imaginary) + Data.Bias[trace] + 1e-40;
                factor = weight * PerNeper / power * Complex.Conjugate(seen);
                gain = weight;
            }
            else if (weight > 0)
            {
                factor = w.Factor(x, trace, i) * weight;
                gain = seen * w.Turn(x, trace, i) * weight;
                delayed = own is null ? Complex.Zero : seen * factor * new Complex(0,
                    -2 * Math.PI * Data.FrequenciesHz[i] * own.DelayUnitS);
            }

            FitLanes.Put(lanes, k, weight > 0 ? factor * w.BySeen[i] : factor);
            FitLanes.Put(lanes + 16, k, gain);
            FitLanes.Put(lanes + 32, k, delayed);
            for (int kind = 0; terms && kind < InstrumentView.Kinds; kind++)
            {
                FitLanes.Put(lanes + ((Fixed + (2 * kind)) * 8), k, weight > 0 ? factor * w.ByError[kind][i] : Complex.Zero);
            }

            into[(active.Length * 16) + k] = i < Data.Points ? w.Re[i] * w.Root[i] : 0;
            into[(active.Length * 16) + 8 + k] = i < Data.Points ? w.Im[i] * w.Root[i] : 0;
        }

        V fr = Vector512.Load(lanes), fi = Vector512.Load(lanes + 8);
        for (int i = 0; i < Unknowns.Length; i++)
        {
            double* d = plane + w.Gradient.Offset(Unknowns[i].Number, start);
            V dr = Vector512.Load(d), di = Vector512.Load(d + 8), slope = Vector512.Create(w.Slopes[i]);
            Vector512.Store(((fr * dr) - (fi * di)) * slope, into + (i * 16));
            Vector512.Store(magnitude ? V.Zero : ((fr * di) + (fi * dr)) * slope, into + (i * 16) + 8);
        }

        if (own is null)
        {
            return;
        }

        int term = 0;
        for (int c = Unknowns.Length; c < active.Length; c++)
        {
            int at = active[c];
            V re, im;
            if (at < own.GainAt[trace] + (magnitude ? 1 : 2) && at >= own.GainAt[trace])
            {
                V gr = Vector512.Load(lanes + 16), gi = Vector512.Load(lanes + 24);
                (re, im) = at == own.GainAt[trace] ? (gr, gi) : (-gi, gr);
            }
            else if (own.DelayAt >= 0 && (at == own.DelayAt || at == own.DelayAt + 1))
            {
                int times = TraceOf.Times(Data.Parameters[trace], at - own.DelayAt);
                (re, im) = (Vector512.Load(lanes + 32) * times, Vector512.Load(lanes + 40) * times);
            }
            else
            {
                ErrorTerm error = own.Terms(trace)[term++];
                double* lane = lanes + ((Fixed + (2 * (int)error.Kind)) * 8);
                V shape = Vector512.Create(own.Functions[error.Order], start);
                V er = Vector512.Load(lane) * shape, ei = Vector512.Load(lane + 8) * shape;
                (re, im) = error.Imaginary ? (-ei, er) : (er, ei);
            }

            re.Store(into + (c * 16));
            (magnitude ? V.Zero : im).Store(into + (c * 16) + 8);
        }
    }
}
