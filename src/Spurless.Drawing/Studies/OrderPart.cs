using System.Globalization;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Studies;

/// <summary>
/// The lower part of the study picture as long as no level is known: what can land on the channel at all, by order, each mark a ring at its
/// true offset. It says nothing of strength.
/// </summary>
internal sealed class OrderPart
{
    private const int MostDrawn = 200; // lowest orders first; the list has the rest

    private readonly StudyPictureFrame _frame;
    private readonly ReceiverFindings _receiver;
    private readonly PlotBox _box;
    private readonly IReadOnlyList<NumberedFinding> _drawn;
    private readonly int[] _orders;
    private readonly Axis _offset;
    private readonly LabelPlacer _words;

    public OrderPart(StudyPictureFrame frame)
    {
        (_frame, _receiver, _box) = (frame, frame.Model.Receiver, frame.Inset);
        _drawn = Chosen(frame.Model);
        _orders = [.. _drawn.Select(static f => f.Either.Order).Distinct().Order()];
        double channel = _receiver.ChannelHz;
        double reach = _drawn.Select(static f => (double)Math.Abs(f.Either.OffsetHz)).Append(0).Max();
        double half = Math.Clamp(Math.Ceiling(reach / channel) + 1, 2, 5) * channel;
        _offset = Axis.Linear(-half, half, _box.Left, _box.Right);
        _words = new LabelPlacer(_box.Grown(-2));
    }

    /// <summary>The mixtures that the picture shows, by order.</summary>
    public static IReadOnlyList<NumberedFinding> Chosen(StudyPictureModel model) =>
        [.. model.Findings.OrderBy(static f => f.Either.Order).ThenBy(static f => f.Number).Take(MostDrawn).OrderBy(static f => f.Number)];

    public void Draw()
    {
        double left = _offset.Map(-_receiver.ChannelHz / 2.0), right = _offset.Map(_receiver.ChannelHz / 2.0);
        _frame.Add(new SceneRect("veil", _box));
        _frame.Add(new SceneRect("let-in", new PlotBox(left, _box.Top, right, _box.Bottom)));
        _frame.Path("tick", SvgPath.Segment(left, _box.Top, left, _box.Bottom));
        _frame.Path("tick", SvgPath.Segment(right, _box.Top, right, _box.Bottom));
        double x0 = _frame.ChannelX, joint = _frame.Band.Bottom + 19;
        _frame.Path("tick", new SvgPath().Move(x0 - 1.5, _frame.Band.Bottom).Line(x0 - 1.5, joint).Line(_box.Left, _box.Top).ToString());
        _frame.Path("tick", new SvgPath().Move(x0 + 1.5, _frame.Band.Bottom).Line(x0 + 1.5, joint).Line(_box.Right, _box.Top).ToString());
        foreach (int order in _orders)
        {
            DrawRow(order);
        }

        DrawScales();
    }

    private double RowY(int order) => _box.Top + ((Array.IndexOf(_orders, order) + 0.62) * (_box.Height / _orders.Length));

    private void DrawRow(int order)
    {
        double y = RowY(order);
        _frame.Path("grid", SvgPath.Segment(_box.Left, y, _box.Right, y));
        _frame.Text("", _box.Left - 7, y + 4, order.ToString(CultureInfo.InvariantCulture), TextAnchor.End);
        List<InsetMark> marks =
        [
            .. InsetMark.Stacked(
                _drawn.Where(f => f.Either.Order == order && _offset.Shows(f.Either.OffsetHz)),
                f => _offset.Map(f.Either.OffsetHz), _ => y, after: true),
        ];
        foreach (InsetMark m in marks.OrderBy(m => m.Holds(_frame.Selected)))
        {
            string style = m.Holds(_frame.Selected) ? "m picked" : "m quiet";
            _frame.Add(new ScenePath(style, Marks.Shape(Verdict.Unknown, m.X, m.Y, 5.6))
            {
                Target = InsetPart.Target(m.Next(_frame.Selected)),
                Middle = (m.X, m.Y),
            });
            _words.Block(PlotBox.Around(m.X, m.Y, 6.5, 6.5));
        }

        foreach (InsetMark m in marks.OrderByDescending(m => m.Holds(_frame.Selected)).ThenByDescending(static m => m.Of.Count))
        {
            bool held = m.Holds(_frame.Selected);
            string says = m.Of.Count == 1 ? m.Of[0].Number.ToString(CultureInfo.InvariantCulture)
                : string.Create(CultureInfo.InvariantCulture, $"{m.Of.Count} of them");
            Put(new SceneText(held ? "picked-text halo" : "quiet-text halo", 0, 0, says, Bold: held),
                [
                    new(m.X, m.Y - 10, TextAnchor.Middle), new(m.X + 9, m.Y + 4, TextAnchor.Start), new(m.X - 9, m.Y + 4, TextAnchor.End),
                ]);
        }

        string row = Row(order);
        Put(new SceneText("ink halo-veil", 0, 0, row),
            [
                new(_box.Right - 6, y - 5, TextAnchor.End), new(_box.Left + 6, y - 5, TextAnchor.Start),
                new(_box.Right - 6, y + 14, TextAnchor.End), new(_box.Left + 6, y + 14, TextAnchor.Start),
            ]);
    }

    // 'third order: 4 of two emitters, 12 of three'; a narrow picture has the count alone.
    private string Row(int order)
    {
        NumberedFinding[] of = [.. _frame.Model.Findings.Where(f => f.Either.Order == order)];
        if (!_frame.IsWide)
        {
            return Figures.Count(of.Length, StudyPictureFrame.Signs);
        }

        IEnumerable<string> parts = of.GroupBy(static f => f.Either.Terms.Count).OrderBy(static g => g.Key)
            .Select(static g => $"{Figures.Count(g.Count(), StudyPictureFrame.Signs)} of {Figures.CountInWords(g.Key)}");
        return string.Join(", ", parts) + " emitters";
    }

    private void DrawScales()
    {
        _frame.Path("axis", SvgPath.Segment(_box.Left, _box.Bottom, _box.Right, _box.Bottom));
        _frame.Path("axis", SvgPath.Segment(_box.Left, _box.Top, _box.Left, _box.Bottom));
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
        _frame.Text("", 0, _box.Top - 10, "order");
    }

    private void Put(SceneText text, LabelSpot[] spots)
    {
        if (_words.Place(text, spots) is { } placed)
        {
            _frame.Add(placed);
        }
    }
}
