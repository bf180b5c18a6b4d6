using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Spurless.Mixing.Screening;

/// <summary>
/// What arrives at one receiver of each run of frequencies, gone through no deeper than was asked for. Bounds first, levels only of
/// frequencies that are asked for. One instance a thread.
/// </summary>
internal sealed class WeakReach
{
    /// <summary>Who asks once will ask for a little weaker ones soon.</summary>
    private const double DeeperDb = 3;

    private const double MostDb = 2_000;

    private readonly ScreenField _field;
    private readonly ScreenWalk _walk;
    private readonly BoxWalk _boxes = new();

    // Per run: down to which level at the antenna it was gone through, and the most of what was put down.
    private readonly double[] _downTo;
    private readonly double[] _most;

    // Per frequency: the most that arrives and the first of a chain through what stands behind; of runs that were gone through.
    private readonly float[] _mostAt;
    private readonly int[] _firstAt;
    private (int Emitter, float Most, int Next)[] _chained = new (int, float, int)[1024];
    private int _count;

    // Per frequency: whose list stands there, down to which level, and where.
    private readonly int[] _stamp;
    private readonly double[] _listedTo;
    private readonly int[] _from;
    private readonly int[] _to;
    private readonly List<(int Emitter, double Level)> _lists = [];
    private int _turn;

    public WeakReach(ScreenField field, ScreenWalk walk)
    {
        (_field, _walk) = (field, walk);
        (_downTo, _most) = (new double[field.Runs.Trees.Length], new double[field.Runs.Trees.Length]);
        int frequencies = field.Frequencies.Length;
        (_mostAt, _firstAt, _stamp) = (new float[frequencies], new int[frequencies], new int[frequencies]);
        (_listedTo, _from, _to) = (new double[frequencies], new int[frequencies], new int[frequencies]);
    }

    /// <summary>Per frequency of a run that was gone through: no emitter arrives stronger, in dBm at the antenna connector.</summary>
    public ReadOnlySpan<float> MostByFrequency => _mostAt;

    /// <summary>Turns to the receiver to which the walk has turned, and takes over what it has put down.</summary>
    public void Begin()
    {
        _lists.Clear();
        _count = 0;
        _turn++;
        Array.Fill(_mostAt, float.NegativeInfinity);
        ScreenRuns runs = _field.Runs;
        for (int g = 0; g < _downTo.Length; g++)
        {
            (_most[g], _downTo[g]) = (double.NegativeInfinity, _walk.DownTo[runs.Band[g]]);
        }

        Grow(_walk.Near.Count);
        foreach (ScreenWalk.Weak weak in CollectionsMarshal.AsSpan(_walk.Near))
        {
            Chain(weak.Emitter, weak.Frequency, weak.Most);
            ref double most = ref _most[runs.RunOf[weak.Frequency]];
            most = Math.Max(most, weak.Most);
        }
    }

    /// <summary>No weak emitter of a run arrives stronger, in dBm at the antenna connector, as far as is known.</summary>
    public double Most(int run) => Math.Max(_most[run], _downTo[run]);

    /// <summary>Goes through a run, if that was not done so deep yet.</summary>
    /// <param name="run">The run.</param>
    /// <param name="wanted">Level at the antenna connector that is asked for.</param>
    /// <param name="least">Level under which nobody will ask.</param>
    public void Look(int run, double wanted, double least)
    {
        if (_downTo[run] <= wanted)
        {
            return;
        }

        // What was put down before stays; what arrives weaker, down to the new depth, joins it.
        ScreenTree tree = _field.Runs.Trees[run];
        double down = Math.Clamp(Math.Max(wanted - DeeperDb, Math.Min(least, wanted)), -MostDb, MostDb);
        float floor = ScreenSight.Floor(ScreenSight.MilliwattsUnder(down));
        float ceiling = ScreenSight.Floor(ScreenSight.MilliwattsUnder(_downTo[run]));
        _stamp.AsSpan(tree.FirstFrequency, tree.LastFrequency - tree.FirstFrequency + 1).Clear();
        double most = _most[run];
        ref readonly ScreenSight sight = ref _walk.Sight;
        _boxes.Start();
        while (_boxes.Next(tree, sight, floor) is var n and >= 0)
        {
            most = Math.Max(most, PutDown(tree, n, sight, floor, ceiling));
        }

        (_downTo[run], _most[run]) = (down, most);
    }

    /// <summary>
    /// The emitters of one frequency, of a run gone through so deep, that arrive with at least a level and are not among the strong ones,
    /// strongest first; perhaps some weaker ones behind.
    /// </summary>
    /// <param name="run">The run.</param>
    /// <param name="frequency">Index of the frequency.</param>
    /// <param name="wanted">Least level at the antenna connector.</param>
    /// <param name="gains">Gains of the receiver.</param>
    /// <param name="strongFrom">Per stage: from here on an emitter is a strong one.</param>
    public (int From, int To) Weak(int run, int frequency, double wanted, ProfileGains gains, ReadOnlySpan<double> strongFrom)
    {
        if (_stamp[frequency] != _turn || _listedTo[frequency] > wanted)
        {
            // Over the ground, which is dear, no deeper than is asked for, and where that was not enough a little deeper at once.
            double down = _walk.IsOverGround && _stamp[frequency] != _turn ? wanted : wanted - DeeperDb;
            double to = Math.Max(down, Math.Min(_downTo[run], wanted));
            (_stamp[frequency], _listedTo[frequency], _from[frequency]) = (_turn, to, _lists.Count);
            List(frequency, to, gains, strongFrom);
            _to[frequency] = _lists.Count;
        }

        return (_from[frequency], _to[frequency]);
    }

    /// <summary>One of a list.</summary>
    public (int Emitter, double Level) this[int at] => _lists[at];

    private void List(int frequency, double wanted, ProfileGains gains, ReadOnlySpan<double> strongFrom)
    {
        int first = _lists.Count;
        for (int c = float.IsNegativeInfinity(_mostAt[frequency]) ? -1 : _firstAt[frequency]; c >= 0; c = _chained[c].Next)
        {
            (int emitter, float most, _) = _chained[c];
            if (most < wanted || _walk.Level(emitter, wanted) is not (var level and >= double.MinValue) || level < wanted)
            {
                continue;
            }

            bool strong = false;
            for (int s = 0; s < strongFrom.Length; s++)
            {
                strong |= level + gains.At(s, frequency) >= strongFrom[s];
            }

            if (!strong)
            {
                _lists.Add((emitter, level));
            }
        }

        if (_lists.Count - first > 1)
        {
            _lists.Sort(first, _lists.Count - first, StrongestFirst.Instance);
        }
    }

    private double PutDown(ScreenTree tree, int n, in ScreenSight sight, float floor, float ceiling)
    {
        Grow(_count + ScreenTree.Lanes);
        float best = float.NegativeInfinity;
        Vector256<float> all = sight.MostOfSeats(tree, n);
        uint reach = (Vector256.GreaterThanOrEqual(all, Vector256.Create(floor)) & Vector256.LessThan(all, Vector256.Create(ceiling)))
            .ExtractMostSignificantBits() & tree.SeatsIn(n);
        Span<float> mosts = stackalloc float[ScreenTree.Lanes];
        all.CopyTo(mosts);
        for (; reach != 0; reach &= reach - 1)
        {
            int lane = BitOperations.TrailingZeroCount(reach);
            int k = (n * ScreenTree.Lanes) + lane;
            float decibels = ScreenSight.DecibelsOver(mosts[lane]);
            Chain(tree.Members[k], tree.Frequency[k], decibels);
            best = MathF.Max(best, decibels);
        }

        return best;
    }

    private void Grow(int count)
    {
        if (_chained.Length < count)
        {
            Array.Resize(ref _chained, Math.Max(2 * _chained.Length, count));
        }
    }

    private void Chain(int emitter, int frequency, float most)
    {
        ref float at = ref _mostAt[frequency];
        _chained[_count] = (emitter, most, float.IsNegativeInfinity(at) ? -1 : _firstAt[frequency]);
        _firstAt[frequency] = _count++;
        at = MathF.Max(at, most);
    }

    /// <summary>Of equal ones the one that stands first in the field.</summary>
    private sealed class StrongestFirst : IComparer<(int Emitter, double Level)>
    {
        public static readonly StrongestFirst Instance = new();

        public int Compare((int Emitter, double Level) x, (int Emitter, double Level) y)
        {
            int c = y.Level.CompareTo(x.Level);
            return c != 0 ? c : x.Emitter.CompareTo(y.Emitter);
        }
    }
}
