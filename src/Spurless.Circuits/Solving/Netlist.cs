using Spurless.Circuits.Parts;
using Spurless.Circuits.TwoPorts;
using Spurless.Numerics;

namespace Spurless.Circuits.Solving;

/// <summary>What an <see cref="Element"/> is.</summary>
internal enum ElementKind
{
    Resistance,
    Inductance,
    Capacitance,
    Stub,
    Line,
    Windings,
    Transformer,
    Block,
}

/// <summary>
/// One branch of the network as the solvers see it: nodes by number, values by number of the parameter. -1 is ground, or no parameter.
/// </summary>
internal sealed class Element
{
    public required ElementKind Kind { get; init; }

    /// <summary>The part's place in the circuit; for windings that of the first.</summary>
    public required int Part { get; init; }

    public int A { get; init; } = -1;

    public int B { get; init; } = -1;

    public int C { get; init; } = -1;

    public int D { get; init; } = -1;

    /// <summary>Number of the parameter that is the value; -1 where it is <see cref="Constant"/>.</summary>
    public int Value { get; init; } = -1;

    public double Constant { get; init; }

    /// <summary>Number of the parameter that is Q; -1 for none.</summary>
    public int Q { get; init; } = -1;

    /// <summary>Frequency of Q in radians per second.</summary>
    public double QOmega { get; init; }

    public double SeriesOhm { get; init; }

    public double SeriesHenry { get; init; }

    public double LineOhm { get; init; }

    /// <summary>Seconds per metre.</summary>
    public double Delay { get; init; }

    public LineLoss Loss { get; init; }

    public bool Shorted { get; init; }

    public double FirstTurns { get; init; }

    public double SecondTurns { get; init; }

    public ITwoPort? Source { get; init; }

    /// <summary>Windings: each an inductance element, and their couplings by place in the list and parameter.</summary>
    public Element[] Windings { get; init; } = [];

    public (int I, int J, int Parameter)[] Couplings { get; init; } = [];

    /// <summary>Whether its admittance is its value's factor times a function of frequency and Q alone.</summary>
    public bool IsSimple => Kind switch
    {
        ElementKind.Resistance => true,
        ElementKind.Inductance => SeriesOhm == 0,
        ElementKind.Capacitance => SeriesOhm == 0 && SeriesHenry == 0,
        _ => false,
    };

    public double ValueOf(ReadOnlySpan<double> values) => Value < 0 ? Constant : values[Value];
}

/// <summary>A circuit compiled once: nodes and parameters numbered, parts turned into elements.</summary>
internal sealed class Netlist
{
    private readonly Dictionary<string, int> _nodes = new(StringComparer.Ordinal) { [Circuit.Ground] = -1 };
    private readonly List<CircuitParameter> _parameters = [];
    private readonly List<Element> _elements = [];

    private Netlist(Circuit circuit)
    {
        Circuit = circuit;
        PortIn = Node(circuit.PortIn);
        PortOut = Node(circuit.PortOut);
        Part[] parts = [.. circuit.Parts.Select(static p => p is Coil coil ? coil.Resolve() : p)];
        Dictionary<string, int> couplingParameter = new(StringComparer.Ordinal);
        Element?[] made = new Element?[parts.Length];
        for (int i = 0; i < parts.Length; i++)
        {
            if (parts[i] is Coupling coupling)
            {
                couplingParameter[coupling.Name] = Parameter(i, CircuitQuantity.Coupling, coupling.Coefficient);
            }
            else
            {
                made[i] = Make(parts[i], i);
            }
        }

        Group(parts, made, couplingParameter);
        NodeNames = [.. _nodes.Where(static n => n.Value >= 0).OrderBy(static n => n.Value).Select(static n => n.Key)];
        Parameters = _parameters;
        Elements = [.. _elements];
    }

    public Circuit Circuit { get; }

    public int PortIn { get; }

    public int PortOut { get; }

    public string[] NodeNames { get; }

    public IReadOnlyList<CircuitParameter> Parameters { get; }

    public Element[] Elements { get; }

    public static Netlist Compile(Circuit circuit) => new(circuit);

    private int Node(string name)
    {
        if (!_nodes.TryGetValue(name, out int number))
        {
            _nodes[name] = number = _nodes.Count - 1;
        }

        return number;
    }

    private int Parameter(int part, CircuitQuantity quantity, PartValue nominal)
    {
        _parameters.Add(new(Circuit.Parts[part].Name, part, quantity, nominal));
        return _parameters.Count - 1;
    }

    private (int Q, double Omega, double Series) Loss(int part, PartLoss? loss) => loss switch
    {
        null => (-1, 0, 0),
        { Q: { } q } => (Parameter(part, CircuitQuantity.Q, q), 2 * Math.PI * loss.QFrequencyHz, 0),
        _ => (-1, 0, loss.SeriesResistanceOhm ?? 0),
    };

    private Element Make(Part part, int index)
    {
        switch (part)
        {
            case Resistor r:
                return new()
                {
                    Kind = ElementKind.Resistance,
                    Part = index,
                    A = Node(r.From),
                    B = Node(r.To),
                    Value = Parameter(index, CircuitQuantity.ResistanceOhm, r.Resistance),
                };
            case Inductor l:
                {
                    int value = Parameter(index, CircuitQuantity.InductanceH, l.Inductance);
                    (int q, double omega, double series) = Loss(index, l.Loss);
                    if (l.SelfCapacitanceF > 0)
                    {
                        _elements.Add(
                            new()
                            {
                                Kind = ElementKind.Capacitance,
                                Part = index,
                                A = Node(l.From),
                                B = Node(l.To),
                                Constant = l.SelfCapacitanceF,
                            });
                    }

                    return new()
                    {
                        Kind = ElementKind.Inductance,
                        Part = index,
                        A = Node(l.From),
                        B = Node(l.To),
                        Value = value,
                        Q = q,
                        QOmega = omega,
                        SeriesOhm = series,
                    };
                }

            case Capacitor c:
                {
                    int value = Parameter(index, CircuitQuantity.CapacitanceF, c.Capacitance);
                    (int q, double omega, double series) = Loss(index, c.Loss);
                    return new()
                    {
                        Kind = ElementKind.Capacitance,
                        Part = index,
                        A = Node(c.From),
                        B = Node(c.To),
                        Value = value,
                        Q = q,
                        QOmega = omega,
                        SeriesOhm = series,
                        SeriesHenry = c.SeriesInductanceH,
                    };
                }

            case Stub s:
                return new()
                {
                    Kind = ElementKind.Stub,
                    Part = index,
                    A = Node(s.From),
                    B = Node(s.To),
                    Value = Parameter(index, CircuitQuantity.LengthM, s.Length),
                    LineOhm = s.ImpedanceOhm,
                    Delay = 1 / (s.Velocity * PhysicalConstants.SpeedOfLight),
                    Loss = s.Loss,
                    Shorted = s.End == StubEnd.Short,
                };
            case Line line:
                return new()
                {
                    Kind = ElementKind.Line,
                    Part = index,
                    A = Node(line.From),
                    B = Node(line.FromReturn),
                    C = Node(line.To),
                    D = Node(line.ToReturn),
                    Value = Parameter(index, CircuitQuantity.LengthM, line.Length),
                    LineOhm = line.ImpedanceOhm,
                    Delay = 1 / (line.Velocity * PhysicalConstants.SpeedOfLight),
                    Loss = line.Loss,
                };
            case Transformer t:
                return new()
                {
                    Kind = ElementKind.Transformer,
                    Part = index,
                    A = Node(t.FirstFrom),
                    B = Node(t.FirstTo),
                    C = Node(t.SecondFrom),
                    D = Node(t.SecondTo),
                    FirstTurns = t.FirstTurns,
                    SecondTurns = t.SecondTurns,
                };
            case TwoPortBlock block:
                return new() { Kind = ElementKind.Block, Part = index, A = Node(block.From), C = Node(block.To), Source = block.Source };
            default:
                throw new ArgumentException($"A part of the kind {part.GetType().Name} is not known to the solver.", nameof(part));
        }
    }

    // Coupled inductors become one element each set; the rest stand as they are, in the order of the circuit.
    private void Group(Part[] parts, Element?[] made, Dictionary<string, int> couplingParameter)
    {
        foreach (int[] group in CouplingGroups.Find(Circuit))
        {
            List<(int, int, int)> couplings = [];
            foreach (Coupling coupling in parts.OfType<Coupling>())
            {
                int i = Array.FindIndex(group, g => parts[g].Name == coupling.First),
                j = Array.FindIndex(group, g => parts[g].Name == coupling.Second);
                if (i >= 0 && j >= 0)
                {
                    couplings.Add((i, j, couplingParameter[coupling.Name]));
                }
            }

            Element set = new()
            {
                Kind = ElementKind.Windings,
                Part = group[0],
                Windings = [.. group.Select(g => made[g]!)],
                Couplings = [.. couplings],
            };
            foreach (int g in group)
            {
                made[g] = null;
            }

            made[group[0]] = set;
        }

        _elements.AddRange(made.OfType<Element>());
    }
}
