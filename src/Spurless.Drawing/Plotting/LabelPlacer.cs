namespace Spurless.Drawing.Plotting;

/// <summary>A place where a text could stand.</summary>
/// <param name="X">The anchor's x.</param>
/// <param name="Y">The base line's y.</param>
/// <param name="Anchor">Which part of the text stands at X.</param>
public readonly record struct LabelSpot(double X, double Y, TextAnchor Anchor);

/// <summary>
/// Gives each label a place that meets no other and does not leave its frame. Labels come by importance: the first has the choice,
/// and one that fits nowhere is left out, never laid over another.
/// </summary>
public sealed class LabelPlacer
{
    private readonly List<PlotBox> _taken = [];
    private readonly List<PlotBox> _words = [];
    private readonly List<PlotBox> _soft = [];
    private readonly List<(PlotPoint From, PlotPoint To)> _lines = [];
    private readonly PlotBox _frame;

    /// <summary>An empty frame.</summary>
    /// <param name="frame">No label leaves it.</param>
    public LabelPlacer(PlotBox frame) => _frame = frame;

    /// <summary>What is taken so far.</summary>
    public IReadOnlyList<PlotBox> Taken => _taken;

    /// <summary>Keeps labels off an area.</summary>
    public void Block(PlotBox box) => _taken.Add(box);

    /// <summary>Keeps labels off words, and leaders too, wherever they begin.</summary>
    public void BlockWords(PlotBox box)
    {
        _taken.Add(box);
        _words.Add(box);
    }

    /// <summary>Keeps labels off a line: a curve, the noise floor. Where several points are given, off each stretch between two.</summary>
    public void BlockLine(params ReadOnlySpan<PlotPoint> points)
    {
        for (int i = 1; i < points.Length; i++)
        {
            if (double.IsFinite(points[i - 1].Y) && double.IsFinite(points[i].Y))
            {
                _lines.Add((points[i - 1], points[i]));
            }
        }
    }

    /// <summary>Lets labels cross an area only where there is nothing better: a line, a stem.</summary>
    public void Discourage(PlotBox box) => _soft.Add(box);

    /// <summary>Whether a box is inside the frame and free.</summary>
    public bool IsFree(PlotBox box) => _frame.Contains(box) && !Meets(box, _taken) && !OnLine(box);

    /// <summary>How many discouraged areas a box crosses.</summary>
    public int Crossings(PlotBox box) => _soft.Count(s => s.Overlaps(box));

    /// <summary>Whether a straight line keeps off every box that is taken, the mark that it begins at left out.</summary>
    /// <param name="from">Its beginning, at the mark that it leads from.</param>
    /// <param name="to">Its end.</param>
    public bool LineIsFree(PlotPoint from, PlotPoint to)
    {
        // What it leads from is taken itself; words that stand as close to the mark are not what it leads from.
        foreach (PlotBox taken in _taken)
        {
            if (taken.Meets(from, to) && !taken.Grown(1.5).Contains(from.X, from.Y))
            {
                return false;
            }
        }

        return !_words.Exists(w => w.Meets(from, to));
    }

    /// <summary>Chooses the first free place that crosses the fewest discouraged areas, and takes it.</summary>
    /// <param name="lines">Lines of text, top first, all anchored alike; the spot is that of the first line.</param>
    /// <param name="spots">Places by preference.</param>
    /// <param name="leading">Distance of two base lines.</param>
    /// <returns>The place, or null where none is free.</returns>
    public LabelSpot? Place(IReadOnlyList<SceneText> lines, IEnumerable<LabelSpot> spots, double leading = 13)
    {
        LabelSpot? best = null;
        int fewest = int.MaxValue;
        List<PlotBox> bestBoxes = [];
        foreach (LabelSpot spot in spots)
        {
            List<PlotBox> boxes = [.. lines.Select((line, i) => line.At(spot.X, spot.Y + (i * leading), spot.Anchor).Box.Grown(0.5))];
            if (!boxes.TrueForAll(IsFree))
            {
                continue;
            }

            int crossings = _soft.Count(s => boxes.Exists(b => b.Overlaps(s)));
            if (crossings < fewest)
            {
                (best, fewest, bestBoxes) = (spot, crossings, boxes);
            }

            if (crossings == 0)
            {
                break;
            }
        }

        bestBoxes.ForEach(BlockWords);
        return best;
    }

    private bool OnLine(PlotBox box)
    {
        PlotBox near = box.Grown(0.8);
        foreach ((PlotPoint from, PlotPoint to) in _lines)
        {
            if (near.Meets(from, to))
            {
                return true;
            }
        }

        return false;
    }

    private static bool Meets(PlotBox box, List<PlotBox> others)
    {
        foreach (PlotBox other in others)
        {
            if (other.Overlaps(box))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Places one line of text and gives it back where it came to stand.</summary>
    public SceneText? Place(SceneText text, IEnumerable<LabelSpot> spots) =>
        Place([text], spots) is { } spot ? text.At(spot.X, spot.Y, spot.Anchor) : null;
}
