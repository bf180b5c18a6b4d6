using Spurless.Circuits.Parts;
using Spurless.Drawing.Plotting;

namespace Spurless.Drawing.Schematics;

/// <summary>Places a plan: first every width and height, then every symbol.</summary>
internal sealed class PlanLayout
{
    private const double Arm = 74;
    private const double Row = 52;
    private const double Words = 46;
    private const double Tap = 12;
    private const double Stub = 14;

    private readonly CircuitPlan _plan;
    private readonly Circuit _circuit;
    private readonly Sketch _sketch;
    private readonly double _shuntWidth;
    private readonly double _shuntRoom;
    private readonly double _seriesWidth;
    private readonly int _depth;
    private readonly double[] _occupied;
    private readonly double[] _bridgeLevel;
    private readonly double[] _starLevel;
    private readonly double[] _nodeX;
    private readonly double[] _nodeWidth;
    private readonly double[] _linkWidth;
    private readonly double _rail;
    private readonly HashSet<Coupling> _arcs = [];
    private readonly Dictionary<string, Part> _parts;

    public PlanLayout(CircuitPlan plan, Circuit circuit, Sketch sketch)
    {
        (_plan, _circuit, _sketch) = (plan, circuit, sketch);
        _parts = circuit.Parts.ToDictionary(static p => p.Name, StringComparer.Ordinal);

        // As wide as the words beside the parts need, so that a three-resonator filter fits a page.
        double words = circuit.Parts
            .Select(static p => Math.Max(TextWidth.Of(p.Name, 13, true), TextWidth.Of(PartWords.Value(p), 11))).DefaultIfEmpty(0)
            .Max();
        for (int i = 0; i < plan.Links.Count; i++)
        {
            if (plan.Links[i] is { Block: null, Transformer: null } && _plan.Over(i) is { } coupling)
            {
                _arcs.Add(coupling);
            }
        }

        // A coupling's line goes down left of its coil: room for it.
        double aside = plan.Couplings.Any(c => !_arcs.Contains(c)) ? 10 : 0;
        _shuntRoom = Math.Clamp(words + 8, 38, 108);
        _shuntWidth = _shuntRoom + 22 + aside;
        _seriesWidth = Math.Clamp(words + 12, 62, 130);
        _depth = Math.Max(1, plan.Arms.SelectMany(static a => a).Select(static a => a.Length).DefaultIfEmpty(1).Max());
        _occupied = [.. plan.Links.Select(static l => Words + (l.Block is { } b ? (b.Breadth - 1) * Row : 0))];
        (_bridgeLevel, _starLevel) = Levels();
        _rail = Math.Max(60, _occupied.DefaultIfEmpty(0).Max() + 14);
        _linkWidth = [.. plan.Links.Select((_, i) => LinkWidth(i))];
        _nodeWidth = [.. plan.Nodes.Select((_, i) => NodeWidth(i))];
        WidenForBridges();
        _nodeX = new double[plan.Nodes.Count];
        double x = 40;
        for (int i = 0; i < plan.Nodes.Count; i++)
        {
            _nodeX[i] = x;
            x += _nodeWidth[i] + (i < _linkWidth.Length ? _linkWidth[i] : 0);
        }

        // The words of the last arm end before the port's begin.
        int last = plan.Nodes.Count - 1;
        double words1 = plan.Arms[last].Count == 0
            ? 0
            : _nodeX[last] + Stub + ((plan.Arms[last].Sum(static a => a.Breadth) - 1) * _shuntWidth) + 14 + _shuntRoom;
        Width = Math.Max(x, words1) + 42;
    }

    /// <summary>Width of the drawing.</summary>
    public double Width { get; private set; }

    /// <summary>Height of the drawing, once drawn.</summary>
    public double Height { get; private set; }

    /// <summary>Draws everything.</summary>
    public void Draw()
    {
        double ground = _rail + (_depth * Arm);
        _sketch.Port(18, _rail, "in", _circuit.ImpedanceOhm, TextAnchor.Start);
        _sketch.Wire(22, _rail, 40, _rail);
        for (int n = 0; n < _plan.Nodes.Count; n++)
        {
            DrawNode(n, ground);
            if (n < _plan.Links.Count)
            {
                DrawLink(n, ground);
            }
        }

        double end = Width - 42;
        _sketch.Wire(_nodeX[^1] + _nodeWidth[^1], _rail, end + 18, _rail);
        _sketch.Port(end + 22, _rail, "out", _circuit.ImpedanceOhm, TextAnchor.End);
        for (int b = 0; b < _plan.Bridges.Count; b++)
        {
            Bridge bridge = _plan.Bridges[b];
            (double left, double right) = (TapX(bridge.From, bridge), TapX(bridge.To, bridge));
            double y = _rail - _bridgeLevel[b];
            Lead(left, y);
            Lead(right, y);
            Across(bridge.Block, left, right, y);
        }

        for (int s = 0; s < _plan.Stars.Count; s++)
        {
            DrawStar(_plan.Stars[s], _rail - _starLevel[s]);
        }

        DrawCouplings(ground + 34);
    }

    private (double[] Bridges, double[] Stars) Levels()
    {
        double[] bridges = new double[_plan.Bridges.Count];
        double[] stars = new double[_plan.Stars.Count];
        foreach ((int index, bool star, int from, int to) in _plan.Bridges.Select(static (b, i) => (i, false, b.From, b.To))
            .Concat(_plan.Stars.Select(static (s, i) => (i, true, s.From, s.To)))
                .OrderBy(static o => o.Item4 - o.Item3)
                .ThenBy(static o => o.Item2))
        {
            double level = Enumerable.Range(from, to - from).Max(k => _occupied[k]) + 10;
            double height = star
                ? Math.Max(Words, Words + (_plan.Stars[index].ToGround.Length * Arm) + 12)
                : Words + ((_plan.Bridges[index].Block.Breadth - 1) * Row);
            (star ? stars : bridges)[index] = level;
            for (int k = from; k < to; k++)
            {
                _occupied[k] = level + height;
            }
        }

        return (bridges, stars);
    }

    private double LinkWidth(int link)
    {
        Link l = _plan.Links[link];
        double arms = _plan.Arms[link].Count > 0 ? _shuntWidth : 0;
        if (l.Block is { } block)
        {
            // The words of an arm on the left and those of one on the right keep apart.
            bool inner = link > 0 && link < _plan.Links.Count - 1;
            return block.WidthAcross(_seriesWidth) + (inner ? 26 : 0);
        }

        return l.Transformer is { } t
            ? Math.Max(arms + 8, 22) + Math.Max(62, TextWidth.Of(PartWords.Value(t), 11))
            : Math.Max(_shuntWidth + 20, 90);
    }

    private double NodeWidth(int node)
    {
        int arms = _plan.Arms[node].Sum(static a => a.Breadth);
        double below = arms == 0 ? 0 : ((arms - 1) * _shuntWidth) + (2 * Stub);
        double above = Taps(node).Count * Tap;
        return Math.Max(below, above == 0 ? 0 : above + 8);
    }

    // What leads over the top must find room for its words between its ends.
    private void WidenForBridges()
    {
        foreach ((int from, int to, double needed) in _plan.Bridges.Select(b => (b.From, b.To, b.Block.WidthAcross(_seriesWidth)))
            .Concat(_plan.Stars.Select(s => (s.From, s.To, s.WidthAcross(_seriesWidth) + _shuntWidth))))
        {
            double has = Enumerable.Range(from, to - from)
                .Sum(k => _linkWidth[k]) + Enumerable.Range(from + 1, to - from - 1)
                .Sum(k => _nodeWidth[k]);
            double each = Math.Max(0, needed + 12 - has) / (to - from);
            for (int k = from; k < to; k++)
            {
                _linkWidth[k] += each;
            }
        }
    }

    /// <summary>
    /// What leads up from a node, left to right: what ends here, the lowest first, then what begins here, the highest first. So nothing
    /// crosses that need not.
    /// </summary>
    private List<object> Taps(int node)
    {
        List<(object What, int From, int To, double Level)> all =
        [
            .. _plan.Bridges.Select((b, i) => ((object)b, b.From, b.To, _bridgeLevel[i])),
            .. _plan.Stars.Select((s, i) => ((object)s, s.From, s.To, _starLevel[i])),
        ];
        return
        [
            .. all.Where(o => o.To == node).OrderBy(static o => o.Level).Select(static o => o.What),
            .. all.Where(o => o.From == node).OrderByDescending(static o => o.Level).Select(static o => o.What),
        ];
    }

    private double TapX(int node, object what)
    {
        List<object> taps = Taps(node);
        return _nodeX[node] + (_nodeWidth[node] / 2) + ((taps.FindIndex(t => ReferenceEquals(t, what)) - ((taps.Count - 1) / 2.0)) * Tap);
    }

    private void Lead(double x, double y)
    {
        _sketch.Wire(x, _rail, x, y);
        _sketch.Node(x, _rail);
    }

    private void DrawNode(int node, double ground)
    {
        double x = _nodeX[node];
        _sketch.Wire(x, _rail, x + _nodeWidth[node], _rail);
        double at = x + Stub;
        foreach (Block arm in _plan.Arms[node])
        {
            _sketch.Node(at, _rail);
            if (arm is PartBlock { Part: Spurless.Circuits.Parts.Stub { End: StubEnd.Open } stub })
            {
                _sketch.Down(at, _rail, _rail + Arm, _parts[stub.Name], _shuntRoom, open: true);
            }
            else
            {
                // Chains side by side end on a wire of their own, a little over the ground symbol.
                double foot = ground + (arm.EndsWide ? 12 : 0);
                Down(arm, at, _rail, ground);
                _sketch.Wire(at, ground, at, foot);
                _sketch.Ground(at, foot);
            }

            at += arm.Breadth * _shuntWidth;
        }
    }

    private void DrawLink(int link, double ground)
    {
        double left = _nodeX[link] + _nodeWidth[link];
        double right = left + _linkWidth[link];
        Link l = _plan.Links[link];
        if (l.Block is { } block)
        {
            Across(block, left, right, _rail);
        }
        else if (l.Transformer is { } transformer)
        {
            double first = left + Math.Max(_plan.Arms[link].Count > 0 ? _shuntWidth + 8 : 0, 22);
            double second = right - 22;
            _sketch.Wire(left, _rail, first, _rail);
            _sketch.Wire(second, _rail, right, _rail);
            bool forward = Net.Live(transformer.FirstFrom, transformer.FirstTo) == _plan.Nodes[link];
            _sketch.Windings(first, second, _rail, ground, Arm, transformer, forward);
            _sketch.Ground(first, ground);
            _sketch.Ground(second, ground);
        }
    }

    private void Across(Block block, double left, double right, double y)
    {
        switch (block)
        {
            case PartBlock one:
                _sketch.Along(left, (left + right) / 2, right, y, _parts[one.Part.Name]);
                break;
            case SeriesBlock series:
                double scale = (right - left) / series.WidthAcross(_seriesWidth);
                double x = left;
                foreach (Block item in series.Items)
                {
                    double width = item.WidthAcross(_seriesWidth) * scale;
                    Across(item, x, x + width, y);
                    x += width;
                }

                break;
            case ParallelBlock parallel:
                _sketch.Wire(left, y, left + 6, y);
                _sketch.Wire(right - 6, y, right, y);
                _sketch.Node(left + 6, y);
                _sketch.Node(right - 6, y);
                double up = y;
                for (int i = 0; i < parallel.Items.Count; i++)
                {
                    Across(parallel.Items[i], left + 6, right - 6, up);
                    if (i < parallel.Items.Count - 1)
                    {
                        double next = up - (parallel.Items[i].Breadth * Row);
                        _sketch.Wire(left + 6, up, left + 6, next);
                        _sketch.Wire(right - 6, up, right - 6, next);
                        up = next;
                    }
                }

                break;
        }
    }

    private void Down(Block block, double x, double top, double bottom)
    {
        switch (block)
        {
            case PartBlock one:
                _sketch.Down(x, top, top + Arm, _parts[one.Part.Name], _shuntRoom);
                _sketch.Wire(x, top + Arm, x, bottom);
                break;
            case SeriesBlock series:
                double y = top;
                for (int i = 0; i < series.Items.Count; i++)
                {
                    double next = i == series.Items.Count - 1 ? bottom : y + (series.Items[i].Length * Arm);
                    Down(series.Items[i], x, y, next);
                    y = next;
                }

                break;
            case ParallelBlock parallel:
                double at = x;
                foreach (Block item in parallel.Items)
                {
                    Down(item, at, top, bottom);
                    if (at > x)
                    {
                        _sketch.Wire(x, top, at, top);
                        _sketch.Wire(x, bottom, at, bottom);
                    }

                    at += item.Breadth * _shuntWidth;
                }

                _sketch.Node(x, top);
                _sketch.Node(x, bottom);
                break;
        }
    }

    private void DrawStar(Star star, double y)
    {
        (double left, double right) = (TapX(star.From, star), TapX(star.To, star));
        Lead(left, y);
        Lead(right, y);
        double part = star.Left.WidthAcross(_seriesWidth) / star.WidthAcross(_seriesWidth);
        double hub = left + ((right - left) * part);
        Across(star.Left, left, hub, y);
        Across(star.Right, hub, right, y);
        double foot = y - Words;
        double top = foot - (star.ToGround.Length * Arm);
        _sketch.Wire(hub, y, hub, foot);
        _sketch.Node(hub, y);
        Down(star.ToGround, hub, top, foot);
        _sketch.Ground(hub, top, up: true);
    }

    private void DrawCouplings(double below)
    {
        double y = below;
        List<string> words = [];
        foreach (Coupling coupling in _plan.Couplings)
        {
            string says = $"k = {PartWords.Value(coupling)}";
            if (!_sketch.Placed.TryGetValue(coupling.First, out (PlotPoint At, bool Down) a)
                || !_sketch.Placed.TryGetValue(coupling.Second, out (PlotPoint At, bool Down) b)
                || !a.Down || !b.Down)
            {
                words.Add($"{coupling.Name}: {coupling.First} and {coupling.Second} couple, {says}");
                continue;
            }

            (PlotPoint left, PlotPoint right) = a.At.X < b.At.X ? (a.At, b.At) : (b.At, a.At);
            if (_arcs.Contains(coupling))
            {
                int gap = Enumerable.Range(0, _plan.Links.Count).First(i => _plan.Over(i) == coupling);
                double middle = _nodeX[gap] + _nodeWidth[gap] + (_linkWidth[gap] / 2);
                _sketch.CouplingArc(left, right, _rail, middle, coupling, says);
            }
            else
            {
                _sketch.CouplingLine(left, right, y, coupling, says);
                y += 20;
            }
        }

        // The rows of words stand under the ground symbols and under the dashed lines.
        double bottom = y - (y > below ? 0 : 20);
        foreach (string text in words)
        {
            bottom += 16;
            _sketch.Say(0, bottom, text);
            Width = Math.Max(Width, TextWidth.Of(text, 11) + 4);
        }

        Height = bottom + 8;
    }
}
