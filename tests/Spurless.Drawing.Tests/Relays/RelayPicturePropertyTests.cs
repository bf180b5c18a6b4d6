using System.Globalization;
using CsCheck;
using Spurless.Circuits.Relays;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Relays;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Relays;

/// <summary>
/// A press of any relay: one axis of time for all rows, in real milliseconds, and hatched just while the filter is in the way.
/// </summary>
public sealed class RelayPicturePropertyTests
{
    private static readonly Gen<(RelayPictureModel Model, double Width)> _press =
        from over in Gen.Double[0.001, 0.03].Nullable(0.15)
        from off in Gen.Double[0.04, 0.3]
        from back in Gen.Double[0.002, 0.05]
        from peak in Gen.Double[1, 300]
        from coil in Gen.Double[0.02, 0.09]
        from width in Gen.OneOf(300.0, 358, 520, 728)
        let end = off + back
        select (
            new RelayPictureModel
            {
                Title = "A press (invented)",
                Description = "Invented figures.",
                Moments =
                [
                    .. Enumerable.Range(0, 300).Select(i => i * end * 1.15 / 299).Select(t =>
                        new RelayMoment(t, t < off ? peak : 0, t < off ? 0.9 * peak : 0, t < off ? 0.002 : 0, t < off ? coil : 0)),
                ],
                Changes = over is { } at ? [new ContactChange(at, true), new ContactChange(end, false)] : [],
                OnS = off,
                OperatesA = 0.8 * coil,
                ReleasesA = 0.1 * coil,
            },
            width);

    [Fact]
    public void Hatched_is_the_time_from_the_carrier_to_the_contacts_over() => _press.Sample(
        static press =>
        {
            Scene scene = RelayPictureScene.Draw(press.Model, press.Width);
            Func<double, double> x = TimeAxis(scene);
            SceneRect hatched = Assert.Single(scene.Items.OfType<SceneRect>(), static r => r.Hatched);
            Assert.Equal(0, x(hatched.Box.Left), Precision(scene, press.Model));
            double until = press.Model.Changes.Count > 0 ? press.Model.Changes[0].AtS : press.Model.OnS;
            Assert.Equal(1000 * until, x(hatched.Box.Right), Precision(scene, press.Model));
        },
        iter: 100);

    [Fact]
    public void Uprights_stand_at_the_carriers_ends_and_at_each_change() => _press.Sample(
        static press =>
        {
            Scene scene = RelayPictureScene.Draw(press.Model, press.Width);
            Func<double, double> x = TimeAxis(scene);
            double[] at =
            [
                .. scene.Items.OfType<ScenePath>().Where(static p => SceneGeometry.Wears(p, "stem"))
                    .Select(p => x(SceneGeometry.Stretches(p).First().From.X)).Distinct().Order(),
            ];
            double[] expected = [.. new[] { 0, press.Model.OnS }.Concat(press.Model.Changes.Select(static c => c.AtS))
                .Select(static s => 1000 * s).Order()];
            Assert.Equal(expected.Length, at.Length);
            Assert.All(expected.Zip(at), p => Assert.Equal(p.First, p.Second, Precision(scene, press.Model)));
        },
        iter: 100);

    [Fact]
    public void Draw_of_any_press_keeps_words_apart_and_within() => _press.Sample(
        static press =>
        {
            Scene scene = RelayPictureScene.Draw(press.Model, press.Width);
            SceneChecks.AllInside(scene);
            Assert.DoesNotContain(scene.Items.OfType<ScenePath>(), static p => p.Data.Contains("NaN", StringComparison.Ordinal));
            string[] words = [.. scene.Items.OfType<SceneText>().Select(static t => t.Text)];
            Assert.Contains("RF on", words);
            Assert.Contains("RF off", words);
            Assert.Contains("time, ms", words);

            // The currents that pull and let go stand there with their figures.
            Assert.Contains(words, w => w.StartsWith("pulls ", StringComparison.Ordinal) && w.EndsWith(" mA", StringComparison.Ordinal));
        },
        iter: 100);

    // From the figures under the picture: two of them give the axis.
    private static Func<double, double> TimeAxis(Scene scene)
    {
        double row = scene.Height - 38 + 16;
        (double Ms, double X)[] ticks =
        [
            .. scene.Items.OfType<SceneText>().Where(t => Math.Abs(t.Y - row) < 1e-6 && t.Anchor == TextAnchor.Middle).Select(static t =>
                (double.Parse(t.Text, CultureInfo.InvariantCulture), t.X)),
        ];
        Assert.True(ticks.Length >= 2, "an axis has two figures");
        double scale = (ticks[^1].Ms - ticks[0].Ms) / (ticks[^1].X - ticks[0].X);
        return at => ticks[0].Ms + ((at - ticks[0].X) * scale);
    }

    // A tenth of a pixel in milliseconds, and what a figure's last digit hides.
    private static double Precision(Scene scene, RelayPictureModel model) =>
        (0.12 * 1000 * model.Moments[^1].AtS / (scene.Width - 150)) + 0.02;
}
