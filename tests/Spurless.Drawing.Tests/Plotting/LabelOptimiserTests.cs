using CsCheck;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Tests.Plotting;

/// <summary>Labels chosen together: none meets another, and of few labels none could be placed better by trying all.</summary>
public sealed class LabelOptimiserTests
{
    private const double Missing = 100;

    private static readonly PlotBox _frame = new(0, 0, 160, 60);

    private static readonly Gen<(double X, double Y, string Words)[]> _marks = Gen.Select(
        Gen.Double[5, 155], Gen.Double[5, 55], Gen.OneOf("A", "base", "a longer name")).Array[1, 14];

    [Fact]
    public void Place_of_any_labels_lays_none_over_another_nor_over_a_leader() => _marks.Sample(static marks =>
    {
        LabelPlacer placer = new(_frame);
        PlotBox blocked = new(60, 20, 90, 40);
        placer.Block(blocked);
        LabelWish[] wishes = [.. marks.Select(Wish)];
        IReadOnlyList<LabelWay?> chosen = LabelOptimiser.Place(placer, wishes);
        Assert.Equal(wishes.Length, chosen.Count);
        LabelWay[] placed = [.. chosen.OfType<LabelWay>()];
        for (int i = 0; i < placed.Length; i++)
        {
            Assert.True(_frame.Contains(placed[i].Box));
            Assert.False(placed[i].Box.Overlaps(blocked));
            Assert.DoesNotContain(placed[(i + 1)..], other => other.Meets(placed[i]));
        }

        // Each stands where it asked to.
        foreach ((LabelWish wish, LabelWay? way) in wishes.Zip(chosen))
        {
            Assert.True(way is null || wish.Ways.Contains(way));
        }
    });

    [Fact]
    public void Place_of_three_labels_is_at_most_one_exchange_of_two_from_the_best_of_all() => _marks.Where(
        static m => m.Length <= 3).Sample(
        static marks =>
        {
            LabelWish[] wishes = [.. marks.Select(Wish)];
            IReadOnlyList<LabelWay?> chosen = LabelOptimiser.Place(new LabelPlacer(_frame), wishes);
            double cost = chosen.Sum(static w => w?.Cost ?? Missing);
            double best = Best(wishes, [], 0);
            Assert.True(cost >= best - 1e-9);

            // No single label could be moved to a cheaper free way.
            for (int i = 0; i < wishes.Length; i++)
            {
                LabelWay[] others = [.. chosen.Where((_, j) => j != i).OfType<LabelWay>()];
                double cheapest = wishes[i].Ways.Where(w => _frame.Contains(w.Box) && !Array.Exists(others, o => o.Meets(w)))
                    .Select(static w => w.Cost).Append(Missing).Min();
                Assert.True((chosen[i]?.Cost ?? Missing) <= cheapest + 1e-9);
            }
        });

    [Fact]
    public void Place_the_same_labels_twice_gives_the_same_picture() => _marks.Sample(static marks => Assert.Equal(
        LabelOptimiser.Place(new LabelPlacer(_frame), [.. marks.Select(Wish)]).Select(static w => w?.Text),
        LabelOptimiser.Place(new LabelPlacer(_frame), [.. marks.Select(Wish)]).Select(static w => w?.Text)));

    [Fact]
    public void Place_one_in_the_way_is_moved_where_both_are_then_better_off()
    {
        // The first takes the place that is the second's only one, and gives it up for the place beside it.
        LabelWay Way(double x, double cost) => new(new SceneText("", x, 20, "mmmm"), null, cost);
        LabelWish first = new([Way(10, 0), Way(80, 1)], Missing), second = new([Way(12, 0)], Missing);
        IReadOnlyList<LabelWay?> chosen = LabelOptimiser.Place(new LabelPlacer(_frame), [first, second]);
        Assert.Equal([80.0, 12.0], chosen.Select(static w => w!.Text.X));
    }

    [Fact]
    public void Meets_two_leaders_that_cross_cannot_both_be_drawn()
    {
        LabelWay Way(double x, double y, PlotPoint from) =>
            new(new SceneText("", x, y, "A"), (from, new PlotPoint(x, y)), 1);
        LabelWay down = Way(100, 50, new PlotPoint(20, 10)), up = Way(100, 10, new PlotPoint(20, 50)), beside = Way(140, 50,
            new PlotPoint(60, 5));
        Assert.True(down.Meets(up) && up.Meets(down));
        Assert.False(down.Meets(beside));
    }

    // Beside the mark on either side at no cost, over and under it dearer, with a leader dearest.
    private static LabelWish Wish((double X, double Y, string Words) mark)
    {
        SceneText At(double x, double y, TextAnchor anchor) => new("", x, y, mark.Words, anchor);
        return new LabelWish(
            [
                new(At(mark.X + 6, mark.Y + 4, TextAnchor.Start), null, 0), new(At(mark.X - 6, mark.Y + 4, TextAnchor.End), null, 0),
                new(At(mark.X, mark.Y - 8, TextAnchor.Middle), null, 1), new(At(mark.X, mark.Y + 16, TextAnchor.Middle), null, 1),
                new(
                    At(mark.X + 20, mark.Y - 20, TextAnchor.Start),
                    (new PlotPoint(mark.X, mark.Y), new PlotPoint(mark.X + 19, mark.Y - 18)), 4),
            ],
            Missing);
    }

    private static double Best(LabelWish[] wishes, List<LabelWay> taken, int at)
    {
        if (at == wishes.Length)
        {
            return 0;
        }

        double best = Missing + Best(wishes, taken, at + 1);
        foreach (LabelWay way in wishes[at].Ways.Where(w => _frame.Contains(w.Box) && !taken.Exists(t => t.Meets(w))))
        {
            taken.Add(way);
            best = Math.Min(best, way.Cost + Best(wishes, taken, at + 1));
            taken.RemoveAt(taken.Count - 1);
        }

        return best;
    }
}
