namespace Spurless.Circuits.Solving;

/// <summary>
/// How the entries of the nodal matrix come from the parts. Every entry is <c>g + j w c - j s / w</c> (resistors, lossless capacitors and
/// inductors: three real numbers an entry, fixed for a set of values) plus terms 'number times a function of frequency and Q' plus whatever
/// else there is.
/// </summary>
internal sealed class AssemblyPlan
{
    private readonly (int Element, int Entry, double Sign, ElementKind Kind)[] _real;
    private readonly (int Element, int Term, double Sign)[] _lossy;

    /// <summary>Functions beside those of the classes, in this order behind them: 1, j w, 1 / (j w).</summary>
    public const int PlainFunctions = 3;

    /// <summary>Makes the plan.</summary>
    /// <param name="netlist">The network.</param>
    /// <param name="structure">Its structure.</param>
    /// <param name="merge">Whether lossy elements of equal nominal Q share one function; only valid while their Q are equal.</param>
    public AssemblyPlan(Netlist netlist, SparseStructure structure, bool merge)
    {
        List<(int, int, double, ElementKind)> real = [];
        List<(int Element, int Place, int Class, double Sign)> lossy = [];
        List<LossClass> classes = [];
        ClassOf = new int[netlist.Elements.Length];
        for (int i = 0; i < netlist.Elements.Length; i++)
        {
            Element e = netlist.Elements[i];
            ClassOf[i] = -1;
            if (!e.IsSimple)
            {
                continue;
            }

            (int Place, double Sign)[] stamps = Stamps(structure, e.A, e.B, e.A, e.B, own: true);
            if (e.Q < 0)
            {
                real.AddRange(stamps.Select(s => (i, s.Place / SparseStructure.EntrySize, s.Sign, e.Kind)));
                continue;
            }

            double nominal = netlist.Parameters[e.Q].Nominal.Value ?? double.NaN;
            int c = merge ? classes.FindIndex(k => k.Kind == e.Kind && k.QOmega == e.QOmega && k.Nominal == nominal) : -1;
            if (c < 0)
            {
                c = classes.Count;
                classes.Add(new(e.Kind, e.QOmega, e.Q, nominal));
            }

            ClassOf[i] = c;
            lossy.AddRange(stamps.Select(s => (i, s.Place, c, s.Sign)));
        }

        _real = [.. real];
        Classes = [.. classes];

        // One term for each entry and class, sorted by entry so that the kernel can gather them.
        (int Place, int Class)[] terms = [.. lossy.Select(static l => (l.Place, l.Class)).Distinct().Order()];
        TermClasses = SparseStructure.Pinned(terms.Select(static t => t.Class * SparseStructure.EntrySize));
        TermCount = terms.Length;
        _lossy = [.. lossy.Select(l => (l.Element, Array.IndexOf(terms, (l.Place, l.Class)), l.Sign))];
        var byEntry = terms.GroupBy(static t => t.Place).ToArray();
        TermEntries = SparseStructure.Pinned(byEntry.SelectMany(static g => new[] { g.Key, g.Count() }));
        TermEntryCount = byEntry.Length;
        (Groups, Branches) = Branched(netlist);
    }

    /// <summary>A pair of nodes with simple elements between them, by offsets of voltages.</summary>
    public readonly record struct Group(int A, int B, int Count);

    /// <summary>
    /// A simple element: offset of its function, parameters of value and Q (-1 for none), what its loss is a multiple of.
    /// </summary>
    public readonly record struct Branch(int Element, int Function, int Value, int Q, bool Coil);

    /// <summary>Pairs of nodes, and behind each other their elements, for the gradient.</summary>
    public Group[] Groups { get; }

    /// <summary>The elements of all <see cref="Groups"/>.</summary>
    public Branch[] Branches { get; }

    /// <summary>A function of frequency that lossy elements share.</summary>
    /// <param name="Kind">Inductance or capacitance.</param>
    /// <param name="QOmega">Frequency of Q in radians per second.</param>
    /// <param name="Parameter">Parameter of the first element's Q, read for all.</param>
    /// <param name="Nominal">Its nominal value.</param>
    public sealed record LossClass(ElementKind Kind, double QOmega, int Parameter, double Nominal);

    public LossClass[] Classes { get; }

    /// <summary>For every element its class; -1 for none.</summary>
    public int[] ClassOf { get; }

    public int TermCount { get; }

    /// <summary>For every term the offset of its class's function.</summary>
    public int[] TermClasses { get; }

    /// <summary>Pairs: place of an entry, number of its terms.</summary>
    public int[] TermEntries { get; }

    public int TermEntryCount { get; }

    /// <summary>
    /// Places and signs of a port's own admittance, or of a transfer admittance between two ports with the symmetric half counted in.
    /// </summary>
    public static (int Place, double Sign)[] Stamps(SparseStructure structure, int a, int b, int c, int d, bool own)
    {
        Dictionary<int, double> sums = [];
        foreach ((int row, double rowSign) in new[] { (a, 1.0), (b, -1.0) })
        {
            foreach ((int column, double columnSign) in new[] { (c, 1.0), (d, -1.0) })
            {
                // An own admittance meets each off-diagonal entry twice, of which the symmetric storage keeps one.
                if (row < 0 || column < 0 || (own && row == b && column == a))
                {
                    continue;
                }

                int place = structure.Place(row, column);
                double sign = rowSign * columnSign * (!own && row == column ? 2 : 1);
                sums[place] = sums.GetValueOrDefault(place) + sign;
            }
        }

        return [.. sums.Select(static s => (s.Key, s.Value))];
    }

    /// <summary>The factor of a simple element: 1/R, 1/L or C.</summary>
    public static double Factor(Element e, ReadOnlySpan<double> values)
    {
        double x = e.ValueOf(values);
        return e.Kind == ElementKind.Capacitance ? x : 1 / x;
    }

    /// <summary>Computes the factor of every branch's derivative by value, and by Q.</summary>
    public void GradientNumbers(Netlist netlist, ReadOnlySpan<double> values, Span<double> numbers)
    {
        double half = -0.5 * netlist.Circuit.ImpedanceOhm;
        for (int i = 0; i < Branches.Length; i++)
        {
            Branch b = Branches[i];
            Element e = netlist.Elements[b.Element];
            double x = values[b.Value];
            numbers[2 * i] = e.Kind == ElementKind.Capacitance ? half : -half / (x * x);
            if (b.Q >= 0)
            {
                // The function is 1 / (loss + j ...), loss over Q: its derivative is function^2 loss / Q; an inductance's loss also goes
                // with sqrt w.
                double q = values[b.Q];
                numbers[(2 * i) + 1] = half * Factor(e, values) / (q * q) * (b.Coil ? Math.Sqrt(e.QOmega) : 1 / e.QOmega);
            }
        }
    }

    private (Group[] Groups, Branch[] Branches) Branched(Netlist netlist)
    {
        int ground = netlist.NodeNames.Length;
        int Offset(int node) => (node < 0 ? ground : node) * SparseStructure.EntrySize;
        var groups = netlist.Elements
            .Select(static (e, i) => (Element: e, Index: i))
            .Where(static x => x.Element.IsSimple && x.Element.Value >= 0)
            .GroupBy(x => (Math.Min(Offset(x.Element.A), Offset(x.Element.B)), Math.Max(Offset(x.Element.A), Offset(x.Element.B))))
                .ToArray();
        int plain = Classes.Length;
        return (
            [.. groups.Select(static g => new Group(g.Key.Item1, g.Key.Item2, g.Count()))],
            [.. groups.SelectMany(static g => g).Select(x =>
            {
                int function = ClassOf[x.Index] >= 0
                    ? ClassOf[x.Index]
                    : plain + x.Element.Kind switch { ElementKind.Resistance => 0, ElementKind.Capacitance => 1, _ => 2 };
                return new Branch(
                    x.Index, function * SparseStructure.EntrySize, x.Element.Value, x.Element.Q, x.Element.Kind == ElementKind.Inductance);
            })]);
    }

    /// <summary>Whether every element's Q is that of its class.</summary>
    public bool Holds(Netlist netlist, ReadOnlySpan<double> values)
    {
        for (int i = 0; i < ClassOf.Length; i++)
        {
            int c = ClassOf[i];
            if (c >= 0 && values[netlist.Elements[i].Q] != values[Classes[c].Parameter])
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Computes the numbers of all entries and terms for a set of values.</summary>
    /// <param name="netlist">The network.</param>
    /// <param name="values">All parameters.</param>
    /// <param name="entries">g, c, s of every entry.</param>
    /// <param name="terms">Number of every term.</param>
    public void Numbers(Netlist netlist, ReadOnlySpan<double> values, Span<double> entries, Span<double> terms)
    {
        entries.Clear();
        terms.Clear();
        foreach ((int element, int entry, double sign, ElementKind kind) in _real)
        {
            int offset = kind switch { ElementKind.Resistance => 0, ElementKind.Capacitance => 1, _ => 2 };
            entries[(3 * entry) + offset] += sign * Factor(netlist.Elements[element], values);
        }

        foreach ((int element, int term, double sign) in _lossy)
        {
            terms[term] += sign * Factor(netlist.Elements[element], values);
        }
    }
}
