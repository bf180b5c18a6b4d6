using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Fit;

/// <summary>
/// The freedom that no measurement at the ports can close: multiplying row and column of an inner node in the admittance matrix by one
/// factor leaves every S-parameter as it is. Parts that touch the node, and the parts to ground of its neighbours, change together.
/// </summary>
internal static class ImpedanceLevel
{
    /// <summary>Inner nodes of a circuit whose parts are such that their level can be changed at all.</summary>
    public static IEnumerable<string> Nodes(Circuit circuit) => circuit.Parts
        .SelectMany(static p => p.Nodes).Distinct()
        .Where(
            n =>
                n != Circuit.Ground
                    && n != circuit.PortIn
                    && n != circuit.PortOut
                    && circuit.Parts.Where(p => p.Nodes.Contains(n)).All(static p => p is Capacitor or Inductor or Resistor));

    /// <summary>How the unknowns move when a node's level does, to first order: the change of ln(value) for a factor of e.</summary>
    /// <param name="circuit">The circuit with its fitted values.</param>
    /// <param name="unknowns">What is looked for.</param>
    /// <param name="node">An inner node, see <see cref="Nodes"/>.</param>
    /// <returns>One number per unknown; null where a part that would have to change is known or missing.</returns>
    public static double[]? Direction(Circuit circuit, IReadOnlyList<FitUnknown> unknowns, string node)
    {
        double[] direction = new double[unknowns.Count];
        CircuitQuantity[] scaled = [CircuitQuantity.CapacitanceF, CircuitQuantity.InductanceH, CircuitQuantity.ResistanceOhm];
        foreach (CircuitQuantity quantity in scaled)
        {
            TwoTerminalPart[] here =
            [
                .. circuit.Parts.OfType<TwoTerminalPart>().Where(p => Admittance(p, quantity) > 0 && (p.From == node || p.To == node)),
            ];
            if (here.Length == 0)
            {
                continue;
            }

            double through = here.Where(p => !Grounded(p)).Sum(p => Admittance(p, quantity));
            TwoTerminalPart[] own = [.. here.Where(Grounded)];
            double settable = own.Sum(p => Admittance(p, quantity)), all = settable + Stray(circuit, node, quantity);
            if (own.Length == 0 || here.Any(p => !Set(p, quantity, Grounded(p) ? ((2 * all) + through) / settable : 1)))
            {
                return null;
            }

            foreach (
                IGrouping<string, TwoTerminalPart> neighbour in here.Where(p => !Grounded(p)).GroupBy(p => p.From == node ? p.To : p.From))
            {
                TwoTerminalPart[] shunts =
                [
                    .. circuit.Parts.OfType<TwoTerminalPart>().Where(
                        p => Admittance(p, quantity) > 0 && Grounded(p) && (p.From == neighbour.Key || p.To == neighbour.Key)),
                ];
                double total = shunts.Sum(p => Admittance(p, quantity)), taken = neighbour.Sum(p => Admittance(p, quantity));
                if (shunts.Length == 0 || shunts.Any(p => !Set(p, quantity, -taken / total)))
                {
                    return null;
                }
            }
        }

        return Array.Exists(direction, static d => d != 0) ? direction : null;

        bool Set(TwoTerminalPart part, CircuitQuantity quantity, double change)
        {
            for (int i = 0; i < unknowns.Count; i++)
            {
                if (unknowns[i].Part == part.Name && unknowns[i].Quantity == quantity)
                {
                    direction[i] += quantity == CircuitQuantity.CapacitanceF ? change : -change;
                    return true;
                }
            }

            return false;
        }
    }

    private static bool Grounded(TwoTerminalPart part) => part.From == Circuit.Ground || part.To == Circuit.Ground;

    // Self-capacitances to ground, which nobody can change: the capacitor beside them makes up for them.
    private static double Stray(Circuit circuit, string node, CircuitQuantity quantity) => quantity != CircuitQuantity.CapacitanceF
        ? 0
        : circuit.Parts.OfType<Inductor>().Where(l => Grounded(l) && (l.From == node || l.To == node)).Sum(static l => l.SelfCapacitanceF);

    private static double Admittance(Part part, CircuitQuantity quantity) => (part, quantity) switch
    {
        (Capacitor c, CircuitQuantity.CapacitanceF) => c.Capacitance.Value ?? 0,
        (Inductor l, CircuitQuantity.InductanceH) => 1 / (l.Inductance.Value ?? double.PositiveInfinity),
        (Resistor r, CircuitQuantity.ResistanceOhm) => 1 / (r.Resistance.Value ?? double.PositiveInfinity),
        _ => 0,
    };
}
