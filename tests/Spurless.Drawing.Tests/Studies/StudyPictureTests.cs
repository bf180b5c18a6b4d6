using Bunit;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Studies;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Drawing.Tests.Studies;

public class StudyPictureTests
{
    public static TheoryData<bool, double, int> Pictures()
    {
        TheoryData<bool, double, int> all = [];
        foreach (bool filter in (bool[])[false, true])
        {
            foreach (double width in (double[])[340, 358, 600, 728, 816, 1200])
            {
                for (int selected = 0; selected <= 7; selected++)
                {
                    all.Add(filter, width, selected);
                }
            }
        }

        return all;
    }

    private static StudyPictureModel Model(bool filter)
    {
        StudyResult study = filter ? DemoStudy.WithFilter() : DemoStudy.WithoutFilter();
        return StudyPictureModel.Of(study.Receivers[0], study.Options, DemoStudy.Response(study.Receivers[0]));
    }

    [Theory]
    [MemberData(nameof(Pictures))]
    public void Draw_any_width_and_selection_no_two_texts_meet_and_none_leaves_the_picture(bool filter, double width, int selected)
    {
        Scene scene = StudyPictureScene.Draw(Model(filter), width, selected == 0 ? null : selected);
        SceneChecks.NoTextMeetsAnother(scene);
        SceneChecks.AllInside(scene);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Draw_marks_of_the_channel_stand_at_their_true_offset(bool filter)
    {
        // Every mixture of the demonstration that has a mark lands on the channel's middle or at a stated offset; the axis is even and its
        // middle is offset 0.
        StudyPictureModel model = Model(filter);
        Scene scene = StudyPictureScene.Draw(model, 728, null);
        ScenePath[] marks =
        [
            .. scene.Items.OfType<ScenePath>().Where(
                static p => p.Target?.StartsWith("finding ", StringComparison.Ordinal) == true && p.Middle is not null),
        ];
        Assert.NotEmpty(marks);
        double middle = (40 + 688) / 2.0;
        double[] scale = [.. marks
            .Select(m => (Mark: m, Finding: model.Findings.First(f => m.Target == FormattableString.Invariant($"finding {f.Number}"))))
            .Select(p => p.Finding.Either.OffsetHz == 0
                ? (Math.Abs(p.Mark.Middle!.Value.X - middle) < 0.01 ? 0.0 : double.NaN)
                : (p.Mark.Middle!.Value.X - middle) / p.Finding.Either.OffsetHz)];
        Assert.DoesNotContain(double.NaN, scale);
        Assert.True(scale.Where(static s => s != 0).Select(static s => Math.Round(s, 6)).Distinct().Count() <= 1);
    }

    [Fact]
    public void Draw_three_hundred_mixtures_on_one_channel_shows_density_not_a_block()
    {
        ReceiverFindings demo = DemoStudy.Receiver(false, []);
        ProductFinding one = DemoStudy.Product(
            -95, -95, Mechanism.Receiver, "repeater input", ("telemetry scanner", 2), ("gauging station", -1));
        ProductFinding[] many =
        [
            .. Enumerable.Range(0, 300).Select(i => one with
            {
                Terms =
                [
                    new Term(i, FormattableString.Invariant($"base {i}"), 150_000_000 + i, 2),
                    new Term(i + 1, FormattableString.Invariant($"base {i + 1}"), 150_000_000, -1),
                ],
                OffsetHz = ((i * 977) % 12_000) - 6_000,
                InChannelLevelDbm = -60 - (i % 60),
                OverNoiseDb = 67 - (i % 60),
                Verdict = Verdict.Harmful,
            }),
        ];
        CarrierFinding[] carriers =
        [
            .. Enumerable.Range(0, 301).Select(
                i => demo.Carriers[0] with
                {
                    Emitter = FormattableString.Invariant($"base {i}"),
                    FrequencyHz = 146_000_000 + (i * 90_000L),
                }),
        ];
        ReceiverFindings crowd = demo with { Carriers = carriers, Products = many };
        foreach (double width in (double[])[358, 728])
        {
            Scene scene = StudyPictureScene.Draw(StudyPictureModel.Of(crowd, new StudyOptions(), DemoFilter.FeedlineGainDb), width, 1);
            SceneChecks.NoTextMeetsAnother(scene);
            SceneChecks.AllInside(scene);
            Assert.InRange(
                scene.Items.OfType<ScenePath>().Count(
                    static p => p.Target?.StartsWith("finding ", StringComparison.Ordinal) == true && p.Middle is not null),
                1,
                28);
            Assert.True(scene.Items.OfType<SceneRect>().Count(static r => r.Class.StartsWith("dense-", StringComparison.Ordinal)) > 20);
            Assert.Contains(scene.Items.OfType<SceneText>(), static t => t.Text == "tinted: 286 more");
        }
    }

    [Fact]
    public void Draw_two_hundred_emitters_in_a_crowd_still_no_text_meets_another()
    {
        ReceiverFindings demo = DemoStudy.Receiver(
            false, [DemoStudy.Product(-95, -95, Mechanism.Receiver, "repeater input", ("telemetry scanner", 2), ("gauging station", -1))]);
        ReceiverFindings many = demo with
        {
            Carriers =
            [
                .. demo.Carriers,
                .. Enumerable.Range(0, 200).Select(i => demo.Carriers[0] with
                {
                    Emitter = FormattableString.Invariant($"base station number {i}"),
                    FrequencyHz = 146_000_000 + (i * 137_500L),
                    LevelAtAntennaDbm = -40 - (i * 37 % 50),
                    LevelAtReceiverDbm = -41 - (i * 37 % 50),
                }),
            ],
        };
        foreach (double width in (double[])[358, 728])
        {
            Scene scene = StudyPictureScene.Draw(StudyPictureModel.Of(many, new StudyOptions(), DemoFilter.FeedlineGainDb), width, 1);
            SceneChecks.NoTextMeetsAnother(scene);
            SceneChecks.AllInside(scene);
        }
    }

    [Fact]
    public void Draw_no_carrier_and_no_product_still_draws_a_picture()
    {
        ReceiverFindings none = DemoStudy.Receiver(false, []) with { Carriers = [] };
        Scene scene = StudyPictureScene.Draw(StudyPictureModel.Of(none, new StudyOptions(), static _ => 0), 728, null);
        Assert.Contains(scene.Items, static i => i is SceneText { Text: "noise floor \u2212128.9 dBm" });
        SceneChecks.NoTextMeetsAnother(scene);
    }

    [Fact]
    public void Draw_demo_shows_rings_discs_and_foot_triangles()
    {
        Scene scene = StudyPictureScene.Draw(Model(true), 728, 1);
        Assert.Equal(17, scene.Items.Count(static i => i is SceneCircle { Class: "ball" or "ball picked", Target: not null }));
        // With the filter three carriers fall below -110 dBm at the receiver: 50.85, 94.2 and 391.7 MHz.
        Assert.Equal(
            3,
            scene.Items.Count(
                static i => i is ScenePath { Target: not null } p && p.Class.StartsWith("ball on", StringComparison.Ordinal)));
        Assert.Contains(scene.Items, static i => i is SceneText { Text: "1 stays, +40.6 dB: mixed before it gets here" });
        Assert.Contains(scene.Items, static i => i is SceneText { Text: "fell out of the picture: 2, 3, 4, 5, 6, 7" });
    }

    [Fact]
    public void Draw_narrow_uses_letters_instead_of_names()
    {
        Scene scene = StudyPictureScene.Draw(Model(true), 358, 1);
        Assert.Contains(scene.Items, static i => i is SceneText { Text: "A" });
        Assert.DoesNotContain(scene.Items, static i => i is SceneText { Text: "A six-metre repeater" });
    }

    [Fact]
    public void Render_is_an_image_with_title_and_description_and_text_as_text()
    {
        using BunitContext context = new();
        var picture = context.Render<StudyPicture>(
            p => p.Add(static c => c.Model, Model(true)).Add(static c => c.Id, "x").Add(static c => c.Selected, 1));
        var svg = picture.Find("svg");
        Assert.Equal("img", svg.GetAttribute("role"));
        Assert.Equal("x-t x-d", svg.GetAttribute("aria-labelledby"));
        Assert.Contains("17 carriers", picture.Find("desc").TextContent, StringComparison.Ordinal);
        Assert.NotEmpty(picture.FindAll("text"));
        Assert.Empty(picture.FindAll("[tabindex]"));
    }

    [Fact]
    public void Render_with_a_callback_marks_can_be_picked_by_mouse_and_key()
    {
        using BunitContext context = new();
        List<string> picked = [];
        var picture = context.Render<StudyPicture>(
            p =>
                p.Add(static c => c.Model, Model(true)).Add(static c => c.Id, "x").Add(static c => c.Selected, 1).Add(
                    c => c.OnPick, picked.Add));
        var mark = picture.Find("[aria-label^='finding 3']");
        Assert.Equal("button", mark.GetAttribute("role"));
        mark.Click();
        mark.KeyDown("Enter");
        mark.KeyDown("a");
        picture.Find("[aria-label^='carrier I']").Click();
        Assert.Equal(["finding 3", "finding 3", "carrier 3"], picked);
        Assert.Equal("true", picture.Find("[aria-label^='finding 1']").GetAttribute("aria-pressed"));
    }

    [Fact]
    public void Letters_past_Z_go_on_with_two()
    {
        ReceiverFindings demo = DemoStudy.Receiver(false, []);
        ReceiverFindings many = demo with
        {
            Carriers = [.. Enumerable.Range(0, 30).Select(i => demo.Carriers[0] with { FrequencyHz = 100_000_000 + i })],
        };
        Assert.Equal(["Z", "AA", "AB"], LetteredCarrier.Of(many).Skip(25).Take(3).Select(static c => c.Letter));
    }
}
