namespace Spurless.Circuits.Solving;

/// <summary>
/// What of a network's nodal matrix does not depend on frequency or values: the order in which nodes are eliminated, the places of the
/// entries that are not zero (fill included), and lists of what to add to what. Places are offsets in doubles: each entry is 8 real parts
/// and 8 imaginary ones.
/// </summary>
internal sealed class SparseStructure
{
    /// <summary>Doubles of one entry: 8 frequencies, real and imaginary.</summary>
    public const int EntrySize = 16;

    private readonly int[,] _entry;

    public SparseStructure(Netlist netlist)
    {
        int n = netlist.NodeNames.Length;
        bool[,] joined = new bool[n, n];
        foreach (Element e in netlist.Elements)
        {
            int[] nodes = e.Kind == ElementKind.Windings
                ? [.. e.Windings.SelectMany(static w => new[] { w.A, w.B })]
                : [e.A, e.B, e.C, e.D];
            foreach (int a in nodes)
            {
                foreach (int b in nodes)
                {
                    if (a >= 0 && b >= 0 && a != b)
                    {
                        joined[a, b] = true;
                    }
                }
            }
        }

        _entry = new int[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                _entry[i, j] = -1;
            }
        }

        for (int i = 0; i < n; i++)
        {
            _entry[i, i] = EntryCount++;
        }

        Eliminate(netlist, joined, n);
        InIn = Place(netlist.PortIn, netlist.PortIn);
        OutOut = Place(netlist.PortOut, netlist.PortOut);
        OnePort = netlist.PortIn == netlist.PortOut;
        InOut = OnePort ? InIn : joined[netlist.PortIn, netlist.PortOut] ? Place(netlist.PortIn, netlist.PortOut) : -1;
    }

    /// <summary>Number of entries.</summary>
    public int EntryCount { get; private set; }

    /// <summary>
    /// For every eliminated node: place of its diagonal, number m of later neighbours, the m places of the entries with them, then the
    /// places of the entries between neighbours, first with first, first with second, ... last with last.
    /// </summary>
    public int[] Program { get; private set; } = [];

    /// <summary>
    /// The same backwards, for substitution: offset of the node's voltage, m, then m pairs of the entry's place and the neighbour's offset.
    /// </summary>
    public int[] BackProgram { get; private set; } = [];

    /// <summary>Number of nodes eliminated.</summary>
    public int Pivots { get; private set; }

    public int InIn { get; }

    public int OutOut { get; }

    /// <summary>Place of the entry between the ports; -1 where there is none.</summary>
    public int InOut { get; }

    /// <summary>Whether both ports are on one node.</summary>
    public bool OnePort { get; }

    /// <summary>Place of an entry of the nodal matrix that exists.</summary>
    public int Place(int row, int column)
    {
        ref int number = ref _entry[Math.Min(row, column), Math.Max(row, column)];
        if (number < 0)
        {
            number = EntryCount++;
        }

        return number * EntrySize;
    }

    // Least degree first, ties by number; the ports stay to the end.
    private void Eliminate(Netlist netlist, bool[,] joined, int n)
    {
        List<int> program = [];
        List<List<int>> back = [];
        bool[] gone = new bool[n];
        while (true)
        {
            int best = -1, degree = int.MaxValue;
            for (int i = 0; i < n; i++)
            {
                if (gone[i] || i == netlist.PortIn || i == netlist.PortOut)
                {
                    continue;
                }

                int d = 0;
                for (int j = 0; j < n; j++)
                {
                    d += joined[i, j] && !gone[j] ? 1 : 0;
                }

                if (d < degree)
                {
                    (best, degree) = (i, d);
                }
            }

            if (best < 0)
            {
                break;
            }

            gone[best] = true;
            Pivots++;
            int[] later = [.. Enumerable.Range(0, n).Where(j => joined[best, j] && !gone[j])];
            program.Add(Place(best, best));
            program.Add(later.Length);
            program.AddRange(later.Select(j => Place(best, j)));
            List<int> step = [best * EntrySize, later.Length];
            for (int a = 0; a < later.Length; a++)
            {
                step.Add(Place(best, later[a]));
                step.Add(later[a] * EntrySize);
                for (int b = a; b < later.Length; b++)
                {
                    joined[later[a], later[b]] = joined[later[b], later[a]] = a != b;
                    program.Add(Place(later[a], later[b]));
                }
            }

            back.Add(step);
        }

        back.Reverse();
        Program = Pinned(program);
        BackProgram = Pinned(back.SelectMany(static s => s));
    }

    /// <summary>A copy that the collector doesn't move, for the kernel's pointers.</summary>
    public static int[] Pinned(IEnumerable<int> items)
    {
        int[] source = [.. items];
        int[] pinned = GC.AllocateUninitializedArray<int>(Math.Max(1, source.Length), pinned: true);
        source.CopyTo(pinned, 0);
        return pinned;
    }
}
