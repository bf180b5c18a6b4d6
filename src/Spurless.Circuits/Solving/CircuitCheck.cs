using System.Globalization;
using Spurless.Circuits.Coils;
using Spurless.Circuits.Parts;
using Spurless.Radio.Quantities;

namespace Spurless.Circuits.Solving;

/// <summary>Finds what is wrong with a netlist before any number is computed: all of it, each fault with the parts involved.</summary>
public static class CircuitCheck
{
    /// <summary>The longest line that is analysed, in metres.</summary>
    public const double LongestLineM = 10e3;

    private const double ShortestLineM = 1e-6;
    private const double LeastVelocity = 0.01;

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
            CircuitJoints.Check(circuit, faults);
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
                faults.Add(
                    new(
                        CircuitFaultKind.DuplicateName,
                        [part.Name],
                        $"there are two parts named '{part.Name}'",
                        "give each part a name of its own"));
            }
        }
    }

    private static void Ends(Part part, List<CircuitFault> faults)
    {
        void OneNode(string node) => faults.Add(new(
            CircuitFaultKind.BothEndsOnOneNode,
            [part.Name],
            $"{part.Name} has both ends on node '{node}'",
            "connect it between two different nodes, or leave it out"));
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
                    CircuitFaultKind.BothEndsOnOneNode,
                    [part.Name],
                    $"{part.Name} has a port on ground, and its ports are against ground",
                    "connect it between two nodes that are not ground"));
                break;
        }
    }

    private static void Values(Part part, List<CircuitFault> faults)
    {
        void Bad(string what, string remedy) => faults.Add(new(CircuitFaultKind.BadValue, [part.Name], $"{part.Name} has {what}", remedy));
        void NotNegative(PartValue value, string name, SenseRange sense)
        {
            if (value.Value is < 0)
            {
                Bad($"a negative {name}", "write a value of at least 0");
            }
            else if (value.Value is { } number && !sense.Contains(number))
            {
                Bad($"a {name} beyond all sense", $"write one {sense.Words}");
            }
        }

        void Positive(double value, string name, double least, double greatest)
        {
            if (!(value > 0) || !double.IsFinite(value))
            {
                Bad($"{name} of {value.ToString(CultureInfo.InvariantCulture)}", "write a value above 0");
            }
            else if (value < least || value > greatest)
            {
                Bad(
                    $"{name} of {value.ToString(CultureInfo.InvariantCulture)}, beyond all sense",
                    string.Create(CultureInfo.InvariantCulture, $"write one from {least} to {greatest}"));
            }
        }

        void Velocity(double value)
        {
            if (value is not (>= LeastVelocity and <= 1))
            {
                Bad(
                    $"a velocity of {value.ToString(CultureInfo.InvariantCulture)}",
                    "write it as a fraction of that of light, from 0.01 to 1, such as 0.66");
            }
        }

        void Length(PartValue value)
        {
            if (value.Value is <= 0)
            {
                Bad("a length that is not above 0", "write a length above 0, or leave the line out");
            }
            else if (value.Value is { } metres && metres is not (>= ShortestLineM and <= LongestLineM))
            {
                Bad("a length beyond all sense", "write one from 1 um to 10 km");
            }
        }

        switch (part)
        {
            case Resistor r:
                NotNegative(r.Resistance, "resistance", Resistance.Range);
                break;
            case Inductor l:
                NotNegative(l.Inductance, "inductance", Inductance.Range);
                NotNegative(PartValue.Known(l.SelfCapacitanceF), "self-capacitance", Capacitance.Range);
                break;
            case Capacitor c:
                NotNegative(c.Capacitance, "capacitance", Capacitance.Range);
                NotNegative(PartValue.Known(c.SeriesInductanceH), "series inductance", Inductance.Range);
                break;
            case Coil coil when CoilCalculator.Refuse(new(coil.Turns, coil.DiameterM, coil.LengthM, coil.WireM, coil.LeadM)) is { } refusal:
                {
                    faults.Add(new(CircuitFaultKind.BadValue, [part.Name], $"{part.Name}: {refusal.What}", refusal.Remedy));
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
                Positive(t.FirstTurns, "turns", 1e-6, 1e6);
                Positive(t.SecondTurns, "turns", 1e-6, 1e6);
                break;
            case Line line:
                Positive(line.ImpedanceOhm, "an impedance", 1e-3, 1e6);
                Velocity(line.Velocity);
                Length(line.Length);
                break;
            case Stub stub:
                Positive(stub.ImpedanceOhm, "an impedance", 1e-3, 1e6);
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

            (string, string) pair = string.CompareOrdinal(coupling.First, coupling.Second) <= 0
                ? (coupling.First, coupling.Second)
                : (coupling.Second, coupling.First);
            if (coupling.First == coupling.Second)
            {
                faults.Add(
                    new(
                        CircuitFaultKind.BadCoupling,
                        [coupling.Name, coupling.First],
                        $"{coupling.Name} couples {coupling.First} with itself",
                        "name two different inductors"));
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
                faults.Add(
                    new(
                        CircuitFaultKind.ShortedPort,
                        [],
                        $"port '{name}' is on ground: a short across the port",
                        "put the port on a node that is not ground"));
            }
            else if (!circuit.Parts.Any(p => p.Nodes.Contains(port, StringComparer.Ordinal)))
            {
                faults.Add(
                    new(
                        CircuitFaultKind.PortsNotConnected,
                        [],
                        $"port '{name}' is on node '{port}', which no part touches",
                        "connect a part to it, or name the right node"));
            }
        }
    }
}
