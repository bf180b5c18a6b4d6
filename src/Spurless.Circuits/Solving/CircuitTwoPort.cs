using System.Collections.Concurrent;
using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Solving;

/// <summary>
/// A circuit as a two-port between references of its own port impedance, with its stated leakage: the transmission never falls below that
/// of the leakage round the circuit. Safe for use by several threads.
/// </summary>
public sealed class CircuitTwoPort : ITwoPort
{
    private readonly CircuitSolver _solver;
    private readonly double[] _values;
    private readonly double _least;
    private readonly ConcurrentStack<SolverWorkspace> _workspaces = [];

    /// <summary>Takes a solver at its nominal values.</summary>
    /// <param name="solver">The solver; all its values must be known.</param>
    /// <exception cref="CircuitException">A value is unknown.</exception>
    public CircuitTwoPort(CircuitSolver solver)
    {
        _solver = solver;
        _values = solver.NominalValues();
        SolverWorkspace workspace = solver.CreateWorkspace();
        if (solver.Check([], _values, workspace) is { } fault)
        {
            throw new CircuitException(fault);
        }

        _workspaces.Push(workspace);
        _least = solver.Circuit.LeakageDb is { } leakage ? Math.Pow(10, -leakage / 20) : 0;
    }

    /// <inheritdoc/>
    public double LowestHz => _solver.LowestHz;

    /// <inheritdoc/>
    public double HighestHz => _solver.HighestHz;

    /// <inheritdoc/>
    public Complex Reference1 => _solver.Circuit.ImpedanceOhm;

    /// <inheritdoc/>
    public Complex Reference2 => _solver.Circuit.ImpedanceOhm;

    /// <summary>S-parameters at a frequency, with S21 and S12 raised to the leakage where they fall below it.</summary>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <exception cref="CircuitException">The frequency is out of range, or the network is singular there.</exception>
    public ScatteringMatrix At(double frequencyHz)
    {
        SolverWorkspace workspace = _workspaces.TryPop(out SolverWorkspace? free) ? free : _solver.CreateWorkspace();
        ScatteringMatrix s = default;
        CircuitFault? fault = _solver.Solve([frequencyHz], _values, workspace, new Span<ScatteringMatrix>(ref s));
        _workspaces.Push(workspace);
        return fault is null ? s with { S21 = Raised(s.S21), S12 = Raised(s.S12) } : throw new CircuitException(fault);
    }

    /// <summary>S-parameters at many frequencies, as <see cref="At(double)"/> gives them, in a fraction of the time.</summary>
    /// <param name="frequenciesHz">Frequencies in hertz, above 0, in any order.</param>
    /// <param name="s">Receives the S-parameters, as many as there are frequencies.</param>
    /// <returns>Null, or what went wrong; then <paramref name="s"/> is incomplete.</returns>
    public CircuitFault? TryAt(ReadOnlySpan<double> frequenciesHz, Span<ScatteringMatrix> s)
    {
        SolverWorkspace workspace = _workspaces.TryPop(out SolverWorkspace? free) ? free : _solver.CreateWorkspace();
        CircuitFault? fault = _solver.Solve(frequenciesHz, _values, workspace, s);
        _workspaces.Push(workspace);
        if (fault is null && _least > 0)
        {
            foreach (ref ScatteringMatrix one in s[..frequenciesHz.Length])
            {
                one = one with { S21 = Raised(one.S21), S12 = Raised(one.S12) };
            }
        }

        return fault;
    }

    // The phase of a leakage is not known; that of the circuit is kept.
    private Complex Raised(Complex transmission)
    {
        double magnitude = transmission.Magnitude;
        return magnitude >= _least ? transmission : magnitude > 0 ? transmission * (_least / magnitude) : _least;
    }
}
