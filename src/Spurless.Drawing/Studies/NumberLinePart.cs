using Spurless.Drawing.Plotting;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Studies;

/// <summary>The top of the study picture: the selected mixture as hops on the frequency axis.</summary>
internal static class NumberLinePart
{
    private const double Gap = 3;

    /// <summary>
    /// Room that it takes whatever is selected, wide and narrow: the picture under it must not move from finding to finding.
    /// </summary>
    private const double WideRoom = 98;
    private const double NarrowRoom = 138;

    /// <summary>Draws it and says how much room it took.</summary>
    /// <param name="frame">The picture.</param>
    /// <param name="keepsRoom">Whether the room is kept where none is selected, as another may be the next moment.</param>
    /// <returns>The y below which the band may begin.</returns>
    public static double Draw(StudyPictureFrame frame, bool keepsRoom)
    {
        if (frame.Selected is not { } selected)
        {
            return keepsRoom && frame.Model.Findings.Count > 0 ? Room(frame) : 0;
        }

        ProductFinding product = selected.Either;
        int decimals = StudyWords.Decimals(product);
        Term[] terms = [.. product.Terms];
        (int first, IReadOnlyList<Hop> hops) = NumberLine.Walk(
            [.. terms.Select(static t => t.FrequencyHz)],
            [.. terms.Select(static t => t.Coefficient)],
            frame.Frequency.Minimum,
            frame.Frequency.Maximum);
        bool both = hops.Any(static h => h.To > h.From) && hops.Any(static h => h.To < h.From);

        // The sum in words stands in the corner that the hops leave free, or in rows of its own.
        string left = StudyWords.Arithmetic(product, StudyPictureFrame.Signs);
        string right = $"= {Figures.Megahertz(product.FrequencyHz, decimals)} MHz";
        double sumSize = 14;
        while (sumSize > 11 && TextWidth.Of(left, sumSize, true) > frame.Width)
        {
            sumSize -= 0.5;
        }

        double lowest = hops.Select(h => X(frame, h.To)).Append(X(frame, terms[first].FrequencyHz)).Min();
        double highest = hops.Select(h => X(frame, h.To)).Append(X(frame, terms[first].FrequencyHz)).Max();
        // Wide, the sum is one line over everything; narrow, it takes three.
        double line = frame.LineY = frame.IsWide ? 58 : 100;
        string number = $"finding {selected.Number}";
        double after = TextWidth.Of(number, 13) + 14;
        LabelPlacer placer = new(new PlotBox(0, 0, frame.Width, line + 40));
        foreach (SceneText words in (SceneText[])
            [
                new("", 0, frame.IsWide ? 14 : 12, number, Size: 13),
                .. frame.IsWide
                    ? [new("picked-text", after, 14, TextWidth.Fit($"{left} {right}", frame.Width - after, 14, true), Size: 14, Bold: true)]
                    : (SceneText[])
                    [
                        new("picked-text", 0, 30, left, Size: sumSize, Bold: true),
                        new("picked-text", 0, 48, right, Size: sumSize, Bold: true),
                    ],
            ])
        {
            frame.Add(words);
            placer.Block(words.Box);
        }

        frame.Path("tick", SvgPath.Segment(Math.Max(frame.Left, lowest - 8), line, Math.Min(frame.Right, highest + 8), line));
        List<(SceneText Text, LabelSpot[] Spots)> labels = [];
        foreach (Hop hop in hops)
        {
            DrawHop(frame, placer, hop, line, under: both && hop.To < hop.From, labels, Signed(hop, terms, decimals));
        }

        double start = X(frame, terms[first].FrequencyHz);
        frame.Add(new SceneCircle("dot", start, line, 3.2));
        placer.Block(PlotBox.Around(start, line, 4, 4));
        foreach (Hop hop in hops.Where(h => OnAxis(frame, h.To)))
        {
            frame.Add(new SceneCircle("dot", X(frame, hop.To), line, 3.2));
            placer.Block(PlotBox.Around(X(frame, hop.To), line, 4, 4));
        }

        PlaceLabels(frame, placer, hops, product, decimals, line, labels);
        PlaceText(
            frame, placer, new SceneText("ink halo", 0, 0, Figures.Megahertz(terms[first].FrequencyHz, decimals)), Round(start, line));
        double deepest = placer.Taken.Max(static b => b.Bottom);
        return Math.Max(deepest, Room(frame));
    }

    private static double Room(StudyPictureFrame frame) => frame.IsWide ? WideRoom : NarrowRoom;

    /// <summary>
    /// Lines from the number line down: the first carrier's rise and the fall on the channel. Drawn with the band, once that is laid out.
    /// </summary>
    public static void DrawLeads(StudyPictureFrame frame)
    {
        if (frame.Selected is not { } selected)
        {
            return;
        }

        ProductFinding product = selected.Either;
        (int first, _) = NumberLine.Walk(
            [.. product.Terms.Select(static t => t.FrequencyHz)],
            [.. product.Terms.Select(static t => t.Coefficient)],
            frame.Frequency.Minimum,
            frame.Frequency.Maximum);
        double x = X(frame, product.Terms[first].FrequencyHz);
        double? level = frame.Model.Receiver.Carriers[product.Terms[first].Emitter].LevelAtAntennaDbm;
        double head = level is { } dbm
            ? Math.Clamp(BandPart.LevelAxis(frame).Map(dbm), frame.Band.Top, frame.Band.Bottom) - 4
            : frame.Band.Bottom;
        frame.Path("hop", SvgPath.Segment(x, frame.LineY + 3, x, head));
        double end = X(frame, product.FrequencyHz);
        frame.Path("fall", SvgPath.Segment(end, frame.LineY + 4, end, frame.Band.Bottom));
    }

    private static void DrawHop(
        StudyPictureFrame frame,
        LabelPlacer placer,
        Hop hop,
        double line,
        bool under,
        List<(SceneText Text, LabelSpot[] Spots)> labels,
        string says)
    {
        double y = under ? line + Gap : line - Gap;
        double x1 = X(frame, hop.From);
        double x2 = X(frame, hop.To);
        double distance = Math.Abs(x2 - x1);
        double height = Math.Min(frame.IsWide ? 26 : under ? 26 : 34, 16 + (0.1 * distance)) * (under ? 1 : -1);
        double toward = Math.Sign(x2 - x1);
        double inset = Math.Min(2, distance / 4) * toward;
        double c1 = x1 + (0.18 * distance * toward);
        double c2 = x2 - (0.18 * distance * toward);
        (x1, x2) = (x1 + inset, x2 - inset);
        frame.Path("hop", new SvgPath().Move(x1, y).Curve(c1, y + height, c2, y + height, x2, y).ToString());
        frame.Path("tip", Marks.Tip(x2, y, x2 - c2, -height));
        for (int i = 1; i < 24; i++)
        {
            double t = i / 24.0;
            double u = 1 - t;
            double bx = (u * u * u * x1) + (3 * u * u * t * c1) + (3 * u * t * t * c2) + (t * t * t * x2);
            placer.Block(PlotBox.Around(bx, y + (3 * u * t * height), 2, 1.2));
        }

        double apex = y + (0.75 * height);
        double mid = (x1 + x2) / 2;
        double text = under ? apex + 13 : apex - 5;
        labels.Add((new SceneText("picked-text halo", 0, 0, says, Bold: true),
            [new(
                mid,
                text,
                TextAnchor.Middle), new(mid + 14,
                text,
                TextAnchor.Middle), new(mid - 14,
                text,
                TextAnchor.Middle), new(mid,
                text + (under ? 11 : -11),
                TextAnchor.Middle)]));
    }

    private static void PlaceLabels(
        StudyPictureFrame frame, LabelPlacer placer, IReadOnlyList<Hop> hops, ProductFinding product, int decimals, double line,
        List<(SceneText Text, LabelSpot[] Spots)> labels)
    {
        double end = X(frame, product.FrequencyHz);
        // Where every step is on the axis the last one carries the result; it comes first, then the hops, then the stops between.
        PlaceText(
            frame,
            placer,
            new SceneText("picked-text halo", 0, 0, $"= {Figures.Megahertz(product.FrequencyHz, decimals)}", Bold: true),
            [new(
                end,
                line + 15,
                TextAnchor.Middle), new(end - 8,
                line + 4,
                TextAnchor.End), new(end + 8,
                line + 4,
                TextAnchor.Start), new(end,
                line + 28,
                TextAnchor.Middle)]);
        foreach ((SceneText text, LabelSpot[] spots) in labels)
        {
            PlaceText(frame, placer, text, spots);
        }

        for (int i = 0; i < hops.Count - 1; i++)
        {
            double x = X(frame, hops[i].To);
            string value = Figures.Megahertz(hops[i].To, decimals).Replace("-", StudyPictureFrame.Signs.Minus, StringComparison.Ordinal);
            if (OnAxis(frame, hops[i].To))
            {
                PlaceText(frame, placer, new SceneText("ink halo", 0, 0, value), Round(x, line));
            }
            else
            {
                bool low = hops[i].To < frame.Frequency.Minimum;
                PlaceText(frame, placer, new SceneText("ink halo", 0, 0, low ? $"\u25C2 {value}" : $"{value} \u25B8"),
                    low
                        ? [new(frame.Left, line + 15, TextAnchor.Start), new(frame.Left, line - 8, TextAnchor.Start)]
                        : [new(frame.Right, line + 15, TextAnchor.End), new(frame.Right, line - 8, TextAnchor.End)]);
            }
        }
    }

    private static void PlaceText(StudyPictureFrame frame, LabelPlacer placer, SceneText text, LabelSpot[] spots)
    {
        if (placer.Place(text, spots) is { } placed)
        {
            frame.Add(placed);
        }
    }

    private static LabelSpot[] Round(double x, double line) =>
        [
            new(x, line + 15, TextAnchor.Middle), new(x + 7, line + 15, TextAnchor.Start), new(x + 8, line + 4, TextAnchor.Start),
            new(x - 8, line + 4, TextAnchor.End),
        ];

    private static string Signed(Hop hop, Term[] terms, int decimals) =>
        (hop.To > hop.From ? "+ " : StudyPictureFrame.Signs.Minus + " ") + Figures.Megahertz(terms[hop.Term].FrequencyHz, decimals);

    private static bool OnAxis(StudyPictureFrame frame, long hertz) => hertz > 0 && frame.Frequency.Shows(hertz);

    /// <summary>A stop's x; one that the axis does not reach stands at its edge, where an arrow and its number say so.</summary>
    private static double X(StudyPictureFrame frame, long hertz) =>
        hertz <= 0 ? frame.Left : Math.Clamp(frame.Frequency.Map(hertz), frame.Left, frame.Right);
}
