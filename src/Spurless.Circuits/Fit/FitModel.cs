using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using V = System.Runtime.Intrinsics.Vector512<double>;

namespace Spurless.Circuits.Fit;

/// <summary>
/// The sum of squares that a fit makes small, with its exact derivatives. Its unknowns are those of the circuit, then those of the instrument: a
/// complex gain of each S-parameter and a delay of each port's reference plane (of magnitudes: a gain in dB each).
/// </summary>
/// <remarks>
/// Measured is <c>S (1 + g) e^{-j w t}</c>, t twice the port's delay for a reflection, the sum of both for a transmission. Residuals are weighted by
/// one over sigma. A point beyond <see cref="Reach"/> sigmas counts linearly (Huber), so that a few wild ones do not steer. What is known beforehand
/// is a residual of its own. The derivatives come from the adjoint network.
/// </remarks>
internal sealed class FitModel
{
    /// <summary>One sigma of an instrument's gain error, as a ratio; in dB for magnitudes.</summary>
    public const double GainSigma = 0.05;

    /// <summary>The same in dB for magnitudes.</summary>
    public const double GainSigmaDb = 0.43;

    /// <summary>Unit of the delays, and one sigma of them, in seconds.</summary>
    public const double DelaySigmaS = 100e-12;

    /// <summary>Sigmas from which on a point counts linearly.</summary>
    public const double Reach = 4;

    private const double PerNeper = 8.685889638065035;

    private readonly double[] _values;
    private readonly int[] _gainAt;

    /// <param name="solver">The circuit.</param>
    /// <param name="unknowns">What is looked for.</param>
    /// <param name="data">The sweep, on frequencies that the circuit has.</param>
    /// <param name="instrument">Whether gains and delays are looked for too, or taken as none.</param>
    public FitModel(CircuitSolver solver, IReadOnlyList<FitUnknown> unknowns, FitData data, bool instrument = true)
    {
        Solver = solver;
        Unknowns = [.. unknowns];
        Data = data;
        HasInstrument = instrument;
        _values = solver.NominalValues();
        _gainAt = new int[data.Parameters.Length];
        int at = Unknowns.Length;
        for (int t = 0; t < _gainAt.Length; t++)
        {
            _gainAt[t] = at;
            at += data.Magnitude[t] ? 1 : 2;
        }

        DelayAt = at;
        Count = instrument ? DelayAt + (Array.Exists(data.Magnitude, static m => !m) ? 2 : 0) : Unknowns.Length;
        Low = [.. Unknowns.Select(static u => u.Low), .. Enumerable.Repeat(double.NegativeInfinity, Count - Unknowns.Length)];
        High = [.. Unknowns.Select(static u => u.High), .. Enumerable.Repeat(double.PositiveInfinity, Count - Unknowns.Length)];
    }

    public CircuitSolver Solver { get; }

    public FitUnknown[] Unknowns { get; }

    public FitData Data { get; }

    public bool HasInstrument { get; }

    /// <summary>Place of the first delay.</summary>
    public int DelayAt { get; }

    /// <summary>Number of unknowns, the instrument's included.</summary>
    public int Count { get; }

    /// <summary>Lower bounds.</summary>
    public double[] Low { get; }

    /// <summary>Upper bounds.</summary>
    public double[] High { get; }

    /// <summary>The same with bounds of its own.</summary>
    public FitModel Copy() => new(Solver, Unknowns, Data, HasInstrument);

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

    /// <summary>Half of nothing: the whole weighted sum of squares, robust, with what is known beforehand. Infinite where the circuit has no solution.</summary>
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

    /// <summary>Weighted residuals of a trace after <see cref="Cost"/> or <see cref="Normal"/> at the same point, real and imaginary parts.</summary>
    public void Residuals(ReadOnlySpan<double> x, int trace, FitWorkspace w)
    {
        double[] weight = Data.Weight[trace], re = Data.Real[trace], im = Data.Imaginary[trace];
        for (int i = 0; i < Data.Points; i++)
        {
            Complex s = Pick(w.S[i], Data.Parameters[trace]);
            if (Data.Magnitude[trace])
            {
                double gain = HasInstrument ? x[_gainAt[trace]] : 0;
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

    /// <summary>The cost, with the normal equations: <c>J^T J</c> and <c>J^T r</c> of the residuals at this point, what is known beforehand included.</summary>
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

        int n = Count, columns = n + 1;
        w.ClearSums();
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
            for (int start = 0; start < Data.Padded; start += 8)
            {
                Columns(x, t, start, plane, w);
                Accumulate(w.Columns, columns, w.Sums);
            }
        }

        for (int i = 0, at = 0; i < columns; i++)
        {
            for (int j = i; j < columns; j++, at++)
            {
                double sum = Vector512.Sum(Vector512.LoadAligned(w.Sums + (at * 8)));
                if (j == n && i < n)
                {
                    g[i] = sum;
                }
                else if (j < n)
                {
                    a[(i * n) + j] = a[(j * n) + i] = sum;
                }
            }
        }

        AddBeforehand(x, a, g, beforehand);
        return double.IsFinite(cost) ? cost : double.PositiveInfinity;
    }

    private static Complex Pick(in ScatteringMatrix s, SweepParameter parameter) => parameter switch
    {
        SweepParameter.S11 => s.S11,
        SweepParameter.S22 => s.S22,
        SweepParameter.S12 => s.S12,
        _ => s.S21,
    };

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
            double z = x[i] / InstrumentSigma(i);
            sum += z * z;
        }

        return sum;
    }

    private double InstrumentSigma(int i)
    {
        if (i >= DelayAt)
        {
            return 1;
        }

        int trace = Array.FindLastIndex(_gainAt, at => at <= i);
        return Data.Magnitude[trace] ? GainSigmaDb : GainSigma;
    }

    private void AddBeforehand(ReadOnlySpan<double> x, Span<double> a, Span<double> g, bool parts)
    {
        for (int i = 0; i < Count; i++)
        {
            (double mean, double sigma) = i >= Unknowns.Length ? (0, InstrumentSigma(i)) : (Unknowns[i].Mean ?? 0, Unknowns[i].Sigma);
            if (i < Unknowns.Length && (!parts || Unknowns[i].Mean is null))
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

    // Derivatives of eight weighted residuals by every unknown, and the residuals themselves as the last column.
    [SkipLocalsInit]
    private unsafe void Columns(ReadOnlySpan<double> x, int trace, int start, double* plane, FitWorkspace w)
    {
        double* into = w.Columns;
        double* lanes = stackalloc double[6 * 8];
        for (int k = 0; k < 8; k++)
        {
            int i = start + k;
            double weight = i < Data.Points ? Data.Weight[trace][i] * w.Root[i] : 0;
            Complex s = i < Data.Points ? Pick(w.S[i], Data.Parameters[trace]) : Complex.Zero;
            Complex factor, delayed = Complex.Zero, gain = Complex.Zero;
            if (Data.Magnitude[trace])
            {
                double power = (s.Real * s.Real) + (s.Imaginary * s.Imaginary) + Data.Bias[trace] + 1e-40;
                factor = weight * PerNeper / power * Complex.Conjugate(s);
                gain = weight;
            }
            else
            {
                factor = weight == 0 ? Complex.Zero : w.Factor(x, trace, i) * weight;
                gain = weight == 0 ? Complex.Zero : s * w.Turn(x, trace, i) * weight;
                delayed = weight == 0 ? Complex.Zero : s * factor * new Complex(0, -2 * Math.PI * Data.FrequenciesHz[i] * DelaySigmaS);
            }

            lanes[k] = factor.Real;
            lanes[8 + k] = factor.Imaginary;
            lanes[16 + k] = gain.Real;
            lanes[24 + k] = gain.Imaginary;
            lanes[32 + k] = delayed.Real;
            lanes[40 + k] = delayed.Imaginary;
            into[(Count * 16) + k] = i < Data.Points ? w.Re[i] * w.Root[i] : 0;
            into[(Count * 16) + 8 + k] = i < Data.Points ? w.Im[i] * w.Root[i] : 0;
        }

        V fr = Vector512.Load(lanes), fi = Vector512.Load(lanes + 8);
        for (int i = 0; i < Unknowns.Length; i++)
        {
            double* d = plane + w.Gradient.Offset(Unknowns[i].Number, start);
            V dr = Vector512.Load(d), di = Vector512.Load(d + 8), slope = Vector512.Create(w.Slopes[i]);
            Vector512.Store(((fr * dr) - (fi * di)) * slope, into + (i * 16));
            Vector512.Store(Data.Magnitude[trace] ? V.Zero : ((fr * di) + (fi * dr)) * slope, into + (i * 16) + 8);
        }

        if (!HasInstrument)
        {
            return;
        }

        V gr = Vector512.Load(lanes + 16), gi = Vector512.Load(lanes + 24);
        for (int i = Unknowns.Length; i < Count; i++)
        {
            V re = V.Zero, im = V.Zero;
            if (i == _gainAt[trace])
            {
                (re, im) = (gr, gi);
            }
            else if (!Data.Magnitude[trace] && i == _gainAt[trace] + 1)
            {
                (re, im) = (-gi, gr);
            }
            else if (i >= DelayAt && Times(Data.Parameters[trace], i - DelayAt) is var times and > 0)
            {
                (re, im) = (Vector512.Load(lanes + 32) * times, Vector512.Load(lanes + 40) * times);
            }

            re.Store(into + (i * 16));
            im.Store(into + (i * 16) + 8);
        }
    }

    /// <summary>How often a port's delay stands in an S-parameter.</summary>
    public static int Times(SweepParameter parameter, int port) => parameter switch
    {
        SweepParameter.S11 => port == 0 ? 2 : 0,
        SweepParameter.S22 => port == 1 ? 2 : 0,
        _ => 1,
    };

    /// <summary>Place of a trace's gain among the unknowns.</summary>
    public int GainAt(int trace) => _gainAt[trace];

    private static unsafe void Accumulate(double* columns, int count, double* sums)
    {
        for (int i = 0; i < count; i++)
        {
            V ar = Vector512.LoadAligned(columns + (i * 16)), ai = Vector512.LoadAligned(columns + (i * 16) + 8);
            for (int j = i; j < count; j++, sums += 8)
            {
                V sum = Vector512.LoadAligned(sums);
                sum = Vector512.FusedMultiplyAdd(ar, Vector512.LoadAligned(columns + (j * 16)), sum);
                sum = Vector512.FusedMultiplyAdd(ai, Vector512.LoadAligned(columns + (j * 16) + 8), sum);
                sum.StoreAligned(sums);
            }
        }
    }
}
