using System.Numerics;
using System.Runtime.Intrinsics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.TwoPorts;
using V = System.Runtime.Intrinsics.Vector512<double>;

namespace Spurless.Circuits.Solving;

/// <summary>
/// Nodal analysis of a circuit of any topology: its structure is worked out once, then S-parameters at many frequencies and for many sets
/// of values. S-parameters are between ports of the circuit's own real impedance, port 1 is <see cref="Circuit.PortIn"/>, time convention
/// e^{+jwt}. Leakage round the circuit is not in them, see <see cref="CircuitTwoPort"/>.
/// </summary>
/// <remarks>
/// Eight frequencies at a time by LDL^T in a fixed order (<see cref="BatchKernel"/>); a point at which that loses digits, and every network
/// with a transformer or a two-port block, goes to LU with partial pivoting and a checked residual (<see cref="PivotedSolver"/>). Both
/// agree to about 1e-12. Derivatives by the adjoint network (Director and Rohrer 1969; from memory). A solver is immutable and safe for use
/// by several threads, each with a workspace of its own. Runs do not allocate, but for a fault.
/// </remarks>
public sealed unsafe partial class CircuitSolver
{
    private const int Size = SparseStructure.EntrySize;
    private readonly SparseStructure? _structure;
    private readonly AssemblyPlan? _merged;
    private readonly AssemblyPlan? _apart;
    private readonly GeneralElements? _general;
    private readonly double[] _nominal;
    private readonly double _lowestHz;
    private readonly double _highestHz = double.PositiveInfinity;
    private readonly int[] _generalParameters = [];

    private CircuitSolver(Circuit circuit)
    {
        Circuit = circuit;
        Netlist = Netlist.Compile(circuit);
        _nominal = [.. Netlist.Parameters.Select(static p => p.Nominal.Value ?? double.NaN)];
        bool pivotedOnly = false;
        foreach (Element e in Netlist.Elements)
        {
            pivotedOnly |= e.Kind is ElementKind.Transformer or ElementKind.Block;
            if (e.Source is { } source)
            {
                _lowestHz = Math.Max(_lowestHz, source.LowestHz);
                _highestHz = Math.Min(_highestHz, source.HighestHz);
            }
        }

        if (pivotedOnly)
        {
            return;
        }

        _structure = new SparseStructure(Netlist);
        _merged = new AssemblyPlan(Netlist, _structure, merge: true);
        _apart = new AssemblyPlan(Netlist, _structure, merge: false);
        _general = new GeneralElements(Netlist, _structure);
        _generalParameters = [.. _general.ParameterNumbers()];
    }

    /// <summary>The circuit.</summary>
    public Circuit Circuit { get; }

    /// <summary>All numbers that a run can vary, in the order of the values that it takes.</summary>
    public IReadOnlyList<CircuitParameter> Parameters => Netlist.Parameters;

    /// <summary>Whether a value is unknown, so that only runs with other values than the nominal ones are possible.</summary>
    public bool HasUnknowns => Array.Exists(_nominal, double.IsNaN);

    /// <summary>Least frequency in hertz for which all two-port blocks have data; 0 without blocks.</summary>
    public double LowestHz => _lowestHz;

    /// <summary>Greatest frequency in hertz for which all two-port blocks have data; infinity without blocks.</summary>
    public double HighestHz => _highestHz;

    internal Netlist Netlist { get; }

    /// <summary>A solver for a circuit, or what is wrong with it.</summary>
    /// <param name="circuit">The circuit.</param>
    /// <param name="faults">All faults; empty where a solver is returned.</param>
    public static CircuitSolver? TryCreate(Circuit circuit, out IReadOnlyList<CircuitFault> faults)
    {
        faults = CircuitCheck.Faults(circuit);
        return faults.Count == 0 ? new CircuitSolver(circuit) : null;
    }

    /// <summary>A solver for a circuit.</summary>
    /// <param name="circuit">The circuit.</param>
    /// <exception cref="CircuitException">The circuit has a fault; the first one is carried.</exception>
    public static CircuitSolver Create(Circuit circuit) =>
        TryCreate(circuit, out IReadOnlyList<CircuitFault> faults) ?? throw new CircuitException(faults[0]);

    /// <summary>The nominal values of all parameters, a new array at each call; NaN where unknown.</summary>
    public double[] NominalValues() => [.. _nominal];

    /// <summary>The number of a parameter; -1 where there is none.</summary>
    /// <param name="part">Name of the part.</param>
    /// <param name="quantity">Which of its numbers.</param>
    public int ParameterNumber(string part, CircuitQuantity quantity)
    {
        for (int i = 0; i < Parameters.Count; i++)
        {
            if (Parameters[i].Part == part && Parameters[i].Quantity == quantity)
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>Memory for the runs of one thread.</summary>
    public SolverWorkspace CreateWorkspace() => new(
        this,
        _structure,
        (_apart?.Classes.Length ?? 0) + AssemblyPlan.PlainFunctions,
        Math.Max(_apart?.TermCount ?? 0, _merged?.TermCount ?? 0),
        _general?.Doubles ?? 0,
        Netlist.NodeNames.Length,
        _general?.MostPorts ?? 0);

    /// <summary>S-parameters at the nominal values.</summary>
    /// <param name="frequenciesHz">Frequencies in hertz, above 0.</param>
    /// <exception cref="CircuitException">A value is unknown, a frequency is out of range, or the network is singular at one.</exception>
    public ScatteringMatrix[] Solve(ReadOnlySpan<double> frequenciesHz)
    {
        ScatteringMatrix[] s = new ScatteringMatrix[frequenciesHz.Length];
        return Solve(frequenciesHz, _nominal, CreateWorkspace(), s) is { } fault ? throw new CircuitException(fault) : s;
    }

    /// <summary>S-parameters at many frequencies.</summary>
    /// <param name="frequenciesHz">Frequencies in hertz, above 0, in any order.</param>
    /// <param name="values">All parameters in SI units, in the order of <see cref="Parameters"/>.</param>
    /// <param name="workspace">Memory from <see cref="CreateWorkspace"/> of this solver.</param>
    /// <param name="s">Receives the S-parameters, as many as there are frequencies.</param>
    /// <returns>Null, or what went wrong; then <paramref name="s"/> is incomplete.</returns>
    public CircuitFault? Solve(
        ReadOnlySpan<double> frequenciesHz, ReadOnlySpan<double> values, SolverWorkspace workspace, Span<ScatteringMatrix> s)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(s.Length, frequenciesHz.Length, nameof(s));
        if (Check(frequenciesHz, values, workspace) is { } fault)
        {
            return fault;
        }

        AssemblyPlan? plan = Prepare(values, workspace);
        for (int start = 0; start < frequenciesHz.Length; start += 8)
        {
            int count = Math.Min(8, frequenciesHz.Length - start);
            Lanes lanes = plan is null
                ? new Lanes { Bad = 0xFF }
                : Batch(plan, frequenciesHz.Slice(start, count), values, workspace, false);
            for (int lane = 0; lane < count; lane++)
            {
                if ((lanes.Bad >> lane & 1) == 0)
                {
                    Complex s21 = new(lanes.S21Re[lane], lanes.S21Im[lane]);
                    s[start + lane] = new(new(lanes.S11Re[lane], lanes.S11Im[lane]), s21, s21, new(lanes.S22Re[lane], lanes.S22Im[lane]));
                }
                else if (Pivoted(frequenciesHz[start + lane], values, workspace, out s[start + lane]) is { } singular)
                {
                    return singular;
                }
            }
        }

        return null;
    }

    /// <summary>Squared magnitudes of S21 and S11 at many frequencies: what a tolerance analysis needs, and no more.</summary>
    internal CircuitFault? SolvePowers(
        ReadOnlySpan<double> frequenciesHz, ReadOnlySpan<double> values, SolverWorkspace workspace, Span<float> s21, Span<float> s11)
    {
        AssemblyPlan? plan = Prepare(values, workspace);
        for (int start = 0; start < frequenciesHz.Length; start += 8)
        {
            int count = Math.Min(8, frequenciesHz.Length - start);
            Lanes lanes = plan is null
                ? new Lanes { Bad = 0xFF }
                : Batch(plan, frequenciesHz.Slice(start, count), values, workspace, false);
            Vector256<float> p21 = Narrow((lanes.S21Re * lanes.S21Re) + (lanes.S21Im * lanes.S21Im));
            Vector256<float> p11 = Narrow((lanes.S11Re * lanes.S11Re) + (lanes.S11Im * lanes.S11Im));
            if (lanes.Bad == 0 && count == 8)
            {
                p21.CopyTo(s21[start..]);
                p11.CopyTo(s11[start..]);
                continue;
            }

            for (int lane = 0; lane < count; lane++)
            {
                s21[start + lane] = p21[lane];
                s11[start + lane] = p11[lane];
                if ((lanes.Bad >> lane & 1) != 0)
                {
                    if (Pivoted(frequenciesHz[start + lane], values, workspace, out ScatteringMatrix s) is { } singular)
                    {
                        return singular;
                    }

                    s21[start + lane] = (float)Norm(s.S21);
                    s11[start + lane] = (float)Norm(s.S11);
                }
            }
        }

        return null;

        static Vector256<float> Narrow(V x) => Vector256.Narrow(x.GetLower(), x.GetUpper());
        static double Norm(Complex z) => (z.Real * z.Real) + (z.Imaginary * z.Imaginary);
    }

    /// <summary>S-parameters and their derivatives by all parameters.</summary>
    /// <param name="frequenciesHz">Frequencies in hertz, above 0; as many as the buffer was made for.</param>
    /// <param name="values">All parameters in SI units, in the order of <see cref="Parameters"/>.</param>
    /// <param name="workspace">Memory from <see cref="CreateWorkspace"/> of this solver.</param>
    /// <param name="s">Receives the S-parameters.</param>
    /// <param name="gradient">Receives the derivatives.</param>
    /// <returns>Null, or what went wrong; then the results are incomplete.</returns>
    public CircuitFault? SolveWithGradient(
        ReadOnlySpan<double> frequenciesHz,
        ReadOnlySpan<double> values,
        SolverWorkspace workspace,
        Span<ScatteringMatrix> s,
        GradientBuffer gradient)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(s.Length, frequenciesHz.Length, nameof(s));
        ArgumentOutOfRangeException.ThrowIfNotEqual(gradient.FrequencyCount, frequenciesHz.Length, nameof(gradient));
        ArgumentOutOfRangeException.ThrowIfNotEqual(gradient.ParameterCount, Parameters.Count, nameof(gradient));
        if (Check(frequenciesHz, values, workspace) is { } fault)
        {
            return fault;
        }

        AssemblyPlan? plan = Prepare(values, workspace);
        plan?.GradientNumbers(Netlist, values, workspace.GradientNumbers);
        for (int start = 0; start < frequenciesHz.Length; start += 8)
        {
            int count = Math.Min(8, frequenciesHz.Length - start);
            Lanes lanes = new() { Bad = 0xFF };
            if (plan is not null)
            {
                lanes = Batch(plan, frequenciesHz.Slice(start, count), values, workspace, true);
                GradientKernel.Simple(plan, workspace, gradient, start);
                General(frequenciesHz.Slice(start, count), values, workspace, gradient, start, lanes.Bad);
            }

            for (int lane = 0; lane < count; lane++)
            {
                if ((lanes.Bad >> lane & 1) == 0)
                {
                    Complex s21 = new(lanes.S21Re[lane], lanes.S21Im[lane]);
                    s[start + lane] = new(new(lanes.S11Re[lane], lanes.S11Im[lane]), s21, s21, new(lanes.S22Re[lane], lanes.S22Im[lane]));
                }
                else if (PivotedGradient(
                    frequenciesHz[start + lane], values, workspace, out s[start + lane], gradient, start + lane) is { } singular)
                {
                    return singular;
                }
            }
        }

        return null;
    }

    /// <summary>Refuses unknown values and frequencies out of range.</summary>
    internal CircuitFault? Check(ReadOnlySpan<double> frequenciesHz, ReadOnlySpan<double> values, SolverWorkspace workspace)
    {
        if (workspace.Owner != this)
        {
            throw new ArgumentException("The workspace belongs to another solver.", nameof(workspace));
        }

        ArgumentOutOfRangeException.ThrowIfNotEqual(values.Length, Parameters.Count, nameof(values));
        for (int i = 0; i < values.Length; i++)
        {
            if (!double.IsFinite(values[i]))
            {
                return SolverFaults.Unknown(Parameters[i].Part);
            }
        }

        foreach (double f in frequenciesHz)
        {
            if (!(f > 0) || !double.IsFinite(f))
            {
                return SolverFaults.NotAboveZero(f);
            }

            if (f < _lowestHz || f > _highestHz)
            {
                return SolverFaults.OutOfRange(this, f);
            }
        }

        return null;
    }

    /// <summary>One frequency by the pivoted solver.</summary>
    internal CircuitFault? Pivoted(double frequencyHz, ReadOnlySpan<double> values, SolverWorkspace w, out ScatteringMatrix s)
    {
        w.PivotedPoints++;
        s = default;
        int singular = w.Pivoted.Factor(2 * Math.PI * frequencyHz, values, transposed: false);
        if (singular >= 0 || !w.Pivoted.Drive(Netlist.PortIn, w.Solution1) || !w.Pivoted.Drive(Netlist.PortOut, w.Solution2))
        {
            return SolverFaults.Singular(Netlist, frequencyHz, singular, w);
        }

        (Complex[] x1, Complex[] x2, int a, int b) = (w.Solution1, w.Solution2, Netlist.PortIn, Netlist.PortOut);
        s = new(x1[a] - 1, x2[a], x1[b], x2[b] - 1);
        return null;
    }

    private AssemblyPlan? Prepare(ReadOnlySpan<double> values, SolverWorkspace w)
    {
        if (_structure is null)
        {
            return null;
        }

        AssemblyPlan plan = _merged!.Holds(Netlist, values) ? _merged : _apart!;
        plan.Numbers(Netlist, values, new Span<double>(w.Entries, w.EntryLength), new Span<double>(w.Terms, plan.TermCount));
        return plan;
    }

    private Lanes Batch(
        AssemblyPlan plan, ReadOnlySpan<double> frequenciesHz, ReadOnlySpan<double> values, SolverWorkspace w, bool voltages)
    {
        double* f = w.Frequencies;
        for (int i = 0; i < 8; i++)
        {
            f[i] = frequenciesHz[Math.Min(i, frequenciesHz.Length - 1)];
        }

        V omega = Vector512.LoadAligned(f) * (2 * Math.PI), inverse = V.One / omega;
        BatchKernel.Functions(plan, values, omega, inverse, w.Functions);
        BatchKernel.Assemble(_structure!, plan, w, omega, inverse);
        if (_general!.Any)
        {
            _general.Assemble(values, omega, inverse, w.General, w.Matrix, w.Small);
        }

        int portIn = Netlist.PortIn * Size, portOut = Netlist.PortOut * Size;
        Lanes lanes = BatchKernel.Solve(
            _structure!, w.Matrix, 1 / Circuit.ImpedanceOhm, voltages ? w.Voltages1 : null, voltages ? w.Voltages2 : null, portIn, portOut);
        if (voltages)
        {
            BatchKernel.Substitute(_structure!, w.Matrix, w.Voltages1, w.Voltages2);
        }

        return lanes;
    }
}
