using Spurless.Circuits.Solving;
using Spurless.Design.Optimising;
using Spurless.Design.Questions;

namespace Spurless.Design.Tuning;

/// <summary>How far to turn one adjustable part.</summary>
/// <param name="Part">The part's name.</param>
/// <param name="Now">Its value as fitted, in SI units.</param>
/// <param name="To">The value it should get, in SI units.</param>
/// <param name="GainDb">Weighted margin that turning it alone brings.</param>
public sealed record TuningMove(string Part, double Now, double To, double GainDb)
{
    /// <summary>The change relative to the value now.</summary>
    public double Change => (To / Now) - 1;
}

/// <summary>What to do next with a filter that has been built.</summary>
/// <param name="Meets">Whether it is within the mask as it stands, as fitted.</param>
/// <param name="CanMeet">Whether turning brings it there.</param>
/// <param name="Moves">What to turn, what brings most first; empty where nothing need be turned.</param>
/// <param name="Now">How it stands.</param>
/// <param name="After">How it stands after all moves.</param>
public sealed record TuningAdvice(bool Meets, bool CanMeet, IReadOnlyList<TuningMove> Moves, IReadOnlyList<DemandFinding> Now,
    IReadOnlyList<DemandFinding> After);

/// <summary>Says which trimmer to turn which way, from the values that a fit to a sweep found.</summary>
public static class TuneAdvisor
{
    private const double CapacitorReach = 1.5;
    private const double CoilReach = 1.2;
    private const double Little = 0.002;

    /// <summary>The advice; null where the circuit has no one solution at the mask's frequencies.</summary>
    /// <param name="solver">The circuit with its fitted values.</param>
    /// <param name="trimmers">Names of the parts that can be turned.</param>
    /// <param name="question">The requirement.</param>
    public static TuningAdvice? Advise(CircuitSolver solver, IReadOnlyList<string> trimmers, DesignQuestion question)
    {
        ArgumentNullException.ThrowIfNull(solver);
        ArgumentNullException.ThrowIfNull(trimmers);
        if (DenseCheck.Run(solver, question) is not { } now)
        {
            return null;
        }

        int[] parameters = [.. trimmers.Select(n => Enumerable.Range(0, solver.Parameters.Count)
            .FirstOrDefault(i => solver.Parameters[i].Part == n && solver.Parameters[i].IsPartValue, -1)).Where(static i => i >= 0)];
        MaskModel model = new(solver, MaskGrid.Of(question, 21), parameters);
        MaskDescent descent = new(model);
        double[] x = [.. parameters.Select(p => Math.Log(Math.Abs(solver.NominalValues()[p])))], start = [.. x], low = [.. x],
            high = [.. x];
        for (int k = 0; k < x.Length; k++)
        {
            double reach = Math.Log(solver.Parameters[parameters[k]].Quantity == CircuitQuantity.CapacitanceF ? CapacitorReach : CoilReach);
            (low[k], high[k]) = (x[k] - reach, x[k] + reach);
        }

        double before = model.Worst(start);
        double best = descent.Run(x, low, high, 20, 15);

        // From where every resonator is off by a little more or less it may end higher.
        foreach (double shift in new[] { -0.05, 0.05 })
        {
            double[] other = [.. start.Select(v => v + shift)];
            double reached = descent.Run(other, low, high, 20, 15);
            (x, best) = reached > best + 0.05 ? (other, reached) : (x, best);
        }

        List<TuningMove> moves = [];
        for (int k = 0; k < x.Length; k++)
        {
            double[] alone = [.. start];
            alone[k] = x[k];
            double without = Without(k);
            if (Math.Abs(x[k] - start[k]) > Little)
            {
                double gain = Math.Max(model.Worst(alone) - before, best - without);
                moves.Add(new(solver.Parameters[parameters[k]].Part, Math.Exp(start[k]), Math.Exp(x[k]), gain));
            }
        }

        model.Worst(x);
        IReadOnlyList<DemandFinding> after = After(solver, parameters, x, question) ?? now;
        bool meets = now.All(static f => f.Met);
        return new(meets, best >= 0, [.. moves.OrderByDescending(static m => m.GainDb).ThenBy(static m => m.Part, StringComparer.Ordinal)],
            now, after);

        double Without(int k)
        {
            double[] all = [.. x];
            all[k] = start[k];
            return model.Worst(all);
        }
    }

    /// <summary>A circuit with all that is advised done to it.</summary>
    /// <param name="circuit">The circuit that was looked at.</param>
    /// <param name="advice">The advice.</param>
    public static Circuits.Parts.Circuit Turned(Circuits.Parts.Circuit circuit, TuningAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(circuit);
        ArgumentNullException.ThrowIfNull(advice);
        return circuit with
        {
            Parts = [.. circuit.Parts.Select(p => advice.Moves.FirstOrDefault(m => m.Part == p.Name) is { } move
                ? RealCircuit.WithValue(p, move.To)
                : p)],
        };
    }

    private static IReadOnlyList<DemandFinding>? After(CircuitSolver solver, int[] parameters, double[] x, DesignQuestion question)
    {
        List<Circuits.Parts.Part> parts = [.. solver.Circuit.Parts];
        for (int k = 0; k < parameters.Length; k++)
        {
            int at = solver.Parameters[parameters[k]].PartIndex;
            parts[at] = RealCircuit.WithValue(parts[at], Math.Exp(x[k]));
        }

        return DenseCheck.Run(CircuitSolver.Create(solver.Circuit with { Parts = parts }), question, 101);
    }
}
