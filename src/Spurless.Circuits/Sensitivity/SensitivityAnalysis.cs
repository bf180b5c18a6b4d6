using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Sensitivity;

/// <summary>
/// Derivatives of S21 and S11 by every number of every part, those included that no tolerance varies: series resistance, line impedance,
/// turns, dimensions of a coil.
/// </summary>
/// <remarks>
/// The adjoint network (Director and Rohrer 1969; from memory) on the pivoted solver: two solutions give all of them. What each element
/// adds follows from Tellegen's theorem, see docs/method/circuits.md. A coil's dimensions act through its inductance, self-capacitance and
/// Q, whose own slopes are central differences of the coil formulas (relative step 1e-6; at a corner of Medhurst's tables, which are linear
/// between entries, the slope is the mean of both sides). Held by tests to differences of whole analyses. Many frequencies and values alone
/// are faster by <see cref="CircuitSolver.SolveWithGradient"/>.
/// </remarks>
public static class SensitivityAnalysis
{
    private const double Step = 1e-6;

    /// <summary>Runs the analysis at the nominal values.</summary>
    /// <param name="solver">The circuit's solver.</param>
    /// <param name="frequenciesHz">Frequencies in hertz, above 0.</param>
    /// <param name="fault">Why there is no result; null where there is one.</param>
    public static SensitivityResult? TryRun(CircuitSolver solver, IReadOnlyList<double> frequenciesHz, out CircuitFault? fault)
    {
        ArgumentNullException.ThrowIfNull(solver);
        double[] frequencies = [.. frequenciesHz], values = solver.NominalValues();
        SolverWorkspace w = solver.CreateWorkspace();
        ScatteringMatrix[] s = new ScatteringMatrix[frequencies.Length];
        Sums sums = new(solver, frequencies.Length);
        fault = solver.Check(frequencies, values, w);
        for (int k = 0; k < frequencies.Length && fault is null; k++)
        {
            fault = solver.Pivoted(frequencies[k], values, w, out s[k]);
            if (fault is null)
            {
                fault = Adjoint(solver, frequencies[k], values, w, sums, k);
            }
        }

        return fault is null ? new SensitivityResult(frequencies, s, sums.Parts()) : null;
    }

    private static CircuitFault? Adjoint(CircuitSolver solver, double frequencyHz, double[] values, SolverWorkspace w, Sums sums, int at)
    {
        Netlist netlist = solver.Netlist;
        PivotedSolver pivoted = w.Pivoted;
        double omega = 2 * Math.PI * frequencyHz;
        Complex[] driven = [.. w.Solution1], adjoint1 = [.. w.Solution1], adjoint2 = [.. w.Solution2];
        Complex[] states = new Complex[Math.Max(1, pivoted.StateLength)],
        states1 = new Complex[states.Length],
        states2 = new Complex[states.Length];
        pivoted.States(driven, states);
        if (pivoted.HasBlocks)
        {
            // The adjoint network has its blocks transposed; it drives the same ports and has the same S11 and the exchanged transmissions.
            if (pivoted.Factor(omega, values, transposed: true) >= 0
                || !pivoted.Drive(netlist.PortIn, adjoint1)
                || !pivoted.Drive(netlist.PortOut, adjoint2))
            {
                return solver.Pivoted(frequencyHz, values, w, out _) ?? new CircuitFault(
                    CircuitFaultKind.Singular, [], "the adjoint network has no one solution", "ask for another frequency");
            }
        }

        pivoted.States(adjoint1, states1);
        pivoted.States(adjoint2, states2);
        for (int i = 0; i < netlist.Elements.Length; i++)
        {
            int first = pivoted.StateStart(i), index = i;
            foreach (
                (Complex[] adjoint, Complex[] adjointStates, Complex[][] into) in new[]
                {
                    (adjoint1, states1, sums.S11),
                    (adjoint2, states2, sums.S21),
                })
            {
                ElementSlopes.Add(
                    new ElementState(
                        netlist.Elements[i], omega, values, solver.Circuit.ImpedanceOhm, states[first..], adjointStates[first..]),
                    port => (pivoted.At(index, port, driven), pivoted.At(index, port, adjoint)),
                    (number, slope) => into[number][at] += slope,
                    sums.Numbers);
            }
        }

        return null;
    }

    /// <summary>Numbers of the circuit and, for S11 and S21, the slopes by each at each frequency.</summary>
    private sealed class Sums
    {
        private readonly CircuitSolver _solver;

        public Sums(CircuitSolver solver, int frequencies)
        {
            _solver = solver;
            Numbers = new SlopeNumbers(solver);
            S11 = [.. Enumerable.Range(0, Numbers.Count).Select(_ => new Complex[frequencies])];
            S21 = [.. Enumerable.Range(0, Numbers.Count).Select(_ => new Complex[frequencies])];
        }

        public SlopeNumbers Numbers { get; }

        public Complex[][] S11 { get; }

        public Complex[][] S21 { get; }

        public List<PartSensitivity> Parts()
        {
            List<PartSensitivity> all = [];
            for (int part = 0; part < _solver.Circuit.Parts.Count; part++)
            {
                IEnumerable<SlopeNumber> own = Numbers.All.Where(n => n.Part == part);
                if (_solver.Circuit.Parts[part] is Coil coil)
                {
                    all.AddRange(own.Where(n => n.Quantity switch
                    {
                        PartQuantity.InductanceH => true,
                        PartQuantity.SelfCapacitanceF => coil.SelfCapacitanceF is not null,
                        _ => coil.Loss is not null,
                    }).Select(Plain));
                    all.AddRange(Geometry(coil, [.. own]));
                }
                else
                {
                    all.AddRange(own.Select(Plain));
                }
            }

            return all;
        }

        private PartSensitivity Plain(SlopeNumber n) =>
            new(_solver.Circuit.Parts[n.Part].Name, n.Quantity, n.Nominal, S21[n.Index], S11[n.Index]);

        // By the chain rule through what the coil resolves to.
        private IEnumerable<PartSensitivity> Geometry(Coil coil, SlopeNumber[] own)
        {
            foreach ((PartQuantity quantity, double nominal, Func<double, Coil> changed) in new (PartQuantity, double, Func<double, Coil>)[]
            {
                (PartQuantity.Turns, coil.Turns, v => coil with { Turns = v }),
                (PartQuantity.DiameterM, coil.DiameterM, v => coil with { DiameterM = v }),
                (PartQuantity.WindingLengthM, coil.LengthM, v => coil with { LengthM = v }),
                (PartQuantity.WireM, coil.WireM, v => coil with { WireM = v }),
                (PartQuantity.LeadM, coil.LeadM, v => coil with { LeadM = v }),
            })
            {
                if (nominal <= 0)
                {
                    continue;
                }

                Inductor up = changed(nominal * (1 + Step)).Resolve(), down = changed(nominal * (1 - Step)).Resolve();
                double Slope(Func<Inductor, double> of) => (of(up) - of(down)) / (2 * Step * nominal);
                Complex[] s21 = new Complex[S21[0].Length], s11 = new Complex[s21.Length];
                foreach (SlopeNumber n in own)
                {
                    double slope = n.Quantity switch
                    {
                        PartQuantity.InductanceH => Slope(static l => l.Inductance.Require()),
                        PartQuantity.SelfCapacitanceF when coil.SelfCapacitanceF is null => Slope(static l => l.SelfCapacitanceF),
                        PartQuantity.Q when coil.Loss is null => Slope(static l => l.Loss!.Q!.Value.Require()),
                        _ => 0,
                    };
                    for (int k = 0; k < s21.Length; k++)
                    {
                        s21[k] += slope * S21[n.Index][k];
                        s11[k] += slope * S11[n.Index][k];
                    }
                }

                yield return new PartSensitivity(coil.Name, quantity, nominal, s21, s11);
            }
        }
    }
}
