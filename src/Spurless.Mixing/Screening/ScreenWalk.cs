using Spurless.Numerics;
using Spurless.Radio.Paths;

namespace Spurless.Mixing.Screening;

/// <summary>
/// Looks round from one receiver: the strongest level at each stage, then all emitters that are strong enough. Path loss is that of free
/// space, or of plane
/// earth where both antennas' heights and both grounds are known: the greater of the two, for they cross at the break point; where the
/// ground between is known, that over it. One instance a thread.
/// </summary>
internal sealed class ScreenWalk
{
    private static readonly double FreeSpaceDb = 20 * Math.Log10(4 * Math.PI / PhysicalConstants.SpeedOfLight);

    /// <summary>A bound by powers lets through what rounding alone would keep out.</summary>
    private const double NotQuite = 0.9999;

    private readonly ScreenField _field;
    private readonly IScreenGround? _ground;
    private readonly double _leastFreeSpaceDb;
    private readonly Dictionary<int, double> _overGround = [];
    private readonly List<int> _stack = [];
    private readonly List<int> _found = [];
    private readonly List<double> _levels = [];
    private ScreenReceiver _receiver = null!;
    private ProfileGains _gains = null!;
    private EarthPoint _here;
    private bool _beam;
    private bool _heights;
    private bool _bounded;
    private double _withinSquared;

    /// <param name="field">The emitters.</param>
    /// <param name="ground">The ground between; null for none.</param>
    public ScreenWalk(ScreenField field, IScreenGround? ground)
    {
        (_field, _ground) = (field, ground);
        _leastFreeSpaceDb = FreeSpaceDb - (ground is null ? 0 : IScreenGround.LeastUnderFreeSpaceDb);
    }

    /// <summary>Emitters that were found, as indices of the field.</summary>
    public List<int> Found => _found;

    /// <summary>Their levels at the antenna connector before the chain's gain, in dBm, in the same order.</summary>
    public List<double> Levels => _levels;

    /// <summary>Emitters nearer than a wavelength: their level is not known.</summary>
    public int WithoutLevel { get; private set; }

    public void Begin(ScreenReceiver receiver, ProfileGains gains, double withinM)
    {
        (_receiver, _gains) = (receiver, gains);
        _here = EarthPoint.Of(receiver.Place);
        _beam = double.IsFinite(receiver.Profile.AzimuthDegrees) && receiver.Profile.BeamwidthDegrees is > 0 and < 360;
        _heights = receiver.HeightM > 0 && double.IsFinite(receiver.GroundM);
        _bounded = _heights && _ground is null;
        _overGround.Clear();
        _withinSquared = double.IsPositiveInfinity(withinM) ? withinM : withinM * withinM;
        WithoutLevel = 0;
    }

    /// <summary>The strongest level at a stage; minus infinity where nothing is heard.</summary>
    public double Strongest(int stage)
    {
        double best = double.NegativeInfinity;
        for (int t = 0; t < _field.Trees.Count; t++)
        {
            ScreenTree.Node[] nodes = _field.Trees[t].Nodes;
            int[] members = _field.Trees[t].Members;
            double gain = _gains.Most(stage, t);
            _stack.Clear();
            _stack.Add(0);
            while (_stack.Count > 0)
            {
                ref readonly ScreenTree.Node node = ref nodes[_stack[^1]];
                _stack.RemoveAt(_stack.Count - 1);
                if (Most(node) + gain <= best)
                {
                    continue;
                }

                if (node.Left < 0)
                {
                    for (int k = node.From; k < node.To; k++)
                    {
                        int i = members[k];
                        if (_field.EirpDbm[i] + gain > best && Level(i, best - gain) is var level && !double.IsNaN(level))
                        {
                            best = Math.Max(best, level + _gains.At(stage, _field.FrequencyIndex[i]));
                        }
                    }

                    continue;
                }

                // The more promising half last, so that it is looked at first.
                bool leftFirst = Most(nodes[node.Left]) >= Most(nodes[node.Right]);
                _stack.Add(leftFirst ? node.Right : node.Left);
                _stack.Add(leftFirst ? node.Left : node.Right);
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
            // The least that must arrive at the antenna for any stage to care.
            double wanted = double.PositiveInfinity;
            for (int s = 0; s < least.Length; s++)
            {
                wanted = Math.Min(wanted, least[s] - _gains.Most(s, t));
            }

            Gather(_field.Trees[t], wanted, least);
        }
    }

    private void Gather(ScreenTree tree, double wanted, ReadOnlySpan<double> least)
    {
        ScreenTree.Node[] nodes = tree.Nodes;
        _stack.Clear();
        _stack.Add(0);
        while (_stack.Count > 0)
        {
            ref readonly ScreenTree.Node node = ref nodes[_stack[^1]];
            _stack.RemoveAt(_stack.Count - 1);
            if (Most(node) < wanted)
            {
                continue;
            }

            if (node.Left >= 0)
            {
                _stack.Add(node.Right);
                _stack.Add(node.Left);
                continue;
            }

            for (int k = node.From; k < node.To; k++)
            {
                int i = tree.Members[k];
                double level = Level(i, wanted);
                if (double.IsNaN(level))
                {
                    WithoutLevel++;
                    continue;
                }

                for (int s = 0; s < least.Length; s++)
                {
                    if (level + _gains.At(s, _field.FrequencyIndex[i]) >= least[s])
                    {
                        _found.Add(i);
                        _levels.Add(level);
                        break;
                    }
                }
            }
        }
    }

    /// <summary>Adds the emitters of one frequency that arrive with at least a level but are not among the strong ones, strongest
    /// first.</summary>
    /// <param name="frequency">Index of the frequency.</param>
    /// <param name="wanted">Least level at the antenna connector.</param>
    /// <param name="strongFrom">Per stage: from here on an emitter is a strong one.</param>
    /// <param name="to">Gets them.</param>
    public void AddWeak(int frequency, double wanted, ReadOnlySpan<double> strongFrom, List<(int Emitter, double Level)> to)
    {
        ref readonly ScreenTree.Node bound = ref _field.Bounds[frequency];
        double reach = Reach(bound, wanted);
        double free = Math.Pow(10, (wanted + _leastFreeSpaceDb) / 10) * NotQuite;
        double plane = Math.Pow(10, wanted / 20) * NotQuite;
        int first = to.Count;
        for (int i = bound.From; i < bound.To; i++)
        {
            // Most emitters fall here, without a logarithm.
            double squared = _here.ChordSquared(_field.Position[i]);
            if (!(squared <= reach)
                || squared * free > _field.OverDistance[i]
                || (_bounded && squared * plane > _field.OverDistanceSquared[i] * Heights(i))
                || Level(i, wanted) is not (var level and >= double.MinValue)
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
                to.Add((i, level));
            }
        }

        to.Sort(first, to.Count - first, StrongestFirst.Instance);
    }

    /// <summary>The product of both antennas' heights over the lower ground in square metres; boundless where one is not known.</summary>
    private double Heights(int i)
    {
        if (float.IsNaN(_field.HeightM[i]))
        {
            return double.PositiveInfinity;
        }

        double ground = Math.Min(_field.GroundM[i], _receiver.GroundM);
        return (_field.HeightM[i] + _field.GroundM[i] - ground) * (_receiver.HeightM + _receiver.GroundM - ground);
    }

    /// <summary>The square of the distance beyond which no emitter of one frequency arrives with a level.</summary>
    private double Reach(in ScreenTree.Node bound, double wanted)
    {
        double reach = Math.Pow(10, Math.Min(300, (bound.OverFrequency - _leastFreeSpaceDb - wanted) / 10));
        if (_bounded && !float.IsNaN(bound.Height))
        {
            double h1 = Math.Max(bound.Height, bound.Top - _receiver.GroundM);
            double h2 = Math.Max(_receiver.HeightM, _receiver.HeightM + _receiver.GroundM - bound.LeastGround);
            reach = Math.Min(reach, Math.Pow(10, Math.Min(300, (bound.Eirp - wanted) / 20)) * h1 * h2);
        }

        // The chord is a little shorter than the way over the ground, which only lets more through; a little more for rounding.
        return Math.Min(_withinSquared, reach * 1.0001);
    }

    /// <summary>No emitter of a box arrives stronger than this.</summary>
    private double Most(in ScreenTree.Node node)
    {
        double x = Math.Max(0, Math.Max(node.MinX - _here.X, _here.X - node.MaxX));
        double y = Math.Max(0, Math.Max(node.MinY - _here.Y, _here.Y - node.MaxY));
        double z = Math.Max(0, Math.Max(node.MinZ - _here.Z, _here.Z - node.MaxZ));
        double squared = (x * x) + (y * y) + (z * z);
        if (squared > _withinSquared)
        {
            return double.NegativeInfinity;
        }

        if (squared < 1)
        {
            return double.PositiveInfinity;
        }

        // No path gains: a passive one loses at least nothing.
        double distanceDb = 10 * Math.Log10(squared);
        double most = node.OverFrequency - _leastFreeSpaceDb - distanceDb;
        if (_bounded && !float.IsNaN(node.Height))
        {
            double h1 = Math.Max(node.Height, node.Top - _receiver.GroundM);
            double h2 = Math.Max(_receiver.HeightM, _receiver.HeightM + _receiver.GroundM - node.LeastGround);
            most = Math.Min(most, node.Eirp - (2 * distanceDb) + (20 * Math.Log10(h1 * h2)));
        }

        return most;
    }

    /// <summary>Level at the antenna connector of an isotropic antenna with this one's direction, in dBm; NaN nearer than a wavelength,
    /// minus infinity beyond the cut, and where it is under a least level whatever the ground between.</summary>
    private double Level(int i, double atLeast)
    {
        double squared = _here.ChordSquared(_field.Position[i]);
        if (squared > _withinSquared)
        {
            return double.NegativeInfinity;
        }

        double distance = EarthPoint.Arc(squared);
        if (distance * _field.FrequencyHz[i] < PhysicalConstants.SpeedOfLight)
        {
            return double.NaN;
        }

        double distanceDb = 20 * Math.Log10(distance);
        double free = FreeSpaceDb + distanceDb + (20 * Math.Log10(_field.FrequencyHz[i]));
        double off = OffAxisDb(i);
        if (_ground is not null)
        {
            // The ground is asked last: it costs ten thousand times what free space does.
            double least = free - IScreenGround.LeastUnderFreeSpaceDb;
            if (_field.EirpDbm[i] - Math.Max(0, least + off) < atLeast)
            {
                return double.NegativeInfinity;
            }

            double over = OverGround(i);
            if (!double.IsNaN(over))
            {
                return _field.EirpDbm[i] - Math.Max(0, Math.Max(over, least) + off);
            }
        }

        double loss = free;
        if (_heights && !float.IsNaN(_field.HeightM[i]))
        {
            loss = Math.Max(loss, (2 * distanceDb) - (20 * Math.Log10(Heights(i))));
        }

        return _field.EirpDbm[i] - Math.Max(0, loss + off);
    }

    private double OverGround(int i)
    {
        if (!_overGround.TryGetValue(i, out double loss))
        {
            _overGround.Add(i, loss = _ground!.LossDb(_field.Original[i], _receiver));
        }

        return loss;
    }

    /// <summary>What both antennas lose because they point elsewhere, in dB.</summary>
    private double OffAxisDb(int i)
    {
        double off = 0;
        if (!float.IsNaN(_field.Azimuth[i]))
        {
            double towards = _field.Position[i].BearingTo(_here, _field.Latitude[i], _field.Longitude[i]);
            off = OffAxis.LossDb(OffAxis.Difference(towards, _field.Azimuth[i]), _field.Beamwidth[i]);
        }

        if (_beam)
        {
            double from = _here.BearingTo(_field.Position[i], _receiver.Place.LatitudeDegrees, _receiver.Place.LongitudeDegrees);
            off += OffAxis.LossDb(OffAxis.Difference(from, _receiver.Profile.AzimuthDegrees), _receiver.Profile.BeamwidthDegrees);
        }

        return off;
    }

    private sealed class StrongestFirst : IComparer<(int Emitter, double Level)>
    {
        public static readonly StrongestFirst Instance = new();

        public int Compare((int Emitter, double Level) x, (int Emitter, double Level) y) => y.Level.CompareTo(x.Level);
    }
}
