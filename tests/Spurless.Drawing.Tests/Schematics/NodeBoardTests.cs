using Spurless.Circuits.Parts;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Schematics;
using Spurless.Tests.Common;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Schematics;

/// <summary>The board that a circuit is built on: any circuit, finished or not.</summary>
public class NodeBoardTests
{
    public static TheoryData<string> Every => [.. Topologies.Names];

    [Theory]
    [MemberData(nameof(Every))]
    public void Draw_no_text_meets_a_text_and_every_node_and_part_can_be_picked(string name)
    {
        Circuit circuit = Topologies.Of(name);
        Scene scene = NodeBoard.Draw(circuit, NodesOf(circuit), "zz", null, null);
        SceneChecks.NoTextMeetsAnother(scene);
        SceneChecks.AllInside(scene);
        Assert.All(
            NodesOf(circuit).Append("zz").Append(Circuit.Ground),
            node => Assert.Single(scene.Items.OfType<SceneCircle>(), c => c.Target == "node " + node));
        foreach (Part part in circuit.Parts)
        {
            Assert.True(
                scene.Items.Any(i => i.Target == "part " + part.Name)
                    || scene.Items.OfType<SceneText>().Any(t => t.Text.StartsWith(part.Name + ":", StringComparison.Ordinal)),
                $"{part.Name} is not on the board");
        }
    }

    [Theory]
    [MemberData(nameof(Every))]
    public void Draw_no_wire_goes_through_a_word_of_a_node(string name)
    {
        Circuit circuit = Topologies.Of(name);
        Scene scene = NodeBoard.Draw(circuit, NodesOf(circuit), "zz", null, null);
        Scene words = scene with
        {
            Items =
            [
                .. scene.Items.Where(static i => i is ScenePath { Target: null }
                    || (i is SceneText && i.Target?.StartsWith("node ", StringComparison.Ordinal) == true)),
            ],
        };
        Assert.Empty(SceneGeometry.Collisions(words, "wire"));
    }

    /// <summary>The left column of the page is 812 px wide: the demo's filter and the places for its next part are in it.</summary>
    [Fact]
    public void Draw_three_tanks_fit_beside_their_response()
    {
        Circuit circuit = Topologies.Read(
            File.ReadAllText(DemoSites.PathOf(Path.Combine("filters", "three-tank.circuit.yaml"))), "three-tank.circuit.yaml");
        Assert.InRange(NodeBoard.Draw(circuit, NodesOf(circuit), "f", null, null).Width, 600, 812);
    }

    // From the port in to the port out, as the parts come.
    private static List<string> NodesOf(Circuit circuit)
    {
        List<string> nodes = [circuit.PortIn];
        foreach (Part part in circuit.Parts)
        {
            IEnumerable<string> ends = part switch
            {
                TwoTerminalPart two => [two.From, two.To],
                Line line => [line.From, line.To],
                TwoPortBlock block => [block.From, block.To],
                Transformer t => [t.FirstFrom, t.FirstTo, t.SecondFrom, t.SecondTo],
                _ => [],
            };
            nodes.AddRange(ends.Where(e => e != Circuit.Ground && e != circuit.PortOut && !nodes.Contains(e)).Distinct());
        }

        return [.. nodes, circuit.PortOut];
    }
}
