using System.Numerics;
using System.Runtime.Intrinsics;
using V = System.Runtime.Intrinsics.Vector512<double>;

namespace Spurless.Circuits.Solving;

/// <summary>
/// Elements whose admittance is no number times a shared function: computed 8 frequencies at a time where that pays, else one by one.
/// </summary>
internal sealed unsafe class GeneralElements
{
    private const int Size = SparseStructure.EntrySize;
    private readonly Netlist _netlist;
    private readonly (int Element, int Ports, int Offset, (int Place, double Sign)[][] Stamps)[] _items;

    public GeneralElements(Netlist netlist, SparseStructure structure)
    {
        _netlist = netlist;
        List<(int, int, int, (int, double)[][])> items = [];
        int offset = 0;
        for (int i = 0; i < netlist.Elements.Length; i++)
        {
            Element e = netlist.Elements[i];
            if (e.IsSimple)
            {
                continue;
            }

            (int A, int B)[] ports = Ports(e);
            List<(int, double)[]> stamps = [];
            for (int a = 0; a < ports.Length; a++)
            {
                for (int b = a; b < ports.Length; b++)
                {
                    stamps.Add(AssemblyPlan.Stamps(structure, ports[a].A, ports[a].B, ports[b].A, ports[b].B, own: a == b));
                }
            }

            items.Add((i, ports.Length, offset, [.. stamps]));
            offset += Size * stamps.Count;
            MostPorts = Math.Max(MostPorts, ports.Length);
        }

        _items = [.. items];
        Doubles = offset;
        MostPorts = Math.Max(MostPorts, 1);
    }

    /// <summary>Doubles of scratch memory that the admittances take.</summary>
    public int Doubles { get; }

    public int MostPorts { get; }

    /// <summary>Computes the admittances (upper triangle of the ports, row by row) and adds them to the matrix.</summary>
    public void Assemble(ReadOnlySpan<double> values, V omega, V inverse, double* scratch, double* matrix, Span<Complex> small)
    {
        foreach ((int index, int ports, int offset, (int Place, double Sign)[][] stamps) in _items)
        {
            Element e = _netlist.Elements[index];
            double* y = scratch + offset;
            switch (e.Kind)
            {
                case ElementKind.Inductance:
                    Series(y, Vector512.Create(e.SeriesOhm), omega * e.ValueOf(values));
                    break;
                case ElementKind.Capacitance:
                    {
                        double c = e.ValueOf(values);
                        double r = e.Q >= 0 ? 1 / (e.QOmega * c * values[e.Q]) : e.SeriesOhm;
                        Series(y, Vector512.Create(r), (omega * e.SeriesHenry) - (inverse * (1 / c)));
                        break;
                    }

                default:
                    for (int lane = 0; lane < 8; lane++)
                    {
                        OneByOne(e, omega[lane], values, small);
                        for (int k = 0; k < stamps.Length; k++)
                        {
                            y[(k * Size) + lane] = small[k].Real;
                            y[(k * Size) + 8 + lane] = small[k].Imaginary;
                        }
                    }

                    break;
            }

            for (int k = 0; k < stamps.Length; k++, y += Size)
            {
                V re = Vector512.LoadAligned(y), im = Vector512.LoadAligned(y + 8);
                foreach ((int place, double sign) in stamps[k])
                {
                    BatchKernel.Add(matrix + place, re, im, sign);
                }
            }
        }
    }

    /// <summary>The state of every general element in one lane of a solution, see <see cref="ElementGradient"/>.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="omega">Its radians per second.</param>
    /// <param name="values">All parameters.</param>
    /// <param name="reference">Port impedance in ohms.</param>
    /// <param name="scratch">The admittances of <see cref="Assemble"/>.</param>
    /// <param name="voltages">The voltages; ground is after the last node.</param>
    /// <param name="ground">Number of nodes.</param>
    /// <param name="starts">Where each element's states begin.</param>
    /// <param name="states">Receives the states.</param>
    public void States(
        int lane,
        double omega,
        ReadOnlySpan<double> values,
        double reference,
        double* scratch,
        double* voltages,
        int ground,
        PivotedSolver starts,
        Span<Complex> states)
    {
        foreach ((int index, int ports, int offset, _) in _items)
        {
            Element e = _netlist.Elements[index];
            int s = starts.StateStart(index);
            double* y = scratch + offset + lane;
            switch (e.Kind)
            {
                case ElementKind.Line:
                    {
                        Complex v1 = Across(e.A, e.B), v2 = Across(e.C, e.D);
                        Complex own = Admittance(0), transfer = Admittance(1);
                        states[s] = 0.5 * (v1 + (e.LineOhm * ((own * v1) + (transfer * v2))));
                        states[s + 1] = 0.5 * (v2 + (e.LineOhm * ((transfer * v1) + (own * v2))));
                        break;
                    }

                case ElementKind.Windings:
                    for (int i = 0; i < ports; i++)
                    {
                        Complex sum = Complex.Zero;
                        for (int j = 0; j < ports; j++)
                        {
                            int a = Math.Min(i, j), b = Math.Max(i, j);
                            sum += Admittance((a * ports) - (a * (a - 1) / 2) + b - a) * Across(e.Windings[j].A, e.Windings[j].B);
                        }

                        states[s + i] = sum * reference;
                    }

                    break;
                default:
                    {
                        (_, Complex q) = ElementValues.TwoTerminal(e, omega, values);
                        states[s] = Across(e.A, e.B) * reference / q;
                        break;
                    }
            }

            Complex Admittance(int k) => new(y[k * Size], y[(k * Size) + 8]);
        }

        Complex At(int node)
        {
            double* x = voltages + ((node < 0 ? ground : node) * Size) + lane;
            return new(x[0], x[8]);
        }

        Complex Across(int a, int b) => At(a) - At(b);
    }

    /// <summary>Adds the derivatives of all general elements from states.</summary>
    public void Gradient(
        double omega,
        ReadOnlySpan<double> values,
        double reference,
        PivotedSolver starts,
        ReadOnlySpan<Complex> states,
        ReadOnlySpan<Complex> adjoint,
        Span<Complex> into)
    {
        foreach ((int index, _, _, _) in _items)
        {
            Element e = _netlist.Elements[index];
            int s = starts.StateStart(index);
            ElementGradient.Add(e, omega, values, reference, states[s..], adjoint[s..], into);
        }
    }

    /// <summary>Whether there are any.</summary>
    public bool Any => _items.Length > 0;

    /// <summary>Numbers of all parameters that belong to general elements.</summary>
    public IEnumerable<int> ParameterNumbers() => _items.SelectMany(i =>
    {
        Element e = _netlist.Elements[i.Element];
        return e.Kind == ElementKind.Windings
            ? e.Windings.SelectMany(static w => new[] { w.Value, w.Q }).Concat(e.Couplings.Select(static c => c.Parameter))
            : [e.Value, e.Q];
    }).Where(static p => p >= 0).Distinct();

    private static (int A, int B)[] Ports(Element e) => e.Kind switch
    {
        ElementKind.Line => [(e.A, e.B), (e.C, e.D)],
        ElementKind.Windings => [.. e.Windings.Select(static w => (w.A, w.B))],
        _ => [(e.A, e.B)],
    };

    private static void Series(double* y, V r, V x)
    {
        V d = V.One / ((r * r) + (x * x));
        (r * d).StoreAligned(y);
        (-x * d).StoreAligned(y + 8);
    }

    private static void OneByOne(Element e, double omega, ReadOnlySpan<double> values, Span<Complex> y)
    {
        switch (e.Kind)
        {
            case ElementKind.Line:
                (y[0], y[1]) = ElementValues.LineAdmittance(e, omega, values);
                y[2] = y[0];
                break;
            case ElementKind.Windings:
                Invert(e, omega, values, y);
                break;
            default:
                {
                    (Complex p, Complex q) = ElementValues.TwoTerminal(e, omega, values);
                    y[0] = p / q;
                    break;
                }
        }
    }

    // Gauss-Jordan in place; a matrix of inductances is definite, so nothing needs to pivot.
    private static void Invert(Element e, double omega, ReadOnlySpan<double> values, Span<Complex> y)
    {
        int m = e.Windings.Length;
        Span<Complex> z = y[(m * (m + 1) / 2)..];
        ElementValues.WindingImpedance(e, omega, values, z);
        for (int k = 0; k < m; k++)
        {
            Complex inverse = Complex.One / z[(k * m) + k];
            z[(k * m) + k] = Complex.One;
            for (int j = 0; j < m; j++)
            {
                z[(k * m) + j] *= inverse;
            }

            for (int i = 0; i < m; i++)
            {
                if (i == k)
                {
                    continue;
                }

                Complex f = z[(i * m) + k];
                z[(i * m) + k] = Complex.Zero;
                for (int j = 0; j < m; j++)
                {
                    z[(i * m) + j] -= f * z[(k * m) + j];
                }
            }
        }

        for (int i = 0, k = 0; i < m; i++)
        {
            for (int j = i; j < m; j++)
            {
                y[k++] = z[(i * m) + j];
            }
        }
    }
}
