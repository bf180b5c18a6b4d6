using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Fit;

/// <summary>
/// A circuit with what is looked for in it, made ready: whole, with parasitics as parts, and blunt, with the usual ones, for a first look.
/// </summary>
internal sealed class FitProblem
{
    private FitProblem(Circuit circuit, CircuitSolver blunt, IReadOnlyList<FitUnknown> sought, InstrumentErrors errors) =>
        (Circuit, Blunt, Sought, Errors) = (circuit, blunt, sought, errors);

    /// <summary>The circuit as traced, coils as inductors.</summary>
    public Circuit Circuit { get; }

    /// <summary>Solver for a first look.</summary>
    public CircuitSolver Blunt { get; }

    /// <summary>What was asked for.</summary>
    public IReadOnlyList<FitUnknown> Sought { get; }

    /// <summary>How large the instrument's errors may be.</summary>
    public InstrumentErrors Errors { get; }

    /// <summary>Solver of the whole.</summary>
    public required CircuitSolver Solver { get; init; }

    /// <summary>All unknowns of the whole: those asked for, then the parasitics.</summary>
    public required IReadOnlyList<FitUnknown> Unknowns { get; init; }

    /// <summary>Capacitors with a parasitic, in the order of those unknowns.</summary>
    public required IReadOnlyList<string> Capacitors { get; init; }

    /// <summary>Makes a circuit ready; null where it has no solution.</summary>
    /// <param name="circuit">The circuit, coils as inductors.</param>
    /// <param name="unknowns">What is looked for, given a solver of it.</param>
    /// <param name="parasitics">Whether capacitors get their parasitics.</param>
    /// <param name="errors">How large the instrument's errors may be.</param>
    public static FitProblem? TryMake(Circuit circuit, Func<CircuitSolver, IReadOnlyList<FitUnknown>> unknowns, bool parasitics,
        InstrumentErrors errors)
    {
        if (CircuitSolver.TryCreate(parasitics ? Parasitics.WithUsual(circuit) : circuit, out _) is not { } blunt)
        {
            return null;
        }

        IReadOnlyList<FitUnknown> sought = unknowns(blunt);
        if (!parasitics)
        {
            return new FitProblem(circuit, blunt, sought, errors) { Solver = blunt, Unknowns = sought, Capacitors = [] };
        }

        (Circuit whole, IReadOnlyList<(string Capacitor, string Lead)> leads) = Parasitics.Split(circuit);
        return CircuitSolver.TryCreate(whole, out _) is not { } solver
            ? null
            : new FitProblem(circuit, blunt, sought, errors)
            {
                Solver = solver,
                Unknowns = [.. sought.Select(u => u.With(solver)), .. leads.Select(l => Parasitics.Unknown(solver, l.Lead))],
                Capacitors = [.. leads.Select(static l => l.Capacitor)],
            };
    }

    /// <summary>The fit of all of it to a sweep.</summary>
    public FitModel Fine(FitData data) => new(Solver, Unknowns, data, Errors);

    /// <summary>The same circuit with estimates that are less sure.</summary>
    public FitProblem Wider(Func<FitUnknown, double> factor) => new(Circuit, Blunt, Sought, Errors)
    {
        Solver = Solver,
        Unknowns = [.. Unknowns.Select(u => factor(u) is var f and > 1 ? u.Wider(f) : u)],
        Capacitors = Capacitors,
    };

    /// <summary>A first look at some of a sweep: the usual parasitics and a perfect instrument.</summary>
    public FitModel Coarse(FitData few) => new(Blunt, Sought, few, null);

    /// <summary>A place of the whole that begins with one of what was asked for.</summary>
    public double[] Place(ReadOnlySpan<double> sought, int count)
    {
        double[] x = new double[count];
        for (int i = Sought.Count; i < Unknowns.Count; i++)
        {
            x[i] = Unknowns[i].Mean ?? 0;
        }

        sought[..Math.Min(sought.Length, count)].CopyTo(x);
        return x;
    }
}
