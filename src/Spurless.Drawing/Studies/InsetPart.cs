using System.Globalization;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Studies;

/// <summary>
/// The lower part of the study picture: the channel magnified, mixtures before (hollow) and after (solid), the noise floor.
/// </summary>
internal sealed class InsetPart
{
    /// <summary>More mixtures than these are not told apart in a picture; the table has them.</summary>
    internal const int MostDrawn = 14;

    private const double Gutter = 20;

    private readonly StudyPictureFrame _frame;
    private readonly ReceiverFindings _receiver;
    private readonly IReadOnlyList<NumberedFinding> _drawn;
    private readonly Axis _offset;
    private readonly Axis _level;
    private readonly PlotBox _box;
    private readonly double _stripLeft;
    private readonly double _stripRight;
    private readonly LabelPlacer _words;

    public InsetPart(StudyPictureFrame frame)
    {
        _frame = frame;
        _receiver = frame.Model.Receiver;
        _box = frame.Inset;
        _drawn = Chosen(frame.Model);
        double half = HalfRange();
        _offset = Axis.Linear(-half, half, _box.Left, _box.Right);
        double noise = _receiver.NoiseFloorDbm;
        double highest = _drawn.SelectMany(static f => (double?[])[f.Before?.InChannelLevelDbm, f.After?.InChannelLevelDbm])
            .Select(static l => l ?? double.NegativeInfinity).Append(noise + 12).Max();
        double lowest = noise + Math.Min(frame.Model.Options.MarginalFromDb, frame.Model.Options.HarmfulFromDb) - 12;
        _level = Axis.Linear(lowest, highest + Math.Max(5, (highest - lowest) * 0.09), _box.Bottom - Gutter, _box.Top);
        _stripLeft = _offset.Map(-_receiver.ChannelHz / 2.0);
        _stripRight = _offset.Map(_receiver.ChannelHz / 2.0);
        _words = new LabelPlacer(_box.Grown(-2));
        double marginal = _level.Map(_receiver.NoiseFloorDbm + frame.Model.Options.MarginalFromDb);
        foreach (double y in (double[])[NoiseY, marginal])
        {
            _words.BlockLine(new PlotPoint(_box.Left, y), new PlotPoint(_box.Right, y));
        }
    }

    /// <summary>The mixtures that the picture shows: what is or was over the marginal limit, the worst first.</summary>
    public static IReadOnlyList<NumberedFinding> Chosen(StudyPictureModel model)
    {
        List<NumberedFinding> all = [.. model.Findings.Where(static f =>
            f.Now is Verdict.Harmful or Verdict.Marginal || f.Before?.Verdict is Verdict.Harmful or Verdict.Marginal)];
        // What is still there must not be crowded out by what is cured.
        return
        [
            .. all
                .OrderByDescending(static f => f.Now == Verdict.Harmful)
                .ThenBy(static f => f.Number)
                .Take(MostDrawn)
                .OrderBy(static f => f.Number),
        ];
    }

    public void Draw()
    {
        DrawGround();
        InsetDensity density = new(_frame, _words);
        density.Draw(_drawn, _offset, Y);
        List<InsetMark> before = [.. InsetMark.Stacked(_drawn.Where(InRange), X, f => Y(f.Before?.InChannelLevelDbm), after: false)];
        List<InsetMark> after = [.. InsetMark.Stacked(_drawn.Where(InRange), X, f => Y(f.After?.InChannelLevelDbm), after: true)];
        List<InsetMark> marks = [.. before, .. after];
        DrawArms();
        foreach (InsetMark m in marks)
        {
            _frame.Path(m.After ? $"pole on {Style(m)}" : "pole", SvgPath.Segment(m.X, m.Y + 4, m.X, _box.Bottom));
        }

        _frame.Path("noise", SvgPath.Segment(_box.Left, NoiseY, _box.Right, NoiseY));
        DrawLead(before.Find(m => m.Holds(_frame.Selected)), after.Find(m => m.Holds(_frame.Selected)));
        foreach (InsetMark m in marks.OrderBy(static m => m.After).ThenBy(m => m.Holds(_frame.Selected)))
        {
            string style = (m.After ? "m on " : "m ") + Style(m);
            _frame.Add(
                new ScenePath(style, Marks.Shape(m.Verdict, m.X, m.Y, m.After ? 6 : 5.2))
                {
                    Target = Target(m.Next(_frame.Selected)),
                    Middle = (m.X, m.Y),
                });
            _words.Block(PlotBox.Around(m.X, m.Y, 6.5, 6.5));
        }

        density.DrawWords();
        DrawWords(after);
        DrawNumbers([.. before, .. after.Where(m => m.Of.Any(f => !before.Exists(o => o.Holds(f))))]);
        DrawScaleWords();
        DrawScales();
    }

    /// <summary>What is picked with a finding.</summary>
    public static string Target(NumberedFinding finding) => FormattableString.Invariant($"finding {finding.Number}");

    private double NoiseY => _level.Map(_receiver.NoiseFloorDbm);

    private double HalfRange()
    {
        double channel = _receiver.ChannelHz;
        double reach = _drawn.Select(f => Math.Abs(f.Either.OffsetHz) + Math.Min(f.Either.BandwidthHz / 2.0, 2 * channel)).Append(0).Max();
        return Math.Clamp(Math.Ceiling(reach / channel), 2, 5) * channel;
    }

    private double X(NumberedFinding f) => _offset.Map(f.Either.OffsetHz);

    private bool InRange(NumberedFinding f) => _offset.Shows(f.Either.OffsetHz);

    private double? Y(double? dbm) => dbm is { } level && level >= _level.Minimum ? _level.Map(level) : null;

    private void DrawGround()
    {
        double noise = NoiseY;
        _frame.Add(new SceneRect("veil", _box));
        _frame.Add(new SceneRect("let-in", new PlotBox(_stripLeft, _box.Top, _stripRight, _box.Bottom)));
        foreach (Tick tick in OverNoiseTicks().Where(t => t.Value != 0))
        {
            double y = _level.Map(_receiver.NoiseFloorDbm + tick.Value);
            _frame.Path("grid", SvgPath.Segment(_box.Left, y, _box.Right, y));
        }

        _frame.Add(new SceneRect("", new PlotBox(_stripLeft, noise, _stripRight, _box.Bottom), Hatched: true));
        _frame.Path("tick", SvgPath.Segment(_stripLeft, _box.Top, _stripLeft, _box.Bottom));
        _frame.Path("tick", SvgPath.Segment(_stripRight, _box.Top, _stripRight, _box.Bottom));
        double limit = _level.Map(_receiver.NoiseFloorDbm + _frame.Model.Options.MarginalFromDb);
        _frame.Path("limit", SvgPath.Segment(_box.Left, limit, _box.Right, limit));
    }

    private void DrawArms()
    {
        foreach (NumberedFinding f in _drawn.Where(InRange).OrderBy(f => f == _frame.Selected))
        {
            // The arm is drawn for the state in which the mixture is strongest; its width does not change with the filter.
            ProductFinding p = f.Either;
            if (Y(p.InChannelLevelDbm) is not { } y)
            {
                continue;
            }

            string style = f == _frame.Selected ? "picked" : Marks.Style(p.Verdict);
            double half = p.BandwidthHz / 2.0;
            double left = _offset.Map(Math.Max(p.OffsetHz - half, _offset.Minimum));
            double right = _offset.Map(Math.Min(p.OffsetHz + half, _offset.Maximum));
            _frame.Path("arm " + style, SvgPath.Segment(left, y, right, y));
            if (left < _stripRight && right > _stripLeft)
            {
                _frame.Path("arm in " + style, SvgPath.Segment(Math.Max(left, _stripLeft), y, Math.Min(right, _stripRight), y));
            }
        }
    }

    private string Style(InsetMark mark) => mark.Holds(_frame.Selected) ? "picked" : Marks.Style(mark.Verdict);

    private void DrawLead(InsetMark? before, InsetMark? after)
    {
        double x0 = _frame.ChannelX;
        double joint = _frame.Band.Bottom + 19;
        _frame.Path("tick", new SvgPath().Move(x0 - 1.5, _frame.Band.Bottom).Line(x0 - 1.5, joint).Line(_box.Left, _box.Top).ToString());
        _frame.Path("tick", new SvgPath().Move(x0 + 1.5, _frame.Band.Bottom).Line(x0 + 1.5, joint).Line(_box.Right, _box.Top).ToString());
        if (_frame.Selected is not { } f || (before ?? after) is not { } end)
        {
            return;
        }

        _frame.Path(
            "fall", new SvgPath().Move(x0, _frame.Band.Bottom).Line(x0, joint).Line(end.X, _box.Top).Line(end.X, end.Y - 7).ToString());
        if (before is { } from && after is null && f.HasFilter)
        {
            double x = Math.Max(_box.Left + 12, _stripLeft - (_frame.IsWide ? 34 : 22));
            _frame.Path("fall", new SvgPath().Move(x, from.Y).Line(x, _box.Bottom - 11).ToString());
            _frame.Path("tip", Marks.TipDown(x, _box.Bottom - 4));
            _words.Block(new PlotBox(x - 3, from.Y, x + 3, _box.Bottom));
            SceneText[] says = f.InChannelNowDbm is { } to
                ?
                [
                    new(
                        "picked-text halo-veil",
                        0,
                        0,
                        $"{f.Number} falls by {Figures.BareDb(f.Before!.InChannelLevelDbm!.Value - to)} dB",
                        Bold: true),
                    new("ink halo-veil", 0, 0, $"to {Figures.Db(to, StudyPictureFrame.Signs)} dBm"),
                ]
                :
                [
                    new("picked-text halo-veil", 0, 0, $"{f.Number} falls out", Bold: true),
                    new("ink halo-veil", 0, 0, "of the picture"),
                ];
            double marginal = _level.Map(_receiver.NoiseFloorDbm + _frame.Model.Options.MarginalFromDb);
            Put(
                says,
                [new(
                    x - 7,
                    marginal + 14,
                    TextAnchor.End), new(x - 7,
                    NoiseY - 26,
                    TextAnchor.End), new(x + 7,
                    marginal + 14,
                    TextAnchor.Start)]);
        }
    }

    /// <summary>Numbers stand at their mark; where others are in the way, outside the channel at the end of a leader.</summary>
    private void DrawNumbers(IReadOnlyList<InsetMark> marks)
    {
        InsetMark[] ordered =
        [
            .. marks.OrderByDescending(m => m.Holds(_frame.Selected)).ThenBy(static m => m.After).ThenBy(static m => m.Of[0].Number),
        ];
        DrawLabels(
            [
                .. ordered.Select(
                    (m, i) => new LabelWish(InsetLabels.Number(m, _frame, _stripLeft, _stripRight), 200 - Math.Min(i, 60))),
            ]);
        List<NumberedFinding> outside = [.. _drawn.Where(f => !InRange(f))];
        foreach (NumberedFinding f in outside)
        {
            bool left = f.Either.OffsetHz < 0;
            double y = Y(f.Either.InChannelLevelDbm) ?? _box.Bottom - Gutter - 8;
            string text = left ? $"\u25C2 {f.Number}" : $"{f.Number} \u25B8";
            double x = left ? _box.Left + 5 : _box.Right - 5;
            TextAnchor anchor = left ? TextAnchor.Start : TextAnchor.End;
            Put(
                [new($"{Marks.Style(f.Either.Verdict)}-text halo-veil", 0, 0, text, Bold: true)],
                [new(x, y + 4, anchor), new(x, y - 9, anchor), new(x, y + 17, anchor)]);
        }
    }

    private void DrawWords(IReadOnlyList<InsetMark> after) => DrawLabels(
        [
            .. after
                .Where(static m => m.Verdict == Verdict.Harmful && m.Of[0].HasFilter)
                .OrderBy(static m => m.Y)
                .Take(4)
                .Select((m, i) => new LabelWish(InsetLabels.Words(m, _frame, _stripLeft, _stripRight), 400 - (10 * i))),
        ]);

    private void DrawLabels(IReadOnlyList<LabelWish> wishes)
    {
        foreach (LabelWay way in LabelOptimiser.Place(_words, wishes).OfType<LabelWay>())
        {
            _frame.Label(way, way.Text.Class);
        }
    }

    private void DrawScaleWords()
    {
        DrawKey();
        double noise = NoiseY;
        double marginal = _level.Map(_receiver.NoiseFloorDbm + _frame.Model.Options.MarginalFromDb);
        string floor = Figures.Db(_receiver.NoiseFloorDbm, StudyPictureFrame.Signs);
        Put([new("ink halo-veil", 0, 0, _frame.IsWide ? $"noise floor {floor} dBm" : $"noise {floor}")],
            [new(
                _box.Right - 8,
                noise - 5,
                TextAnchor.End), new(_box.Right - 8,
                noise + 13,
                TextAnchor.End), new(_box.Left + 8,
                noise - 5,
                TextAnchor.Start)]);
        double x = _box.Left + (_frame.IsWide ? 34 : 6);
        string harmful = _frame.IsWide ? "harmful above" : "harmful";
        Put(
            [new("harm-text halo-veil", 0, 0, harmful, Bold: true)],
            [new(x, noise - 5, TextAnchor.Start), new(x + 60, noise - 5, TextAnchor.Start)]);
        Put(
            [new("marg-text halo-veil", 0, 0, "marginal", Bold: true)],
            [new(x, marginal - 5, TextAnchor.Start), new(x + 60, marginal - 5, TextAnchor.Start)]);
        Put(
            [new("quiet-text halo-veil", 0, 0, _frame.IsWide ? "clear below" : "clear")],
            [new(x, marginal + 14, TextAnchor.Start), new(x + 60, marginal + 14, TextAnchor.Start)]);
        DrawGutter();
    }

    private void DrawKey()
    {
        if (!_frame.Model.HasFilter)
        {
            return;
        }

        SceneText[] key = [new("ink halo-veil", 0, 0, _frame.Model.Words.Before), new("ink halo-veil", 0, 0, _frame.Model.Words.After)];
        LabelSpot[] spots =
        [
            new(_box.Left + (_frame.IsWide ? 26 : 21), _box.Top + 21, TextAnchor.Start),
            new(_box.Right - 120, _box.Top + 21, TextAnchor.Start),
            new(_box.Left + 26, _box.Top + 60, TextAnchor.Start),
        ];
        PlotBox Room(LabelSpot s) => new(s.X - 20, s.Y - 12, s.X + 2, s.Y + 20);
        if (spots
            .Where(s => _words.IsFree(Room(s)))
            .Select(static s => (LabelSpot?)s)
            .FirstOrDefault(s => _words.Place(key, [s!.Value], 17) is not null) is { } at)
        {
            _words.Block(Room(at));
            _frame.Path("m harm", SvgPath.TriangleUp(at.X - 12, at.Y - 4, 5.2));
            _frame.Path("m on harm", SvgPath.TriangleUp(at.X - 12, at.Y + 13, 5.2));
            _frame.Add(key[0].At(at.X, at.Y, at.Anchor));
            _frame.Add(key[1].At(at.X, at.Y + 17, at.Anchor));
        }
    }

    private void DrawGutter()
    {
        _frame.Path("tick", SvgPath.Segment(_box.Left, _box.Bottom - Gutter, _box.Right, _box.Bottom - Gutter));
        double y = _box.Bottom - 6;
        string channel =
            $"\u25C2 your channel{(_frame.IsWide ? $", {Figures.Kilohertz(_receiver.ChannelHz, StudyPictureFrame.Signs)} kHz" : "")}";
        Put([new("ink halo-veil", 0, 0, channel)], [new(_stripRight + 6, y, TextAnchor.Start)]);
        List<int> sunk =
        [
            .. _drawn.Where(f => f.HasFilter && f.Before is not null && Y(f.After?.InChannelLevelDbm) is null).Select(static f => f.Number),
        ];
        if (sunk.Count == 0)
        {
            return;
        }

        double room = _stripLeft - _box.Left - 26;
        string all = "fell out of the picture: " + string.Join(", ", sunk.Select(static n => n.ToString(CultureInfo.InvariantCulture)));
        string text = TextWidth.Of(all, 11) <= room ? all : $"{sunk.Count} fell out{(_frame.IsWide ? " of the picture" : "")}";
        Put([new("quiet-text halo-veil", 0, 0, TextWidth.Fit(text, room, 11))], [new(_box.Left + 20, y, TextAnchor.Start)]);
        _frame.Path("m on quiet", SvgPath.TriangleDown(_box.Left + 11, y - 4, 4.6));
    }

    private void DrawScales()
    {
        _frame.Path("axis", SvgPath.Segment(_box.Left, _box.Bottom, _box.Right, _box.Bottom));
        _frame.Path("axis", SvgPath.Segment(_box.Left, _box.Top, _box.Left, _box.Bottom));
        _frame.Path("axis", SvgPath.Segment(_box.Right, _box.Top, _box.Right, _box.Bottom));
        _frame.Path("tick", SvgPath.Segment(_box.Left, _box.Top, _box.Right, _box.Top));
        foreach (Tick tick in _offset.TicksEvery(_receiver.ChannelHz, 44))
        {
            double x = _offset.Map(tick.Value);
            _frame.Path("axis", SvgPath.Segment(x, _box.Bottom, x, _box.Bottom + 5));
            string text = Figures.OffsetKilohertz((long)Math.Round(tick.Value), StudyPictureFrame.Signs);
            double half = TextWidth.Of(text, 11) / 2;
            _frame.Text("", Math.Clamp(x, half, _frame.Width - half), _box.Bottom + 17, text, TextAnchor.Middle);
        }

        _frame.Text(
            "", _box.Right, _box.Bottom + 31, $"offset from {Figures.MegahertzExact(_receiver.FrequencyHz)} MHz, kHz", TextAnchor.End);
        foreach (Tick tick in _level.Ticks(26))
        {
            double y = _level.Map(tick.Value);
            _frame.Path("axis", SvgPath.Segment(_box.Left - 4, y, _box.Left, y));
            _frame.Text("", _box.Left - 7, y + 4, Whole(tick.Value, plus: false), TextAnchor.End);
        }

        _frame.Text("", 0, _box.Top - 10, "level, dBm");
        if (!_frame.IsWide)
        {
            return;
        }

        foreach (Tick tick in OverNoiseTicks())
        {
            double y = _level.Map(_receiver.NoiseFloorDbm + tick.Value);
            _frame.Path("axis", SvgPath.Segment(_box.Right, y, _box.Right + 4, y));
            _frame.Text("", _box.Right + 7, y + 4, Whole(tick.Value, plus: true));
        }

        _frame.Text("", _frame.Width, _box.Top - 10, "over noise, dB", TextAnchor.End);
    }

    private IReadOnlyList<Tick> OverNoiseTicks() =>
        Axis.Linear(_level.Minimum - _receiver.NoiseFloorDbm, _level.Maximum - _receiver.NoiseFloorDbm, _level.From, _level.To).Ticks(26);

    private bool Put(SceneText[] lines, LabelSpot[] spots)
    {
        if (_words.Place(lines, spots, 13) is not { } at)
        {
            return false;
        }

        for (int i = 0; i < lines.Length; i++)
        {
            _frame.Add(lines[i].At(at.X, at.Y + (i * 13), at.Anchor));
        }

        return true;
    }

    private static string Whole(double value, bool plus) =>
        (value < 0 ? StudyPictureFrame.Signs.Minus : plus && value > 0 ? "+" : "")
            + Math.Abs(value).ToString("0.##", CultureInfo.InvariantCulture);
}
