using Spurless.Drawing.Plans;
using Spurless.Drawing.Plotting;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Plans;

public sealed class PlanStripTests
{
    public static TheoryData<int, double> Cases()
    {
        TheoryData<int, double> cases = [];
        for (int seed = 0; seed < 30; seed++)
        {
            cases.Add(seed, 358);
            cases.Add(seed, 728);
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Draw_of_any_band_lays_no_word_over_another_and_none_outside(int seed, double width)
    {
        Scene scene = PlanStripScene.Draw(Model(seed), width);
        SceneChecks.NoTextMeetsAnother(scene);
        SceneChecks.AllInside(scene);
        Assert.Equal(width, scene.Width);
    }

    [Fact]
    public void Draw_gives_each_channel_its_pole_as_high_as_its_sum()
    {
        // Four channels over 684 px: each is 171 px wide, its pole in the middle.
        PlanStripModel model = new()
        {
            Title = "t",
            Description = "d",
            RasterHz = 12_500,
            Channels =
            [
                new(145_000_000, 20, Verdict.Harmful, false), new(145_012_500, -5, Verdict.Marginal, false),
                new(145_025_000, null, Verdict.Clear, false), new(145_037_500, null, Verdict.Clear, true),
            ],
            Marks = [new("paging", 145_037_500)],
            BestHz = 145_025_000,
            PresentHz = 145_000_000,
        };
        Scene scene = PlanStripScene.Draw(model, 728);
        Assert.Equal(1, PlanStripScene.Shared(model, 728));
        string[] poles = [.. scene.Items.OfType<ScenePath>().Where(static p => p.Class.StartsWith("pole", StringComparison.Ordinal))
            .Select(static p => p.Data)];

        // From -24 dB at 198 to 30 dB at 48: 20 dB stands at 198 - 44/54 x 150 = 75.8, -5 dB at 198 - 19/54 x 150 = 145.2.
        Assert.Equal(["M119.5 75.8L119.5 198", "M290.5 145.2L290.5 198", "M461.5 194L461.5 198"], poles);
        SceneRect hatched = Assert.Single(scene.Items.OfType<SceneRect>(), static r => r.Hatched);
        Assert.Equal((547, 718), (Math.Round(hatched.Box.Left), Math.Round(hatched.Box.Right)));
        Assert.Equal(
            ["best", "now", "paging"],
            scene.Items.OfType<SceneText>().Select(static t => t.Text).Where(static t => t.Length > 2 && char.IsLetter(t[0]))
                .Intersect(["best", "now", "paging"]).Order());
    }

    [Fact]
    public void Draw_of_more_channels_than_places_shows_the_worst_at_each()
    {
        PlanStripModel model = new()
        {
            Title = "t",
            Description = "d",
            RasterHz = 12_500,
            Channels =
            [
                .. Enumerable.Range(0, 2_000).Select(static i => new PlanStripChannel(
                    145_000_000 + (i * 12_500), i == 777 ? 15 : null, i == 777 ? Verdict.Harmful : Verdict.Clear, false)),
            ],
            Marks = [],
            BestHz = 145_000_000,
            PresentHz = 1,
        };
        int shared = PlanStripScene.Shared(model, 728);
        Assert.Equal(21, shared);
        Scene scene = PlanStripScene.Draw(model, 728);
        Assert.Equal(96, scene.Items.Count(static i => i.Class.StartsWith("pole", StringComparison.Ordinal)));
        Assert.Single(scene.Items, static i => i.Class == "m on harm");
    }

    private static PlanStripModel Model(int seed)
    {
        Random random = new(seed);
        int channels = random.Next(4) == 0 ? random.Next(1, 5) : random.Next(5, 900);
        long first = random.NextInt64(10, 480) * 1_000_000;
        long raster = ((long[])[5_000, 12_500, 25_000])[random.Next(3)];
        return new PlanStripModel
        {
            Title = "t",
            Description = "d",
            RasterHz = raster,
            Channels =
            [
                .. Enumerable.Range(0, channels).Select(i => new PlanStripChannel(
                    first + (i * raster),
                    random.Next(3) == 0 ? null : random.Next(-40, 70),
                    (Verdict)random.Next(4),
                    random.Next(6) == 0)),
            ],
            Marks =
            [
                .. Enumerable.Range(0, random.Next(12)).Select(i => new PlanStripMark(
                    string.Join(' ', Enumerable.Repeat("emitter with a name", random.Next(1, 3))),
                    first + (random.Next(channels) * raster))),
            ],
            BestHz = random.Next(5) == 0 ? null : first + (random.Next(channels) * raster),
            PresentHz = first + (random.Next(channels) * raster),
        };
    }
}
