using System.Globalization;
using System.Text.RegularExpressions;
using CsCheck;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Studies;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Studies;

/// <summary>The picture of any study: every word readable, every mark in the frame, every number a number.</summary>
public sealed partial class RandomPictureTests
{
    [Fact]
    public void Draw_of_any_study_lays_no_word_over_another_and_leaves_nothing_outside() =>
        Gen.Select(RandomStudies.Receiver(20), Gen.OneOf(300.0, 340.0, 559.0, 560.0, 728.0, 1400.0), Gen.Int[0, 5]).Sample(
            static (receiver, width, selected) =>
            {
                StudyPictureModel model = StudyPictureModel.Of(receiver, new StudyOptions());
                Scene scene = StudyPictureScene.Draw(model, width, selected == 0 ? null : selected);
                SceneChecks.NoTextMeetsAnother(scene);
                SceneChecks.AllInside(scene);
                Sound(scene);

                // What can be picked has a name for those who do not see it.
                Assert.All(scene.Items.Where(static i => i.Target is not null), i => Assert.Contains(i.Target!, scene.TargetNames.Keys));
                Assert.Equal(
                    selected > 0 && selected <= model.Findings.Count
                        ? InsetPart.Target(model.Findings.Single(f => f.Number == selected))
                        : null,
                    scene.Selected);
            },
            iter: 150);

    [Fact]
    public void Draw_of_any_study_stands_each_carrier_at_its_frequency_and_level() =>
        RandomStudies.Receiver().Sample(
            static receiver =>
            {
                StudyPictureModel model = StudyPictureModel.Of(receiver, new StudyOptions());
                Scene scene = StudyPictureScene.Draw(model, 800, null);
                double[] axes =
                [
                    .. scene.Items.OfType<ScenePath>().Where(static p => SceneGeometry.Wears(p, "axis"))
                        .SelectMany(SceneGeometry.Stretches).Where(static s => s.From.Y == s.To.Y).Select(static s => s.From.Y),
                ];
                foreach (LetteredCarrier c in model.Carriers)
                {
                    SceneCircle[] balls = [.. scene.Items.OfType<SceneCircle>().Where(b => b.Target == BandPart.Target(c))];
                    if (c.Finding.LevelAtAntennaDbm is null)
                    {
                        // No level is no height: one ring on the axis, at its frequency, and no stick that could be read.
                        SceneCircle ring = Assert.Single(balls);
                        Assert.Contains(axes, y => Math.Abs(y - ring.Y) < 0.06);
                        Assert.All(
                            scene.Items.OfType<SceneCircle>().Where(static b => b.Target is not null), b => Assert.True(b.Y <= ring.Y));
                        continue;
                    }

                    int expected = (c.Finding.LevelAtAntennaDbm > -110 ? 1 : 0) + (c.Finding.LevelAtReceiverDbm > -110 ? 1 : 0);
                    Assert.Equal(expected, balls.Length);
                }

                // Stronger stands higher, higher in frequency further right.
                SceneCircle[] heads =
                [
                    .. scene.Items.OfType<SceneCircle>().Where(b => b.Target is not null && b.Class == "ball"
                        && Carrier(receiver, b).LevelAtAntennaDbm is not null),
                ];
                foreach ((SceneCircle a, SceneCircle b) in heads.Zip(heads.Skip(1)))
                {
                    CarrierFinding first = Carrier(receiver, a), second = Carrier(receiver, b);
                    Assert.True((first.FrequencyHz - second.FrequencyHz) * (a.X - b.X) >= 0);
                    Assert.True((first.LevelAtAntennaDbm - second.LevelAtAntennaDbm) * (a.Y - b.Y) <= 0);
                }
            },
            iter: 100);

    [Fact]
    public void Stacked_marks_hold_every_finding_once_and_the_worst_verdict_of_theirs() =>
        RandomStudies.Receiver(30).Sample(static receiver =>
        {
            StudyPictureModel model = StudyPictureModel.Of(receiver, new StudyOptions());
            var shown = model.Findings.Where(static f => f.After?.InChannelLevelDbm is not null).ToArray();
            InsetMark[] marks = [.. InsetMark.Stacked(
                shown, static f => f.Either.OffsetHz / 100.0, static f => -f.After?.InChannelLevelDbm, after: true)];
            Assert.Equal(
                shown.Select(static f => f.Number).Order(), marks.SelectMany(static m => m.Of).Select(static f => f.Number).Order());
            Verdict[] badness = [Verdict.Harmful, Verdict.Marginal, Verdict.Unknown, Verdict.Clear];
            foreach (InsetMark mark in marks)
            {
                Assert.Equal(mark.Of.Select(static f => f.After!.Verdict).MinBy(v => Array.IndexOf(badness, v)), mark.Verdict);

                // Enter upon enter goes through all of them and round.
                var at = mark.Of[0];
                for (int i = 0; i < mark.Of.Count; i++)
                {
                    at = mark.Next(at);
                }

                Assert.Equal(mark.Of[0].Number, at.Number);
            }

            // Marks that were not put together do not lie upon each other: 8 px apart in one direction at least.
            for (int i = 0; i < marks.Length; i++)
            {
                for (int j = i + 1; j < marks.Length; j++)
                {
                    Assert.True(Math.Abs(marks[i].X - marks[j].X) >= 8 || Math.Abs(marks[i].Y - marks[j].Y) >= 8);
                }
            }
        });

    private static CarrierFinding Carrier(ReceiverFindings receiver, SceneCircle ball) =>
        receiver.Carriers[int.Parse(ball.Target!.Split(' ')[1], CultureInfo.InvariantCulture)];

    private static void Sound(Scene scene)
    {
        foreach (SceneItem item in scene.Items)
        {
            switch (item)
            {
                case ScenePath path:
                    Assert.DoesNotMatch(NoNumber(), path.Data);
                    break;
                case SceneCircle circle:
                    Assert.True(double.IsFinite(circle.X) && double.IsFinite(circle.Y));
                    Assert.True(new PlotBox(0, 0, scene.Width, scene.Height).Contains(circle.X, circle.Y), $"{circle}");
                    break;
                case SceneRect rect:
                    Assert.True(rect.Box is { Width: >= 0, Height: >= 0 }, $"{rect}");
                    break;
                case SceneText text:
                    Assert.DoesNotMatch(NoNumber(), text.Text);
                    break;
            }
        }

        Assert.DoesNotMatch(NoNumber(), scene.Description);
    }

    [GeneratedRegex("NaN|Infinity|\u221E")]
    private static partial Regex NoNumber();
}
