using System.Globalization;
using CsCheck;
using Spurless.Drawing.Maps;

namespace Spurless.Drawing.Tests.Maps;

/// <summary>The map is a polar chart: where a mark lies tells its bearing and its distance.</summary>
public sealed class AroundScenePropertyTests
{
    private static readonly Gen<AroundMark> _mark =
        from bearing in Gen.Double[0, 360]
        from logMetres in Gen.Double[1, 6]
        from dbm in Gen.Double[-120, 0].Nullable(0.3)
        from service in Gen.Enum<AroundService>()
        from there in Gen.Bool
        select new AroundMark("QQ", service, bearing, Math.Pow(10, logMetres), dbm, there, false);

    [Fact]
    public void Place_reads_back_to_bearing_and_distance() => Gen.Select(_mark, Gen.Double[200, 900]).Sample(static (mark, size) =>
    {
        AroundScene scene = new([mark], size);
        (double x, double y) = scene.At(mark);
        double east = x - scene.Centre, north = scene.Centre - y, out0 = double.Hypot(east, north);

        // From 0.3 to 100 km equal ratios are equally far apart; nearer is the middle, farther the rim.
        double metres = 300 * Math.Pow(100_000 / 300.0, out0 / scene.Radius);
        Assert.Equal(Math.Clamp(mark.DistanceM, 300, 100_000), metres, metres * 1e-9);
        Assert.InRange(out0, 0, scene.Radius + 1e-9);
        if (out0 > 1e-6)
        {
            double bearing = (Math.Atan2(east, north) * 180 / Math.PI) + 360;
            Assert.Equal(0, Math.IEEERemainder(bearing - mark.BearingDegrees, 360), 1e-6);
        }
    });

    [Fact]
    public void Rings_stand_at_their_kilometres_and_their_words_on_them() => Gen.Double[260, 900].Sample(static size =>
    {
        AroundScene scene = new([], size);
        double[] rings = [.. scene.Rings];
        Assert.Equal([.. ((double[])[1_000, 3_000, 10_000, 30_000]).Select(scene.RadiusOf)], rings);
        Assert.Equal(rings.Order(), rings);
        Assert.Equal(["1 km", "3 km", "10 km", "30 km"], scene.Scale.Select(static w => w.Text));
        foreach ((AroundWord word, double ring) in scene.Scale.Zip(rings))
        {
            double x = word.X + (AroundScene.WidthOf(word.Text) / 2), y = word.Y - 4;
            Assert.Equal(ring, double.Hypot(x - scene.Centre, y - scene.Centre), 1e-6);
        }
    });

    [Fact]
    public void Farther_is_farther_out_and_stronger_is_never_smaller() => Gen.Select(_mark, _mark).Sample(static (a, b) =>
    {
        AroundScene scene = new([a, b], 500);
        Assert.Equal(
            Math.Sign(Math.Clamp(a.DistanceM, 300, 100_000).CompareTo(Math.Clamp(b.DistanceM, 300, 100_000))),
            Math.Sign(scene.RadiusOf(a.DistanceM).CompareTo(scene.RadiusOf(b.DistanceM))));
        if (a.LevelDbm is { } one && b.LevelDbm is { } other && one >= other)
        {
            Assert.True(AroundScene.SizeOf(a) >= AroundScene.SizeOf(b));
        }

        Assert.Equal(4, AroundScene.SizeOf(a with { LevelDbm = null }));
    });

    /// <summary>An outline is a path of plain figures that encloses the middle of its mark and is as large as it says.</summary>
    [Fact]
    public void Outline_of_every_service_grows_with_its_size() => Gen.Select(Gen.Enum<AroundService>(), Gen.Double[2, 10]).Sample(
        static (service, half) =>
        {
            double Reach(double size) => AroundScene.Outline(service, size).Split("MHVLAZ -".ToCharArray(),
                StringSplitOptions.RemoveEmptyEntries).Max(static t => double.Parse(t, CultureInfo.InvariantCulture));
            Assert.Matches(@"^M[-MHVLAZ0-9. ]+Z$", AroundScene.Outline(service, half));
            Assert.Equal(2, Reach(2 * half) / Reach(half), 0.02);
        });

    [Fact]
    public void The_picked_mark_has_its_word_before_all_others()
    {
        // Twenty on one spot: only a few words fit, and the picked one's is among them wherever it stands in the list.
        for (int picked = 0; picked < 20; picked++)
        {
            AroundScene scene = new(
                [
                    .. Enumerable.Range(0, 20).Select(i =>
                        new AroundMark($"name {i}", AroundService.Paging, 40, 5_000, -30, true, i == picked)),
                ],
                420);
            Assert.Equal($"name {picked}", scene.Words[0].Text);
            Assert.True(scene.Words[0].Picked);
            Assert.InRange(scene.Words.Count, 1, 4);
        }
    }
}
