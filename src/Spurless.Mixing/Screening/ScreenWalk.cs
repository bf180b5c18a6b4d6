using Spurless.Numerics;

namespace Spurless.Mixing.Screening;

/// <summary>
/// Looks round from one receiver through the boxes: the strongest level at each stage, all emitters that are strong enough, and all that
/// can be in a mixture at all, by frequency. One instance a thread.
/// </summary>
internal sealed class ScreenWalk
{
    private readonly ScreenField _field;
    private readonly ScreenPaths _paths;
    private readonly List<(int Node, double Most)> _stack = [];
    private readonly List<int> _found = [];
    private readonly List<double> _levels = [];

    // What may be asked for by frequency: per frequency the most that arrives and the first of a chain through what stands behind.
    private readonly float[] _mostAt;
    private readonly int[] _firstAt;
    private (int Emitter, float Most, int Next)[] _chained = new (int, float, int)[1024];
    private ProfileGains _gains = null!;
    private ScreenSight _sight;

    /// <param name="field">The emitters.</param>
    /// <param name="ground">The ground between; null for none.</param>
    public ScreenWalk(ScreenField field, IScreenGround? ground)
    {
        (_field, _paths) = (field, new ScreenPaths(field, ground));
        (_mostAt, _firstAt) = (new float[field.Frequencies.Length], new int[field.Frequencies.Length]);
    }

    /// <summary>Emitters that were found, as indices of the field.</summary>
    public List<int> Found => _found;

    /// <summary>Their levels at the antenna connector before the chain's gain, in dBm, in the same order.</summary>
    public List<double> Levels => _levels;

    /// <summary>Emitters nearer than a wavelength: their level is not known.</summary>
    public int WithoutLevel { get; private set; }

    /// <summary>Whether the ground between is asked for a level.</summary>
    public bool IsOverGround => _paths.IsOverGround;

    /// <summary>Per frequency: no emitter that was put down by frequency arrives stronger, in dBm; minus infinity where there is
    /// none.</summary>
    public ReadOnlySpan<float> MostByFrequency => _mostAt;

    public void Begin(ScreenReceiver receiver, ProfileGains gains, double withinM)
    {
        _gains = gains;
        double withinSquared = double.IsPositiveInfinity(withinM) ? withinM : withinM * withinM;
        _sight = new ScreenSight(receiver, _paths.LeastFreeSpaceDb, withinSquared, _paths.IsOverGround);
        _paths.Begin(receiver, withinSquared);
        WithoutLevel = 0;
    }

    /// <summary>The strongest level at a stage; minus infinity where nothing is heard.</summary>
    public double Strongest(int stage)
    {
        double best = double.NegativeInfinity;
        for (int t = 0; t < _field.Trees.Count; t++)
        {
            ScreenTree tree = _field.Trees[t];
            ScreenTree.Node[] nodes = tree.Nodes;
            double gain = _gains.Most(stage, t);
            double near = NearSquared(tree);
            double floor = Milliwatts(best - gain);
            Start(tree, near, floor);
            while (_stack.Count > 0)
            {
                (int n, double most) = _stack[^1];
                _stack.RemoveAt(_stack.Count - 1);
                if (most <= floor)
                {
                    continue;
                }

                int half = nodes[n].Half;
                if (half >= 0)
                {
                    // The more promising half last, so that it is looked at first.
                    (double left, double right) = (_sight.Most(nodes[half], near), _sight.Most(nodes[half + 1], near));
                    _stack.Add(left >= right ? (half + 1, right) : (half, left));
                    _stack.Add(left >= right ? (half, left) : (half + 1, right));
                    continue;
                }

                for (int k = nodes[n].From; k < nodes[n].To; k++)
                {
                    ref readonly ScreenTree.Seat seat = ref tree.Seats[k];
                    if (_sight.Most(seat, near) > floor
                        && _paths.Level(tree.Members[k], best - gain) + _gains.At(stage, seat.Frequency) is var level
                        && level > best)
                    {
                        (best, floor) = (level, Milliwatts(level - gain));
                    }
                }
            }
        }

        return best;
    }

    /// <summary>Finds all emitters that reach, at any stage, that stage's least level; counts those without a level.</summary>
    public void Gather(ReadOnlySpan<double> least)
    {
        _found.Clear();
        _levels.Clear();
        for (int t = 0; t < _field.Trees.Count; t++)
        {
            Gather(_field.Trees[t], WantedAtAntenna(t, least), least);
        }
    }

    /// <summary>Puts down by frequency whatever can arrive at the antenna with what is wanted of its frequency.</summary>
    /// <param name="wanted">Per frequency of the field, in milliwatts; boundless where nothing is wanted.</param>
    public void GatherByFrequency(ReadOnlySpan<double> wanted)
    {
        Array.Fill(_mostAt, float.NegativeInfinity);
        int count = 0;
        for (int t = 0; t < _field.Trees.Count; t++)
        {
            ScreenTree tree = _field.Trees[t];
            double near = NearSquared(tree);
            double floor = double.PositiveInfinity;
            for (int f = tree.FirstFrequency; f <= tree.LastFrequency; f++)
            {
                floor = Math.Min(floor, wanted[f]);
            }

            if (double.IsPositiveInfinity(floor))
            {
                continue;
            }

            for (Start(tree, near, floor); Next(tree, near, floor) is var n and >= 0;)
            {
                count = PutDown(tree, n, near, wanted, count);
            }
        }
    }

    /// <summary>Adds the emitters of one frequency that were put down, arrive with at least a level and are not among the strong ones,
    /// strongest first.</summary>
    /// <param name="frequency">Index of the frequency.</param>
    /// <param name="wanted">Least level at the antenna connector.</param>
    /// <param name="strongFrom">Per stage: from here on an emitter is a strong one.</param>
    /// <param name="to">Gets them.</param>
    public void AddWeak(int frequency, double wanted, ReadOnlySpan<double> strongFrom, List<(int Emitter, double Level)> to)
    {
        int first = to.Count;
        for (int c = float.IsNegativeInfinity(_mostAt[frequency]) ? -1 : _firstAt[frequency]; c >= 0; c = _chained[c].Next)
        {
            (int emitter, float most, _) = _chained[c];
            if (most < wanted
                || _paths.Level(emitter, wanted) is not (var level and >= double.MinValue)
                || level < wanted)
            {
                continue;
            }

            bool strong = false;
            for (int s = 0; s < strongFrom.Length; s++)
            {
                strong |= level + _gains.At(s, frequency) >= strongFrom[s];
            }

            if (!strong)
            {
                to.Add((emitter, level));
            }
        }

        if (to.Count - first > 1)
        {
            to.Sort(first, to.Count - first, StrongestFirst.Instance);
        }
    }

    private int PutDown(ScreenTree tree, int n, double near, ReadOnlySpan<double> wanted, int count)
    {
        (int from, int to) = (tree.Nodes[n].From, tree.Nodes[n].To);
        if (_chained.Length < count + to - from)
        {
            Array.Resize(ref _chained, Math.Max(2 * _chained.Length, count + to - from));
        }

        for (int k = from; k < to; k++)
        {
            ref readonly ScreenTree.Seat seat = ref tree.Seats[k];
            double most = _sight.Most(seat, near);
            if (most < wanted[seat.Frequency])
            {
                continue;
            }

            float decibels = ScreenSight.DecibelsOver(most);
            ref float at = ref _mostAt[seat.Frequency];
            _chained[count] = (tree.Members[k], decibels, float.IsNegativeInfinity(at) ? -1 : _firstAt[seat.Frequency]);
            _firstAt[seat.Frequency] = count++;
            at = MathF.Max(at, decibels);
        }

        return count;
    }

    private void Gather(ScreenTree tree, double wanted, ReadOnlySpan<double> least)
    {
        double near = NearSquared(tree);
        double floor = Milliwatts(wanted);
        for (Start(tree, near, floor); Next(tree, near, floor) is var n and >= 0;)
        {
            ref readonly ScreenTree.Node node = ref tree.Nodes[n];
            for (int k = node.From; k < node.To; k++)
            {
                ref readonly ScreenTree.Seat seat = ref tree.Seats[k];
                if (_sight.Most(seat, near) < floor)
                {
                    continue;
                }

                double level = _paths.Level(tree.Members[k], wanted);
                if (double.IsNaN(level))
                {
                    WithoutLevel++;
                    continue;
                }

                for (int s = 0; s < least.Length; s++)
                {
                    if (level + _gains.At(s, seat.Frequency) >= least[s])
                    {
                        _found.Add(tree.Members[k]);
                        _levels.Add(level);
                        break;
                    }
                }
            }
        }
    }

    private void Start(ScreenTree tree, double near, double floor)
    {
        _stack.Clear();
        if (_sight.Most(tree.Nodes[0], near) is var most && most >= floor)
        {
            _stack.Add((0, most));
        }
    }

    /// <summary>The next box without halves in which some emitter can reach a power; -1 after the last.</summary>
    private int Next(ScreenTree tree, double near, double floor)
    {
        while (_stack.Count > 0)
        {
            int n = _stack[^1].Node;
            _stack.RemoveAt(_stack.Count - 1);
            int half = tree.Nodes[n].Half;
            if (half < 0)
            {
                return n;
            }

            for (int side = 1; side >= 0; side--)
            {
                if (_sight.Most(tree.Nodes[half + side], near) is var most && most >= floor)
                {
                    _stack.Add((half + side, most));
                }
            }
        }

        return -1;
    }

    /// <summary>The least that must arrive at the antenna for any stage to care, of a tree's emitters.</summary>
    private double WantedAtAntenna(int tree, ReadOnlySpan<double> least)
    {
        double wanted = double.PositiveInfinity;
        for (int s = 0; s < least.Length; s++)
        {
            wanted = Math.Min(wanted, least[s] - _gains.Most(s, tree));
        }

        return wanted;
    }

    /// <summary>The square of the longest wavelength of a tree, and a little more: what may be nearer than its own.</summary>
    private static double NearSquared(ScreenTree tree)
    {
        double wave = PhysicalConstants.SpeedOfLight / tree.FrequencyFrom;
        return 1.05 * wave * wave;
    }

    private static double Milliwatts(double dbm) => double.IsNegativeInfinity(dbm) ? 0 : Math.Pow(10, dbm / 10);

    private sealed class StrongestFirst : IComparer<(int Emitter, double Level)>
    {
        public static readonly StrongestFirst Instance = new();

        public int Compare((int Emitter, double Level) x, (int Emitter, double Level) y) => y.Level.CompareTo(x.Level);
    }
}
