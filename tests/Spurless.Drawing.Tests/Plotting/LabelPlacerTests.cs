using CsCheck;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Tests.Plotting;

public class LabelPlacerTests
{
    private static readonly PlotBox Frame = new(0, 0, 300, 120);

    [Fact]
    public void Place_taken_place_takes_the_next_one()
    {
        LabelPlacer placer = new(Frame);
        SceneText text = new("", 0, 0, "waterworks base");
        LabelSpot[] spots = [new(10, 20, TextAnchor.Start), new(10, 60, TextAnchor.Start)];
        Assert.Equal(20, placer.Place(text, spots)!.Y);
        Assert.Equal(60, placer.Place(text, spots)!.Y);
        Assert.Null(placer.Place(text, spots));
    }

    [Fact]
    public void Place_outside_the_frame_is_refused() =>
        Assert.Null(
            new LabelPlacer(Frame)
                .Place(
                    new SceneText("", 0, 0, "regional paging"),
                    [
                        new LabelSpot(280, 20, TextAnchor.Start), new LabelSpot(20, 20, TextAnchor.End),
                        new LabelSpot(50, 3, TextAnchor.Middle),
                    ]));

    [Fact]
    public void Place_prefers_a_place_that_crosses_no_line()
    {
        LabelPlacer placer = new(Frame);
        placer.Discourage(new PlotBox(0, 10, 300, 22));
        LabelSpot[] spots = [new(10, 20, TextAnchor.Start), new(10, 60, TextAnchor.Start)];
        Assert.Equal(60, placer.Place(new SceneText("", 0, 0, "A"), spots)!.Y);
    }

    [Fact]
    public void Place_any_labels_never_meet_and_never_leave_the_frame() =>
        Gen.Select(Gen.Double[-20, 320], Gen.Double[-20, 140], Gen.String[Gen.Char['a', 'z'], 1, 24]).Array[1, 60].Sample(static labels =>
        {
            LabelPlacer placer = new(Frame);
            List<PlotBox> boxes = [];
            foreach ((double x, double y, string words) in labels)
            {
                LabelSpot[] spots = [new(x + 7, y, TextAnchor.Start), new(x - 7, y, TextAnchor.End), new(x, y - 8, TextAnchor.Middle)];
                if (placer.Place(new SceneText("", 0, 0, words), spots) is { } placed)
                {
                    boxes.Add(placed.Box);
                }
            }

            return boxes.TrueForAll(Frame.Contains) && boxes.TrueForAll(a => boxes.TrueForAll(b => a == b || !a.Overlaps(b)));
        });

    [Fact]
    public void Fit_long_name_ends_in_an_ellipsis_and_fits()
    {
        string cut = TextWidth.Fit("the very long name of a base station somewhere", 100, 11);
        Assert.EndsWith("\u2026", cut, StringComparison.Ordinal);
        Assert.True(TextWidth.Of(cut, 11) <= 100);
    }
}
