using System.Globalization;
using Spurless.Drawing.Plotting;
using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;

namespace Spurless.Drawing.Paths;

/// <summary>
/// Draws a path from the side: the ground with the earth's bulge in it, so that the line of sight is straight; that line, the first Fresnel
/// zone, the antennas, and the edges that matter with metres and decibels.
/// </summary>
public sealed class PathPictureScene
{
    private const int ZonePoints = 80;

    private readonly PathPictureModel _model;
    private readonly double _width;
    private readonly PlotBox _box;
    private readonly Axis _x;
    private readonly Axis _y;
    private readonly List<SceneItem> _items = [];
    private readonly LabelPlacer _placer;
    private readonly double _lengthKm;
    private readonly double _fromM;
    private readonly double _toM;

    private PathPictureScene(PathPictureModel model, double width, double height)
    {
        _model = model;
        _width = width;
        _box = new PlotBox(44, 34, width - 10, 34 + height);
        _lengthKm = model.Profile.DistanceKm[^1];
        _fromM = model.Profile.GroundM[0] + model.TransmitterHeightM;
        _toM = model.Profile.GroundM[^1] + model.ReceiverHeightM;
        (double low, double high) = Range(model, _lengthKm, Math.Max(_fromM, _toM));
        _x = Axis.Linear(0, _lengthKm, _box.Left, _box.Right);
        _y = Axis.Linear(low, high, _box.Bottom, _box.Top);
        _placer = new LabelPlacer(new PlotBox(_box.Left, 14, width, _box.Bottom));
    }

    /// <summary>Draws it.</summary>
    /// <param name="model">What to show.</param>
    /// <param name="width">In CSS pixels, at least 300.</param>
    /// <param name="height">Of the frame, in CSS pixels.</param>
    public static Scene Draw(PathPictureModel model, double width, double height = 170)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 300);
        return new PathPictureScene(model, width, height).Draw();
    }

    private Scene Draw()
    {
        Grid();
        Ground();
        Zone();
        _items.Add(new ScenePath("sight", SvgPath.Segment(_box.Left, _y.Map(_fromM), _box.Right, _y.Map(_toM))));
        for (int i = 0; i < 40; i++)
        {
            double a = _y.Map(_fromM + (_toM - _fromM) * i / 40);
            double b = _y.Map(_fromM + (_toM - _fromM) * (i + 1) / 40);
            double x = _box.Left + _box.Width * i / 40;
            _placer.Discourage(new PlotBox(x, Math.Min(a, b) - 1, x + _box.Width / 40, Math.Max(a, b) + 1));
        }

        Mast(0, _model.Profile.GroundM[0], _fromM);
        Mast(_lengthKm, _model.Profile.GroundM[^1], _toM);
        Edges();
        Names();
        Distances();
        return new Scene
        {
            Width = _width,
            Height = _box.Bottom + 34,
            Title = _model.Title,
            Description = _model.Description,
            Items = _items,
        };
    }

    /// <summary>From the lowest ground, or sea level where that is near, to a little over all that is drawn.</summary>
    private static (double Low, double High) Range(PathPictureModel model, double lengthKm, double antennas)
    {
        double low = double.PositiveInfinity;
        double high = antennas;
        ReadOnlySpan<double> d = model.Profile.DistanceKm;
        for (int i = 0; i < d.Length; i++)
        {
            double bulge = Bulge(d[i], lengthKm, model.RadiusKm);
            low = Math.Min(low, model.Profile.GroundM[i]);
            high = Math.Max(high, model.Profile.SurfaceM[i] + bulge);
        }

        double span = Math.Max(high - low, 20);
        low = low >= 0 && low < 0.6 * span ? 0 : low - 0.08 * span;
        return (low, high + 0.18 * (high - low));
    }

    private static double Bulge(double atKm, double lengthKm, double radiusKm) => 500 / radiusKm * atKm * (lengthKm - atKm);

    private void Grid()
    {
        foreach (Tick tick in _y.Ticks(32))
        {
            double at = _y.Map(tick.Value);
            if (at > _box.Top - 1)
            {
                string text = (tick.Value < 0 ? "\u2212" : "") + Math.Abs(tick.Value).ToString("0.###", CultureInfo.InvariantCulture);
                _items.Add(new ScenePath("grid", SvgPath.Segment(_box.Left, at, _box.Right, at)));
                _items.Add(new SceneText("", _box.Left - 5, at + 4, text, TextAnchor.End));
            }
        }

        _items.Add(new SceneText("", 0, 11, "height, m"));
    }

    private void Ground()
    {
        ReadOnlySpan<double> d = _model.Profile.DistanceKm;
        List<PlotPoint> top = [];
        for (int i = 0; i < d.Length; i++)
        {
            top.Add(new PlotPoint(_x.Map(d[i]), _y.Map(_model.Profile.SurfaceM[i] + Bulge(d[i], _lengthKm, _model.RadiusKm))));
        }

        IReadOnlyList<PlotPoint> shown = Decimation.PerColumn(top, 0.7);
        SvgPath path = new SvgPath().Through(shown);
        _items.Add(new ScenePath("hill", path.Line(_box.Right, _box.Bottom).Line(_box.Left, _box.Bottom).Close().ToString()));
        foreach ((PlotPoint a, PlotPoint b) in shown.Zip(shown.Skip(1)))
        {
            _placer.Discourage(new PlotBox(a.X, Math.Min(a.Y, b.Y) - 1, b.X, Math.Max(a.Y, b.Y) + 1));
        }
    }

    /// <summary>The first Fresnel zone, cut at the frame.</summary>
    private void Zone()
    {
        foreach (int side in (int[])[1, -1])
        {
            List<PlotPoint> points = [];
            for (int i = 0; i <= ZonePoints; i++)
            {
                // Closer together at the ends, where the zone opens.
                double share = (1 - Math.Cos(Math.PI * i / ZonePoints)) / 2;
                double d1 = _lengthKm * share * 1000;
                double d2 = _lengthKm * 1000 - d1;
                double radius = d1 <= 0 || d2 <= 0 ? 0 : KnifeEdge.FirstFresnelRadiusM(d1, d2, _model.FrequencyHz);
                points.Add(new PlotPoint(_x.Map(_lengthKm * share), _y.Map(_fromM + (_toM - _fromM) * share + side * radius)));
            }

            foreach (IReadOnlyList<PlotPoint> part in Clipping.Polyline(points, _box))
            {
                _items.Add(new ScenePath("fresnel", new SvgPath().Through(part).ToString()));
            }
        }
    }

    private void Mast(double km, double groundM, double topM)
    {
        double x = _x.Map(km);
        _items.Add(new ScenePath("mast", SvgPath.Segment(x, _y.Map(groundM), x, _y.Map(topM))));
        _placer.Block(PlotBox.Around(x, _y.Map(topM), 3, 3));
    }

    private void Edges()
    {
        foreach (PathObstacle edge in _model.Sight.Edges.OrderByDescending(e => e.Index == _model.Sight.Worst.Index))
        {
            double km = edge.DistanceM / 1000;
            double x = _x.Map(km);
            double y = _y.Map(edge.TopM + Bulge(km, _lengthKm, _model.RadiusKm));
            bool main = edge.Index == _model.Sight.Worst.Index;
            _items.Add(new SceneCircle(main ? "ball picked" : "ball", x, y, main ? 3.5 : 3));
            _placer.Block(PlotBox.Around(x, y, 4, 4));
            if (!main && edge.EdgeLossDb < 1)
            {
                continue;
            }

            SceneText words = new(main ? "halo ink" : "halo", x, y, Words(edge, main), TextAnchor.Middle, Bold: main);
            SceneText? placed = _placer.Place(words, Spots(x, y, main));
            if (placed is null)
            {
                continue;
            }

            if (Math.Abs(placed.Y - y) > 14)
            {
                double end = placed.Y < y ? placed.Y + 3 : placed.Y - 9;
                _items.Add(new ScenePath("stem", SvgPath.Segment(x, placed.Y < y ? y - 4 : y + 4, x, end)));
            }

            _items.Add(placed);
        }
    }

    private static string Words(PathObstacle edge, bool main)
    {
        string metres = Math.Abs(edge.OverLineM).ToString("0", CultureInfo.InvariantCulture);
        string db = edge.EdgeLossDb.ToString("0.0", CultureInfo.InvariantCulture);
        return main ? $"{metres} m {(edge.OverLineM > 0 ? "over" : "under")} the line, {db} dB" : $"{db} dB";
    }

    private IEnumerable<LabelSpot> Spots(double x, double y, bool main)
    {
        foreach (double up in (double[])[8, 20, 32, 46, 60])
        {
            yield return new LabelSpot(x, y - up, TextAnchor.Middle);

            // Near an end of the picture the words of the main hill stand flush with it, its stem leads to them.
            if (main && (x < _box.Left + 120 || x > _box.Right - 120))
            {
                yield return x < _box.Left + 120
                    ? new LabelSpot(_box.Left + 4, y - up, TextAnchor.Start)
                    : new LabelSpot(_box.Right - 4, y - up, TextAnchor.End);
            }
        }

        yield return new LabelSpot(x + 8, y + 4, TextAnchor.Start);
        yield return new LabelSpot(x - 8, y + 4, TextAnchor.End);
        yield return new LabelSpot(x, y + 18, TextAnchor.Middle);
    }

    private void Names()
    {
        Name(_model.From, _box.Left + 6, _y.Map(_fromM), TextAnchor.Start);
        Name(_model.To, _box.Right - 6, _y.Map(_toM), TextAnchor.End);
    }

    private void Name(string name, double x, double y, TextAnchor anchor)
    {
        double[] offsets = [-8, -20, -34, 16, 28, 42];
        if (_placer.Place(new SceneText("halo ink", x, y, name, anchor), offsets.Select(
            o => new LabelSpot(x, y + o, anchor))) is { } placed)
        {
            _items.Add(placed);
        }
    }

    private void Distances()
    {
        foreach (Tick tick in _x.Ticks(56))
        {
            double at = _x.Map(tick.Value);
            _items.Add(new ScenePath("axis", SvgPath.Segment(at, _box.Bottom, at, _box.Bottom + 4)));
            _items.Add(new SceneText(
                "", at, _box.Bottom + 15, tick.Value.ToString("0.###", CultureInfo.InvariantCulture), TextAnchor.Middle));
        }

        _items.Add(new ScenePath("axis", SvgPath.Segment(_box.Left, _box.Bottom, _box.Right, _box.Bottom)));
        _items.Add(new SceneText("", _box.Right, _box.Bottom + 30, "distance, km", TextAnchor.End));
    }
}
