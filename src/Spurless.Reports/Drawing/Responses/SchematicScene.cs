using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Reports.Plotting;

namespace Spurless.Reports.Drawing.Responses;

/// <summary>
/// Draws a ladder's schematic: series arms along the top, shunt arms down, symbols after IEC 60617 (drawn from memory of the standard),
/// name bold and value under it.
/// </summary>
public static class SchematicScene
{
    private const double Top = 74;
    private const double Arm = 74;

    /// <summary>Draws it; null for a circuit that is no ladder, whose parts are then listed in words.</summary>
    /// <param name="circuit">The circuit.</param>
    /// <param name="selected">Name of a part to draw as selected; null for none.</param>
    public static Scene? Draw(Circuit circuit, string? selected = null)
    {
        if (Ladder.Of(circuit) is not { } ladder)
        {
            return null;
        }

        int rows = Math.Max(1, ladder.Series.Select(static s => s.Count).DefaultIfEmpty(1).Max());
        int depth = Math.Max(1, ladder.Shunts.SelectMany(static s => s).Select(static a => a.Count).DefaultIfEmpty(1).Max());
        // As wide as the words beside the parts need, so that a three-resonator filter fits a page.
        double words = circuit.Parts.Select(static p => Math.Max(TextWidth.Of(p.Name, 13, true), TextWidth.Of(PartWords.Value(p), 11))).DefaultIfEmpty(0).Max();
        double shuntWidth = Math.Clamp(words + 30, 60, 130);
        double seriesWidth = Math.Clamp(words + 12, 62, 130);
        double rail = Top + ((rows - 1) * 52);
        Sketch sketch = new(selected);
        double x = 40;
        double bottom = rail;
        sketch.Port(x - 22, rail, "in", circuit.ImpedanceOhm, TextAnchor.Start);
        sketch.Wire(x - 18, rail, x, rail);
        for (int n = 0; n < ladder.Nodes.Count; n++)
        {
            var arms = ladder.Shunts[n];
            double width = arms.Count == 0 ? 0 : (arms.Count - 1) * shuntWidth;
            double left = x + (arms.Count == 0 ? 0 : 14);
            for (int a = 0; a < arms.Count; a++)
            {
                bottom = Math.Max(bottom, DrawArm(sketch, left + (a * shuntWidth), rail, arms[a], depth, shuntWidth - 22));
            }

            if (arms.Count > 0)
            {
                sketch.Wire(x, rail, left + width, rail);
                for (int a = 0; a < arms.Count; a++)
                {
                    sketch.Node(left + (a * shuntWidth), rail);
                }

                x = left + width + 14;
                sketch.Wire(left + width, rail, x, rail);
            }

            if (n < ladder.Series.Count)
            {
                double room = n > 0 && n < ladder.Series.Count - 1 ? seriesWidth + 26 : seriesWidth;
                DrawSeries(sketch, x, rail, room, ladder.Series[n]);
                x += room;
            }
        }

        sketch.Wire(x, rail, x + 18, rail);
        sketch.Port(x + 22, rail, "out", circuit.ImpedanceOhm, TextAnchor.End);
        double height = bottom + 20;
        foreach (Coupling coupling in ladder.Couplings)
        {
            sketch.Say(0, height, $"{coupling.Name}: {coupling.First} and {coupling.Second} couple, k = {PartWords.Value(coupling)}");
            height += 16;
        }

        return new Scene
        {
            Width = Math.Max(x + 42, 200),
            Height = height,
            Title = $"Schematic of {circuit.Name}",
            Description = string.Create(CultureInfo.InvariantCulture, $"{circuit.Parts.Count} parts: ")
                + string.Join("; ", circuit.Parts.Select(static p => $"{p.Name}, {PartWords.Kind(p)}, {PartWords.Value(p)}, {PartWords.Where(p)}")) + ".",
            Items = sketch.Items,
            Selected = selected is null ? null : "part " + selected,
            TargetNames = circuit.Parts.ToDictionary(static p => "part " + p.Name, static p => $"{PartWords.Kind(p)} {p.Name}, {PartWords.Value(p)}"),
        };
    }

    private static void DrawSeries(Sketch sketch, double x, double rail, double width, IReadOnlyList<Part> parts)
    {
        for (int i = 0; i < parts.Count; i++)
        {
            double y = rail - (i * 52);
            double left = x + (parts.Count > 1 ? 6 : 0);
            double right = x + width - (parts.Count > 1 ? 6 : 0);
            double middle = (left + right) / 2;
            if (i > 0)
            {
                sketch.Wire(left, y, left, y + 52);
                sketch.Wire(right, y, right, y + 52);
            }

            sketch.Along(left, middle, right, y, parts[i]);
        }

        if (parts.Count > 1)
        {
            sketch.Wire(x, rail, x + 6, rail);
            sketch.Wire(x + width - 6, rail, x + width, rail);
            sketch.Node(x + 6, rail);
            sketch.Node(x + width - 6, rail);
        }
    }

    private static double DrawArm(Sketch sketch, double x, double rail, IReadOnlyList<Part> parts, int depth, double room)
    {
        double y = rail;
        foreach (Part part in parts)
        {
            sketch.Down(x, y, y + Arm, part, room);
            y += Arm;
        }

        double ground = rail + (depth * Arm);
        sketch.Wire(x, y, x, ground);
        sketch.Ground(x, ground);
        return ground + 14;
    }
}
