using Spurless.Circuits.Parts;

namespace Spurless.Drawing.Schematics;

/// <summary>A circuit as nodes and what joins them.</summary>
internal sealed class Net
{
    // So many ways from input to output are looked at; a drawing of more would not be legible.
    private const int MostTops = 400;

    private readonly Circuit _circuit;

    private Net(Circuit circuit) => _circuit = circuit;

    /// <summary>Parts between two nodes, ground among them.</summary>
    public List<Edge> Edges { get; } = [];

    /// <summary>Transformers whose windings both end on ground.</summary>
    public List<Transformer> Transformers { get; } = [];

    /// <summary>Couplings between coils.</summary>
    public List<Coupling> Couplings { get; } = [];

    /// <summary>The net of a circuit; null where a transformer or a line has an end that is not on ground.</summary>
    public static Net? Of(Circuit circuit)
    {
        Net net = new(circuit);
        foreach (Part part in circuit.Parts)
        {
            switch (part)
            {
                case TwoTerminalPart two:
                    net.Edges.Add(new Edge(two.From, two.To, new PartBlock(two)));
                    break;
                case Line { FromReturn: Circuit.Ground, ToReturn: Circuit.Ground } line:
                    net.Edges.Add(new Edge(line.From, line.To, new PartBlock(line)));
                    break;
                case TwoPortBlock block:
                    net.Edges.Add(new Edge(block.From, block.To, new PartBlock(block)));
                    break;
                case Transformer t when OneEndOnGround(t.FirstFrom, t.FirstTo) && OneEndOnGround(t.SecondFrom, t.SecondTo):
                    net.Transformers.Add(t);
                    break;
                case Coupling coupling:
                    net.Couplings.Add(coupling);
                    break;
                default:
                    return null;
            }
        }

        return net.Edges.Exists(static e => e.A == e.B) ? null : net;
    }

    /// <summary>The end of a winding that is not ground.</summary>
    public static string Live(string from, string to) => from == Circuit.Ground ? to : from;

    /// <summary>
    /// Ways from the input to the output along which the drawing could run: by wire, through transformers; by couplings only where nothing
    /// else leads there.
    /// </summary>
    public IEnumerable<IReadOnlyList<string>> Tops()
    {
        Dictionary<string, HashSet<string>> wired = Neighbours(withCouplings: false);
        List<IReadOnlyList<string>> found = [];
        Walk([_circuit.PortIn], wired, found);
        if (found.Count == 0)
        {
            Walk([_circuit.PortIn], Neighbours(withCouplings: true), found);
        }

        return found;
    }

    private void Walk(List<string> way, Dictionary<string, HashSet<string>> neighbours, List<IReadOnlyList<string>> found)
    {
        string at = way[^1];
        if (at == _circuit.PortOut)
        {
            found.Add([.. way]);
            return;
        }

        foreach (string next in neighbours.GetValueOrDefault(at) ?? [])
        {
            if (found.Count >= MostTops)
            {
                return;
            }

            if (!way.Contains(next))
            {
                way.Add(next);
                Walk(way, neighbours, found);
                way.RemoveAt(way.Count - 1);
            }
        }
    }

    private Dictionary<string, HashSet<string>> Neighbours(bool withCouplings)
    {
        Dictionary<string, HashSet<string>> all = [];
        foreach (Edge edge in Edges)
        {
            Join(edge.A, edge.B);
        }

        foreach (Transformer t in Transformers)
        {
            Join(Live(t.FirstFrom, t.FirstTo), Live(t.SecondFrom, t.SecondTo));
        }

        foreach (Coupling coupling in withCouplings ? Couplings : [])
        {
            if (CoilOf(coupling.First) is { } a && CoilOf(coupling.Second) is { } b)
            {
                Join(Live(a.A, a.B), Live(b.A, b.B));
            }
        }

        return all;

        void Join(string a, string b)
        {
            if (a != Circuit.Ground && b != Circuit.Ground)
            {
                (all.TryGetValue(a, out HashSet<string>? of) ? of : all[a] = []).Add(b);
                (all.TryGetValue(b, out of) ? of : all[b] = []).Add(a);
            }
        }
    }

    private Edge? CoilOf(string name) => Edges.Find(e => e.Block is PartBlock p && p.Part.Name == name);

    private static bool OneEndOnGround(string from, string to) => (from == Circuit.Ground) != (to == Circuit.Ground);
}
