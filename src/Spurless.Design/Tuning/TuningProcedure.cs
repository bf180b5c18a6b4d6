using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Design.Families;
using Spurless.Design.Questions;

namespace Spurless.Design.Tuning;

/// <summary>
/// The steps that align a filter: traps first, each by its notch; then the resonators from port 1 on, the next one detuned (M. Dishal,
/// 'Alignment and adjustment of synchronously tuned
/// multiple-resonant-circuit filters', Proc. IRE 39, 1951, from memory), each by the group delay of the reflection; last all together by
/// return loss.
/// </summary>
/// <remarks>What each step shows is computed for the circuit as drawn, with its losses, and a short of 10 milliohms where one is asked
/// for.</remarks>
public static class TuningProcedure
{
    private const int CurvePoints = 61;
    private const double ShortOhm = 0.01;

    /// <summary>The steps; empty where there is nothing to align.</summary>
    /// <param name="circuit">The circuit as drawn.</param>
    /// <param name="spots">What is aligned in it, from port 1 on.</param>
    /// <param name="trimmers">What is adjustable.</param>
    /// <param name="question">The requirement.</param>
    public static IReadOnlyList<TuningStep> Of(Circuit circuit, IReadOnlyList<TuningSpot> spots, IReadOnlyList<string> trimmers,
        DesignQuestion question)
    {
        ArgumentNullException.ThrowIfNull(circuit);
        ArgumentNullException.ThrowIfNull(spots);
        ArgumentNullException.ThrowIfNull(trimmers);
        ArgumentNullException.ThrowIfNull(question);
        List<TuningStep> steps = [];
        double f0 = question.CentreHz, half = Math.Max(2 * (question.PassToHz - question.PassFromHz), 0.03 * f0);
        TuningSpot[] traps = [.. spots.Where(static s => s.Kind == TuningKind.Trap)];
        foreach (TuningSpot trap in traps)
        {
            // Where the notch truly is: the drawing may have moved it from where it was begun.
            double at = Resonance(circuit, trap) ?? trap.NotchHz!.Value;
            TuningSpot? other = traps.FirstOrDefault(o => o != trap && o.Coil is not null && Resonance(circuit, o) is { } f
                && Math.Abs((f / at) - 1) < 0.04);
            Circuit alone = other is null ? circuit
                : circuit with { Parts = [.. circuit.Parts.Where(p => p.Name != other.Coil && p.Name != other.Capacitor)] };
            double[] f = Around(at, 0.03 * at);
            if ((trap.Capacitor ?? trap.Coil) is not { } part || (Solve(alone, f) is not { } s))
            {
                continue;
            }

            double[] loss = [.. s.Select(static m => m.InsertionLossDb)];
            int top = Top(loss);
            if (top > 0 && top < loss.Length - 1)
            {
                steps.Add(new(steps.Count + 1, TuningReading.Notch, [part], null, other?.Coil, f[top], loss[top], Curve(f, loss)));
            }
        }

        TuningSpot[] resonators = [.. spots.Where(static s => s.Kind != TuningKind.Trap)];
        for (int i = 0; i < resonators.Length; i++)
        {
            TuningSpot? next = i + 1 < resonators.Length ? resonators[i + 1] : null;
            (Circuit detuned, string? shorted, string? opened) = Detuned(circuit, next);
            string? part = resonators[i].Capacitor ?? resonators[i].Coil;
            double[] f = Around(f0, half);
            if (next is null || part is null || Delay(detuned, f) is not { } delay)
            {
                continue;
            }

            int top = Top(delay);
            steps.Add(new(steps.Count + 1, TuningReading.ReflectionDelay, [part], shorted, opened, f[top], delay[top], Curve(f, delay)));
        }

        // All together at the end, the last first; of a filter of traps alone the traps themselves, a little.
        IEnumerable<TuningSpot> last = resonators.Length > 0 ? resonators.Reverse() : traps;
        string[] all =
        [
            .. last.Select(static r => r.Capacitor ?? r.Coil).OfType<string>(),
            .. trimmers.Where(t => !spots.Any(s => t == (s.Capacitor ?? s.Coil))),
        ];
        double[] about = Around(f0, half);
        if (all.Length > 0 && Solve(circuit, about) is { } whole)
        {
            double[] match = [.. whole.Select(static m => m.ReturnLoss1Db)];
            int middle = about.Length / 2;
            steps.Add(new(steps.Count + 1, TuningReading.ReturnLoss, all, null, null, about[middle], match[middle], Curve(about, match)));
        }

        return steps;
    }

    /// <summary>The circuit with its next resonator detuned: a tank shorted, a mesh opened.</summary>
    internal static (Circuit Circuit, string? Shorted, string? Opened) Detuned(Circuit circuit, TuningSpot? next) => next switch
    {
        null => (circuit, null, null),
        { Kind: TuningKind.Mesh, Coil: { } coil } => (circuit with { Parts = [.. circuit.Parts.Where(p => p.Name != coil)] }, null, coil),
        _ => (circuit with
        {
            Parts = [.. circuit.Parts, new Resistor { Name = "short", From = next.Node, To = Circuit.Ground,
                Resistance = PartValue.Known(ShortOhm) }],
        }, next.Node, null),
    };

    /// <summary>Group delay of the reflection at port 1 in seconds, by the phase over a millionth of the frequency; null where the circuit
    /// has no solution.</summary>
    internal static double[]? Delay(Circuit circuit, double[] f)
    {
        double[] pairs = [.. f.SelectMany(static x => new[] { x * (1 - 5e-7), x * (1 + 5e-7) })];
        if (Solve(circuit, pairs) is not { } s)
        {
            return null;
        }

        double[] delay = new double[f.Length];
        for (int i = 0; i < f.Length; i++)
        {
            Complex turn = s[(2 * i) + 1].S11 / s[2 * i].S11;
            delay[i] = -turn.Phase / (2 * Math.PI * f[i] * 1e-6);
        }

        return delay;
    }

    private static ScatteringMatrix[]? Solve(Circuit circuit, double[] f)
    {
        if (CircuitSolver.TryCreate(circuit, out _) is not { } solver)
        {
            return null;
        }

        ScatteringMatrix[] s = new ScatteringMatrix[f.Length];
        return solver.Solve(f, solver.NominalValues(), solver.CreateWorkspace(), s) is null ? s : null;
    }

    // Of coil and capacitor in series with the coil's own capacitance, which lowers it.
    private static double? Resonance(Circuit circuit, TuningSpot trap)
    {
        Capacitor? capacitor = circuit.Parts.OfType<Capacitor>().FirstOrDefault(c => c.Name == trap.Capacitor);
        Inductor? coil = circuit.Parts.OfType<Inductor>().FirstOrDefault(l => l.Name == trap.Coil);
        return capacitor?.Capacitance.Value is { } farads && coil?.Inductance.Value is { } henries
            ? 1 / (2 * Math.PI * Math.Sqrt(henries * (farads + coil.SelfCapacitanceF)))
            : null;
    }

    // The greatest in size: losses over critical coupling turn the delay's sign.
    private static int Top(double[] values)
    {
        int top = 0;
        for (int i = 1; i < values.Length; i++)
        {
            top = Math.Abs(values[i]) > Math.Abs(values[top]) ? i : top;
        }

        return top;
    }

    private static double[] Around(double centre, double half) =>
        [.. Enumerable.Range(0, CurvePoints).Select(i => centre - half + (2 * half * i / (CurvePoints - 1)))];

    private static (double Hz, double Value)[] Curve(double[] f, double[] values) => [.. f.Zip(values)];
}
