using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Schematics;
using Spurless.Tests.Common;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Schematics;

/// <summary>
/// A schematic read as a person reads it: wires that touch are one node, a symbol joins the wires at its ends, all grounds are one. What
/// is read off the drawing is the circuit.
/// </summary>
public sealed class SchematicNetlistTests
{
    private const double Near = 0.16; // coordinates have one decimal

    private static readonly Gen<int[]> _shape = Gen.Int[0, 5].Array[4, 40];

    [Fact]
    public void Drawing_of_any_ladder_reads_back_to_its_circuit() => Gen.Select(Gen.Int[2, 6], _shape).Sample(
        static (nodes, shape) =>
        {
            Circuit circuit = Ladder(nodes, shape);
            Scene? scene = SchematicScene.Draw(circuit);
            Assert.NotNull(scene);
            SceneChecks.NoTextMeetsAnother(scene);
            SceneChecks.AllInside(scene);
            Assert.Equal(NetsOf(circuit), NetsOf(scene, circuit));
        },
        iter: 150);

    [Theory]
    [InlineData("ladder")]
    [InlineData("traps in shunt and series")]
    [InlineData("notch by a tank under a capacitor")]
    [InlineData("tanks with a capacitor over the middle one")]
    [InlineData("bridged T")]
    [InlineData("twin T")]
    public void Drawing_of_a_usual_circuit_reads_back_to_it(string name)
    {
        Circuit circuit = Topologies.Of(name);
        Assert.Equal(NetsOf(circuit), NetsOf(SchematicScene.Draw(circuit)!, circuit));
    }

    [Fact]
    public void Reading_a_drawing_of_another_circuit_tells_them_apart()
    {
        // The reader of these tests is no rubber stamp: a part that moved to another node is another circuit.
        Circuit circuit = Topologies.Of("ladder");
        Circuit moved = circuit with
        {
            Parts = [.. circuit.Parts.Select(static p => p is Inductor l ? l with { From = "a" } : p)],
        };
        Assert.NotEqual(NetsOf(moved), NetsOf(SchematicScene.Draw(circuit)!, circuit));
    }

    // Of every node the names of what hangs on it; nodes in order of these.
    private static string[] NetsOf(Circuit circuit)
    {
        Dictionary<string, List<string>> nets = new(StringComparer.Ordinal);
        void Add(string node, string what) => (nets.TryGetValue(node, out List<string>? on) ? on : nets[node] = []).Add(what);
        foreach (TwoTerminalPart part in circuit.Parts.Cast<TwoTerminalPart>())
        {
            Add(part.From, part.Name);
            Add(part.To, part.Name);
        }

        Add(circuit.PortIn, "<in>");
        Add(circuit.PortOut, "<out>");
        if (nets.TryGetValue(Circuit.Ground, out List<string>? ground))
        {
            ground.Add("<ground>");
        }

        return Sorted(nets.Values);
    }

    private static string[] NetsOf(Scene scene, Circuit circuit)
    {
        List<(PlotPoint From, PlotPoint To)> wires = [];
        List<(PlotPoint At, string What)> points = [];
        foreach (ScenePath path in scene.Items.OfType<ScenePath>().Where(static p => p.Target is null && SceneGeometry.Wears(p, "wire")))
        {
            (PlotPoint From, PlotPoint To)[] strokes = [.. SceneGeometry.Stretches(path)];
            if (strokes.Length == 3 && path.Data.Count(static c => c == 'M') == 3)
            {
                // Three strokes, one shorter than the other: ground, joined in the middle of the longest.
                points.Add((new PlotPoint((strokes[0].From.X + strokes[0].To.X) / 2, strokes[0].From.Y), "<ground>"));
            }
            else
            {
                wires.AddRange(strokes);
            }
        }

        PlotPoint[] ends = [.. wires.SelectMany(static w => (PlotPoint[])[w.From, w.To])];
        foreach (Part part in circuit.Parts)
        {
            PlotBox box = BoxOf(scene, "part " + part.Name);
            PlotPoint[] joined = [.. ends.Where(e => OnEdge(box, e)).Distinct()];
            Assert.True(joined.Length == 2, $"{part.Name} at {box} has {joined.Length} wires");
            points.AddRange(joined.Select(p => (p, part.Name)));
        }

        SceneCircle[] ports = [.. scene.Items.OfType<SceneCircle>().Where(static c => c is { Class: "plate", Target: null })
            .OrderBy(static c => c.X)];
        Assert.Equal(2, ports.Length);
        points.Add((new PlotPoint(ports[0].X, ports[0].Y), "<in>"));
        points.Add((new PlotPoint(ports[1].X, ports[1].Y), "<out>"));
        points.AddRange(scene.Items.OfType<SceneCircle>().Where(static c => c.Class == "node").Select(static c =>
            (new PlotPoint(c.X, c.Y), "")));

        // Wires that touch at an end of one of them, or under a dot, are one.
        int[] net = [.. Enumerable.Range(0, wires.Count)];
        int Root(int i) => net[i] == i ? i : net[i] = Root(net[i]);
        for (int i = 0; i < wires.Count; i++)
        {
            for (int j = 0; j < wires.Count; j++)
            {
                if (i != j && (Touches(wires[j], wires[i].From, Near) || Touches(wires[j], wires[i].To, Near)))
                {
                    net[Root(i)] = Root(j);
                }
            }
        }

        foreach ((PlotPoint at, string _) in points.Where(static p => p.What.Length == 0))
        {
            int[] here = [.. Enumerable.Range(0, wires.Count).Where(i => Touches(wires[i], at, Near))];
            for (int k = 1; k < here.Length; k++)
            {
                net[Root(here[k])] = Root(here[0]);
            }
        }

        Dictionary<int, List<string>> nets = [];
        int? ground = null;
        foreach ((PlotPoint at, string what) in points.Where(static p => p.What.Length > 0))
        {
            // A port's ring ends the wire a little before its middle.
            double reach = what is "<in>" or "<out>" ? 6.5 : Near;
            int wire = Enumerable.Range(0, wires.Count).Where(i => Touches(wires[i], at, reach)).DefaultIfEmpty(-1).First();
            Assert.True(wire >= 0, $"{what} at {at} hangs in the air");
            int root = Root(wire);
            if (what == "<ground>" && ground is { } other)
            {
                net[root] = Root(other);
            }

            if (what == "<ground>" && ground is null)
            {
                ground = root;
            }
        }

        foreach ((PlotPoint at, string what) in points.Where(static p => p.What.Length > 0))
        {
            double reach = what is "<in>" or "<out>" ? 6.5 : Near;
            int root = Root(Enumerable.Range(0, wires.Count).First(i => Touches(wires[i], at, reach)));
            List<string> on = nets.TryGetValue(root, out List<string>? known) ? known : nets[root] = [];
            if (what != "<ground>" || !on.Contains(what))
            {
                on.Add(what);
            }
        }

        return Sorted(nets.Values);
    }

    private static string[] Sorted(IEnumerable<List<string>> nets) =>
        [.. nets.Select(static n => string.Join(' ', n.Order(StringComparer.Ordinal))).Order(StringComparer.Ordinal)];

    private static PlotBox BoxOf(Scene scene, string target)
    {
        PlotPoint[] all =
        [
            .. scene.Items.OfType<ScenePath>().Where(p => p.Target == target).SelectMany(SceneGeometry.Stretches)
                .SelectMany(static s => (PlotPoint[])[s.From, s.To]),
        ];
        Assert.NotEmpty(all);
        return new PlotBox(all.Min(static p => p.X), all.Min(static p => p.Y), all.Max(static p => p.X), all.Max(static p => p.Y));
    }

    private static bool OnEdge(PlotBox box, PlotPoint p) =>
        box.Grown(Near).Contains(p.X, p.Y) && !(box.Width > 1 && box.Height > 1 && box.Grown(-Near).Contains(p.X, p.Y));

    private static bool Touches((PlotPoint From, PlotPoint To) wire, PlotPoint p, double near)
    {
        double dx = wire.To.X - wire.From.X, dy = wire.To.Y - wire.From.Y, length = (dx * dx) + (dy * dy);
        double t = length == 0 ? 0 : Math.Clamp((((p.X - wire.From.X) * dx) + ((p.Y - wire.From.Y) * dy)) / length, 0, 1);
        return double.Hypot(p.X - wire.From.X - (t * dx), p.Y - wire.From.Y - (t * dy)) <= near;
    }

    /// <summary>A ladder: between nodes one part, two side by side or two in a row; from nodes up to two arms of one part or two.</summary>
    private static Circuit Ladder(int nodes, int[] shape)
    {
        List<Part> parts = [];
        int at = 0, inner = 0;
        int Next() => shape[at++ % shape.Length];
        void Add(string from, string to)
        {
            int n = parts.Count + 1;
            parts.Add((Next() % 3) switch
            {
                0 => new Capacitor { Name = $"C{n}", From = from, To = to, Capacitance = PartValue.Known(n * 1e-12) },
                1 => new Inductor { Name = $"L{n}", From = from, To = to, Inductance = PartValue.Known(n * 1e-9) },
                _ => new Resistor { Name = $"R{n}", From = from, To = to, Resistance = PartValue.Known(n) },
            });
        }

        void Chain(string from, string to)
        {
            string middle = $"x{inner++}";
            Add(from, middle);
            Add(middle, to);
        }

        for (int i = 0; i < nodes; i++)
        {
            for (int arms = Next() % 3; arms > 0; arms--)
            {
                if (Next() % 3 == 0)
                {
                    Chain($"n{i}", Circuit.Ground);
                }
                else
                {
                    Add($"n{i}", Circuit.Ground);
                }
            }

            if (i + 1 == nodes)
            {
                break;
            }

            int kind = Next() % 4;
            Add($"n{i}", $"n{i + 1}");
            if (kind == 1)
            {
                Add($"n{i}", $"n{i + 1}");
            }
            else if (kind == 2)
            {
                Chain($"n{i}", $"n{i + 1}");
            }
        }

        return new Circuit { Name = "made", PortIn = "n0", PortOut = $"n{nodes - 1}", Parts = parts };
    }
}
