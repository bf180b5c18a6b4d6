using CsCheck;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Tests.Plotting;

/// <summary>Rectangles against what a pointwise look at them says.</summary>
public sealed class PlotBoxTests
{
    private static readonly Gen<PlotBox> _box = Gen.Select(Gen.Int[-20, 20], Gen.Int[-20, 20], Gen.Int[1, 15], Gen.Int[1, 15],
        static (x, y, w, h) => new PlotBox(x, y, x + w, y + h));

    private static readonly Gen<PlotPoint> _point = Gen.Select(Gen.Int[-30, 30], Gen.Int[-30, 30], static (x, y) => new PlotPoint(x, y));

    [Fact]
    public void Overlaps_is_that_some_cell_lies_in_both() => Gen.Select(_box, _box).Sample(static (a, b) =>
    {
        // Corners lie on whole numbers: the two share area exactly where they share a unit cell.
        bool shared = false;
        for (int x = -20; x < 36; x++)
        {
            for (int y = -20; y < 36; y++)
            {
                shared |= a.Contains(x + 0.5, y + 0.5) && b.Contains(x + 0.5, y + 0.5);
            }
        }

        Assert.Equal(shared, a.Overlaps(b));
        Assert.Equal(a.Overlaps(b), b.Overlaps(a));
    });

    [Fact]
    public void Contains_of_a_box_is_that_of_its_corners() => Gen.Select(_box, _box).Sample(static (a, b) =>
        Assert.Equal(
            a.Contains(b.Left, b.Top) && a.Contains(b.Right, b.Top) && a.Contains(b.Left, b.Bottom) && a.Contains(b.Right, b.Bottom),
            a.Contains(b)));

    [Fact]
    public void Meets_is_what_points_along_the_line_say() => Gen.Select(_box, _point, _point).Sample(static (box, a, b) =>
    {
        // Points of a fine comb strictly inside: where there is one the line meets the box; where the line meets a box shrunk by more
        // than the comb is wide there is one.
        const int Steps = 4000;
        bool inside = Enumerable.Range(0, Steps + 1).Any(i =>
        {
            double t = i / (double)Steps, x = a.X + (t * (b.X - a.X)), y = a.Y + (t * (b.Y - a.Y));
            return x > box.Left && x < box.Right && y > box.Top && y < box.Bottom;
        });
        if (inside)
        {
            Assert.True(box.Meets(a, b));
        }
        else
        {
            Assert.False(box.Grown(-0.05).Meets(a, b));
        }

        Assert.Equal(box.Meets(a, b), box.Meets(b, a));
    });

    [Fact]
    public void Meets_a_line_along_an_edge_does_not()
    {
        PlotBox box = new(0, 0, 10, 5);
        Assert.False(box.Meets(new PlotPoint(0, 0), new PlotPoint(10, 0)));
        Assert.False(box.Meets(new PlotPoint(10, -5), new PlotPoint(10, 20)));
        Assert.True(box.Meets(new PlotPoint(9.999, -5), new PlotPoint(9.999, 20)));
        // Within the box from end to end, and a single point.
        Assert.True(box.Meets(new PlotPoint(2, 2), new PlotPoint(3, 3)));
        Assert.True(box.Meets(new PlotPoint(2, 2), new PlotPoint(2, 2)));
        Assert.False(box.Meets(new PlotPoint(20, 2), new PlotPoint(20, 2)));
    }

    [Fact]
    public void Grown_and_shrunk_by_the_same_is_what_it_was() => Gen.Select(_box, Gen.Int[0, 9]).Sample(static (box, by) =>
    {
        PlotBox grown = box.Grown(by);
        Assert.True(grown.Contains(box));
        Assert.Equal((box.Width + (2 * by), box.Height + (2 * by)), (grown.Width, grown.Height));
        Assert.Equal(box, grown.Grown(-by));
        Assert.Equal(box, PlotBox.Around((box.Left + box.Right) / 2, (box.Top + box.Bottom) / 2, box.Width / 2, box.Height / 2));
    });
}
