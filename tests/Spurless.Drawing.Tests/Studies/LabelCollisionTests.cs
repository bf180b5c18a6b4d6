using Spurless.Drawing.Plotting;
using Spurless.Drawing.Studies;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Studies;

/// <summary>Two hundred random studies: no label meets another, a curve, an axis, the noise, a limit, a leader or a mark.</summary>
public class LabelCollisionTests
{
    private const int Studies = 200;

    // Lines that a label never lies on. It may stand on a stem, a pole or the grid, in a halo of its ground (docs/pages.md).
    private static readonly string[] Lines = ["curve", "axis", "noise", "limit", "leader"];

    [Theory]
    [InlineData(358)]
    [InlineData(728)]
    [InlineData(860)]
    public void Draw_two_hundred_random_studies_no_label_collides(double width)
    {
        List<string> faults = [];
        for (int seed = 1; seed <= Studies; seed++)
        {
            StudyPictureModel model = RandomStudy.Model(seed);
            int? selected = model.Findings.Count > 0 && seed % 3 != 0 ? 1 + (seed % model.Findings.Count) : null;
            Scene scene = StudyPictureScene.Draw(model, width, selected);
            SceneChecks.NoTextMeetsAnother(scene);
            SceneChecks.AllInside(scene);
            faults.AddRange(SceneGeometry.Collisions(scene, Lines).Select(f => $"seed {seed}: {f}"));
        }

        Assert.True(faults.Count == 0, $"{faults.Count}: {string.Join('\n', faults.Take(12))}");
    }

    [Fact]
    public void Draw_most_carriers_and_marks_have_their_letter_or_number()
    {
        (int lettered, int carriers, int numbered, int marks) = (0, 0, 0, 0);
        for (int seed = 1; seed <= Studies; seed++)
        {
            StudyPictureModel model = RandomStudy.Model(seed);
            Scene scene = StudyPictureScene.Draw(model, 860, null);
            HashSet<string> texts = [.. scene.Items.OfType<SceneText>().Select(static t => t.Text)];
            LetteredCarrier[] shown = [.. model.Carriers.Where(static c => c.Finding.LevelAtAntennaDbm is not null)];
            carriers += shown.Length;
            lettered += shown.Count(c => texts.Any(t => t == c.Letter || t.StartsWith(c.Letter + " ", StringComparison.Ordinal)));
            string[] numbers = [.. scene.Items.OfType<ScenePath>().Where(static p => p.Middle is not null && p.Target is not null)
                .Select(static p => p.Target!["finding ".Length..]).Distinct()];
            marks += numbers.Length;
            numbered += numbers.Count(n => texts.Any(
                t => t.Split(", ").Any(p => p == n || p.StartsWith(n + " ", StringComparison.Ordinal))
                    || t.Contains(' ' + n + ",", StringComparison.Ordinal)));
        }

        Assert.True(lettered >= 0.95 * carriers, $"{lettered} of {carriers} carriers have a letter");
        Assert.True(numbered >= 0.97 * marks, $"{numbered} of {marks} marks have a number");
    }

    [Fact]
    public void Draw_the_same_study_twice_gives_the_same_picture()
    {
        for (int seed = 1; seed <= 20; seed++)
        {
            Assert.Equal(
                StudyPictureScene.Draw(RandomStudy.Model(seed), 728, 1).Items,
                StudyPictureScene.Draw(RandomStudy.Model(seed), 728, 1).Items);
        }
    }

    [Fact]
    public void Collisions_of_a_text_with_a_line_and_a_mark_are_found()
    {
        Scene scene = StudyPictureScene.Draw(RandomStudy.Model(1), 728, null);
        Scene bad = scene with
        {
            Items =
            [
                .. scene.Items, new ScenePath("curve", SvgPath.Segment(10, 10, 60, 40)), new SceneText("", 20, 28, "on the line"),
                new SceneCircle("ball", 30, 200, 3) { Target = "carrier 1" }, new SceneText("", 20, 203, "on the mark"),
            ],
        };
        Assert.Contains(SceneGeometry.Collisions(bad, "curve"), static c => c.StartsWith("'on the line'", StringComparison.Ordinal));
        Assert.Contains(SceneGeometry.Collisions(bad, "curve"), static c => c.StartsWith("'on the mark'", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(358)]
    [InlineData(860)]
    public void Draw_three_hundred_emitters_shows_where_mixtures_crowd_and_no_block(double width)
    {
        // Thousands of mixtures on the raster of a band plan, most of them on the channel itself and near the noise.
        StudyPictureModel model = RandomStudy.Crowd(300, 4000);
        Scene scene = StudyPictureScene.Draw(model, width, 1);
        SceneChecks.NoTextMeetsAnother(scene);
        SceneChecks.AllInside(scene);
        Assert.Empty(SceneGeometry.Collisions(scene, Lines));
        SceneRect[] cells = [.. scene.Items.OfType<SceneRect>().Where(static r => r.Class.StartsWith("dense-", StringComparison.Ordinal))];
        double Area(string shade) => cells.Where(c => c.Class == shade).Sum(static c => c.Box.Width * c.Box.Height);
        Assert.InRange(cells.Length, 30, 1000);
        Assert.InRange(cells.Select(static c => c.Class).Distinct().Count(), 3, 4);
        Assert.True(Area("dense-4") < 0.25 * cells.Sum(static c => c.Box.Width * c.Box.Height), "the darkest tint is no block");

        // Marks and what runs to them stay few enough to be told apart.
        ScenePath[] marks = [.. scene.Items.OfType<ScenePath>().Where(static p => p.Middle is not null && p.Target is not null)];
        Assert.InRange(marks.Length, 1, 2 * InsetPart.MostDrawn);
        for (int i = 0; i < marks.Length; i++)
        {
            for (int j = i + 1; j < marks.Length; j++)
            {
                (double X, double Y) a = marks[i].Middle!.Value, b = marks[j].Middle!.Value;
                Assert.True(Math.Abs(a.X - b.X) >= 8 || Math.Abs(a.Y - b.Y) >= 8, $"{marks[i].Target} lies on {marks[j].Target}");
            }
        }
    }

    [Theory]
    [InlineData(1, 1, 1)]
    [InlineData(1, 5000, 1)]
    [InlineData(2, 2, 2)]
    [InlineData(10, 10, 4)]
    [InlineData(10, 1000, 2)]
    [InlineData(100, 1000, 3)]
    [InlineData(1000, 1000, 4)]
    public void Shade_goes_by_the_ratio_to_the_most(int count, int most, int shade) => Assert.Equal(shade, InsetDensity.Shade(count, most));
}
