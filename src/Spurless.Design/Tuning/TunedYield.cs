using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Families;
using Spurless.Design.Optimising;
using Spurless.Design.Questions;
using Spurless.Numerics;

namespace Spurless.Design.Tuning;

/// <summary>The share of builds that meet a requirement once each has been tuned.</summary>
/// <param name="Specimens">How many were drawn and tuned.</param>
/// <param name="Met">How many of them then met it.</param>
/// <param name="Trimmers">What was adjusted, with the range it took.</param>
public sealed record TunedYieldResult(int Specimens, int Met, IReadOnlyList<Trimmer> Trimmers)
{
    /// <summary>Share that meets it, 0 to 1.</summary>
    public double Yield => (double)Met / Specimens;

    /// <summary>95 % interval from the number of specimens (Wilson's; from memory).</summary>
    public (double Low, double High) Interval
    {
        get
        {
            const double z = 1.959964;
            double n = Specimens, p = Yield, d = 1 + (z * z / n), centre = (p + (z * z / (2 * n))) / d;
            double half = z / d * Math.Sqrt((p * (1 - p) / n) + (z * z / (4 * n * n)));
            return (Math.Max(0, centre - half), Math.Min(1, centre + half));
        }
    }
}

/// <summary>Draws specimens and tunes each with a few adjustable parts, as a person with a sweep would.</summary>
/// <remarks>
/// Every value is drawn evenly within its tolerance; the trimmers are then moved within their reach (a third either way for a capacitor, an
/// eighth for a coil) to the greatest least margin.
/// Which parts are trimmers: what aligns each resonator and trap; if fewer than 95 % then meet it, up to two more, the best of all tried on
/// 60 specimens.
/// </remarks>
internal static class TunedYield
{
    private const double Satisfied = 0.95;
    private const int TrialSpecimens = 60;
    private const int MostFurther = 2;
    private const int HopelessSpecimens = 40;
    private const int SpanPoints = 21;

    /// <summary>Chooses the trimmers and tunes.</summary>
    /// <param name="solver">The finished circuit's solver.</param>
    /// <param name="spots">What is aligned in it.</param>
    /// <param name="question">The requirement.</param>
    /// <param name="hopeful">Whether the circuit meets the requirement as drawn; if not, few specimens tell that no tuning helps.</param>
    /// <param name="cancellation">Ends it; then null.</param>
    public static TunedYieldResult? Run(
        CircuitSolver solver, IReadOnlyList<TuningSpot> spots, DesignQuestion question, bool hopeful, CancellationToken cancellation)
    {
        MaskGrid grid = MaskGrid.Of(question, SpanPoints);
        List<string> names = [.. spots.Select(static s => s.Capacitor ?? s.Coil).OfType<string>().Distinct()];
        if (!hopeful)
        {
            return cancellation.IsCancellationRequested ? null : Tune(
                solver, grid, names, question, Math.Min(HopelessSpecimens, question.TunedSpecimens));
        }

        double share = names.Count > 0 ? Share(names, TrialSpecimens) : 0;
        IReadOnlyList<TappedCoil> tapped = TappedCoil.Of(solver.Circuit); // its parts cannot be turned one without the other
        string[] others = [.. solver.Circuit.Parts.Where(p => p is Capacitor or Inductor && p.Name != RealCircuit.BypassName
            && !tapped.Any(t => t.Upper == p.Name || t.Lower == p.Name)).Select(static p => p.Name)];
        for (int further = 0; further < MostFurther + (names.Count == 0 ? 1 : 0) && share < Satisfied
            && !cancellation.IsCancellationRequested; further++)
        {
            (string? best, double most) = (null, share + 0.05);
            foreach (string other in others.Where(o => !names.Contains(o)))
            {
                double reached = Share([.. names, other], TrialSpecimens);
                (best, most) = reached > most ? (other, reached) : (best, most);
            }

            if (best is null)
            {
                break;
            }

            names.Add(best);
            share = most;
        }

        return cancellation.IsCancellationRequested ? null : Tune(solver, grid, names, question, question.TunedSpecimens);
        double Share(IReadOnlyList<string> trimmers, int specimens) =>
            cancellation.IsCancellationRequested ? 0 : Tune(solver, grid, trimmers, question, Math.Min(specimens, question.TunedSpecimens))
                .Yield;
    }

    private static TunedYieldResult Tune(CircuitSolver solver, MaskGrid grid, IReadOnlyList<string> names, DesignQuestion question,
        int specimens)
    {
        int[] trimmers = [.. names.Select(n => Enumerable.Range(0, solver.Parameters.Count)
            .First(i => solver.Parameters[i].Part == n && solver.Parameters[i].IsPartValue))];
        double[] nominal = solver.NominalValues();
        MaskModel model = new(solver, grid, trimmers);
        MaskDescent descent = new(model);
        double[] low = new double[trimmers.Length], high = new double[trimmers.Length], least = new double[trimmers.Length],
            most = new double[trimmers.Length];
        for (int k = 0; k < trimmers.Length; k++)
        {
            double reach = Math.Log(solver.Parameters[trimmers[k]].Quantity == CircuitQuantity.CapacitanceF ? 1.35 : 1.125);
            double centre = Math.Log(Math.Abs(nominal[trimmers[k]]));
            (low[k], high[k], least[k], most[k]) = (centre - reach, centre + reach, centre, centre);
        }

        CounterRandom random = new(question.Seed, nominal.Length);
        int met = 0;
        double[] x = new double[trimmers.Length], drawn = new double[nominal.Length];
        for (int specimen = 0; specimen < specimens; specimen++)
        {
            Draw(solver, nominal, drawn, random, specimen);
            drawn.CopyTo(model.Values, 0);
            double margin = double.NegativeInfinity;
            for (int attempt = 0; attempt < 2 && margin < 0; attempt++)
            {
                for (int k = 0; k < trimmers.Length; k++)
                {
                    // First as drawn; then each trimmer takes back what the tank's coil is off.
                    x[k] = Math.Log(Math.Abs(attempt == 0 ? nominal[trimmers[k]]
                        : nominal[trimmers[k]] * Partner(solver, trimmers[k], nominal, drawn)));
                }

                margin = descent.Run(x, low, high, 6, 8, enough: 0);
            }

            if (margin < 0)
            {
                continue;
            }

            met++;
            for (int k = 0; k < x.Length; k++)
            {
                (least[k], most[k]) = (Math.Min(least[k], x[k]), Math.Max(most[k], x[k]));
            }
        }

        return new(
            specimens,
            met,
            [.. trimmers.Select((t, k) => new Trimmer(names[k], solver.Parameters[t].Quantity == CircuitQuantity.CapacitanceF, nominal[t],
                Math.Exp(least[k]), Math.Exp(most[k])))]);
    }

    /// <summary>One specimen's values: each evenly within its tolerance.</summary>
    internal static void Draw(CircuitSolver solver, double[] nominal, double[] drawn, CounterRandom random, int specimen)
    {
        for (int i = 0; i < nominal.Length; i++)
        {
            CircuitParameter p = solver.Parameters[i];
            double u = (2 * random.Uniform(specimen, i)) - 1;
            double spread = p.IsPartValue && solver.Circuit.Parts[p.PartIndex].Tolerance is { } t ? t.Fraction : 0;
            drawn[i] = nominal[i] * (1 + (spread * u));
        }
    }

    // By what factor the coil (or capacitor) on the same node as a trimmer is off, to be taken back.
    private static double Partner(CircuitSolver solver, int trimmer, double[] nominal, double[] drawn)
    {
        CircuitParameter p = solver.Parameters[trimmer];
        if (solver.Circuit.Parts[p.PartIndex] is not TwoTerminalPart part)
        {
            return 1;
        }

        CircuitQuantity other = p.Quantity == CircuitQuantity.CapacitanceF ? CircuitQuantity.InductanceH : CircuitQuantity.CapacitanceF;
        for (int i = 0; i < solver.Parameters.Count; i++)
        {
            if (solver.Parameters[i].Quantity == other && solver.Circuit.Parts[solver.Parameters[i].PartIndex] is TwoTerminalPart q
                && (q.From == part.From && q.To == part.To))
            {
                return nominal[i] / drawn[i];
            }
        }

        return 1;
    }
}
