using System.Globalization;
using CsCheck;
using Spurless.Drawing.Paths;
using Spurless.Drawing.Plotting;
using Spurless.Radio.Terrain;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Paths;

/// <summary>
/// The side view of a path read back by its own scales: the line of sight joins the antennas, the ground bulges by d1 d2 / 2R, and the
/// first Fresnel zone has the radius sqrt(lambda d1 d2 / d) (ITU-R P.526).
/// </summary>
public sealed class PathPicturePropertyTests
{
    private static readonly Gen<(PathPictureModel Model, double Width)> _path =
        from length in Gen.Double[2_000, 90_000]
        from level in Gen.Double[0, 600]
        from waves in Gen.Select(Gen.Double[0, 150], Gen.Double[1, 9]).Array[1, 3]
        from heights in Gen.Double[5, 80].Array[2]
        from megahertz in Gen.Double[30, 500]
        from width in Gen.OneOf(300.0, 358, 640, 812)
        select (Make(length, level, waves, heights, megahertz * 1e6), width);

    [Fact]
    public void Sight_and_masts_stand_on_their_ends() => _path.Sample(
        static path =>
        {
            Scene scene = PathPictureScene.Draw(path.Model, path.Width);
            (Func<double, double> km, Func<double, double> metres, double pixelM) = Scales(scene);
            PathPictureModel model = path.Model;
            double from = model.Profile.GroundM[0] + model.TransmitterHeightM, to = model.Profile.GroundM[^1] + model.ReceiverHeightM;
            (PlotPoint left, PlotPoint right) = SceneGeometry.Stretches(One(scene, "sight")).Single();
            Assert.Equal(from, metres(left.Y), 0.12 * pixelM + 0.01);
            Assert.Equal(to, metres(right.Y), 0.12 * pixelM + 0.01);
            Assert.Equal(0, km(left.X), 0.01 * model.Profile.DistanceKm[^1]);
            Assert.Equal(model.Profile.DistanceKm[^1], km(right.X), 0.01 * model.Profile.DistanceKm[^1]);
            double[] feet = [.. scene.Items.OfType<ScenePath>().Where(static p => p.Class == "mast").Select(p =>
                metres(SceneGeometry.Stretches(p).Single().From.Y))];
            Assert.Equal(model.Profile.GroundM[0], feet[0], 0.12 * pixelM + 0.01);
            Assert.Equal(model.Profile.GroundM[^1], feet[1], 0.12 * pixelM + 0.01);
        },
        iter: 80);

    [Fact]
    public void Fresnel_zone_has_its_radius_and_closes_at_the_antennas() => _path.Sample(
        static path =>
        {
            Scene scene = PathPictureScene.Draw(path.Model, path.Width);
            (Func<double, double> km, Func<double, double> metres, double pixelM) = Scales(scene);
            PathPictureModel model = path.Model;
            double d = 1000 * model.Profile.DistanceKm[^1], lambda = 299_792_458 / model.FrequencyHz;
            double from = model.Profile.GroundM[0] + model.TransmitterHeightM, to = model.Profile.GroundM[^1] + model.ReceiverHeightM;
            PlotPoint[] points = [.. scene.Items.OfType<ScenePath>().Where(static p => p.Class == "fresnel")
                .SelectMany(SceneGeometry.Stretches).Select(static s => s.From)];
            double top = points.Length == 0 ? 0 : points.Min(static p => p.Y);
            foreach (PlotPoint p in points.Where(p => p.X > 46 && p.X < path.Width - 12 && p.Y > 34.3 && p.Y < 203.7))
            {
                // A tenth of a pixel aside is much of the radius near the ends: there it is looked at with that much slack.
                double d1 = Math.Clamp(1000 * km(p.X), 1, d - 1), off = Math.Abs(metres(p.Y) - (from + ((to - from) * d1 / d)));
                double radius = Math.Sqrt(lambda * d1 * (d - d1) / d), aside = 0.12 * d / (path.Width - 54);
                double slack = lambda * Math.Abs(d - (2 * d1)) / d / (2 * radius) * aside;
                Assert.Equal(radius, off, (0.15 * pixelM) + slack + (0.02 * radius));
            }

            Assert.True(top >= 33.9 || points.Length == 0);
        },
        iter: 80);

    [Fact]
    public void Ground_bulges_over_its_chord_by_the_earths_curve() => Gen.Select(
        Gen.Double[10_000, 90_000], Gen.Double[4_000, 12_000]).Sample(
        static (length, radiusKm) =>
        {
            // Level ground: its middle stands d^2 / 8R over the chord.
            PathPictureModel model = Make(length, 100, [], [30, 30], 145e6) with { RadiusKm = radiusKm };
            Scene scene = PathPictureScene.Draw(model, 812);
            (_, Func<double, double> metres, double pixelM) = Scales(scene);
            PlotPoint[] ground = [.. SceneGeometry.Stretches(One(scene, "hill")).Select(static s => s.From)];
            double middle = ground.MinBy(static p => Math.Abs(p.X - ((44 + 802) / 2.0))).Y;
            Assert.Equal(100 + (length * length / 8 / (1000 * radiusKm)), metres(middle), (0.3 * pixelM) + 0.1);
        });

    [Fact]
    public void Words_of_any_ground_stay_apart_and_within() => _path.Sample(
        static path =>
        {
            Scene scene = PathPictureScene.Draw(path.Model, path.Width);
            SceneChecks.NoTextMeetsAnother(scene);
            SceneChecks.AllInside(scene);
            Assert.Equal(path.Width, scene.Width);
            Assert.DoesNotContain(scene.Items.OfType<ScenePath>(), static p => p.Data.Contains("NaN", StringComparison.Ordinal));

            // The worst summit is ringed where it is one of those that come near the ray.
            SceneCircle[] rings = [.. scene.Items.OfType<SceneCircle>().Where(static c => c.Class == "ball picked")];
            Assert.Equal(path.Model.Sight.Edges.Any(e => e.Index == path.Model.Sight.Worst.Index) ? 1 : 0, rings.Length);
            (Func<double, double> km, _, _) = Scales(scene);
            Assert.All(rings, ring => Assert.Equal(
                path.Model.Sight.Worst.DistanceM / 1000, km(ring.X), 0.01 * path.Model.Profile.DistanceKm[^1]));
        },
        iter: 80);

    // From the figures of both scales: two of each give the axis.
    private static (Func<double, double> Km, Func<double, double> Metres, double PixelM) Scales(Scene scene)
    {
        double Read(string text) => double.Parse(text.Replace('\u2212', '-'), CultureInfo.InvariantCulture);
        SceneText[] texts = [.. scene.Items.OfType<SceneText>()];
        (double Km, double X)[] across = [.. texts.Where(t => Math.Abs(t.Y - (scene.Height - 34 + 15)) < 1e-6 && t.Class.Length == 0)
            .Select(t => (Read(t.Text), t.X))];
        (double M, double Y)[] up = [.. texts.Where(static t => t.Anchor == TextAnchor.End && Math.Abs(t.X - 39) < 1e-6 && t.Text[^1] is
            >= '0' and <= '9').Select(t => (Read(t.Text), t.Y - 4))];
        Assert.True(across.Length >= 2 && up.Length >= 2, "an axis has two figures");
        double kmEach = (across[^1].Km - across[0].Km) / (across[^1].X - across[0].X), mEach = (up[^1].M - up[0].M) / (up[^1].Y - up[0].Y);
        return (x => across[0].Km + ((x - across[0].X) * kmEach), y => up[0].M + ((y - up[0].Y) * mEach), Math.Abs(mEach));
    }

    private static ScenePath One(Scene scene, string look) => scene.Items.OfType<ScenePath>().Single(p => p.Class == look);

    private static PathPictureModel Make(
        double length, double level, (double Height, double Cycles)[] waves, double[] heights, double hertz)
    {
        double[] d = [.. Enumerable.Range(0, 201).Select(i => length * i / 200)];
        double[] h = [.. d.Select(m => level + waves.Sum(w => w.Height * (1 - Math.Cos(2 * Math.PI * w.Cycles * m / length))))];
        Assert.True(TerrainProfile.TryCreate(d, h, [], [], out TerrainProfile profile, out ProfileProblem problem), problem.Text);
        return new PathPictureModel
        {
            Title = "path",
            Description = "path",
            From = "valley relay",
            To = "hill input",
            Profile = profile,
            TransmitterHeightM = heights[0],
            ReceiverHeightM = heights[1],
            FrequencyHz = hertz,
            RadiusKm = 8_500,
            Sight = SightLine.Of(profile, heights[0], heights[1], hertz, 8_500),
        };
    }
}
