using System.Numerics;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Design.Optimising;

/// <summary>
/// What a circuit has to spare at every demand of a mask, and the slopes of that by the logarithms of its values, exact by the adjoint
/// network. Memory of one thread; no call allocates.
/// </summary>
internal sealed class MaskModel
{
    private const double DbPerNeper = 8.685889638065035;
    private const double MostDb = 160;
    private readonly CircuitSolver _solver;
    private readonly MaskGrid _grid;
    private readonly int[] _variables;
    private readonly double[] _values;
    private readonly SolverWorkspace _workspace;
    private readonly ScatteringMatrix[] _s;
    private readonly GradientBuffer _gradient;
    private readonly double[] _margins;
    private readonly double[] _row;

    /// <summary>Takes a circuit.</summary>
    /// <param name="solver">The circuit's solver.</param>
    /// <param name="grid">The demands.</param>
    /// <param name="variables">Numbers of the parameters that may move.</param>
    public MaskModel(CircuitSolver solver, MaskGrid grid, int[] variables)
    {
        (_solver, _grid, _variables) = (solver, grid, variables);
        _values = solver.NominalValues();
        _workspace = solver.CreateWorkspace();
        _s = new ScatteringMatrix[grid.FrequenciesHz.Length];
        _gradient = new GradientBuffer(solver, grid.FrequenciesHz.Length);
        _margins = new double[grid.Points.Length];
        _row = new double[variables.Length];
    }

    /// <summary>Number of variables.</summary>
    public int Count => _variables.Length;

    /// <summary>All values of the circuit; a caller may change those that are no variables.</summary>
    public double[] Values => _values;

    /// <summary>The least weighted margin at a point; negative infinity where the circuit has no one solution.</summary>
    /// <param name="x">Logarithms of the variables' magnitudes.</param>
    public double Worst(ReadOnlySpan<double> x)
    {
        Set(x);
        if (_solver.Solve(_grid.FrequenciesHz, _values, _workspace, _s) is not null)
        {
            return double.NegativeInfinity;
        }

        double worst = double.PositiveInfinity;
        for (int i = 0; i < _margins.Length; i++)
        {
            worst = Math.Min(worst, _margins[i] = Margin(_grid.Points[i]));
        }

        return worst;
    }

    /// <summary>Half the sum of squares of what is short of a target.</summary>
    /// <param name="x">Logarithms of the variables' magnitudes.</param>
    /// <param name="target">Weighted margin aimed at.</param>
    public double Cost(ReadOnlySpan<double> x, double target)
    {
        double worst = Worst(x);
        if (double.IsNegativeInfinity(worst))
        {
            return double.PositiveInfinity;
        }

        double sum = 0;
        foreach (double m in _margins)
        {
            double short_ = target - m;
            sum += short_ > 0 ? short_ * short_ : 0;
        }

        return sum / 2;
    }

    /// <summary>The same with its gradient and the Gauss-Newton matrix.</summary>
    /// <param name="x">Logarithms of the variables' magnitudes.</param>
    /// <param name="target">Weighted margin aimed at.</param>
    /// <param name="a">Receives the matrix, row by row.</param>
    /// <param name="g">Receives the gradient.</param>
    public double Normal(ReadOnlySpan<double> x, double target, Span<double> a, Span<double> g)
    {
        Set(x);
        a.Clear();
        g.Clear();
        if (_solver.SolveWithGradient(_grid.FrequenciesHz, _values, _workspace, _s, _gradient) is not null)
        {
            return double.PositiveInfinity;
        }

        int n = _variables.Length;
        double sum = 0;
        for (int i = 0; i < _margins.Length; i++)
        {
            MaskPoint p = _grid.Points[i];
            double m = _margins[i] = Margin(p), missing = target - m;
            if (missing <= 0)
            {
                continue;
            }

            sum += missing * missing;

            // Loss in dB is -8.686 ln|S|: its slope by ln v is -8.686 Re(S* dS/dv) v/|S|^2.
            bool reflection = p.Kind == DemandKind.ReturnLoss;
            Complex s = reflection ? _s[p.Frequency].S11 : _s[p.Frequency].S21;
            double norm = (s.Real * s.Real) + (s.Imaginary * s.Imaginary);
            double scale = norm < 1e-15 ? 0 : DbPerNeper / norm * p.Weight * (p.Kind == DemandKind.PassLoss ? 1 : -1);
            for (int k = 0; k < n; k++)
            {
                Complex ds = reflection ? _gradient.S11(_variables[k], p.Frequency) : _gradient.S21(_variables[k], p.Frequency);
                double slope = scale * ((s.Real * ds.Real) + (s.Imaginary * ds.Imaginary)) * _values[_variables[k]];
                _row[k] = slope;
                g[k] -= missing * slope;
                for (int l = 0; l <= k; l++)
                {
                    a[(k * n) + l] += slope * _row[l];
                }
            }
        }

        return sum / 2;
    }

    private void Set(ReadOnlySpan<double> x)
    {
        for (int k = 0; k < _variables.Length; k++)
        {
            ref double v = ref _values[_variables[k]];
            v = Math.CopySign(Math.Exp(x[k]), v);
        }
    }

    private double Margin(MaskPoint p)
    {
        Complex s = p.Kind == DemandKind.ReturnLoss ? _s[p.Frequency].S11 : _s[p.Frequency].S21;
        double norm = (s.Real * s.Real) + (s.Imaginary * s.Imaginary);
        double loss = norm > 1e-16 ? -10 * Math.Log10(norm) : MostDb;
        return p.Weight * (p.Kind == DemandKind.PassLoss ? p.NeededDb - loss : loss - p.NeededDb);
    }
}
