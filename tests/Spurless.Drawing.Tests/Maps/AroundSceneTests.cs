using Spurless.Drawing.Maps;

namespace Spurless.Drawing.Tests.Maps;

public sealed class AroundSceneTests
{
    private static AroundScene Crowd(int seed, int count, double size)
    {
        Random random = new(seed);
        return new AroundScene(
            [
                .. Enumerable.Range(0, count).Select(i => new AroundMark(
                    $"QQ{i} 145.{i:000} MHz", (AroundService)(i % 6), random.NextDouble() * 360,
                        100 * Math.Pow(10, 3.2 * random.NextDouble()), -20 - i, i % 2 == 0, i == 7)),
            ],
            size);
    }

    [Fact]
    public void Marks_lie_on_their_bearing_and_on_the_rings_of_their_distance()
    {
        AroundScene scene = new([new AroundMark("a", AroundService.LandMobile, 90, 3_000, -30, true, false)], 400);

        // East of the middle; 3 km lies lg(10)/lg(333.3) of the way from 0.3 to 100 km.
        (double x, double y) = scene.At(scene.Marks[0]);
        Assert.Equal(scene.Centre, y, 1e-9);
        Assert.Equal(scene.Centre + (scene.Radius / Math.Log10(100 / 0.3)), x, 1e-9);
        Assert.Equal(scene.Radius, scene.RadiusOf(250_000), 1e-9);
        Assert.Equal(0, scene.RadiusOf(1), 1e-9);
    }

    [Theory]
    [InlineData(1, 20, 420)]
    [InlineData(2, 80, 420)]
    [InlineData(3, 200, 358)]
    public void Words_meet_neither_each_other_nor_a_mark_nor_the_edge(int seed, int count, double size)
    {
        AroundScene scene = Crowd(seed, count, size);
        AroundWord[] words = [.. scene.Words, .. scene.Scale];

        Assert.NotEmpty(words);
        for (int i = 0; i < words.Length; i++)
        {
            (double left, double top, double right, double bottom) = words[i].Box;
            Assert.True(left >= 0 && top >= 0 && right <= size && bottom <= size, words[i].Text);
            Assert.DoesNotContain(words.Skip(i + 1), w => w.Box.Left < right && left < w.Box.Right && w.Box.Top < bottom
                && top < w.Box.Bottom);
            Assert.DoesNotContain(scene.Marks, m => scene.At(m) is var at && at.X > left && at.X < right && at.Y > top && at.Y < bottom);
        }
    }

    /// <summary>A mark that stands alone has its word whatever its shape and size: the strong ones too.</summary>
    [Theory]
    [InlineData(-20.0)]
    [InlineData(-40.0)]
    [InlineData(-60.0)]
    [InlineData(null)]
    public void A_mark_alone_has_its_word(double? dbm)
    {
        foreach (AroundService service in Enum.GetValues<AroundService>())
        {
            AroundScene scene = new([new AroundMark("QQA1 145.05 MHz", service, 200, 3_000, dbm, false, false)], 420);

            Assert.Equal("QQA1 145.05 MHz", Assert.Single(scene.Words).Text);
        }
    }

    [Fact]
    public void Words_do_not_cross_the_outermost_ring()
    {
        AroundScene scene = Crowd(4, 60, 640);

        Assert.All(scene.Words, w => Assert.All(
            (double[])[w.Box.Left, w.Box.Right],
            x => Assert.All((double[])[w.Box.Top, w.Box.Bottom], y => Assert.True(
                Math.Sqrt(Math.Pow(x - scene.Centre, 2) + Math.Pow(y - scene.Centre, 2)) < scene.Radius, w.Text))));
    }

    [Fact]
    public void Every_service_has_an_outline_of_its_own() =>
        Assert.Equal(6, Enum.GetValues<AroundService>().Select(static s => AroundScene.Outline(s, 5)).Distinct().Count());
}
