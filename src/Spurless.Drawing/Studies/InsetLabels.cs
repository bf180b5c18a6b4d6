using Spurless.Drawing.Plotting;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Studies;

/// <summary>Where the labels of the magnified channel may stand: a mark's number, and the words of what stays.</summary>
internal static class InsetLabels
{
    private const double Apart = 14;

    /// <summary>
    /// A mark's number: beside it; else beside the channel, at the mark's height or as near to it as there is room, a line's height
    /// apart, at
    /// the end of a leader.
    /// </summary>
    public static IReadOnlyList<LabelWay> Number(InsetMark m, StudyPictureFrame frame, double stripLeft, double stripRight)
    {
        string style = m.Holds(frame.Selected) ? "picked-text" : Marks.Style(m.Verdict) + "-text";
        bool inside = m.X > stripLeft - 20 && m.X < stripRight + 20;
        SceneText number = new($"{style} {(inside ? "halo" : "halo-veil")}", 0, 0, m.Numbers, Bold: true);
        LabelSpot[] near =
        [
            new(m.X - 8, m.Y + 4, TextAnchor.End), new(m.X + 8, m.Y + 4, TextAnchor.Start), new(m.X, m.Y - 9, TextAnchor.Middle),
            new(m.X - 8, m.Y - 5, TextAnchor.End), new(m.X + 8, m.Y - 5, TextAnchor.Start), new(m.X - 8, m.Y + 13, TextAnchor.End),
            new(m.X + 8, m.Y + 13, TextAnchor.Start),
        ];
        List<LabelWay> ways = [.. near.Select((s, i) => new LabelWay(number.At(s.X, s.Y, s.Anchor), null, i))];
        foreach ((double dx, double dy) in
            ((double, double)[])[(20, -16), (-20, -16), (20, 18), (-20, 18), (30, -28), (-30, -28), (30, 30), (-30, 30)])
        {
            double side = Math.Sign(dx);
            ways.Add(new LabelWay(
                number.At(m.X + dx, m.Y + 4 + dy, side > 0 ? TextAnchor.Start : TextAnchor.End),
                (new PlotPoint(m.X + (6 * side), m.Y + (3 * Math.Sign(dy))), new PlotPoint(m.X + dx - (3 * side), m.Y + dy)),
                8 + (Math.Abs(dx) / 10)));
        }

        SceneText far = number with { Class = $"{style} halo-veil" };
        double left = Math.Min(stripLeft, m.X) - 14, right = Math.Max(stripRight, m.X) + 14;
        for (int i = -9; i <= 9; i++)
        {
            double y = m.Y + 4 + (i * Apart);
            foreach ((double x, TextAnchor anchor, double side) in
                ((double, TextAnchor, double)[])[(left, TextAnchor.End, -1), (right, TextAnchor.Start, 1)])
            {
                ways.Add(new LabelWay(
                    far.At(x, y, anchor),
                    (new PlotPoint(m.X + (7 * side), m.Y), new PlotPoint(x - (3 * side), y - 4)),
                    12 + (2 * Math.Abs(i)) + (Math.Abs(x - m.X) / 20)));
            }
        }

        return ways;
    }

    /// <summary>What survives, named in words beside the channel; at its mark's height the words need no leader.</summary>
    public static IReadOnlyList<LabelWay> Words(InsetMark m, StudyPictureFrame frame, double stripLeft, double stripRight)
    {
        NumberedFinding f = m.Of.FirstOrDefault(f => f == frame.Selected) ?? m.Of[0];
        ProductFinding p = f.After!;
        string style = m.Holds(frame.Selected) ? "picked-text" : "harm-text";
        string says = m.Of.Count > 1
            ? $"{m.Numbers} stay"
            : $"{f.Number} stays, {Figures.SignedDb(p.OverNoiseDb!.Value, StudyPictureFrame.Signs)} dB";
        string more = m.Of.Count == 1 && p.Mechanism == Mechanism.Transmitter ? ": mixed before it gets here" : "";
        double beside = Math.Max(m.X + 10, stripRight + 6), before = Math.Min(m.X - 10, stripLeft - 6);
        List<LabelWay> ways = [];
        string[] texts = frame.IsWide && more.Length > 0 ? [says + more, says] : [says];
        for (int t = 0; t < texts.Length; t++)
        {
            SceneText text = new(style + " halo-veil", 0, 0, texts[t], Bold: true);
            double[] downs = [0, 12, -12, 26, -26, 40, -40, 54, -54, 68, -68];
            for (int i = 0; i < downs.Length; i++)
            {
                ways.Add(Way(text, beside, downs[i], TextAnchor.Start, (t * 40) + (2 * i)));
                ways.Add(Way(text, before, downs[i], TextAnchor.End, (t * 40) + (2 * i) + 1));
            }
        }

        return ways;

        LabelWay Way(SceneText text, double x, double down, TextAnchor anchor, double cost)
        {
            double side = anchor == TextAnchor.Start ? 1 : -1;
            return new LabelWay(
                text.At(x, m.Y + 4 + down, anchor),
                Math.Abs(down) < 13 ? null : (new PlotPoint(m.X + (7 * side), m.Y), new PlotPoint(x - (2 * side), m.Y + down)),
                cost);
        }
    }
}
