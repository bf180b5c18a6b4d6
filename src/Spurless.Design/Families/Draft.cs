using System.Globalization;
using Spurless.Circuits.Parts;

namespace Spurless.Design.Families;

/// <summary>Puts a circuit together, naming parts L1, C1, ... and nodes a, b, ... in the order in which they come.</summary>
internal sealed class Draft(double impedanceOhm)
{
    private readonly List<Part> _parts = [];
    private readonly List<TuningSpot> _spots = [];
    private readonly Dictionary<char, int> _counts = [];
    private int _nodes;

    /// <summary>A node of its own.</summary>
    public string Node() => _nodes < 6 ? ((char)('a' + _nodes++)).ToString() : string.Create(CultureInfo.InvariantCulture, $"n{++_nodes}");

    public string Capacitor(string from, string to, double farads)
    {
        string name = Name('C');
        _parts.Add(new Capacitor { Name = name, From = from, To = to, Capacitance = PartValue.Known(farads) });
        return name;
    }

    public string Inductor(string from, string to, double henries)
    {
        string name = Name('L');
        _parts.Add(new Inductor { Name = name, From = from, To = to, Inductance = PartValue.Known(henries) });
        return name;
    }

    public string Resistor(string from, string to, double ohms)
    {
        string name = Name('R');
        _parts.Add(new Resistor { Name = name, From = from, To = to, Resistance = PartValue.Known(ohms) });
        return name;
    }

    public string Coupling(string first, string second, double coefficient)
    {
        string name = "M" + first[1..] + second[1..];
        _parts.Add(new Coupling { Name = name, First = first, Second = second, Coefficient = PartValue.Known(coefficient) });
        return name;
    }

    public string Stub(string node, double ohms, double metres, double velocity, LineLoss loss, StubEnd end)
    {
        string name = Name('W');
        _parts.Add(new Stub
        {
            Name = name,
            From = node,
            To = Circuit.Ground,
            ImpedanceOhm = ohms,
            Length = PartValue.Known(metres),
            Velocity = velocity,
            Loss = loss,
            End = end,
        });
        return name;
    }

    public string Line(string from, string to, double ohms, double metres, double velocity, LineLoss loss)
    {
        string name = Name('W');
        _parts.Add(new Line
        {
            Name = name,
            From = from,
            To = to,
            ImpedanceOhm = ohms,
            Length = PartValue.Known(metres),
            Velocity = velocity,
            Loss = loss,
        });
        return name;
    }

    public void Spot(TuningKind kind, string node, string? capacitor, string? coil, double? notchHz = null) =>
        _spots.Add(new(kind, node, capacitor, coil, notchHz));

    public Blueprint Done(string family, string portIn, string portOut) => new(
        family, new Circuit { Name = family, PortIn = portIn, PortOut = portOut, ImpedanceOhm = impedanceOhm, Parts = [.. _parts] },
            [.. _spots]);

    private string Name(char kind)
    {
        int number = _counts.GetValueOrDefault(kind) + 1;
        _counts[kind] = number;
        return string.Create(CultureInfo.InvariantCulture, $"{kind}{number}");
    }
}
