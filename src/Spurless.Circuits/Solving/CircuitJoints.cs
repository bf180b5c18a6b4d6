using Spurless.Circuits.Parts;

namespace Spurless.Circuits.Solving;

/// <summary>What of a circuit hangs together: lone terminals, islands without ground or port, ports apart or shorted.</summary>
internal static class CircuitJoints
{
    /// <summary>Adds what is wrong.</summary>
    /// <param name="circuit">A circuit whose names, ends, values, couplings and ports are in order.</param>
    /// <param name="faults">Gets the faults.</param>
    public static void Check(Circuit circuit, List<CircuitFault> faults)
    {
        LoneTerminals(circuit, faults);

        // Whatever fixes a potential joins conductively; whatever passes a signal joins at all.
        NodeSets conductive = new(), any = new(), shorted = new();
        List<string> zeros = Join(circuit, conductive, any, shorted);
        Islands(
            circuit,
            conductive,
            "has no path to ground, so its potential is not fixed",
            "tie it to ground somewhere",
            CircuitFaultKind.FloatingNode,
            faults,
            static (s, n, _) => s.Same(n, Circuit.Ground));
        Islands(
            circuit,
            any,
            "has no way to a port",
            "connect it, or leave it out",
            CircuitFaultKind.FloatingNode,
            faults,
            static (s, n, c) => s.Same(n, c.PortIn) || s.Same(n, c.PortOut));
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
                faults.Add(
                    new(
                        CircuitFaultKind.ShortedPort,
                        zeros,
                        $"port '{name}' is shorted to ground by {string.Join(", ", zeros)}",
                        "give the part a value above 0, or leave it out"));
            }
        }
    }

    private static void LoneTerminals(Circuit circuit, List<CircuitFault> faults)
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
                faults.Add(
                    new(
                        CircuitFaultKind.FloatingNode,
                        parts,
                        $"node '{node}' is touched by {parts[0]} alone",
                        $"connect something else to it, or leave {parts[0]} out"));
            }
        }
    }

    // Joins the nodes; returns the parts without impedance.
    private static List<string> Join(Circuit circuit, NodeSets conductive, NodeSets any, NodeSets shorted)
    {
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
                    if (part is Resistor { Resistance.Value: 0 }
                        or Inductor { Inductance.Value: 0, Loss: null or { SeriesResistanceOhm: null or 0 } })
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

        return zeros;
    }

    private static void Islands(
        Circuit circuit,
        NodeSets sets,
        string what,
        string remedy,
        CircuitFaultKind kind,
        List<CircuitFault> faults,
        Func<NodeSets, string, Circuit, bool> tied)
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
