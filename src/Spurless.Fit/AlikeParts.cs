using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Fit;

/// <summary>
/// Parts of one kind that stand side by side, or one behind the other with nothing between them: the ports see their sum alone.
/// </summary>
internal static class AlikeParts
{
    // How far the sum itself may be off.
    private const double Beyond = 1.05;

    /// <summary>Sets of at least two of them whose values are looked for.</summary>
    public static IReadOnlyList<(string[] Parts, bool SideBySide)> Find(Circuit circuit, IReadOnlyList<FitUnknown> unknowns)
    {
        HashSet<string> sought = [.. unknowns.Where(static u =>
            u.Quantity is CircuitQuantity.CapacitanceF or CircuitQuantity.InductanceH or CircuitQuantity.ResistanceOhm)
            .Select(static u => u.Part)];
        HashSet<string> coupled = [.. circuit.Parts.OfType<Coupling>().SelectMany(static k => (string[])[k.First, k.Second])];
        TwoTerminalPart[] free = [.. circuit.Parts.OfType<TwoTerminalPart>()
            .Where(p => p is Capacitor or Inductor or Resistor && sought.Contains(p.Name) && !coupled.Contains(p.Name))];
        List<(string[], bool)> sets = [];
        foreach (var beside in free.GroupBy(static p => (p.GetType(), Ends(p))).Where(static g => g.Count() > 1))
        {
            sets.Add(([.. beside.Select(static p => p.Name)], true));
        }

        // Three one behind the other are one set, not two of two: each may be the sum but for what the others leave.
        List<HashSet<string>> chains = [];
        foreach (string node in circuit.Parts.SelectMany(static p => p.Nodes).Distinct())
        {
            Part[] here = [.. circuit.Parts.Where(p => p.Nodes.Contains(node))];
            if (node != Circuit.Ground && node != circuit.PortIn && node != circuit.PortOut && here.Length == 2 && here[0]
                .GetType() == here[1].GetType() && here.All(free.Contains)
                && Ends((TwoTerminalPart)here[0]) != Ends((TwoTerminalPart)here[1]))
            {
                HashSet<string>[] met = [.. chains.Where(c => here.Any(p => c.Contains(p.Name)))];
                chains.RemoveAll(met.Contains);
                chains.Add([.. met.SelectMany(static c => c), here[0].Name, here[1].Name]);
            }
        }

        string[] order = [.. circuit.Parts.Select(static p => p.Name)];
        sets.AddRange(chains.Select(c => (order.Where(c.Contains).ToArray(), false)));
        return sets;
    }

    /// <summary>
    /// The values with those of such sets reaching over every split that their sum allows: what parasitics beforehand say of the split is
    /// no measurement.
    /// </summary>
    /// <param name="circuit">The circuit.</param>
    /// <param name="unknowns">What was looked for.</param>
    /// <param name="values">What was found, in the same order.</param>
    public static IEnumerable<FittedValue> Reach(Circuit circuit, IReadOnlyList<FitUnknown> unknowns, IReadOnlyList<FittedValue> values)
    {
        Dictionary<(string, CircuitQuantity), (double Low, double High)> reach = [];
        foreach ((string[] parts, bool side) in Find(circuit, unknowns))
        {
            FittedValue[] set = [.. values.Where(v => parts.Contains(v.Part) && v.Quantity != CircuitQuantity.Q)];
            bool adds = (set[0].Quantity == CircuitQuantity.CapacitanceF) == side;
            double whole = adds ? set.Sum(static v => v.Value) : 1 / set.Sum(static v => 1 / v.Value);
            foreach (FittedValue v in set)
            {
                // An estimate of one of them is a witness of its own.
                if (v.Estimate is null)
                {
                    reach[(v.Part, v.Quantity)] = adds ? (v.RangeLow, Math.Min(v.RangeHigh, Beyond * whole))
                        : (Math.Max(v.RangeLow, whole / Beyond), v.RangeHigh);
                }
            }
        }

        return values.Select(v => reach.TryGetValue((v.Part, v.Quantity), out (double Low, double High) r)
            ? v with { Low = Math.Min(v.Low, r.Low), High = Math.Max(v.High, r.High) } : v);
    }

    private static (string, string) Ends(TwoTerminalPart p) => string.CompareOrdinal(p.From, p.To) < 0 ? (p.From, p.To) : (p.To, p.From);
}
