using System.Numerics;
using System.Runtime.Intrinsics;

namespace Spurless.Mixing.Screening;

/// <summary>
/// Looks round from one receiver through the boxes: the strongest level at each stage, all emitters that are strong enough.
/// One instance a thread.
/// </summary>
internal sealed class ScreenWalk
{
    private const double MostDb = 2_000;

    private readonly ScreenField _field;
    private readonly ScreenPaths _paths;
    private readonly BoxWalk _boxes = new();
    private readonly List<(int Node, float Most)> _stack = [];
    private readonly List<int> _found = [];
    private readonly List<double> _levels = [];
    private readonly List<Weak> _near = [];
    private readonly double[] _downTo;

    private ProfileGains _gains = null!;
    private ScreenSight _sight;

    /// <param name="field">The emitters.</param>
    /// <param name="ground">The ground between; null for none.</param>
    public ScreenWalk(ScreenField field, IScreenGround? ground)
        => (_field, _paths, _downTo) = (field, new ScreenPaths(field, ground), new double[field.Trees.Count]);

    /// <summary>Emitters that were found, as indices of the field.</summary>
    public List<int> Found => _found;

    /// <summary>Their levels at the antenna connector before the chain's gain, in dBm, in the same order.</summary>
    public List<double> Levels => _levels;

    /// <summary>Those that come near, but not so far; by no order.</summary>
    public List<Weak> Near => _near;

    /// <summary>Per tree: down to which level at the antenna connector all were found or put down.</summary>
    public ReadOnlySpan<double> DownTo => _downTo;

    /// <summary>Emitters nearer than a wavelength: their level is not known.</summary>
    public int WithoutLevel { get; private set; }

    /// <summary>Whether the ground between is asked for a level.</summary>
    public bool IsOverGround => _paths.IsOverGround;

    /// <summary>The bounds from where the receiver stands.</summary>
    public ref readonly ScreenSight Sight => ref _sight;

    public void Begin(ScreenReceiver receiver, ProfileGains gains, double withinM)
    {
        _gains = gains;
        double withinSquared = double.IsPositiveInfinity(withinM) ? withinM : withinM * withinM;
        _sight = new ScreenSight(receiver, _paths.LeastFreeSpaceDb, withinSquared, _paths.IsOverGround);
        _paths.Begin(receiver, withinSquared);
        WithoutLevel = 0;
    }

    /// <summary>Level of an emitter at the antenna connector, in dBm; see <see cref="ScreenPaths.Level"/>.</summary>
    public double Level(int emitter, double atLeast) => _paths.Level(emitter, atLeast);

    /// <summary>The strongest level at a stage; minus infinity where nothing is heard.</summary>
    public double Strongest(int stage)
    {
        double best = double.NegativeInfinity;
        for (int t = 0; t < _field.Trees.Count; t++)
        {
            best = Strongest(_field.Trees[t], stage, _gains.Most(stage, t), best);
        }

        return best;
    }

    /// <summary>The strongest level at a stage of a tree's emitters, or what it was before if that is more.</summary>
    private double Strongest(ScreenTree tree, int stage, double gain, double best)
    {
        float floor = ScreenSight.Floor(Milliwatts(best - gain));
        Span<float> mosts = stackalloc float[ScreenTree.Lanes];
        _stack.Clear();
        _stack.Add((0, float.PositiveInfinity));
        while (_stack.Count > 0)
        {
            (int n, float most) = _stack[^1];
            _stack.RemoveAt(_stack.Count - 1);
            if (most <= floor)
            {
                continue;
            }

            if (n >= 0)
            {
                // The more promising ones last, so that they are looked at first.
                int from = _stack.Count;
                _sight.MostOfBoxes(tree, n).CopyTo(mosts);
                for (int k = 0; k < tree.Count[n]; k++)
                {
                    if (mosts[k] > floor)
                    {
                        _stack.Add((tree.Below[(n * ScreenTree.Lanes) + k], mosts[k]));
                    }
                }

                _stack.Sort(from, _stack.Count - from, LeastFirst.Instance);
                continue;
            }

            _sight.MostOfSeats(tree, ~n).CopyTo(mosts);
            int first = ~n * ScreenTree.Lanes;
            for (int k = first; k < Math.Min(first + ScreenTree.Lanes, tree.Members.Length); k++)
            {
                if (mosts[k - first] > floor
                    && _paths.Level(tree.Members[k], best - gain) + _gains.At(stage, tree.Frequency[k]) is var level
                    && level > best)
                {
                    (best, floor) = (level, ScreenSight.Floor(Milliwatts(level - gain)));
                }
            }
        }

        return best;
    }

    /// <summary>Finds all emitters that reach, at any stage, that stage's least level; counts those without a level, and puts down what
    /// comes near it.</summary>
    /// <param name="least">Per stage.</param>
    /// <param name="near">Per stage: what is put down reaches this, which is no more.</param>
    public void Gather(ReadOnlySpan<double> least, ReadOnlySpan<double> near)
    {
        _found.Clear();
        _levels.Clear();
        _near.Clear();
        for (int t = 0; t < _field.Trees.Count; t++)
        {
            double wanted = WantedAtAntenna(t, least);
            _downTo[t] = Math.Clamp(WantedAtAntenna(t, near), -MostDb, MostDb);
            Gather(_field.Trees[t], wanted, ScreenSight.MilliwattsUnder(_downTo[t]), least);
        }
    }

    private void Gather(ScreenTree tree, double wanted, double deep, ReadOnlySpan<double> least)
    {
        (float floor, float from) = (ScreenSight.Floor(Milliwatts(wanted)), ScreenSight.Floor(deep));
        Vector256<float> froms = Vector256.Create(from);
        Span<float> mosts = stackalloc float[ScreenTree.Lanes];
        _boxes.Start();
        while (_boxes.Next(tree, _sight, from) is var n and >= 0)
        {
            Vector256<float> all = _sight.MostOfSeats(tree, n);
            all.CopyTo(mosts);
            uint reach = Vector256.GreaterThanOrEqual(all, froms).ExtractMostSignificantBits() & tree.SeatsIn(n);
            for (; reach != 0; reach &= reach - 1)
            {
                int lane = BitOperations.TrailingZeroCount(reach);
                int k = (n * ScreenTree.Lanes) + lane;
                if (mosts[lane] < floor || IsWeak(tree.Members[k], tree.Frequency[k], wanted, least))
                {
                    _near.Add(new Weak(tree.Members[k], tree.Frequency[k], ScreenSight.DecibelsOver(mosts[lane])));
                }
            }
        }
    }

    /// <summary>Whether an emitter has a level and is not among those that are looked for; if it is, adds it.</summary>
    private bool IsWeak(int emitter, int frequency, double wanted, ReadOnlySpan<double> least)
    {
        double level = _paths.Level(emitter, wanted);
        if (double.IsNaN(level))
        {
            WithoutLevel++;
            return false;
        }

        for (int s = 0; s < least.Length; s++)
        {
            if (level + _gains.At(s, frequency) >= least[s])
            {
                _found.Add(emitter);
                _levels.Add(level);
                return false;
            }
        }

        return true;
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

    private static double Milliwatts(double dbm) => double.IsNegativeInfinity(dbm) ? 0 : Math.Pow(10, dbm / 10);

    private sealed class LeastFirst : IComparer<(int Node, float Most)>
    {
        public static readonly LeastFirst Instance = new();

        public int Compare((int Node, float Most) x, (int Node, float Most) y) => x.Most.CompareTo(y.Most);
    }

    /// <summary>An emitter that comes near what is looked for.</summary>
    /// <param name="Emitter">As index of the field.</param>
    /// <param name="Frequency">Index of its frequency.</param>
    /// <param name="Most">It does not arrive stronger, in dBm at the antenna connector.</param>
    public readonly record struct Weak(int Emitter, int Frequency, float Most);
}
