using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Schematics;

/// <summary>Draws symbols and wires of a schematic into a list. Symbols after IEC 60617, from memory of the standard.</summary>
internal sealed class Sketch(string? selected)
{
    private const double Half = 16;

    public List<SceneItem> Items { get; } = [];

    /// <summary>Where each part came to stand, and whether it is drawn from top to bottom.</summary>
    public Dictionary<string, (PlotPoint At, bool Down)> Placed { get; } = [];

    public void Wire(double x1, double y1, double x2, double y2)
    {
        if (x1 != x2 || y1 != y2)
        {
            Items.Add(new ScenePath("wire", SvgPath.Segment(x1, y1, x2, y2)));
        }
    }

    /// <summary>A node that can be picked, with its name under it.</summary>
    public void PickNode(double x, double y, string name, string words, bool picked, bool beside = false)
    {
        string target = "node " + name;
        Items.Add(new SceneCircle(picked ? "m on ink picked" : "plate", x, y, 5) { Target = target, Middle = (x, y) });
        SceneText text = new(picked ? "picked-text" : "ink", x, y + 21, words, TextAnchor.Middle, 13) { Target = target };
        Items.Add(beside ? text.At(x + 10, y + 4, TextAnchor.Start) : text);
    }

    public void Node(double x, double y) => Items.Add(new SceneCircle("node", x, y, 2.6));

    public void Say(double x, double y, string text) => Items.Add(new SceneText("", x, y, text));

    public void Port(double x, double y, string name, double ohm, TextAnchor anchor)
    {
        Items.Add(new SceneCircle("plate", x, y, 3.4));
        double at = anchor == TextAnchor.Start ? x - 6 : x + 6;
        Items.Add(new SceneText("ink", at, y - 10, name, anchor, 13, true));
        Items.Add(new SceneText("", at, y + 19, string.Create(CultureInfo.InvariantCulture, $"{ohm:0.##} \u03A9"), anchor));
    }

    public void Ground(double x, double y, bool up = false)
    {
        double step = up ? -4 : 4;
        Items.Add(
            new ScenePath(
                "wire",
                new SvgPath()
                    .Move(x - 9, y)
                    .Line(x + 9, y)
                    .Move(x - 5.5, y + step)
                    .Line(x + 5.5, y + step)
                    .Move(x - 2, y + (2 * step))
                    .Line(x + 2, y + (2 * step))
                    .ToString()));
    }

    /// <summary>
    /// An ideal transformer: two windings that face each other, a dot at the end of like polarity of each, two lines for the core.
    /// </summary>
    /// <param name="left">x of the left winding.</param>
    /// <param name="right">x of the right winding.</param>
    /// <param name="top">Where the windings begin.</param>
    /// <param name="bottom">Ground.</param>
    /// <param name="height">Height of an arm.</param>
    /// <param name="part">The transformer.</param>
    /// <param name="forward">Whether its first winding stands on the left.</param>
    public void Windings(double left, double right, double top, double bottom, double height, Transformer part, bool forward)
    {
        double middle = top + (height / 2);
        string style = part.Name == selected ? "wire picked" : "wire";
        string target = "part " + part.Name;
        foreach ((double x, int facing, string from) in (ReadOnlySpan<(double, int, string)>)
        [
            (left, -1, forward ? part.FirstFrom : part.SecondFrom), (right, 1, forward ? part.SecondFrom : part.FirstFrom),
        ])
        {
            Wire(x, top, x, middle - Half);
            Wire(x, middle + Half, x, bottom);
            Items.Add(
                new ScenePath(style, Turns((along, across) => new PlotPoint(x + (facing * across), middle + along), Half))
                {
                    Target = target,
                });
            bool atTop = from != Circuit.Ground;
            Items.Add(new SceneCircle("node", x - (facing * 6), middle + (atTop ? -Half - 3 : Half + 3), 1.8));
        }

        double centre = (left + right) / 2;
        Items.Add(
            new ScenePath(
                "wire",
                new SvgPath()
                    .Move(centre - 2, middle - Half)
                    .Line(centre - 2, middle + Half)
                    .Move(centre + 2, middle - Half)
                    .Line(centre + 2, middle + Half)
                    .ToString()));
        string turns = forward
            ? PartWords.Value(part)
            : string.Create(CultureInfo.InvariantCulture, $"{part.SecondTurns:0.##} : {part.FirstTurns:0.##}");
        Label(centre, top - 30, TextAnchor.Middle, part, right - left + 30, turns);
    }

    /// <summary>A coupling over a gap of the top: a dashed arc from coil to coil, its name and figure in the gap.</summary>
    public void CouplingArc(PlotPoint left, PlotPoint right, double rail, double middle, Coupling coupling, string says)
    {
        string target = "part " + coupling.Name;
        bool picked = coupling.Name == selected;
        Items.Add(new ScenePath(picked ? "couple picked" : "couple", new SvgPath()
            .Move(left.X + 7, left.Y - 13).Curve(left.X + 12, rail + 4, right.X - 12, rail + 4, right.X - 7, right.Y - 13).ToString())
        { Target = target });
        Items.Add(new SceneText(picked ? "picked-text" : "ink", middle, rail - 16, coupling.Name, TextAnchor.Middle, 13,
            true)
        { Target = target });
        Items.Add(new SceneText("", middle, rail - 3, says, TextAnchor.Middle) { Target = target });
    }

    /// <summary>
    /// A coupling of coils that do not face each other over a gap: a dashed line from beside one coil under the arms to beside the other.
    /// </summary>
    public void CouplingLine(PlotPoint left, PlotPoint right, double y, Coupling coupling, string says)
    {
        bool picked = coupling.Name == selected;
        Items.Add(new ScenePath(picked ? "couple picked" : "couple", new SvgPath()
            .Move(left.X - 5, left.Y)
                .Line(left.X - 13, left.Y)
                .Line(left.X - 13, y)
                .Line(right.X - 13, y)
                .Line(right.X - 13, right.Y)
                .Line(right.X - 5, right.Y)
                .ToString())
        { Target = "part " + coupling.Name });
        Items.Add(
            new SceneText(
                (picked ? "picked-text" : "ink") + " halo",
                ((left.X + right.X) / 2) - 13,
                y + 4,
                $"{coupling.Name}, {says}",
                TextAnchor.Middle)
            { Target = "part " + coupling.Name });
    }

    /// <summary>A part along the top, name and value over it.</summary>
    public void Along(double left, double middle, double right, double y, Part part)
    {
        double half = HalfLength(part);
        Wire(left, y, middle - half, y);
        Wire(middle + half, y, right, y);
        Symbol(part, (along, across) => new PlotPoint(middle + along, y + across), half);
        Placed[part.Name] = (new PlotPoint(middle, y), false);
        Label(middle, y - 30, TextAnchor.Middle, part, right - left - 2);
    }

    /// <summary>A part down an arm, name and value to its right; an open stub ends in nothing.</summary>
    public void Down(double x, double top, double bottom, Part part, double room, bool open = false)
    {
        double half = HalfLength(part);
        double middle = (top + bottom) / 2;
        Wire(x, top, x, middle - half);
        if (!open)
        {
            Wire(x, middle + half, x, bottom);
        }

        Symbol(part, (along, across) => new PlotPoint(x - across, middle + along), half);
        Placed[part.Name] = (new PlotPoint(x, middle), true);
        Label(x + 14, middle - 2, TextAnchor.Start, part, room);
    }

    private static double HalfLength(Part part) => part is Capacitor ? 2.8 : part is TwoPortBlock or Line or Stub ? 20 : Half;

    private void Symbol(Part part, Func<double, double, PlotPoint> at, double half)
    {
        string style = part.Name == selected ? "wire picked" : "wire";
        string target = "part " + part.Name;
        PlotPoint one = at(-half - 6, -13), other = at(half + 6, 13);
        PlotBox reach = new(Math.Min(one.X, other.X), Math.Min(one.Y, other.Y), Math.Max(one.X, other.X), Math.Max(one.Y, other.Y));
        int first = Items.Count;
        void Line(params (double Along, double Across)[] points) =>
            Items.Add(
                new ScenePath(style, new SvgPath().Through([.. points.Select(p => at(p.Along, p.Across))]).ToString()) { Target = target });
        void Box(string look, double across)
        {
            SvgPath box = new SvgPath().Through([at(-half, -across), at(half, -across), at(half, across), at(-half, across)]).Close();
            Items.Add(new ScenePath(look, box.ToString()) { Target = target });
        }

        switch (part)
        {
            case Capacitor:
                Line((-half, -9), (-half, 9));
                Line((half, -9), (half, 9));
                break;
            case Inductor or Coil:
                Items.Add(new ScenePath(style, Turns(at, half)) { Target = target });
                break;
            case Resistor:
                Box("plate", 5.5);
                break;
            case Spurless.Circuits.Parts.Line:
                Box("plate", 4.5);
                break;
            case Stub:
                Box("plate", 4.5);
                break;
            default:
                Box("plate", 12);
                break;
        }

        Items[first] = Items[first] with { Reach = reach };
    }

    /// <summary>Four half circles on one side of the wire.</summary>
    private static string Turns(Func<double, double, PlotPoint> at, double half)
    {
        SvgPath path = new();
        PlotPoint start = at(-half, 0);
        path.Move(start.X, start.Y);
        double step = half / 2;
        for (int i = 0; i < 4; i++)
        {
            double from = -half + (i * step);
            PlotPoint a = at(from, -step * 0.66);
            PlotPoint b = at(from + step, -step * 0.66);
            PlotPoint end = at(from + step, 0);
            path.Curve(a.X, a.Y, b.X, b.Y, end.X, end.Y);
        }

        return path.ToString();
    }

    private void Label(double x, double y, TextAnchor anchor, Part part, double room, string? value = null)
    {
        string style = part.Name == selected ? "picked-text" : "ink";
        SceneText name = new(style, x, y, TextWidth.Fit(part.Name, room, 13, true), anchor, 13, true) { Target = "part " + part.Name };
        SceneText figure = new("", x, y + 13, TextWidth.Fit(value ?? PartWords.Value(part), room, 11), anchor) { Target = name.Target };
        PlotBox box = new(
            Math.Min(name.Box.Left, figure.Box.Left) - 3, name.Box.Top - 2, Math.Max(name.Box.Right, figure.Box.Right)
                + 3, figure.Box.Bottom + 2);
        Items.Add(name with { Reach = box });
        Items.Add(figure);
    }
}
