using System.Globalization;
using CsCheck;
using Spurless.Drawing.Plans;
using Spurless.Drawing.Plotting;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Plans;

/// <summary>
/// The strip of a band: a pole a channel at its frequency, as high as its sum, and nothing hidden by what shares a place.
/// </summary>
public sealed class PlanStripPropertyTests
{
    private static readonly Gen<PlanStripModel> _model =
        from count in Gen.Int[1, 300]
        from first in Gen.Long[30, 470]
        from raster in Gen.OneOf(5_000L, 12_500L, 25_000L)
        from sums in Gen.Double[-60, 60].Nullable(0.4).Array[count]
        from verdicts in Gen.Enum<Verdict>().Array[count]
        from taken in Gen.Frequency<bool>((4, Gen.Const(false)), (1, Gen.Const(true))).Array[count]
        from best in Gen.Int[0, count - 1]
        from present in Gen.Int[0, count - 1]
        select new PlanStripModel
        {
            Title = "t",
            Description = "d",
            RasterHz = raster,
            Channels =
            [
                .. Enumerable.Range(0, count).Select(i => new PlanStripChannel(
                    (first * 1_000_000) + (i * raster), sums[i], verdicts[i], taken[i])),
            ],
            Marks = [],
            BestHz = (first * 1_000_000) + (best * raster),
            PresentHz = (first * 1_000_000) + (present * raster),
        };

    [Fact]
    public void Poles_stand_at_their_channels_as_high_as_their_sums() => Gen.Select(_model, Gen.OneOf(300.0, 358, 728)).Sample(
        static (model, width) =>
        {
            Scene scene = PlanStripScene.Draw(model, width);
            int shared = PlanStripScene.Shared(model, width);
            PlanStripChannel[][] places = [.. model.Channels.Chunk(shared).Select(static g => g.Where(static c => !c.IsTaken).ToArray())
                .Where(static g => g.Length > 0)];
            ScenePath[] poles = [.. scene.Items.OfType<ScenePath>().Where(static p => SceneGeometry.Wears(p, "pole"))];
            Assert.Equal(places.Length, poles.Length);

            // The axes, from the picture's own scale: 34 px left, 10 px right, channels half a raster within.
            double from = model.Channels[0].FrequencyHz - (model.RasterHz / 2.0);
            double to = model.Channels[^1].FrequencyHz + (model.RasterHz / 2.0);
            double X(double hertz) => 34 + ((hertz - from) / (to - from) * (width - 44));
            foreach ((PlanStripChannel[] place, ScenePath pole) in places.Zip(poles))
            {
                (PlotPoint top, PlotPoint foot) = SceneGeometry.Stretches(pole).Single();
                Assert.Equal(X((place[0].FrequencyHz + place[^1].FrequencyHz) / 2.0), top.X, 0.06);
                Assert.Equal(top.X, foot.X);
                Assert.Equal(198, foot.Y);

                // The worst verdict of the place decides what stands there; of those the strongest.
                PlanStripChannel[] worst = [.. place.Where(c => c.Verdict == place.Select(static p => p.Verdict).MinBy(Rank))];
                double? sum = worst.Max(static c => c.SumOverNoiseDb);
                Assert.Equal(sum is null or < -24, foot.Y - top.Y <= 4.01 && !(sum >= -24));
                if (sum is { } db and >= -24)
                {
                    double most = model.Channels.Max(static c => c.SumOverNoiseDb ?? -24);
                    double high = Math.Max(10, 10 * Math.Ceiling((most + 4) / 10));
                    Assert.Equal(198 - ((db + 24) / (high + 24) * 150), top.Y, 0.06);
                }
            }
        },
        iter: 150);

    [Fact]
    public void Hatches_cover_what_is_not_offered_and_nothing_else() => _model.Sample(
        static model =>
        {
            PlotBox[] hatched = [.. PlanStripScene.Draw(model, 728).Items.OfType<SceneRect>().Where(static r => r.Hatched)
                .Select(static r => r.Box)];
            double from = model.Channels[0].FrequencyHz - (model.RasterHz / 2.0), span = model.Channels.Count * (double)model.RasterHz;
            foreach (PlanStripChannel channel in model.Channels)
            {
                double x = 34 + ((channel.FrequencyHz - from) / span * 684);
                Assert.Equal(channel.IsTaken ? 1 : 0, hatched.Count(h => x > h.Left && x < h.Right));
            }
        },
        iter: 150);

    [Fact]
    public void Frequencies_stand_under_their_place_and_none_beyond_the_picture() => Gen.Select(_model, Gen.OneOf(300.0, 728)).Sample(
        static (model, width) =>
        {
            Scene scene = PlanStripScene.Draw(model, width);
            SceneText[] figures = [.. scene.Items.OfType<SceneText>().Where(static t => t.Y is 214)];
            double from = model.Channels[0].FrequencyHz - (model.RasterHz / 2.0), span = model.Channels.Count * (double)model.RasterHz;
            foreach (SceneText figure in figures)
            {
                double at = 34 + (((1e6 * double.Parse(figure.Text, CultureInfo.InvariantCulture)) - from) / span * (width - 44));
                double half = TextWidth.Of(figure.Text, 11) / 2;
                Assert.Equal(Math.Clamp(at, half, width - half), figure.X, 0.05 * (width - 44) / span * 1e3);
            }

            Assert.Equal(figures.Select(static f => f.X).Order(), figures.Select(static f => f.X));
        },
        iter: 150);

    private static int Rank(Verdict verdict) => verdict switch
    {
        Verdict.Harmful => 0,
        Verdict.Marginal => 1,
        Verdict.Unknown => 2,
        _ => 3,
    };
}
