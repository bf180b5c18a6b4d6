using Spurless.Circuits.Parts;

namespace Spurless.Drawing.Schematics;

/// <summary>What stands between one node of the top and the next: a block, a transformer, or nothing but a coupling.</summary>
/// <param name="Block">Parts along the top; null for the other two.</param>
/// <param name="Transformer">A transformer whose windings both end on ground; null for the others.</param>
internal sealed record Link(Block? Block, Transformer? Transformer);

/// <summary>A block that leads from one node of the top to a later one over the nodes between.</summary>
internal sealed record Bridge(int From, int To, Block Block);

/// <summary>Three blocks that meet in a point over the top: one to each of two nodes and one to ground.</summary>
internal sealed record Star(int From, int To, Block Left, Block Right, Block ToGround)
{
    /// <summary>How wide its arms along the line are drawn.</summary>
    /// <param name="part">Width of one part.</param>
    public double WidthAcross(double part) => Left.WidthAcross(part) + Right.WidthAcross(part);
}

/// <summary>
/// How a circuit is drawn: nodes along the top from input to output, what stands between them, what hangs from each to ground, what leads
/// over others.
/// </summary>
internal sealed record CircuitPlan
{
    /// <summary>Nodes along the top.</summary>
    public required IReadOnlyList<string> Nodes { get; init; }

    /// <summary>Between one node and the next; one fewer than nodes.</summary>
    public required IReadOnlyList<Link> Links { get; init; }

    /// <summary>Arms from each node to ground, from the node down.</summary>
    public required IReadOnlyList<IReadOnlyList<Block>> Arms { get; init; }

    /// <summary>Blocks over the top.</summary>
    public required IReadOnlyList<Bridge> Bridges { get; init; }

    /// <summary>Points over the top with an arm to ground.</summary>
    public required IReadOnlyList<Star> Stars { get; init; }

    /// <summary>Couplings between coils.</summary>
    public required IReadOnlyList<Coupling> Couplings { get; init; }

    // A straight top with arms is the most legible; a bridge costs, a star over the top more, and a longer top breaks a tie.
    private double Cost =>
        (2 * Bridges.Count) + (5 * Stars.Count) + Links.Sum(static l => l.Block is ParallelBlock { Items: var i } ? i.Count - 1 : 0)
            - (0.01 * Nodes.Count);

    /// <summary>The plan of a circuit; null where it cannot be laid out this way.</summary>
    public static CircuitPlan? Of(Circuit circuit)
    {
        if (Net.Of(circuit) is not { } net || circuit.PortIn == circuit.PortOut)
        {
            return null;
        }

        CircuitPlan? best = null;
        foreach (IReadOnlyList<string> top in net.Tops())
        {
            if (Along(net, top) is { } plan && (best is null || plan.Cost < best.Cost))
            {
                best = plan;
            }
        }

        return best;
    }

    private static CircuitPlan? Along(Net net, IReadOnlyList<string> top)
    {
        HashSet<string> kept = [.. top, Circuit.Ground];
        List<Edge> edges = [];
        List<Block>[] arms = [.. top.Select(static _ => new List<Block>())];
        foreach (Edge edge in net.Edges)
        {
            // Each part from a node of the top straight to ground is an arm of its own.
            int node = IndexOf(top, edge.A == Circuit.Ground ? edge.B : edge.A);
            if (node >= 0 && (edge.A == Circuit.Ground || edge.B == Circuit.Ground))
            {
                arms[node].Add(edge.From(top[node]));
            }
            else
            {
                edges.Add(edge);
            }
        }

        Block?[] series = new Block?[top.Count - 1];
        List<Bridge> bridges = [];
        List<Star> stars = [];
        List<Edge> reduced = Reduction.Reduce(edges, kept);
        while (reduced.Count > 0)
        {
            Edge edge = reduced[0];
            int a = IndexOf(top, edge.A);
            int b = IndexOf(top, edge.B);
            if (a >= 0 && b >= 0)
            {
                (int first, int last) = (Math.Min(a, b), Math.Max(a, b));
                Block block = edge.From(top[first]);
                if (last == first + 1)
                {
                    series[first] = block;
                }
                else
                {
                    bridges.Add(new Bridge(first, last, block));
                }

                reduced.RemoveAt(0);
            }
            else if ((a >= 0 && edge.B == Circuit.Ground) || (b >= 0 && edge.A == Circuit.Ground))
            {
                int node = Math.Max(a, b);
                arms[node].Add(edge.From(top[node]));
                reduced.RemoveAt(0);
            }
            else if (StarAt(a < 0 && edge.A != Circuit.Ground ? edge.A : edge.B, top, reduced) is { } star)
            {
                stars.Add(star);
            }
            else
            {
                return null;
            }
        }

        Link[] links = new Link[top.Count - 1];
        for (int i = 0; i < links.Length; i++)
        {
            List<Transformer> through = [.. net.Transformers.Where(t => Joins(t, top[i], top[i + 1]))];
            if (through.Count > 1 || (through.Count == 1 && series[i] is not null))
            {
                return null;
            }

            links[i] = new Link(series[i], through.Count == 1 ? through[0] : null);
        }

        return links.Count(static l => l.Transformer is not null) != net.Transformers.Count ? null : new CircuitPlan
        {
            Nodes = top,
            Links = links,
            Arms = arms,
            Bridges = bridges,
            Stars = stars,
            Couplings = net.Couplings,
        };
    }

    /// <summary>The coupling that joins two coils on either side of a gap of the top, both hanging from it directly.</summary>
    /// <param name="link">The gap's place in <see cref="Links"/>.</param>
    public Coupling? Over(int link) => Couplings.FirstOrDefault(c =>
        (Hangs(link, c.First) && Hangs(link + 1, c.Second)) || (Hangs(link, c.Second) && Hangs(link + 1, c.First)));

    private bool Hangs(int node, string part) => Arms[node].Any(a => a is PartBlock p && p.Part.Name == part);

    /// <summary>A point from which one block leads to each of two nodes of the top and one to ground; its edges are taken away.</summary>
    private static Star? StarAt(string hub, IReadOnlyList<string> top, List<Edge> reduced)
    {
        List<Edge> at = reduced.FindAll(e => e.A == hub || e.B == hub);
        Edge? ground = at.Find(e => e.Other(hub) == Circuit.Ground);
        List<(int Node, Edge Edge)> ends =
        [
            .. at.Select(e => (IndexOf(top, e.Other(hub)), e)).Where(static e => e.Item1 >= 0).OrderBy(static e => e.Item1),
        ];
        if (at.Count != 3 || ground is null || ends.Count != 2)
        {
            return null;
        }

        reduced.RemoveAll(at.Contains);
        return new Star(
            ends[0].Node, ends[1].Node, ends[0].Edge.From(top[ends[0].Node]), ends[1].Edge.From(hub), ground.From(Circuit.Ground));
    }

    private static bool Joins(Transformer t, string a, string b)
    {
        (string first, string second) = (Net.Live(t.FirstFrom, t.FirstTo), Net.Live(t.SecondFrom, t.SecondTo));
        return (first == a && second == b) || (first == b && second == a);
    }

    private static int IndexOf(IReadOnlyList<string> top, string node)
    {
        for (int i = 0; i < top.Count; i++)
        {
            if (top[i] == node)
            {
                return i;
            }
        }

        return -1;
    }
}
