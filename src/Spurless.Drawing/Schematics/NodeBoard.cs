using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Schematics;

/// <summary>
/// A circuit that is being built, drawn on its nodes: they stand in a row over ground, each can be picked, and what joins two of them hangs
/// between, whatever is still missing. Unlike <see cref="SchematicScene"/> it draws any circuit, and no node moves when a part comes in
/// between two others.
/// </summary>
public static class NodeBoard
{
    private const double Arm = 74;
    private const double Level = 50;
    private const double Aside = 30;
    private const double Gap = 24;

    /// <summary>Draws it.</summary>
    /// <param name="circuit">The parts.</param>
    /// <param name="nodes">The nodes from left to right, ground left out.</param>
    /// <param name="free">A node that is not in use yet, offered at the end; null for none.</param>
    /// <param name="selected">Name of the selected part; null for none.</param>
    /// <param name="picked">The picked node; null for none.</param>
    public static Scene Draw(Circuit circuit, IReadOnlyList<string> nodes, string? free, string? selected, string? picked)
    {
        ArgumentNullException.ThrowIfNull(circuit);
        ArgumentNullException.ThrowIfNull(nodes);
        Sketch sketch = new(selected);

        // As wide as the words beside the parts need, as in the schematic.
        double said = circuit.Parts
            .Select(static p => Math.Max(TextWidth.Of(p.Name, 13, true), TextWidth.Of(PartWords.Value(p), 11))).DefaultIfEmpty(0).Max();
        double room = Math.Clamp(said + 6, 36, 108);
        double armWidth = room + 20;
        double apart = Math.Clamp(said + 14, 52, 120);
        List<(Part Part, string From, string To)> all = [.. circuit.Parts.SelectMany(Ends)];
        Dictionary<string, (double X, double Width)> places = [];
        double x = 40;
        foreach (string node in nodes)
        {
            int arms = all.Count(p => IsArm(p, node));
            double width = arms == 0 ? 24 : Aside + (arms * armWidth);
            places[node] = (x, width);
            // What leads on to the next node has the room over the arms too.
            x += Math.Max(width + Gap, 24 + apart);
        }

        double end = x;

        List<(Part Part, double Left, double Right, int Row)> spans = Spans(all, places);
        double rail = 58 + (spans.Count == 0 ? 0 : (spans.Max(static s => s.Row) * Level) + 10);
        double ground = rail + Arm + 26;
        foreach ((Part part, double left, double right, int row) in spans)
        {
            double y = rail - 14 - (row * Level);
            sketch.Wire(left, rail, left, y);
            sketch.Wire(right, rail, right, y);
            sketch.Along(left, (left + right) / 2, right, y, part);
        }

        foreach (string node in nodes)
        {
            double at = places[node].X;
            double arm = at + Aside;
            double before = at;
            foreach ((Part part, string _, string _) in all.Where(p => IsArm(p, node)))
            {
                sketch.Wire(before, rail, arm, rail);
                before = arm;
                bool open = part is Stub { End: StubEnd.Open };
                sketch.Down(arm, rail + 26, rail + 26 + Arm, part, room, open);
                sketch.Wire(arm, rail, arm, rail + 26);
                if (!open)
                {
                    sketch.Ground(arm, ground);
                }

                arm += armWidth;
            }
        }

        // Nodes last: they lie over the wires.
        foreach (string node in nodes)
        {
            string words = node == circuit.PortIn ? $"in: {node}" : node == circuit.PortOut ? $"out: {node}" : node;
            Named(sketch, places[node].X, rail, node, words, picked);
        }

        if (free is not null)
        {
            Named(sketch, end, rail, free, $"new: {free}", picked);
        }

        // Under the free node, so that both are in view without scrolling.
        sketch.PickNode(end, ground - 20, Circuit.Ground, "ground", Circuit.Ground == picked, beside: true);
        sketch.Wire(end, ground - 15, end, ground);
        sketch.Ground(end, ground);
        string[] told =
        [
            .. circuit.Parts.Where(p => p is Coupling || !all.Any(a => a.Part == p && a.From != a.To)).Select(static p =>
                $"{p.Name}: {PartWords.Kind(p)} {PartWords.Value(p)}, {PartWords.Where(p)}"),
        ];
        for (int i = 0; i < told.Length; i++)
        {
            sketch.Say(20, ground + 30 + (i * 16), told[i]);
        }

        return Told(circuit, nodes, free, selected, sketch, Math.Max(end + 60, 340), ground + 22 + (told.Length * 16));
    }

    private static Scene Told(
        Circuit circuit, IReadOnlyList<string> nodes, string? free, string? selected, Sketch sketch, double width, double height) => new()
        {
            Width = width,
            Height = height,
            Title = $"Nodes and parts of {circuit.Name}",
            Description = string.Create(CultureInfo.InvariantCulture, $"{nodes.Count} nodes, {circuit.Parts.Count} parts: ")
            + string.Join("; ", circuit.Parts.Select(static p =>
                $"{p.Name}, {PartWords.Kind(p)}, {PartWords.Value(p)}, {PartWords.Where(p)}")) + ".",
            Items = sketch.Items,
            Selected = selected is null ? null : "part " + selected,
            TargetNames = circuit.Parts.Select(static p => ("part " + p.Name, $"{PartWords.Kind(p)} {p.Name}, {PartWords.Value(p)}"))
            .Concat(nodes.Append(Circuit.Ground).Concat(free is null ? [] : [free]).Distinct().Select(static n => ("node "
                + n, n == Circuit.Ground ? "node ground" : "node " + n)))
            .DistinctBy(static t => t.Item1).ToDictionary(static t => t.Item1, static t => t.Item2),
        };

    // What leads from node to node: the shortest lowest, none over another.
    private static List<(Part Part, double Left, double Right, int Row)> Spans(
        List<(Part Part, string From, string To)> all, Dictionary<string, (double X, double Width)> places)
    {
        List<(Part Part, double Left, double Right, int Row)> spans = [];
        foreach ((Part part, double left, double right) in all.Where(p => places.ContainsKey(p.From) && places.ContainsKey(p.To)
            && p.From != p.To)
            .Select(p => (p.Part, Math.Min(places[p.From].X, places[p.To].X), Math.Max(places[p.From].X, places[p.To].X)))
                .OrderBy(static p => p.Item3 - p.Item2))
        {
            int row = 0;
            while (spans.Any(s => s.Row == row && s.Left < right && left < s.Right))
            {
                row++;
            }

            spans.Add((part, left, right, row));
        }

        return spans;
    }

    private static bool IsArm((Part Part, string From, string To) part, string node) =>
        (part.From == node && part.To == Circuit.Ground) || (part.To == node && part.From == Circuit.Ground);

    private static IEnumerable<(Part, string, string)> Ends(Part part) => part switch
    {
        TwoTerminalPart two => [(part, two.From, two.To)],
        Line line => [(part, line.From, line.To)],
        TwoPortBlock block => [(part, block.From, block.To)],
        Transformer t => [(part, Live(t.FirstFrom, t.FirstTo), Live(t.SecondFrom, t.SecondTo))],
        _ => [],
    };

    private static string Live(string a, string b) => a == Circuit.Ground ? b : a;

    private static void Named(Sketch sketch, double x, double y, string node, string words, string? picked) =>
        sketch.PickNode(x, y, node, words, node == picked);
}
