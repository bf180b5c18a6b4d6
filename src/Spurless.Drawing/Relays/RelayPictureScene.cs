using System.Globalization;
using Spurless.Circuits.Relays;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Relays;

/// <summary>
/// Draws a relay's press, a row a quantity over one time axis: amplitude on the line, smoothing voltage, base and coil current, contact.
/// Hatched is the time in which the transmitter works into the filter.
/// </summary>
public sealed class RelayPictureScene
{
    private const int Rows = 5;
    private const double Row = 62;
    private const double Gap = 20;
    private const double WideTop = 26;
    private const double NarrowTop = 36;
    private const double NarrowUnder = 500;

    private readonly RelayPictureModel _model;
    private readonly bool _narrow;
    private readonly double _top;
    private readonly double _width;
    private readonly double _left;
    private readonly double _bottom;
    private readonly Axis _x;
    private readonly List<SceneItem> _items = [];
    private readonly LabelPlacer _placer;

    private RelayPictureScene(RelayPictureModel model, double width)
    {
        (_model, _width, _narrow) = (model, width, width < NarrowUnder);
        (_left, _top) = _narrow ? (40, NarrowTop) : (136, WideTop);
        double last = model.Changes.Count > 0 ? model.Changes[^1].AtS : model.OnS;
        double end = Math.Min(model.Moments[^1].AtS, 1.12 * Math.Max(last, model.OnS));
        _x = Axis.Linear(-0.04 * end * 1000, end * 1000, _left, width - 8);
        _bottom = _top + (Rows * (Row + Gap)) - Gap;
        _placer = new LabelPlacer(new PlotBox(0, 0, width, _bottom));
    }

    /// <summary>Draws it.</summary>
    /// <param name="model">What to show.</param>
    /// <param name="width">In CSS pixels, at least 300.</param>
    public static Scene Draw(RelayPictureModel model, double width)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 300);
        return new RelayPictureScene(model, width).Draw();
    }

    private Scene Draw()
    {
        InTheFilter();
        Moments();
        Quantity(0, "RF envelope", "V peak", static m => m.PeakV);
        Quantity(1, "smoothing voltage", "V", static m => m.SmoothingV);
        Quantity(2, "base current", "mA", static m => m.BaseA * 1000);
        string letsGo = _narrow ? "lets go" : "lets go under";
        Quantity(3, "coil current", "mA", static m => m.CoilA * 1000, (_model.OperatesA, "pulls"), (_model.ReleasesA, letsGo));
        Contact();
        Times();
        return new Scene
        {
            Width = _width,
            Height = _bottom + 38,
            Title = _model.Title,
            Description = _model.Description,
            Items = _items,
        };
    }

    private static string Number(double value) => value.ToString(Math.Abs(value) >= 100 ? "0" : "0.##", CultureInfo.InvariantCulture);

    private double RowTop(int row) => _top + (row * (Row + Gap));

    // While the carrier stands and the contacts are not over.
    private void InTheFilter()
    {
        double from = 0;
        bool over = false;
        foreach (ContactChange change in _model.Changes.Where(c => c.AtS < _model.OnS))
        {
            if (change.Over)
            {
                Hatch(from, change.AtS);
            }

            (over, from) = (change.Over, change.AtS);
        }

        if (!over)
        {
            Hatch(from, _model.OnS);
        }
    }

    private void Hatch(double fromS, double toS)
    {
        PlotBox box = new(X(fromS), _top, X(Math.Min(toS, _x.Maximum / 1000)), _bottom);
        _items.Add(new SceneRect("veil", box));
        _items.Add(new SceneRect("veil", box, Hatched: true));
    }

    private double X(double seconds) => _x.Map(seconds * 1000);

    private void Quantity(int row, string name, string unit, Func<RelayMoment, double> of, params (double Amperes, string Words)[] limits)
    {
        double top = RowTop(row), bottom = top + Row;
        double most = Math.Max(_model.Moments.Max(of), limits.Select(static l => l.Amperes * 1000).DefaultIfEmpty(0).Max());
        Axis y = Axis.Linear(0, most > 0 ? most * 1.15 : 1, bottom, top);
        _items.Add(new ScenePath("axis", SvgPath.Segment(_left, bottom, _x.To, bottom)));
        foreach (Tick tick in y.Ticks(26).Where(static t => t.Labelled))
        {
            double at = y.Map(tick.Value);
            if (tick.Value > 0)
            {
                _items.Add(new ScenePath("grid", SvgPath.Segment(_left, at, _x.To, at)));
            }

            // In a narrow picture the row's name stands there.
            if (!_narrow || at > top + 8)
            {
                _items.Add(new SceneText("", _left - 5, at + 4, Number(tick.Value), TextAnchor.End));
            }
        }

        if (_narrow)
        {
            _items.Add(new SceneText("halo", 0, top - 3, $"{name}, {unit}", Bold: true));
        }
        else
        {
            _items.Add(new SceneText("", 0, top + 22, name, Bold: true));
            _items.Add(new SceneText("", 0, top + 36, unit));
        }

        List<PlotPoint> points = [new PlotPoint(_x.From, y.Map(0)), new PlotPoint(X(0), y.Map(0))];
        points.AddRange(_model.Moments.Where(m => m.AtS * 1000 <= _x.Maximum).Select(m => new PlotPoint(X(m.AtS), y.Map(of(m)))));
        IReadOnlyList<PlotPoint> drawn = Decimation.PerColumn(points, 0.7);
        _items.Add(new ScenePath("curve", new SvgPath().Through(drawn).ToString()));
        foreach ((PlotPoint a, PlotPoint b) in drawn.Zip(drawn.Skip(1)))
        {
            _placer.Discourage(new PlotBox(a.X, Math.Min(a.Y, b.Y) - 1, b.X, Math.Max(a.Y, b.Y) + 1));
        }

        foreach ((double amperes, string words) in limits)
        {
            double at = y.Map(amperes * 1000);
            _items.Add(new ScenePath("limit", SvgPath.Segment(_left, at, _x.To, at)));
            string said = $"{words} {Number(amperes * 1000)} mA";
            IEnumerable<LabelSpot> spots = Beside(at - 3).Concat(at + 13 < bottom ? Beside(at + 11) : []);
            Put(said, [.. spots], new LabelSpot(X(_model.OnS) - 6, at - 3, TextAnchor.End));
        }
    }

    // By the end of the press, after it, at the picture's end, and behind each upright.
    private IEnumerable<LabelSpot> Beside(double y) =>
    [
        new(X(_model.OnS) - 6, y, TextAnchor.End),
        new(X(_model.OnS) + 6, y, TextAnchor.Start),
        new(_x.To - 4, y, TextAnchor.End),
        .. _model.Changes.Select(c => new LabelSpot(X(c.AtS) + 6, y, TextAnchor.Start)),
        new(X(0) + 6, y, TextAnchor.Start),
    ];

    // Off the uprights, off the curves where it can be; what fits nowhere stands on its line of before, let into it.
    private void Put(string words, LabelSpot[] spots, LabelSpot? otherwise)
    {
        SceneText text = new("halo ink", 0, 0, words);
        if (_placer.Place(text, spots) is { } placed)
        {
            _items.Add(placed);
        }
        else if (otherwise is { } at)
        {
            _items.Add(text.At(at.X, at.Y, at.Anchor));
        }
    }

    private void Contact()
    {
        double top = RowTop(4), through = top + Row - 12, past = top + 14;
        SvgPath path = new SvgPath().Move(_x.From, through);
        foreach (ContactChange change in _model.Changes.Where(c => c.AtS * 1000 <= _x.Maximum))
        {
            path = path.Line(X(change.AtS), change.Over ? through : past).Line(X(change.AtS), change.Over ? past : through);
        }

        bool over = _model.Changes.Count > 0 && _model.Changes[^1].Over;
        _items.Add(new ScenePath("curve", path.Line(_x.To, over ? past : through).ToString()));
        _items.Add(new SceneText(_narrow ? "halo" : "", 0, _narrow ? top - 3 : top + 34, "contact", Bold: true));
        if (_model.Changes.Count > 0)
        {
            double middle = (X(_model.Changes[0].AtS) + X(_model.OnS)) / 2;
            Put("past the filter", [new(middle, past - 4, TextAnchor.Middle), .. Beside(past - 4)], null);
        }

        // At the foot of the row, where the contacts are there; where there is no room at all, the tint says it.
        List<LabelSpot> there = [new(X(0) + 4, through - 4, TextAnchor.Start)];
        if (!over)
        {
            there.Insert(0, new LabelSpot(_x.To - 4, through - 4, TextAnchor.End));
        }

        const string Whole = "through the filter";
        bool fits = there.Exists(s => _placer.IsFree(new SceneText("", 0, 0, Whole).At(s.X, s.Y, s.Anchor).Box.Grown(0.5)));
        Put(fits ? Whole : "through it", [.. there], null);
    }

    private void Moments()
    {
        foreach (double at in (double[])[0, _model.OnS, .. _model.Changes.Select(static c => c.AtS)])
        {
            if (at * 1000 <= _x.Maximum)
            {
                Upright(X(at));
            }
        }

        _items.Add(new SceneText("", X(0), 12, "RF on", TextAnchor.Start, Bold: true));
        _items.Add(new SceneText("", X(_model.OnS), 12, "RF off", TextAnchor.End, Bold: true));
    }

    // In a narrow picture the rows' names stand between the rows, and no line goes through them.
    private void Upright(double x)
    {
        _placer.BlockLine(new PlotPoint(x, _top), new PlotPoint(x, _bottom));
        if (!_narrow)
        {
            _items.Add(new ScenePath("stem", SvgPath.Segment(x, _top, x, _bottom)));
            return;
        }

        for (int row = 0; row < Rows; row++)
        {
            _items.Add(new ScenePath("stem", SvgPath.Segment(x, RowTop(row), x, RowTop(row) + Row)));
        }
    }

    private void Times()
    {
        _items.Add(new ScenePath("axis", SvgPath.Segment(_left, _bottom, _x.To, _bottom)));
        foreach (Tick tick in _x.Ticks(56).Where(static t => t.Value >= 0 && t.Labelled))
        {
            double at = _x.Map(tick.Value);
            _items.Add(new ScenePath("axis", SvgPath.Segment(at, _bottom, at, _bottom + 4)));
            _items.Add(new SceneText("", at, _bottom + 16, Number(tick.Value), TextAnchor.Middle));
        }

        _items.Add(new SceneText("", _x.To, _bottom + 32, "time, ms", TextAnchor.End));
    }
}
