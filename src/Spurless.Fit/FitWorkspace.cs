using System.Numerics;
using System.Runtime.CompilerServices;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Fit;

/// <summary>The memory one thread needs for a <see cref="FitModel"/>.</summary>
internal sealed unsafe class FitWorkspace
{
    private readonly FitModel _model;
    private readonly double[] _block;
    private readonly int _sumLength;

    public FitWorkspace(FitModel model)
    {
        _model = model;
        int points = model.Data.Points, n = model.Count;
        Solver = model.Solver.CreateWorkspace();
        Gradient = new GradientBuffer(model.Solver, points, Parts(model));
        S = new ScatteringMatrix[points];
        Values = new double[model.Solver.Parameters.Count];
        Slopes = new double[n];
        Re = new double[model.Data.Padded];
        Im = new double[model.Data.Padded];
        Seen = new Complex[model.Data.Padded];
        BySeen = new Complex[model.Data.Padded];
        ByError = [.. Enumerable.Range(0, InstrumentView.Kinds).Select(_ => new Complex[model.Data.Padded])];
        Root = new double[model.Data.Padded];
        _sumLength = (n + 1) * (n + 2) / 2 * 8;
        _block = GC.AllocateArray<double>(_sumLength + ((n + 1) * 16) + 8, pinned: true);
        Sums = (double*)(((nint)Unsafe.AsPointer(ref _block[0]) + 63) & ~63);
        Columns = Sums + _sumLength;
    }

    public SolverWorkspace Solver { get; }

    public GradientBuffer Gradient { get; }

    public ScatteringMatrix[] S { get; }

    public double[] Values { get; }

    public double[] Slopes { get; }

    public double[] Re { get; }

    public double[] Im { get; }

    /// <summary>What the instrument sees of an S-parameter before its gain and plane.</summary>
    public Complex[] Seen { get; }

    /// <summary>Its derivative by the S-parameter.</summary>
    public Complex[] BySeen { get; }

    /// <summary>Its derivative by each kind of the instrument's errors.</summary>
    public Complex[][] ByError { get; }

    public double[] Root { get; }

    public double* Sums { get; }

    public double* Columns { get; }

    private static GradientParts Parts(FitModel model)
    {
        GradientParts parts = model.Unknowns.Any(static u => u.Quantity == CircuitQuantity.Q)
            ? GradientParts.QualityFactors
            : GradientParts.None;
        foreach (SweepParameter parameter in model.Data.Parameters)
        {
            parts |= parameter switch
            {
                SweepParameter.S11 => GradientParts.S11,
                SweepParameter.S22 => GradientParts.S22,
                _ => GradientParts.S21,
            };
        }

        return parts;
    }

    /// <summary>Clears the sums of so many columns.</summary>
    public void ClearSums(int columns) => new Span<double>(Sums, columns * (columns + 1) / 2 * 8).Clear();

    /// <summary>What the instrument makes of an S-parameter.</summary>
    public Complex Factor(ReadOnlySpan<double> x, int trace, int point)
    {
        if (_model.Instrument is not { } own)
        {
            return Complex.One;
        }

        int at = own.GainAt[trace];
        return new Complex(1 + x[at], x[at + 1]) * Turn(x, trace, point);
    }

    /// <summary>The same without its gain.</summary>
    public Complex Turn(ReadOnlySpan<double> x, int trace, int point)
    {
        if (_model.Instrument is not { } own)
        {
            return Complex.One;
        }

        SweepParameter parameter = _model.Data.Parameters[trace];
        double delay = ((TraceOf.Times(parameter, 0) * x[own.DelayAt])
            + (TraceOf.Times(parameter, 1) * x[own.DelayAt + 1])) * own.DelayUnitS;
        (double sin, double cos) = Math.SinCos(-2 * Math.PI * _model.Data.FrequenciesHz[point] * delay);
        return new Complex(cos, sin);
    }
}
