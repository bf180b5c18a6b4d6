using Spurless.Circuits.Parts;

namespace Spurless.Reports.Drawing.Responses;

/// <summary>A circuit read as a ladder: what stands along the top, and what hangs from each of its nodes to ground.</summary>
/// <param name="Nodes">Nodes along the top, from the input to the output.</param>
/// <param name="Series">Parts between one node and the next, parallel ones together; one entry fewer than nodes.</param>
/// <param name="Shunts">Arms from each node to ground, each a chain of parts from the node down.</param>
/// <param name="Couplings">Couplings between coils: said in words under the drawing.</param>
internal sealed record Ladder(
    IReadOnlyList<string> Nodes, IReadOnlyList<IReadOnlyList<Part>> Series, IReadOnlyList<IReadOnlyList<IReadOnlyList<Part>>> Shunts, IReadOnlyList<Coupling> Couplings)
{
    /// <summary>The circuit as a ladder; null where it is none: a part bridges others, or a transformer or an unearthed line stands in it.</summary>
    public static Ladder? Of(Circuit circuit)
    {
        List<(Part Part, string A, string B)> edges = [];
        foreach (Part part in circuit.Parts)
        {
            switch (part)
            {
                case TwoTerminalPart two:
                    edges.Add((part, two.From, two.To));
                    break;
                case Line { FromReturn: Circuit.Ground, ToReturn: Circuit.Ground } line:
                    edges.Add((part, line.From, line.To));
                    break;
                case TwoPortBlock block:
                    edges.Add((part, block.From, block.To));
                    break;
                case Coupling:
                    break;
                default:
                    return null;
            }
        }

        if (Path(circuit.PortIn, circuit.PortOut, edges) is not { } nodes)
        {
            return null;
        }

        HashSet<Part> drawn = [];
        List<IReadOnlyList<Part>> series = [];
        for (int i = 1; i < nodes.Count; i++)
        {
            List<Part> between = [.. edges.Where(e => Joins(e, nodes[i - 1], nodes[i])).Select(static e => e.Part)];
            drawn.UnionWith(between);
            series.Add(between);
        }

        List<IReadOnlyList<IReadOnlyList<Part>>> shunts = [];
        foreach (string node in nodes)
        {
            List<IReadOnlyList<Part>> arms = [];
            foreach (var edge in edges.Where(e => !drawn.Contains(e.Part) && (e.A == node || e.B == node)))
            {
                if (!drawn.Contains(edge.Part) && Arm(node, edge, edges, nodes, drawn) is { } arm)
                {
                    drawn.UnionWith(arm);
                    arms.Add(arm);
                }
            }

            shunts.Add(arms);
        }

        return drawn.Count == edges.Count ? new Ladder(nodes, series, shunts, [.. circuit.Parts.OfType<Coupling>()]) : null;
    }

    /// <summary>The nodes of the shortest way along the top, ground avoided.</summary>
    private static List<string>? Path(string from, string to, List<(Part Part, string A, string B)> edges)
    {
        Dictionary<string, string?> cameFrom = new() { [from] = null };
        Queue<string> ahead = new([from]);
        while (ahead.TryDequeue(out string? node))
        {
            foreach (var e in edges)
            {
                string? other = e.A == node ? e.B : e.B == node ? e.A : null;
                if (other is not null and not Circuit.Ground && cameFrom.TryAdd(other, node))
                {
                    ahead.Enqueue(other);
                }
            }
        }

        if (!cameFrom.ContainsKey(to) || from == to)
        {
            return from == to ? [from] : null;
        }

        List<string> nodes = [];
        for (string? at = to; at is not null; at = cameFrom[at])
        {
            nodes.Insert(0, at);
        }

        return nodes;
    }

    /// <summary>A chain of parts down to ground through nodes that nothing else touches.</summary>
    private static List<Part>? Arm(
        string node, (Part Part, string A, string B) first, List<(Part Part, string A, string B)> edges, List<string> top, HashSet<Part> drawn)
    {
        List<Part> arm = [first.Part];
        string at = first.A == node ? first.B : first.A;
        while (at != Circuit.Ground)
        {
            var onward = edges.Where(e => (e.A == at || e.B == at) && !arm.Contains(e.Part)).ToList();
            if (top.Contains(at) || onward.Count != 1 || drawn.Contains(onward[0].Part) || arm.Count > 4)
            {
                return null;
            }

            arm.Add(onward[0].Part);
            at = onward[0].A == at ? onward[0].B : onward[0].A;
        }

        return arm;
    }

    private static bool Joins((Part Part, string A, string B) e, string a, string b) => (e.A == a && e.B == b) || (e.A == b && e.B == a);
}
