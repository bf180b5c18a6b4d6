using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Solving;

/// <summary>
/// One frequency at a time by modified nodal analysis and LU with partial pivoting: slower than the batch kernel, and right for every
/// network that has a solution. Elements of low impedance, lines, windings, transformers and blocks bring their currents as unknowns, so
/// that no admittance needs to exist. Normalised to the port impedance: voltages in those of a unit wave, currents times the impedance.
/// </summary>
/// <remarks>
/// The residual of every equation is held to 1e-13 of its largest coefficient times the largest unknown, after at most two steps of
/// iterative refinement. Not safe for use by several threads.
/// </remarks>
internal sealed class PivotedSolver
{
    /// <summary>Below this share of the port impedance an element's current becomes an unknown.</summary>
    private const double LowImpedance = 0.02;

    private readonly Netlist _netlist;
    private readonly double _reference;
    private readonly int _nodes;
    private readonly int[] _current;
    private readonly int[] _state;
    private readonly Complex[] _p;
    private readonly Complex[] _q;
    private readonly PivotedMatrix _matrix;
    private readonly Complex[] _windings;
    private int _size;

    public PivotedSolver(Netlist netlist)
    {
        _netlist = netlist;
        _reference = netlist.Circuit.ImpedanceOhm;
        _nodes = netlist.NodeNames.Length;
        _current = new int[netlist.Elements.Length];
        _state = new int[netlist.Elements.Length + 1];
        _p = new Complex[netlist.Elements.Length];
        _q = new Complex[netlist.Elements.Length];
        int most = _nodes, windings = 0;
        for (int i = 0; i < netlist.Elements.Length; i++)
        {
            Element e = netlist.Elements[i];
            most += e.Kind switch { ElementKind.Line or ElementKind.Block => 2, ElementKind.Windings => e.Windings.Length, _ => 1 };
            windings = Math.Max(windings, e.Windings.Length);
            _state[i + 1] = _state[i] + ElementGradient.StateSize(e);
            HasBlocks |= e.Kind == ElementKind.Block;
        }

        Capacity = most;
        _matrix = new PivotedMatrix(most);
        _windings = new Complex[windings * windings];
    }

    /// <summary>Length that a solution vector must have.</summary>
    public int Capacity { get; }

    /// <summary>Length of the vector of all states.</summary>
    public int StateLength => _state[^1];

    /// <summary>Whether the network may be non-reciprocal, so that the adjoint is another matrix.</summary>
    public bool HasBlocks { get; }

    /// <summary>Where the states of an element begin.</summary>
    public int StateStart(int element) => _state[element];

    /// <summary>Builds and factors the matrix at one frequency.</summary>
    /// <param name="omega">Radians per second.</param>
    /// <param name="values">All parameters.</param>
    /// <param name="transposed">Whether blocks are taken transposed, for the adjoint network.</param>
    /// <returns>Number of the unknown at which the matrix is singular; -1 where it is not.</returns>
    public int Factor(double omega, ReadOnlySpan<double> values, bool transposed)
    {
        Count(omega, values);
        _matrix.Clear(_size);
        Add(_netlist.PortIn, _netlist.PortIn, Complex.One);
        Add(_netlist.PortOut, _netlist.PortOut, Complex.One);
        for (int i = 0; i < _netlist.Elements.Length; i++)
        {
            Stamp(_netlist.Elements[i], i, omega, values, transposed);
        }

        return _matrix.Decompose();
    }

    /// <summary>Solves for a unit wave into a port.</summary>
    /// <param name="port">Node of the port.</param>
    /// <param name="x">The solution: node voltages first, then currents. <c>S11 = x[in] - 1</c>, <c>S21 = x[out]</c> for the drive at port
    /// 1.</param>
    /// <returns>Whether the residual is small enough.</returns>
    public bool Drive(int port, Span<Complex> x) => _matrix.Solve(port, 2, x[.._matrix.Size]);

    /// <summary>Voltage and current (times the reference) of a two-terminal element, line end, winding or block port.</summary>
    /// <param name="element">Number of the element.</param>
    /// <param name="port">0 for the first port or winding, and so on.</param>
    /// <param name="x">A solution of the last factorisation.</param>
    public (Complex Voltage, Complex Current) At(int element, int port, ReadOnlySpan<Complex> x)
    {
        Element e = _netlist.Elements[element];
        int c = _current[element];
        switch (e.Kind)
        {
            case ElementKind.Windings:
                return (Across(x, e.Windings[port].A, e.Windings[port].B), x[c + port]);
            case ElementKind.Transformer:
                return port == 0 ? (Across(x, e.A, e.B), x[c] * e.SecondTurns) : (Across(x, e.C, e.D), -x[c] * e.FirstTurns);
            case ElementKind.Line or ElementKind.Block:
                return port == 0 ? (Across(x, e.A, e.B), x[c]) : (Across(x, e.C, e.D), x[c + 1]);
            default:
                {
                    Complex v = Across(x, e.A, e.B);
                    return (v, c < 0 ? v * _p[element] / _q[element] : x[c]);
                }
        }
    }

    /// <summary>The states of all elements in a solution, see <see cref="ElementGradient"/>.</summary>
    public void States(ReadOnlySpan<Complex> x, Span<Complex> states)
    {
        for (int i = 0; i < _netlist.Elements.Length; i++)
        {
            Element e = _netlist.Elements[i];
            int s = _state[i];
            switch (e.Kind)
            {
                case ElementKind.Transformer or ElementKind.Block:
                    break;
                case ElementKind.Line:
                    {
                        double z = e.LineOhm / _reference;
                        (Complex v1, Complex i1) = At(i, 0, x);
                        (Complex v2, Complex i2) = At(i, 1, x);
                        states[s] = 0.5 * (v1 + (z * i1));
                        states[s + 1] = 0.5 * (v2 + (z * i2));
                        break;
                    }

                case ElementKind.Windings:
                    for (int w = 0; w < e.Windings.Length; w++)
                    {
                        states[s + w] = x[_current[i] + w];
                    }

                    break;
                default:
                    {
                        (Complex v, Complex current) = At(i, 0, x);
                        states[s] = _current[i] < 0 || _p[i] == Complex.Zero ? v / _q[i] : current / _p[i];
                        break;
                    }
            }
        }
    }

    /// <summary>Names of the parts that touch an unknown.</summary>
    public IReadOnlyList<string> PartsAt(int unknown)
    {
        List<int> parts = [];
        for (int i = 0; i < _netlist.Elements.Length; i++)
        {
            Element e = _netlist.Elements[i];
            bool touches = unknown < _nodes
                ? e.A == unknown
                    || e.B == unknown
                    || e.C == unknown
                    || e.D == unknown
                    || Array.Exists(e.Windings, w => w.A == unknown || w.B == unknown)
                : _current[i] >= 0
                    && unknown >= _current[i]
                    && unknown < _current[i]
                        + (e.Kind switch { ElementKind.Line or ElementKind.Block => 2, ElementKind.Windings => e.Windings.Length, _ => 1 });
            if (touches)
            {
                parts.AddRange(e.Kind == ElementKind.Windings ? e.Windings.Select(static w => w.Part) : [e.Part]);
            }
        }

        return [.. parts.Distinct().Order().Select(p => _netlist.Circuit.Parts[p].Name)];
    }

    private static Complex Across(ReadOnlySpan<Complex> x, int a, int b) => (a < 0 ? Complex.Zero : x[a]) - (b < 0 ? Complex.Zero : x[b]);

    private static double Size(Complex z) => Math.Abs(z.Real) + Math.Abs(z.Imaginary);

    private void Count(double omega, ReadOnlySpan<double> values)
    {
        _size = _nodes;
        for (int i = 0; i < _netlist.Elements.Length; i++)
        {
            Element e = _netlist.Elements[i];
            _current[i] = _size;
            switch (e.Kind)
            {
                case ElementKind.Line or ElementKind.Block:
                    _size += 2;
                    break;
                case ElementKind.Windings:
                    _size += e.Windings.Length;
                    break;
                case ElementKind.Transformer:
                    _size++;
                    break;
                default:
                    (_p[i], Complex q) = ElementValues.TwoTerminal(e, omega, values);
                    _q[i] = q / _reference;
                    if (Size(_q[i]) >= LowImpedance * Size(_p[i]))
                    {
                        _current[i] = -1;
                    }
                    else
                    {
                        _size++;
                    }

                    break;
            }
        }
    }

    private void Add(int row, int column, Complex value) => _matrix.Add(row, column, value);

    // A current from node a through the element to node b, in the balance of both nodes.
    private void Leaves(int a, int b, int column, Complex factor)
    {
        Add(a, column, factor);
        Add(b, column, -factor);
    }

    private void Voltage(int row, int a, int b, Complex factor)
    {
        Add(row, a, factor);
        Add(row, b, -factor);
    }

    private void Stamp(Element e, int index, double omega, ReadOnlySpan<double> values, bool transposed)
    {
        int c = _current[index];
        switch (e.Kind)
        {
            case ElementKind.Line:
                StampLine(e, c, omega, values);
                break;
            case ElementKind.Windings:
                {
                    int m = e.Windings.Length;
                    ElementValues.WindingImpedance(e, omega, values, _windings);
                    for (int i = 0; i < m; i++)
                    {
                        Element w = e.Windings[i];
                        Leaves(w.A, w.B, c + i, Complex.One);
                        Voltage(c + i, w.A, w.B, Complex.One);
                        for (int j = 0; j < m; j++)
                        {
                            Add(c + i, c + j, -_windings[(i * m) + j] / _reference);
                        }
                    }

                    break;
                }

            case ElementKind.Transformer:
                // n1 I1 + n2 I2 = 0 by one current for both, V1 n2 = V2 n1.
                Leaves(e.A, e.B, c, e.SecondTurns);
                Leaves(e.C, e.D, c, -e.FirstTurns);
                Voltage(c, e.A, e.B, e.SecondTurns);
                Voltage(c, e.C, e.D, -e.FirstTurns);
                break;
            case ElementKind.Block:
                StampBlock(e, c, omega, transposed);
                break;
            default:
                if (c < 0)
                {
                    Complex y = _p[index] / _q[index];
                    Voltage(e.A, e.A, e.B, y);
                    Voltage(e.B, e.A, e.B, -y);
                }
                else
                {
                    Leaves(e.A, e.B, c, Complex.One);
                    Voltage(c, e.A, e.B, _p[index]);
                    Add(c, c, -_q[index]);
                }

                break;
        }
    }

    // Sum and difference of both ends: (1 - e)(V1 + V2) = z (1 + e)(I1 + I2), (1 + e)(V1 - V2) = z (1 - e)(I1 - I2), e = exp(-gamma l).
    private void StampLine(Element e, int c, double omega, ReadOnlySpan<double> values)
    {
        Complex theta = LineFunctions.Propagation(omega, e.Delay, e.Loss) * e.ValueOf(values);

        // 1 - exp(-theta) = 2 exp(-theta/2) sinh(theta/2), without cancelling for short lines; scaled functions keep it finite.
        (Complex sinh, Complex cosh) = LineFunctions.Scaled(theta / 2, out _);
        double z = e.LineOhm / _reference;
        Leaves(e.A, e.B, c, Complex.One);
        Leaves(e.C, e.D, c + 1, Complex.One);
        Voltage(c, e.A, e.B, sinh);
        Voltage(c, e.C, e.D, sinh);
        Add(c, c, -z * cosh);
        Add(c, c + 1, -z * cosh);
        Voltage(c + 1, e.A, e.B, cosh);
        Voltage(c + 1, e.C, e.D, -cosh);
        Add(c + 1, c, -z * sinh);
        Add(c + 1, c + 1, z * sinh);
    }

    // b = S a in power waves of the block's own references.
    private void StampBlock(Element e, int c, double omega, bool transposed)
    {
        ITwoPort source = e.Source!;
        ScatteringMatrix s = source.At(omega / (2 * Math.PI));
        if (transposed)
        {
            s = s with { S12 = s.S21, S21 = s.S12 };
        }

        Complex z1 = source.Reference1 / _reference, z2 = source.Reference2 / _reference;
        double f1 = 1 / Math.Sqrt(z1.Real), f2 = 1 / Math.Sqrt(z2.Real);
        Leaves(e.A, e.B, c, Complex.One);
        Leaves(e.C, e.D, c + 1, Complex.One);
        Wave(c, s.S11, s.S12, true);
        Wave(c + 1, s.S21, s.S22, false);

        void Wave(int row, Complex fromFirst, Complex fromSecond, bool first)
        {
            Voltage(row, e.A, e.B, f1 * ((first ? 1 : 0) - fromFirst));
            Add(row, c, -f1 * ((first ? Complex.Conjugate(z1) : 0) + (fromFirst * z1)));
            Voltage(row, e.C, e.D, f2 * ((first ? 0 : 1) - fromSecond));
            Add(row, c + 1, -f2 * ((first ? 0 : Complex.Conjugate(z2)) + (fromSecond * z2)));
        }
    }
}
