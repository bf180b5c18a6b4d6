using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Reports.Plotting;

namespace Spurless.Reports.Drawing.Responses;

/// <summary>Draws symbols and wires of a schematic into a list. Symbols after IEC 60617, from memory of the standard.</summary>
internal sealed class Sketch(string? selected)
{
    private const double Half = 16;

    public List<SceneItem> Items { get; } = [];

    public void Wire(double x1, double y1, double x2, double y2)
    {
        if (x1 != x2 || y1 != y2)
        {
            Items.Add(new ScenePath("wire", SvgPath.Segment(x1, y1, x2, y2)));
        }
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

    public void Ground(double x, double y)
    {
        Items.Add(new ScenePath("wire", new SvgPath().Move(x - 9, y).Line(x + 9, y).Move(x - 5.5, y + 4).Line(x + 5.5, y + 4).Move(x - 2, y + 8).Line(x + 2, y + 8).ToString()));
    }

    /// <summary>A part along the top, name and value over it.</summary>
    public void Along(double left, double middle, double right, double y, Part part)
    {
        double half = HalfLength(part);
        Wire(left, y, middle - half, y);
        Wire(middle + half, y, right, y);
        Symbol(part, (along, across) => new PlotPoint(middle + along, y + across), half);
        Label(middle, y - 30, TextAnchor.Middle, part, right - left - 2);
    }

    /// <summary>A part down an arm, name and value to its right.</summary>
    public void Down(double x, double top, double bottom, Part part, double room)
    {
        double half = HalfLength(part);
        double middle = (top + bottom) / 2;
        Wire(x, top, x, middle - half);
        Wire(x, middle + half, x, bottom);
        Symbol(part, (along, across) => new PlotPoint(x - across, middle + along), half);
        Label(x + 14, middle - 2, TextAnchor.Start, part, room);
    }

    private static double HalfLength(Part part) => part is Capacitor ? 2.8 : part is TwoPortBlock or Line or Stub ? 20 : Half;

    private void Symbol(Part part, Func<double, double, PlotPoint> at, double half)
    {
        string style = part.Name == selected ? "wire picked" : "wire";
        string target = "part " + part.Name;
        void Line(params (double Along, double Across)[] points) =>
            Items.Add(new ScenePath(style, new SvgPath().Through([.. points.Select(p => at(p.Along, p.Across))]).ToString()) { Target = target });
        void Box(string look, double across) =>
            Items.Add(new ScenePath(look, new SvgPath().Through([at(-half, -across), at(half, -across), at(half, across), at(-half, across)]).Close().ToString()) { Target = target });
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
            case Stub stub:
                Box("plate", 4.5);
                if (stub.End == StubEnd.Open)
                {
                    Line((-half, 9), (half, 9));
                }

                break;
            default:
                Box("plate", 12);
                break;
        }
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

    private void Label(double x, double y, TextAnchor anchor, Part part, double room)
    {
        string style = part.Name == selected ? "picked-text" : "ink";
        Items.Add(new SceneText(style, x, y, TextWidth.Fit(part.Name, room, 13, true), anchor, 13, true));
        Items.Add(new SceneText("", x, y + 13, TextWidth.Fit(PartWords.Value(part), room, 11), anchor));
    }
}
