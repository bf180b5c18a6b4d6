using Spurless.Drawing.Plotting;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Studies;

/// <summary>
/// Words and letters in the band: selected carriers first, then crowds, then by level; what fits nowhere is left to the table.
/// </summary>
internal static class BandLabels
{
    private const double LetterStep = 12;

    /// <summary>Keeps words off heads, and where possible off stems.</summary>
    public static void Block(StudyPictureFrame frame, Axis level, LabelPlacer placer, IReadOnlyList<PlotPoint> curve)
    {
        foreach (IReadOnlyList<PlotPoint> part in Clipping.Polyline(Decimation.PerColumn(curve, 1), frame.Band))
        {
            placer.BlockLine([.. part]);
        }

        foreach (LetteredCarrier c in frame.Model.Carriers)
        {
            double x = frame.Frequency.Map(c.Finding.FrequencyHz);
            if (c.Finding.LevelAtAntennaDbm is { } before && before > level.Minimum)
            {
                placer.Block(PlotBox.Around(x, level.Map(before), 4.2, 4.2));
                placer.Discourage(new PlotBox(x - 1, level.Map(before), x + 1, frame.Band.Bottom));
            }

            if (c.Finding.LevelAtAntennaDbm is null)
            {
                placer.Block(PlotBox.Around(x, frame.Band.Bottom, 4.2, 4.2));
            }

            if (c.Finding.LevelAtReceiverDbm is { } after)
            {
                placer.Block(PlotBox.Around(x, Math.Min(level.Map(after), frame.Band.Bottom - 4), 4.2, 4.2));
            }
        }

        if (frame.Selected is not null)
        {
            placer.Discourage(new PlotBox(frame.ChannelX - 1, frame.Band.Top, frame.ChannelX + 1, frame.Band.Bottom));
        }
    }

    /// <summary>Letters, names and the selected carriers' words.</summary>
    public static void DrawLetters(StudyPictureFrame frame, Axis level, LabelPlacer placer, Action<StudyPictureFrame, Axis> heads)
    {
        List<LetteredCarrier> known = [.. frame.Model.Carriers.Where(c => c.Finding.LevelAtAntennaDbm is { } l && l > level.Minimum)];
        List<List<LetteredCarrier>> crowds = Crowds(frame, known);
        List<SceneText> rows = [];
        HashSet<int> lettered = [];
        foreach (List<LetteredCarrier> crowd in crowds)
        {
            if (DrawCrowd(frame, level, placer, crowd) is { } row)
            {
                rows.AddRange(row);
                lettered.UnionWith(crowd.Select(static c => c.Index));
            }
        }

        heads(frame, level);
        foreach (SceneText letter in rows)
        {
            frame.Add(letter);
        }

        foreach (IGrouping<int, LetteredCarrier> group in known
            .Where(c => frame.SelectedTerm(c.Index) is not null)
            .GroupBy(c => crowds.FindIndex(k => k.Contains(c)) is var at && at >= 0 ? at : -1 - c.Index))
        {
            DrawSelected(frame, level, placer, [.. group], group.Key >= 0 ? crowds[group.Key] : null);
        }

        DrawWithoutLevel(frame, placer);
        LetteredCarrier[] rest =
        [
            .. known
                .Where(c => !lettered.Contains(c.Index) && frame.SelectedTerm(c.Index) is null)
                .OrderByDescending(static c => c.Finding.LevelAtAntennaDbm),
        ];
        LabelWish[] wishes =
        [
            .. rest.Select((c, i) => new LabelWish(
                Ways(c, frame.Frequency.Map(c.Finding.FrequencyHz), level.Map(c.Finding.LevelAtAntennaDbm!.Value), frame.IsWide),
                200 - Math.Min(i, 60))),
        ];
        foreach (LabelWay way in LabelOptimiser.Place(placer, wishes).OfType<LabelWay>())
        {
            frame.Label(way, "ink " + Halo(frame, level, way.Box));
        }
    }

    // Letter and name beside the head; then further off at the end of a leader; then the letter alone.
    private static List<LabelWay> Ways(LetteredCarrier carrier, double x, double y, bool withName)
    {
        List<LabelWay> ways = [];
        SceneText letter = new("ink halo-veil", 0, 0, carrier.Letter);
        SceneText[] texts = withName
            ? [letter with { Text = $"{carrier.Letter} {Shortened(carrier.Finding.Emitter)}" }, letter]
            : [letter];
        for (int t = 0; t < texts.Length; t++)
        {
            double further = t * 24;
            LabelSpot[] near = Beside(x, y);
            ways.AddRange(near.Select((s, i) => new LabelWay(texts[t].At(s.X, s.Y, s.Anchor), null, further + i)));
            foreach (double off in (double[])[20, 34, 50])
            {
                foreach ((double dx, double dy) in
                    ((double, double)[])[(0.6, -0.8), (-0.6, -0.8), (0.6, 0.8), (-0.6, 0.8), (1, 0), (-1, 0)])
                {
                    (double endX, double endY) = (x + (off * dx), y + (off * dy));
                    SceneText text = texts[t].At(endX + (dx < 0 ? -3 : 3), endY + 4, dx < 0 ? TextAnchor.End : TextAnchor.Start);
                    PlotPoint from = new(x + (5 * dx), y + (5 * dy));
                    ways.Add(new LabelWay(text, (from, new PlotPoint(endX, endY)), further + 8 + (off / 4)));
                }
            }
        }

        return ways;
    }

    // Those of the selected mixture first, by name; where names don't fit, letters.
    private static void DrawWithoutLevel(StudyPictureFrame frame, LabelPlacer placer)
    {
        double y = frame.Band.Bottom - 9;
        foreach (LetteredCarrier c in frame.Model.Carriers.Where(static c => c.Finding.LevelAtAntennaDbm is null)
            .OrderByDescending(c => frame.IsPicked(c.Index)))
        {
            double x = frame.Frequency.Map(c.Finding.FrequencyHz);
            bool picked = frame.IsPicked(c.Index);
            string style = (picked ? "picked-text" : "ink") + " halo-veil";
            LabelSpot[] spots =
            [
                .. Enumerable.Range(0, picked ? 5 : 2).Select(row => new LabelSpot(x, y - (row * 14), TextAnchor.Middle)),
            ];
            SceneText? placed = frame.IsWide
                ? placer.Place(new SceneText(style, 0, 0, $"{c.Letter} {Shortened(c.Finding.Emitter)}", Bold: picked), spots)
                : null;
            placed ??= placer.Place(new SceneText(style, 0, 0, c.Letter, Bold: picked), spots);
            if (placed is not null)
            {
                frame.Add(placed);
            }
        }
    }

    /// <summary>A word wears a halo of its ground: veil above the response, paper below it.</summary>
    private static string Halo(StudyPictureFrame frame, Axis level, PlotBox box)
    {
        double response = frame.Model.ResponseDb(frame.Frequency.Unmap((box.Left + box.Right) / 2));
        return double.IsFinite(response) && level.Map(response) > (box.Top + box.Bottom) / 2 ? "halo-veil" : "halo";
    }

    /// <summary>The key of hollow and solid, and the names of curve and region, where there is room.</summary>
    public static void DrawKeys(StudyPictureFrame frame, LabelPlacer placer, IReadOnlyList<PlotPoint> curve)
    {
        PlotBox band = frame.Band;
        SceneText[] key =
        [
            new("ink halo", 0, 0, "at the antenna"),
            new("ink halo", 0, 0, frame.IsWide ? "at the receiver, after the chain" : "at the receiver"),
        ];
        // The balls stand before the words: the pair is tried with its own margin.
        SceneText[] whole = [key[0] with { Text = "mm" + key[0].Text }, key[1] with { Text = "mm" + key[1].Text }];
        double room = frame.IsWide ? 170 : whole.Max(static t => t.Box.Width) + 4;
        IEnumerable<LabelSpot> spots =
            from y in (double[])[band.Bottom - 26, band.Bottom - 44, band.Top + 60, band.Top + 30]
            from x in Enumerable.Range(0, 24).Select(i => band.Right - room - (i * 20.0))
            select new LabelSpot(x, y, TextAnchor.Start);
        if (!frame.Model.HasNoLevels && placer.Place(whole, spots, 15) is { } at)
        {
            double x = at.X + 16;
            frame.Add(new SceneCircle("ball", at.X + 7, at.Y - 4, 3.2));
            frame.Add(key[0].At(x, at.Y, TextAnchor.Start));
            frame.Add(new SceneCircle("ball on", at.X + 7, at.Y + 11, 2.8));
            frame.Add(key[1].At(x, at.Y + 15, TextAnchor.Start));
        }

        List<PlotPoint> inside = [.. curve.Where(p => double.IsFinite(p.Y) && p.Y > band.Top + 4 && p.Y < band.Bottom - 18)];
        SceneText name = new("curve-text say halo", 0, 0, "response of the chain", Size: 13);
        IEnumerable<LabelSpot> along = inside.Count == 0
            ? []
            : Enumerable.Range(1, 18).Select(i => inside[inside.Count - 1 - ((inside.Count - 1) * i / 19)])
                .SelectMany(static p => (LabelSpot[])[new(p.X, p.Y + 18, TextAnchor.Middle), new(p.X, p.Y - 9, TextAnchor.Middle)]);
        if (placer.Place(name, along) is { } named)
        {
            frame.Add(named);
        }

        SceneText kept = new("say", band.Left + 8, band.Top + 17, "kept out by the chain", Size: 13);
        bool veiled = curve.Where(p => p.X >= kept.Box.Left && p.X <= kept.Box.Right).All(p => p.Y > kept.Box.Bottom + 3);
        if (veiled && placer.Place(kept, [new(kept.X, kept.Y, TextAnchor.Start), new(band.Right - 8, kept.Y, TextAnchor.End)]) is { } said)
        {
            frame.Add(said);
        }
    }

    private static List<List<LetteredCarrier>> Crowds(StudyPictureFrame frame, List<LetteredCarrier> known)
    {
        List<List<LetteredCarrier>> crowds = [];
        for (int i = 0; i + 2 < known.Count; i++)
        {
            if (frame.Frequency.Map(known[i + 2].Finding.FrequencyHz) - frame.Frequency.Map(known[i].Finding.FrequencyHz) > 14)
            {
                continue;
            }

            List<LetteredCarrier>? last = crowds.Count > 0 && crowds[^1][^1].Finding.FrequencyHz >= known[i].Finding.FrequencyHz
                ? crowds[^1]
                : null;
            if (last is null)
            {
                crowds.Add(last = [known[i]]);
            }

            last.AddRange(known.GetRange(i, 3).Where(c => !last.Contains(c)));
        }

        // A selected carrier beside a crowd joins it, so that the mixture's members share one block of words.
        foreach (LetteredCarrier c in known.Where(c => frame.SelectedTerm(c.Index) is not null && !crowds.Exists(k => k.Contains(c))))
        {
            double x = frame.Frequency.Map(c.Finding.FrequencyHz);
            crowds.FirstOrDefault(k => k.Exists(o => Math.Abs(frame.Frequency.Map(o.Finding.FrequencyHz) - x) < 30)
                && k.Exists(o => frame.SelectedTerm(o.Index) is not null))?.Add(c);
        }

        foreach (List<LetteredCarrier> crowd in crowds)
        {
            crowd.Sort(static (a, b) => (a.Finding.FrequencyHz, a.Index).CompareTo((b.Finding.FrequencyHz, b.Index)));
        }

        return crowds;
    }

    /// <summary>
    /// Letters in a row above, a hairline to each head. Null where there is no room, or the row is wider than two thirds of the frame and
    /// says nothing: its carriers then get what letters fit one by one.
    /// </summary>
    private static List<SceneText>? DrawCrowd(StudyPictureFrame frame, Axis level, LabelPlacer placer, List<LetteredCarrier> crowd)
    {
        double step = crowd.Exists(static c => c.Letter.Length > 1) ? LetterStep + 7 : LetterStep;
        double width = step * crowd.Count;
        if (width > frame.Band.Width * 2 / 3)
        {
            return null;
        }

        double centre = crowd.Average(c => frame.Frequency.Map(c.Finding.FrequencyHz));
        foreach ((double y, double shift) in
            from row in (double[])[frame.Band.Top + 15, frame.Band.Top + 30]
            from aside in (double[])[0, 20, -20, 40, -40, 70, -70]
            select (row, aside))
        {
            double left = Math.Clamp(centre + shift - (width / 2), frame.Band.Left + 4, frame.Band.Right - width - 4);
            if (!placer.IsFree(new PlotBox(left, y - 10, left + width, y + 3)))
            {
                continue;
            }

            List<SceneText> letters = [];
            for (int i = 0; i < crowd.Count; i++)
            {
                bool picked = frame.SelectedTerm(crowd[i].Index) is not null;
                double x = left + (step * (i + 0.5));
                double headX = frame.Frequency.Map(crowd[i].Finding.FrequencyHz);
                double headY = level.Map(crowd[i].Finding.LevelAtAntennaDbm!.Value);
                frame.Path(picked ? "hop thin" : "stem", SvgPath.Segment(x, y + 3, headX, headY - 3));
                SceneText letter = new("", x, y, crowd[i].Letter, TextAnchor.Middle, Bold: picked);
                letters.Add(letter with { Class = (picked ? "picked-text " : "ink ") + Halo(frame, level, letter.Box) });
            }

            placer.BlockWords(new PlotBox(left, y - 10, left + width, y + 3));
            return letters;
        }

        return null;
    }

    /// <summary>A selected carrier's name, frequency and part in the mixture; members of one crowd share a block.</summary>
    private static void DrawSelected(
        StudyPictureFrame frame, Axis level, LabelPlacer placer, List<LetteredCarrier> members, List<LetteredCarrier>? crowd)
    {
        string times = StudyPictureFrame.Signs.Times;
        List<SceneText> lines = [];
        foreach (LetteredCarrier c in members)
        {
            Term term = frame.SelectedTerm(c.Index)!;
            string part = $"{Math.Abs(term.Coefficient)} {times}, {(term.Coefficient > 0 ? "added" : "taken away")}";
            string frequency = Figures.Megahertz(c.Finding.FrequencyHz, StudyWords.Decimals(frame.Selected!.Either));
            lines.Add(new SceneText("picked-text halo-veil", 0, 0, $"{c.Letter}  {Shortened(c.Finding.Emitter)}", Size: 12, Bold: true));
            if (frame.IsWide)
            {
                lines.Add(new SceneText("ink halo-veil", 0, 0, members.Count == 1 ? $"{frequency} MHz" : $"{frequency} MHz, {part}"));
            }

            if (!frame.IsWide || members.Count == 1)
            {
                lines.Add(new SceneText("picked-text halo-veil", 0, 0, part, Bold: true));
            }
        }

        List<LetteredCarrier> around = crowd ?? members;
        double left = around.Min(c => frame.Frequency.Map(c.Finding.FrequencyHz)) - 10;
        double right = around.Max(c => frame.Frequency.Map(c.Finding.FrequencyHz)) + 10;
        if (crowd is not null)
        {
            double row = LetterStep * crowd.Count / 2;
            double centre = crowd.Average(c => frame.Frequency.Map(c.Finding.FrequencyHz));
            (left, right) = (Math.Min(left, centre - row - 8), Math.Max(right, centre + row + 8));
        }

        double top = frame.Band.Top + 14;
        double head = level.Map(members[0].Finding.LevelAtAntennaDbm!.Value);
        IEnumerable<LabelSpot> spots =
            from y in (double[])[top, head - 12, head + 4, top + 14, top + 28, top + 44, top + 60, top + 76]
            from beside in (double[])[0, 12, 26, 44]
            from spot in (LabelSpot[])[new(right + beside, y, TextAnchor.Start), new(left - beside, y, TextAnchor.End)]
            select spot;
        LabelSpot? at = placer.Place(lines, spots, 13.5);
        if (at is null && lines.Count > members.Count)
        {
            // Not all of it fits: the names alone.
            lines = [.. lines.Where(static l => l.Size > 11)];
            at = placer.Place(lines, spots, 13.5);
        }

        if (at is { } place)
        {
            for (int i = 0; i < lines.Count; i++)
            {
                SceneText line = lines[i].At(place.X, place.Y + (i * 13.5), place.Anchor);
                frame.Add(line with { Class = line.Class.Replace("halo-veil", Halo(frame, level, line.Box), StringComparison.Ordinal) });
            }
        }
    }

    private static LabelSpot[] Beside(double x, double y) =>
    [
        new(x + 7, y + 4, TextAnchor.Start),
        new(x - 7, y + 4, TextAnchor.End),
        new(x + 7, y - 5, TextAnchor.Start),
        new(x - 7, y - 5, TextAnchor.End),
        new(x + 7, y + 13, TextAnchor.Start),
        new(x - 7, y + 13, TextAnchor.End),
        new(x, y - 7, TextAnchor.Middle),
    ];

    private static string Shortened(string name) => TextWidth.Fit(name, 150, 11);
}
