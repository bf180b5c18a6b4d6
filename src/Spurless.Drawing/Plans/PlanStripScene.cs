using System.Globalization;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Studies;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Plans;

/// <summary>
/// Draws a band as a strip: for every channel a pole with a mark, as high as what lands on it stands over the noise. A tick at the foot:
/// out of the picture, under it. Hatched: not offered. Where channels stand closer than marks, one pole shows the worst of those at its
/// place.
/// </summary>
public sealed class PlanStripScene
{
    private const double Room = 7;
    private const double LowestDb = -24;

    private readonly PlanStripModel _model;
    private readonly double _width;
    private readonly PlotBox _box;
    private readonly Axis _x;
    private readonly Axis _y;
    private readonly List<SceneItem> _items = [];
    private readonly LabelPlacer _placer;

    private PlanStripScene(PlanStripModel model, double width, double height)
    {
        _model = model;
        _width = width;
        _box = new PlotBox(34, 48, width - 10, 48 + height);
        double half = model.RasterHz / 2.0;
        _x = Axis.Linear(model.Channels[0].FrequencyHz - half, model.Channels[^1].FrequencyHz + half, _box.Left, _box.Right);
        double most = model.Channels.Max(static c => c.SumOverNoiseDb ?? LowestDb);
        _y = Axis.Linear(LowestDb, Math.Max(10, 10 * Math.Ceiling((most + 4) / 10)), _box.Bottom, _box.Top);
        _placer = new LabelPlacer(new PlotBox(_box.Left, 14, width, _box.Top - 2));
    }

    /// <summary>Draws it.</summary>
    /// <param name="model">What to show.</param>
    /// <param name="width">In CSS pixels, at least 300.</param>
    /// <param name="height">Of the frame, in CSS pixels.</param>
    public static Scene Draw(PlanStripModel model, double width, double height = 150)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 300);
        ArgumentOutOfRangeException.ThrowIfZero(model.Channels.Count);
        return new PlanStripScene(model, width, height).Draw();
    }

    /// <summary>How many channels share a place at a width; 1 where each has its own.</summary>
    /// <param name="model">What is shown.</param>
    /// <param name="width">In CSS pixels.</param>
    public static int Shared(PlanStripModel model, double width)
    {
        ArgumentNullException.ThrowIfNull(model);
        return Math.Max(1, (int)Math.Ceiling(model.Channels.Count * Room / (width - 44)));
    }

    private Scene Draw()
    {
        Taken();
        Grid();
        Poles();
        Frequencies();
        Names();
        return new Scene
        {
            Width = _width,
            Height = _box.Bottom + 36,
            Title = _model.Title,
            Description = _model.Description,
            Items = _items,
        };
    }

    /// <summary>Runs of channels that are not offered.</summary>
    private void Taken()
    {
        double half = _model.RasterHz / 2.0;
        for (int i = 0; i < _model.Channels.Count; i++)
        {
            int end = i;
            while (end < _model.Channels.Count && _model.Channels[end].IsTaken)
            {
                end++;
            }

            if (end > i)
            {
                double left = _x.Map(_model.Channels[i].FrequencyHz - half);
                double right = Math.Max(left + 1, _x.Map(_model.Channels[end - 1].FrequencyHz + half));
                _items.Add(new SceneRect("mask", new PlotBox(left, _box.Top, right, _box.Bottom), Hatched: true));
                i = end;
            }
        }
    }

    private void Grid()
    {
        _items.Add(new SceneText("", 0, 11, "over noise, dB"));
        foreach (Tick tick in _y.Ticks(28))
        {
            double at = _y.Map(tick.Value);
            string text = (tick.Value < 0 ? "\u2212" : "") + Math.Abs(tick.Value).ToString("0", CultureInfo.InvariantCulture);
            _items.Add(new ScenePath(tick.Value == 0 ? "noise" : "grid", SvgPath.Segment(_box.Left, at, _box.Right, at)));
            _items.Add(new SceneText("", _box.Left - 5, at + 4, text, TextAnchor.End));
        }

        double marginal = _model.MarginalFromDb;
        if (_y.Shows(marginal))
        {
            _items.Add(new ScenePath("limit", SvgPath.Segment(_box.Left, _y.Map(marginal), _box.Right, _y.Map(marginal))));
        }
    }

    /// <summary>One pole for each channel, or for as many as share a place.</summary>
    private void Poles()
    {
        int shared = Shared(_model, _width);
        for (int first = 0; first < _model.Channels.Count; first += shared)
        {
            PlanStripChannel[] here =
            [
                .. _model.Channels.Skip(first).Take(shared).Where(static c => !c.IsTaken),
            ];
            if (here.Length == 0)
            {
                continue;
            }

            PlanStripChannel worst = here.MinBy(static c => (Rank(c.Verdict), -(c.SumOverNoiseDb ?? -1_000)));
            double x = _x.Map(here.Length == 1 ? worst.FrequencyHz : (here[0].FrequencyHz + here[^1].FrequencyHz) / 2.0);
            Pole(worst, x, Array.Exists(here, c => c.FrequencyHz == (_model.ChosenHz ?? _model.BestHz)));
        }
    }

    private void Pole(PlanStripChannel channel, double x, bool isPicked)
    {
        string style = isPicked ? "picked" : Marks.Style(channel.Verdict);
        if (channel.SumOverNoiseDb is not { } sum || sum < LowestDb)
        {
            // Out of the picture; of unknown level is neither over nor under.
            _items.Add(new ScenePath($"pole on {style}", SvgPath.Segment(x, _box.Bottom - 4, x, _box.Bottom)));
            if (channel.Verdict == Verdict.Unknown)
            {
                _items.Add(new ScenePath($"m {style}", Marks.Shape(Verdict.Unknown, x, _box.Bottom - 8, 3)));
            }

            return;
        }

        double y = _y.Map(sum);
        _items.Add(new ScenePath(isPicked ? "pole on picked" : "pole", SvgPath.Segment(x, y, x, _box.Bottom)));
        _items.Add(new ScenePath($"m on {style}", Marks.Shape(channel.Verdict, x, y, 3)));
    }

    private static int Rank(Verdict verdict) => verdict switch
    {
        Verdict.Harmful => 0,
        Verdict.Marginal => 1,
        Verdict.Unknown => 2,
        _ => 3,
    };

    private void Frequencies()
    {
        foreach (Tick tick in Axis.Linear(_x.Minimum / 1e6, _x.Maximum / 1e6, _box.Left, _box.Right).Ticks(64))
        {
            double at = _x.Map(tick.Value * 1e6);
            _items.Add(new ScenePath("axis", SvgPath.Segment(at, _box.Bottom, at, _box.Bottom + 4)));
            string text = tick.Value.ToString("0.0###", CultureInfo.InvariantCulture);
            double half = TextWidth.Of(text, 11) / 2;
            _items.Add(new SceneText("", Math.Clamp(at, half, _width - half), _box.Bottom + 16, text, TextAnchor.Middle));
        }

        _items.Add(new ScenePath("axis", SvgPath.Segment(_box.Left, _box.Bottom, _box.Right, _box.Bottom)));
        _items.Add(new SceneText("", _box.Right, _box.Bottom + 32, "receive frequency, MHz", TextAnchor.End));
    }

    /// <summary>
    /// The channel that is chosen, the best, the present one, and what stands in the band; who finds no room keeps its stroke.
    /// </summary>
    private void Names()
    {
        if (_model.ChosenHz is { } chosen && chosen != _model.BestHz)
        {
            Name("chosen", chosen, "picked-text", bold: true);
        }

        if (_model.BestHz is { } best)
        {
            Name("best", best, (_model.ChosenHz ?? best) == best ? "picked-text" : "ink", bold: true);
        }

        if (_model.PresentHz >= _model.Channels[0].FrequencyHz && _model.PresentHz <= _model.Channels[^1].FrequencyHz
            && _model.PresentHz != _model.BestHz && _model.PresentHz != _model.ChosenHz)
        {
            Name("now", _model.PresentHz, "ink", bold: true);
        }

        foreach (PlanStripMark mark in _model.Marks)
        {
            Name(mark.Name, mark.FrequencyHz, "ink", bold: false);
        }
    }

    private void Name(string name, long frequencyHz, string look, bool bold)
    {
        double x = Math.Clamp(_x.Map(frequencyHz), _box.Left, _box.Right);
        _items.Add(new ScenePath("stem", SvgPath.Segment(x, _box.Top - 6, x, _box.Top)));
        SceneText words = new(look, x, 0, TextWidth.Fit(name, 130, 11, bold), TextAnchor.Middle, Bold: bold);
        LabelSpot[] spots =
        [
            .. ((double[])[_box.Top - 9, _box.Top - 22]).SelectMany(y => (LabelSpot[])
            [
                new(x, y, TextAnchor.Middle), new(x - 3, y, TextAnchor.Start), new(x + 3, y, TextAnchor.End),
            ]),
        ];
        if (words.Text.Length > 0 && _placer.Place(words, spots) is { } placed)
        {
            _items.Add(placed);
        }
    }
}
