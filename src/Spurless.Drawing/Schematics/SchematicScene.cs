using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Schematics;

/// <summary>
/// Draws a circuit's schematic: series arms along the top, shunt arms down, blocks that lead over others above the top, symbols after IEC
/// 60617 (drawn from memory of the standard), name bold and value under it. Couplings are dashed: an arc over a gap of the top, else a line
/// under the arms.
/// </summary>
public static class SchematicScene
{
    /// <summary>Draws it; null for a circuit that cannot be laid out so, whose parts are then listed in words.</summary>
    /// <param name="circuit">The circuit.</param>
    /// <param name="selected">Name of a part to draw as selected; null for none.</param>
    public static Scene? Draw(Circuit circuit, string? selected = null) =>
        CircuitPlan.Of(circuit) is { } plan ? Draw(plan, circuit, selected) : null;

    /// <summary>The same with the layout at hand: where only values moved, it need not be sought again.</summary>
    internal static Scene Draw(CircuitPlan plan, Circuit circuit, string? selected)
    {
        Sketch sketch = new(selected);
        PlanLayout layout = new(plan, circuit, sketch);
        layout.Draw();
        return new Scene
        {
            Width = Math.Max(layout.Width, 200),
            Height = layout.Height,
            Title = $"Schematic of {circuit.Name}",
            Description = string.Create(CultureInfo.InvariantCulture, $"{circuit.Parts.Count} parts: ")
                + string.Join(
                    "; ", circuit.Parts.Select(static p => $"{p.Name}, {PartWords.Kind(p)}, {PartWords.Value(p)}, {PartWords.Where(p)}"))
                    + ".",
            Items = sketch.Items,
            Selected = selected is null ? null : "part " + selected,
            TargetNames = circuit.Parts.ToDictionary(
                static p => "part " + p.Name, static p => $"{PartWords.Kind(p)} {p.Name}, {PartWords.Value(p)}"),
        };
    }
}
