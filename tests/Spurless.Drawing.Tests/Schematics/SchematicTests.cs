using System.Globalization;
using System.Text.RegularExpressions;
using Spurless.Circuits.Parts;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Schematics;
using Spurless.Tests.Common;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Schematics;

/// <summary>How circuits are laid out, and that nothing written in a drawing lies over anything else.</summary>
public sealed partial class SchematicTests
{
    public static TheoryData<string> Every => [.. Topologies.Names];

    [Theory]
    [MemberData(nameof(Every))]
    public void Draw_no_text_meets_a_text_or_a_wire_and_every_part_is_there(string name)
    {
        Circuit circuit = Topologies.Of(name);
        Scene? scene = SchematicScene.Draw(circuit);
        Assert.NotNull(scene);
        SceneChecks.NoTextMeetsAnother(scene);
        SceneChecks.AllInside(scene);
        foreach (Part part in circuit.Parts)
        {
            Assert.True(
                scene.Items.Any(i => i.Target == "part " + part.Name)
                    || scene.Items.OfType<SceneText>().Any(t => t.Text.StartsWith(part.Name + ":", StringComparison.Ordinal)),
                $"{part.Name} is not in the drawing");
        }

        // Dashed couplings may pass behind words that wear a halo; wires may not.
        SceneText[] texts = [.. scene.Items.OfType<SceneText>()];
        foreach (ScenePath wire in scene.Items.OfType<ScenePath>().Where(static p => p.Class is "wire"))
        {
            foreach (PlotBox stroke in Strokes(wire.Data))
            {
                Assert.All(
                    texts,
                    t => Assert.False(t.Box.Grown(-1.5).Overlaps(stroke), $"'{t.Text}' at {t.Box} is crossed by a wire at {stroke}"));
            }
        }
    }

    [Fact]
    public void Draw_the_demo_and_the_example_of_the_format_page()
    {
        foreach (string file in Directory.EnumerateFiles(DemoSites.PathOf("filters"), "*.circuit.yaml"))
        {
            Scene scene = SchematicScene.Draw(Topologies.Read(File.ReadAllText(file), file))!;
            SceneChecks.NoTextMeetsAnother(scene);
            SceneChecks.AllInside(scene);
        }
    }

    [Fact]
    public void Of_a_ladder_has_series_parts_on_top_and_tanks_down()
    {
        CircuitPlan plan = CircuitPlan.Of(Topologies.Of("ladder"))!;
        Assert.Equal(["a", "b", "z"], plan.Nodes);
        Assert.Equal(["C1", "C3"], plan.Links.Select(static l => Names(l.Block!)));
        Assert.Equal(["L1", "C2"], plan.Arms[1].Select(Names));
    }

    [Fact]
    public void Of_traps_has_parallel_parts_on_top_and_chains_down()
    {
        CircuitPlan plan = CircuitPlan.Of(Topologies.Of("traps in shunt and series"))!;
        Assert.IsType<ParallelBlock>(plan.Links[0].Block);
        Assert.Equal(["L1 C1", "L3 C3"], plan.Arms.Select(static a => Names(a.Single())));
        Assert.All(plan.Arms, static a => Assert.IsType<SeriesBlock>(a.Single()));
    }

    [Fact]
    public void Of_a_capacitor_over_the_middle_tank_bridges_it()
    {
        CircuitPlan plan = CircuitPlan.Of(Topologies.Of("tanks with a capacitor over the middle one"))!;
        Assert.Equal(["a", "b", "c", "e", "z"], plan.Nodes);
        Assert.Equal(
            [(1, 3, "C8"), (0, 4, "C9")], plan.Bridges.OrderBy(static b => b.To).Select(static b => (b.From, b.To, Names(b.Block))));
        Assert.Empty(plan.Stars);
    }

    [Fact]
    public void Of_a_bridged_and_a_twin_T_has_a_bridge_and_a_star()
    {
        CircuitPlan bridged = CircuitPlan.Of(Topologies.Of("bridged T"))!;
        Assert.Equal("R3", Names(Assert.Single(bridged.Bridges).Block));
        Assert.Equal("L1 C1", Names(Assert.Single(bridged.Arms[1])));
        CircuitPlan twin = CircuitPlan.Of(Topologies.Of("twin T"))!;
        Star star = Assert.Single(twin.Stars);
        Assert.Equal(3, twin.Nodes.Count);
        Assert.Single(twin.Arms[1]);
        Assert.Equal(0, star.From);
        Assert.Equal(2, star.To);
    }

    [Fact]
    public void Of_coupled_tanks_has_gaps_where_only_couplings_lead()
    {
        CircuitPlan plan = CircuitPlan.Of(Topologies.Of("coupled tanks with links"))!;
        Assert.Equal(["a", "b", "c", "z"], plan.Nodes);
        Assert.All(plan.Links, static l => Assert.True(l is { Block: null, Transformer: null }));
    }

    [Fact]
    public void Of_transformers_stand_between_their_nodes()
    {
        CircuitPlan plan = CircuitPlan.Of(Topologies.Of("transformers"))!;
        Assert.Equal(["X1", null, "X2"], plan.Links.Select(static l => l.Transformer?.Name));
    }

    [Theory]
    [InlineData(
        "a winding off ground",
        "  X1: { transformer: { turns: [1, 1] }, between: [a, gnd], and: [a, z] }\n  R1: { resistor: 10 ohm, between: [z, gnd] }\n")]
    [InlineData("a mesh that meets in two points", "  R1: { resistor: 1 ohm, between: [a, z] }\n"
        + "  R2: { resistor: 1 ohm, between: [a, x] }\n  R3: { resistor: 1 ohm, between: [a, y] }\n"
        + "  R4: { resistor: 1 ohm, between: [x, y] }\n  R5: { resistor: 1 ohm, between: [x, "
            + "gnd] }\n  R6: { resistor: 1 ohm, between: [y, gnd] }\n")]
    public void Draw_what_cannot_be_laid_out_is_left_to_words(string name, string parts) => Assert.Null(SchematicScene.Draw(Topologies.Read(
        $"spurless_circuit: 1\nname: {name}\nports: {{ in: a, out: z, impedance: 50 ohm }}\nparts:\n{parts}", name)));

    private static string Names(Block block) => string.Join(' ', block.Parts.Select(static p => p.Name));

    /// <summary>The straight strokes of a path.</summary>
    private static IEnumerable<PlotBox> Strokes(string data)
    {
        (double X, double Y)? last = null;
        foreach (Match step in Step().Matches(data))
        {
            double[] n =
            [
                .. step.Groups[2].Value.Split([' ', ','], StringSplitOptions.RemoveEmptyEntries).Select(
                    static v => double.Parse(v, CultureInfo.InvariantCulture)),
            ];
            (double X, double Y) at = n.Length >= 2 ? (n[^2], n[^1]) : last ?? (0, 0);
            if (step.Groups[1].Value == "L" && last is { } from)
            {
                yield return new PlotBox(
                    Math.Min(from.X, at.X) - 0.5, Math.Min(from.Y, at.Y) - 0.5, Math.Max(from.X, at.X) + 0.5, Math.Max(from.Y, at.Y) + 0.5);
            }

            last = at;
        }
    }

    [GeneratedRegex("([MLCAZ])([^MLCAZ]*)")]
    private static partial Regex Step();
}
