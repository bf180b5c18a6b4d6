using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;

namespace Spurless.Fit;

/// <summary>Puts found values into a circuit.</summary>
internal static class FittedCircuit
{
    /// <summary>The circuit with the values.</summary>
    public static Circuit Of(Circuit circuit, IReadOnlyList<FittedValue> values) =>
        With(circuit, values.Select(static v => (v.Part, v.Quantity, v.Value)));

    /// <summary>The circuit with some numbers changed.</summary>
    public static Circuit With(Circuit circuit, IEnumerable<(string Part, CircuitQuantity Quantity, double Value)> values)
    {
        ILookup<string, (string Part, CircuitQuantity Quantity, double Value)> byPart = values.ToLookup(
            static v => v.Part, StringComparer.Ordinal);
        return circuit with
        {
            Parts = [.. circuit.Parts.Select(p => byPart[p.Name].Aggregate(p, static (part, v) => With(part, v.Quantity, v.Value)))],
        };
    }

    /// <summary>The circuit with series inductances of some capacitors.</summary>
    public static Circuit WithLeads(Circuit circuit, IEnumerable<(string Capacitor, double Henries)> leads)
    {
        Dictionary<string, double> by = leads.ToDictionary(static l => l.Capacitor, static l => l.Henries, StringComparer.Ordinal);
        return circuit with
        {
            Parts = [.. circuit.Parts.Select(p => p is Capacitor c && by.TryGetValue(c.Name, out double henries)
            ? c with { SeriesInductanceH = henries } : p)]
        };
    }

    private static Part With(Part part, CircuitQuantity quantity, double value)
    {
        PartValue known = PartValue.Known(value);
        return (part, quantity) switch
        {
            (Resistor r, CircuitQuantity.ResistanceOhm) => r with { Resistance = known },
            (Inductor l, CircuitQuantity.InductanceH) => l with { Inductance = known },
            (Capacitor c, CircuitQuantity.CapacitanceF) => c with { Capacitance = known },
            (Coupling k, CircuitQuantity.Coupling) => k with { Coefficient = known },
            (Line line, CircuitQuantity.LengthM) => line with { Length = known },
            (Stub stub, CircuitQuantity.LengthM) => stub with { Length = known },
            (Inductor { Loss: { Q: { } } loss } l, CircuitQuantity.Q) => l with { Loss = PartLoss.QualityFactor(value, loss.QFrequencyHz) },
            (Capacitor { Loss: { Q: { } } loss } c, CircuitQuantity.Q) =>
                c with { Loss = PartLoss.QualityFactor(value, loss.QFrequencyHz) },
            _ => part,
        };
    }
}
