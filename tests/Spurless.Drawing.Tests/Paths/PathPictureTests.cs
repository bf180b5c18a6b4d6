using Spurless.Drawing.Paths;
using Spurless.Drawing.Plotting;
using Spurless.Radio.Terrain;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Paths;

public sealed class PathPictureTests
{
    public static TheoryData<int, double> Cases()
    {
        TheoryData<int, double> cases = [];
        for (int seed = 0; seed < 12; seed++)
        {
            cases.Add(seed, 358);
            cases.Add(seed, 812);
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Draw_of_any_ground_lays_no_word_over_another_and_none_outside(int seed, double width)
    {
        Scene scene = PathPictureScene.Draw(Model(seed), width);
        SceneChecks.NoTextMeetsAnother(scene);
        SceneChecks.AllInside(scene);
        Assert.Equal(width, scene.Width);
    }

    [Fact]
    public void Draw_rings_the_highest_edge_and_names_metres_and_decibels()
    {
        double[] d = [.. Enumerable.Range(0, 201).Select(static i => i * 100.0)];
        double[] h = [.. d.Select(static m => Math.Max(0, 300 - Math.Abs(m - 8000) / 5))];
        PathPictureModel model = Model(d, h, "base", "input");
        Scene scene = PathPictureScene.Draw(model, 812);
        SceneCircle ring = Assert.Single(
            scene.Items.OfType<SceneCircle>(), static c => c.Class.Contains("picked", StringComparison.Ordinal));

        // 8 of 20 km along the frame from 44 to 802.
        Assert.Equal(44 + 758 * 0.4, ring.X, 0.01);
        string words = $"{model.Sight.Worst.OverLineM:0} m over the line, {model.Sight.Worst.EdgeLossDb:0.0} dB";
        Assert.Contains(scene.Items.OfType<SceneText>(), t => t.Text == words);
        Assert.Contains(scene.Items.OfType<SceneText>(), static t => t.Text == "base");
        Assert.Contains(scene.Items.OfType<SceneText>(), static t => t.Text == "input");
        Assert.Equal(2, scene.Items.Count(static i => i.Class == "mast"));
    }

    private static PathPictureModel Model(int seed)
    {
        Random random = new(seed);
        double length = 1000 + random.NextDouble() * 80_000;
        double[] d = [.. Enumerable.Range(0, 301).Select(i => length * i / 300)];
        double a = random.NextDouble() * 500, b = random.NextDouble() * 300, level = random.NextDouble() * 900 - 200;
        double[] h = [.. d.Select(
            m => level + a * Math.Sin(m / length * (3 + seed)) * Math.Sin(m / length * 9) + b * Math.Cos(m / length * 23))];
        return Model(d, h, "an emitter with a long name of its own", "repeater input");
    }

    private static PathPictureModel Model(double[] d, double[] h, string from, string to)
    {
        Assert.True(TerrainProfile.TryCreate(d, h, [], [], out TerrainProfile profile, out ProfileProblem problem), problem.Text);
        return new PathPictureModel
        {
            Title = "path",
            Description = "path",
            From = from,
            To = to,
            Profile = profile,
            TransmitterHeightM = 20,
            ReceiverHeightM = 15,
            FrequencyHz = 145e6,
            RadiusKm = 8931,
            Sight = SightLine.Of(profile, 20, 15, 145e6, 8931),
        };
    }
}
