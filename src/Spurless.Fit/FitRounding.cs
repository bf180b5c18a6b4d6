using Spurless.Circuits.Parts;
using Spurless.Circuits.Series;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Fit;

/// <summary>What it costs to put the nearest marked values in place of those found.</summary>
/// <param name="LossDb">Least loss over the sweep's span as found, in dB.</param>
/// <param name="AtHz">Where.</param>
/// <param name="RoundedLossDb">The same with marked values.</param>
/// <param name="RoundedAtHz">Where.</param>
/// <param name="LossThereDb">With marked values, the loss at <paramref name="AtHz"/>.</param>
public sealed record FitRounding(double LossDb, double AtHz, double RoundedLossDb, double RoundedAtHz, double LossThereDb)
{
    /// <summary>Computes it: every capacitor that was looked for, at its nearest value of E24.</summary>
    /// <param name="result">What was found.</param>
    /// <returns>The cost; null where no capacitor was looked for, or nothing passes.</returns>
    public static FitRounding? Of(FitResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        (string, CircuitQuantity, double)[] marked =
        [
            .. result.Values
                .Where(static v => v.Quantity == CircuitQuantity.CapacitanceF)
                .Select(static v => (v.Part, v.Quantity, ESeries.Nearest(v.Value, 24))),
        ];
        return marked.Length == 0
            || Best(result.Fitted, result.Sweep, null) is not { } found
            || Best(FittedCircuit.With(result.Fitted, marked), result.Sweep, found.AtHz) is not { } rounded
            ? null
            : new FitRounding(found.LossDb, found.AtHz, rounded.LossDb, rounded.AtHz, rounded.ThereDb);
    }

    private static (double LossDb, double AtHz, double ThereDb)? Best(Circuit circuit, FitSweep sweep, double? there)
    {
        if (CircuitSolver.TryCreate(circuit, out _) is not { } solver)
        {
            return null;
        }

        double[] frequencies = [.. sweep.FrequenciesHz, there ?? sweep.FrequenciesHz[0]];
        ScatteringMatrix[] s = new ScatteringMatrix[frequencies.Length];
        if (solver.Solve(frequencies, solver.NominalValues(), solver.CreateWorkspace(), s) is not null)
        {
            return null;
        }

        int best = Enumerable.Range(0, sweep.FrequenciesHz.Length).MaxBy(i => s[i].S21.Magnitude);
        return s[best].S21.Magnitude > 1e-12 ? (s[best].InsertionLossDb, frequencies[best], s[^1].InsertionLossDb) : null;
    }
}
