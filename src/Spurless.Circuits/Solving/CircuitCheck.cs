using System.Globalization;
using Spurless.Circuits.Coils;
using Spurless.Circuits.Parts;

namespace Spurless.Circuits.Solving;

/// <summary>Finds what is wrong with a netlist before any number is computed: all of it, each fault with the parts involved.</summary>
public static class CircuitCheck
{
    /// <summary>All faults of a circuit's structure and stated values.</summary>
    /// <param name="circuit">The circuit. Unknown values are no fault here.</param>
    /// <returns>The faults; empty where the circuit can be analysed.</returns>
    public static IReadOnlyList<CircuitFault> Faults(Circuit circuit)
    {
        List<CircuitFault> faults = [];
        Names(circuit, faults);
        foreach (Part part in circuit.Parts)
        {
            Ends(part, faults);
            Values(part, faults);
        }

        Couplings(circuit, faults);
        Ports(circuit, faults);
        if (faults.Count == 0)
        {
            Joints(circuit, faults);
        }

        return faults;
    }

    private static void Names(Circuit circuit, List<CircuitFault> faults)
    {
        HashSet<string> seen = new(StringComparer.Ordinal);
        foreach (Part part in circuit.Parts)
        {
            if (!seen.Add(part.Name))
            {
                faults.Add(new(CircuitFaultKind.DuplicateName, [part.Name], $"there are two parts named '{part.Name}'", "give each part a name of its own"));
            }
        }
    }

    private static void Ends(Part part, List<CircuitFault> faults)
    {
        void OneNode(string node) => faults.Add(new(
            CircuitFaultKind.BothEndsOnOneNode, [part.Name], $"{part.Name} has both ends on node '{node}'", "connect it between two different nodes, or leave it out"));
        switch (part)
        {
            case TwoTerminalPart two when two.From == two.To:
                OneNode(two.From);
                break;
            case Line line when line.From == line.FromReturn || line.To == line.ToReturn || line.From == line.To:
                OneNode(line.From == line.FromReturn || line.From == line.To ? line.From : line.To);
                break;
            case Transformer t when t.FirstFrom == t.FirstTo || t.SecondFrom == t.SecondTo:
                OneNode(t.FirstFrom == t.FirstTo ? t.FirstFrom : t.SecondFrom);
                break;
            case TwoPortBlock block when block.From == block.To:
                OneNode(block.From);
                break;
            case TwoPortBlock block when block.From == Circuit.Ground || block.To == Circuit.Ground:
                faults.Add(new(
                    CircuitFaultKind.BothEndsOnOneNode, [part.Name], $"{part.Name} has a port on ground, and its ports are against ground", "connect it between two nodes that are not ground"));
                break;
        }
    }

    private static void Values(Part part, List<CircuitFault> faults)
    {
        void Bad(string what, string remedy) => faults.Add(new(CircuitFaultKind.BadValue, [part.Name], $"{part.Name} has {what}", remedy));
        void NotNegative(PartValue value, string name)
        {
            if (value.Value is < 0)
            {
                Bad($"a negative {name}", "write a value of at least 0");
            }
        }

        void Positive(double value, string name)
        {
            if (!(value > 0) || !double.IsFinite(value))
            {
                Bad($"{name} of {value.ToString(CultureInfo.InvariantCulture)}", "write a value above 0");
            }
        }

        void Velocity(double value)
        {
            if (value is not (> 0 and <= 1))
            {
                Bad($"a velocity of {value.ToString(CultureInfo.InvariantCulture)}", "write it as a fraction of that of light, above 0 and at most 1, such as 0.66");
            }
        }

        void Length(PartValue value)
        {
            if (value.Value is <= 0)
            {
                Bad("a length that is not above 0", "write a length above 0, or leave the line out");
            }
        }

        switch (part)
        {
            case Resistor r:
                NotNegative(r.Resistance, "resistance");
                break;
            case Inductor l:
                NotNegative(l.Inductance, "inductance");
                NotNegative(PartValue.Known(l.SelfCapacitanceF), "self-capacitance");
                break;
            case Capacitor c:
                NotNegative(c.Capacitance, "capacitance");
                NotNegative(PartValue.Known(c.SeriesInductanceH), "series inductance");
                break;
            case Coil coil when CoilCalculator.Problem(new(coil.Turns, coil.DiameterM, coil.LengthM, coil.WireM, coil.LeadM)) is { } problem:
                {
                    // Reads 'what; what to write instead'.
                    int cut = problem.IndexOf(';', StringComparison.Ordinal);
                    faults.Add(new(CircuitFaultKind.BadValue, [part.Name], $"{part.Name}: {(cut < 0 ? problem : problem[..cut])}", cut < 0 ? "change its dimensions" : problem[(cut + 1)..].Trim()));
                    break;
                }

            case Coupling k when k.Coefficient.Value is <= -1 or >= 1:
                faults.Add(new(
                    CircuitFaultKind.ImpossibleCoupling,
                    [part.Name],
                    $"{part.Name} has the coupling {k.Coefficient.Value.Value.ToString(CultureInfo.InvariantCulture)}",
                    "write a coefficient between -1 and 1, both excluded; a perfect coupling is a transformer"));
                break;
            case Transformer t:
                Positive(t.FirstTurns, "turns");
                Positive(t.SecondTurns, "turns");
                break;
            case Line line:
                Positive(line.ImpedanceOhm, "an impedance");
                Velocity(line.Velocity);
                Length(line.Length);
                break;
            case Stub stub:
                Positive(stub.ImpedanceOhm, "an impedance");
                Velocity(stub.Velocity);
                Length(stub.Length);
                break;
        }
    }

    private static void Couplings(Circuit circuit, List<CircuitFault> faults)
    {
        Dictionary<string, Part> byName = new(StringComparer.Ordinal);
        foreach (Part part in circuit.Parts)
        {
            byName.TryAdd(part.Name, part);
        }

        Dictionary<(string, string), string> pairs = [];
        bool sound = true;
        foreach (Coupling coupling in circuit.Parts.OfType<Coupling>())
        {
            foreach (string name in new[] { coupling.First, coupling.Second })
            {
                if (byName.GetValueOrDefault(name) is not (Inductor or Coil))
                {
                    string found = byName.ContainsKey(name) ? "is no inductor" : "does not exist";
                    faults.Add(new(
                        CircuitFaultKind.BadCoupling,
                        byName.ContainsKey(name) ? [coupling.Name, name] : [coupling.Name],
                        $"{coupling.Name} couples '{name}', which {found}",
                        "name two inductors or coils"));
                    sound = false;
                }
            }

            (string, string) pair = string.CompareOrdinal(coupling.First, coupling.Second) <= 0 ? (coupling.First, coupling.Second) : (coupling.Second, coupling.First);
            if (coupling.First == coupling.Second)
            {
                faults.Add(new(CircuitFaultKind.BadCoupling, [coupling.Name, coupling.First], $"{coupling.Name} couples {coupling.First} with itself", "name two different inductors"));
                sound = false;
            }
            else if (!pairs.TryAdd(pair, coupling.Name))
            {
                faults.Add(new(
                    CircuitFaultKind.BadCoupling,
                    [pairs[pair], coupling.Name],
                    $"{pairs[pair]} and {coupling.Name} both couple {pair.Item1} with {pair.Item2}",
                    "keep one of them"));
                sound = false;
            }
        }

        if (sound && !faults.Exists(static f => f.Kind == CircuitFaultKind.ImpossibleCoupling))
        {
            CouplingGroups.Check(circuit, faults);
        }
    }

    private static void Ports(Circuit circuit, List<CircuitFault> faults)
    {
        if (!(circuit.ImpedanceOhm > 0) || !double.IsFinite(circuit.ImpedanceOhm))
        {
            faults.Add(new(CircuitFaultKind.BadValue, [], "the port impedance is not above 0", "write a real impedance such as 50 ohm"));
        }

        foreach ((string port, string name) in new[] { (circuit.PortIn, "in"), (circuit.PortOut, "out") })
        {
            if (port == Circuit.Ground)
            {
                faults.Add(new(CircuitFaultKind.ShortedPort, [], $"port '{name}' is on ground: a short across the port", "put the port on a node that is not ground"));
            }
            else if (!circuit.Parts.Any(p => p.Nodes.Contains(port, StringComparer.Ordinal)))
            {
                faults.Add(new(CircuitFaultKind.PortsNotConnected, [], $"port '{name}' is on node '{port}', which no part touches", "connect a part to it, or name the right node"));
            }
        }
    }

    private static void Joints(Circuit circuit, List<CircuitFault> faults)
    {
        // A node that one terminal alone touches carries no current: a slip of the pen in practice.
        Dictionary<string, List<string>> touching = new(StringComparer.Ordinal);
        foreach (Part part in circuit.Parts)
        {
            foreach (string node in part.Nodes)
            {
                if (!touching.TryGetValue(node, out List<string>? list))
                {
                    touching[node] = list = [];
                }

                list.Add(part.Name);
            }
        }

        foreach ((string node, List<string> parts) in touching)
        {
            if (parts.Count == 1 && node != Circuit.Ground && node != circuit.PortIn && node != circuit.PortOut)
            {
                faults.Add(new(CircuitFaultKind.FloatingNode, parts, $"node '{node}' is touched by {parts[0]} alone", $"connect something else to it, or leave {parts[0]} out"));
            }
        }

        // Whatever fixes a potential joins conductively; whatever passes a signal joins at all.
        NodeSets conductive = new(), any = new(), shorted = new();
        List<string> zeros = [];
        Dictionary<string, string> firstNode = new(StringComparer.Ordinal);
        foreach (Part part in circuit.Parts)
        {
            foreach (string node in part.Nodes)
            {
                if (node != Circuit.Ground)
                {
                    firstNode.TryAdd(part.Name, node);
                    any.Join(firstNode[part.Name], node);
                }
            }

            switch (part)
            {
                case TwoTerminalPart two:
                    conductive.Join(two.From, two.To);
                    if (part is Resistor { Resistance.Value: 0 } or Inductor { Inductance.Value: 0, Loss: null or { SeriesResistanceOhm: null or 0 } })
                    {
                        shorted.Join(two.From, two.To);
                        zeros.Add(part.Name);
                    }

                    break;
                case Line line:
                    conductive.Join(line.From, line.FromReturn);
                    conductive.Join(line.To, line.ToReturn);
                    break;
                case Transformer t:
                    conductive.Join(t.FirstFrom, t.FirstTo);
                    conductive.Join(t.SecondFrom, t.SecondTo);
                    break;
                case TwoPortBlock block:
                    conductive.Join(block.From, Circuit.Ground);
                    conductive.Join(block.To, Circuit.Ground);
                    break;
            }
        }

        conductive.Join(circuit.PortIn, Circuit.Ground);
        conductive.Join(circuit.PortOut, Circuit.Ground);
        foreach (Coupling coupling in circuit.Parts.OfType<Coupling>())
        {
            if (firstNode.TryGetValue(coupling.First, out string? a) && firstNode.TryGetValue(coupling.Second, out string? b))
            {
                any.Join(a, b);
            }
        }

        Islands(circuit, conductive, "has no path to ground, so its potential is not fixed", "tie it to ground somewhere", CircuitFaultKind.FloatingNode, faults, static (s, n, _) => s.Same(n, Circuit.Ground));
        Islands(
            circuit, any, "has no way to a port", "connect it, or leave it out", CircuitFaultKind.FloatingNode, faults, static (s, n, c) => s.Same(n, c.PortIn) || s.Same(n, c.PortOut));
        if (!any.Same(circuit.PortIn, circuit.PortOut))
        {
            faults.Add(new(
                CircuitFaultKind.PortsNotConnected,
                [],
                $"no part leads from port 'in' (node '{circuit.PortIn}') to port 'out' (node '{circuit.PortOut}')",
                "connect the two halves, or couple their inductors"));
        }

        foreach ((string port, string name) in new[] { (circuit.PortIn, "in"), (circuit.PortOut, "out") })
        {
            if (shorted.Same(port, Circuit.Ground))
            {
                faults.Add(new(CircuitFaultKind.ShortedPort, zeros, $"port '{name}' is shorted to ground by {string.Join(", ", zeros)}", "give the part a value above 0, or leave it out"));
            }
        }
    }

    private static void Islands(
        Circuit circuit, NodeSets sets, string what, string remedy, CircuitFaultKind kind, List<CircuitFault> faults, Func<NodeSets, string, Circuit, bool> tied)
    {
        Dictionary<string, (string Node, List<string> Parts)> islands = new(StringComparer.Ordinal);
        foreach (Part part in circuit.Parts)
        {
            foreach (string node in part.Nodes)
            {
                if (node == Circuit.Ground || tied(sets, node, circuit))
                {
                    continue;
                }

                string root = sets.Root(node);
                if (!islands.TryGetValue(root, out (string Node, List<string> Parts) island))
                {
                    islands[root] = island = (node, []);
                }

                if (!island.Parts.Contains(part.Name))
                {
                    island.Parts.Add(part.Name);
                }
            }
        }

        foreach ((string node, List<string> parts) in islands.Values)
        {
            faults.Add(new(kind, parts, $"node '{node}' ({string.Join(", ", parts)}) {what}", remedy));
        }
    }

    private sealed class NodeSets
    {
        private readonly Dictionary<string, string> _parent = new(StringComparer.Ordinal);

        public string Root(string node)
        {
            while (_parent.TryGetValue(node, out string? next))
            {
                node = next;
            }

            return node;
        }

        public void Join(string a, string b)
        {
            (string x, string y) = (Root(a), Root(b));
            if (x != y)
            {
                _parent[x] = y;
            }
        }

        public bool Same(string a, string b) => Root(a) == Root(b);
    }
}
