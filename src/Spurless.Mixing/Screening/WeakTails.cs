using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Screening;

/// <summary>
/// The products with a weak emitter: one that is in a product only once, beside strong ones alone. The strong ones leave little choice of
/// its frequency, so weak
/// emitters are looked up by frequency, and only those of frequencies that are asked for are looked at. One instance a thread.
/// </summary>
internal sealed class WeakTails
{
    private const int StepsPerLook = 10_000;
    private const double DeeperDb = 6;
    private const double MostDb = 2_000;

    /// <summary>Eight frequencies are a group: those that one prefix asks for lie in one or two.</summary>
    private const int GroupBits = 3;

    private readonly ScreenField _field;
    private readonly ScreenOptions _options;
    private readonly ScreenWalk _walk;
    private readonly ScreenSink _sink;

    // Per frequency: what is wanted of it, in milliwatts. Per group of them: the least that is wanted, later the most that arrives, in dBm.
    private readonly double[] _wantedAt;
    private readonly double[] _ofGroup;
    private bool _marking;

    // Per frequency of the field: whose list stands there, down to which level, and where.
    private readonly int[] _stamp;
    private readonly double[] _downTo;
    private readonly int[] _from;
    private readonly int[] _count;
    private readonly List<(int Emitter, double Level)> _lists = [];
    private readonly int[] _indices = new int[3];
    private readonly int[] _coefficients = new int[3];
    private int _turn;
    private int _steps;

    private ScreenReceiver _receiver = null!;
    private ProfileGains _gains = null!;
    private ReceiverLaw[] _laws = [];
    private double[] _strongFrom = [];
    private int[] _strong = [];
    private double[] _strongLevel = [];
    private double[] _antenna = [];
    private int[] _referral = [];

    public WeakTails(ScreenField field, ScreenOptions options, ScreenWalk walk, ScreenSink sink)
    {
        (_field, _options, _walk, _sink) = (field, options, walk, sink);
        _wantedAt = new double[field.Frequencies.Length];
        _ofGroup = new double[(field.Frequencies.Length >> GroupBits) + 1];
        _stamp = new int[field.Frequencies.Length];
        _downTo = new double[field.Frequencies.Length];
        _from = new int[field.Frequencies.Length];
        _count = new int[field.Frequencies.Length];
    }

    /// <summary>Finds them.</summary>
    /// <param name="receiver">The receiver, to which the walk has turned.</param>
    /// <param name="gains">Its gains.</param>
    /// <param name="laws">Its law per stage.</param>
    /// <param name="strongFrom">Per stage: from here on an emitter is a strong one.</param>
    /// <param name="strong">The strong ones as indices of the field.</param>
    /// <param name="levels">Their levels at the antenna connector.</param>
    /// <param name="referral">Referral of each stage in micro-dB.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public void Run(
        ScreenReceiver receiver, ProfileGains gains, ReceiverLaw[] laws, double[] strongFrom, int[] strong, double[] levels,
        int[] referral, CancellationToken cancellationToken)
    {
        (_receiver, _gains, _laws, _strongFrom, _referral) = (receiver, gains, laws, strongFrom, referral);
        _turn++;
        _lists.Clear();
        _steps = 0;
        Array.Fill(_wantedAt, double.PositiveInfinity);
        for (int s = 0; s < laws.Length; s++)
        {
            // What is wanted of each frequency at all, before anybody is looked for.
            Array.Fill(_ofGroup, double.PositiveInfinity);
            _marking = true;
            Prefixes(s, strong, levels, cancellationToken);
            Want(s);
        }

        _walk.GatherByFrequency(_wantedAt);
        _marking = false;
        for (int s = 0; s < laws.Length; s++)
        {
            Arrive(s);
            Prefixes(s, strong, levels, cancellationToken);
        }
    }

    /// <summary>Turns what is wanted at a stage of each group of frequencies into what must arrive at the antenna.</summary>
    private void Want(int stage)
    {
        ReadOnlySpan<double> gain = _gains.Of(stage);
        for (int g = 0; g < _ofGroup.Length; g++)
        {
            if (_ofGroup[g] < double.PositiveInfinity)
            {
                int to = Math.Min(gain.Length, (g + 1) << GroupBits);
                for (int f = g << GroupBits; f < to; f++)
                {
                    double dbm = Math.Clamp(_ofGroup[g] - gain[f], -MostDb, MostDb);
                    _wantedAt[f] = Math.Min(_wantedAt[f], ScreenSight.MilliwattsUnder(dbm));
                }
            }
        }
    }

    /// <summary>The most that arrives at a stage of each group of frequencies.</summary>
    private void Arrive(int stage)
    {
        Array.Fill(_ofGroup, double.NegativeInfinity);
        ReadOnlySpan<double> gain = _gains.Of(stage);
        ReadOnlySpan<float> most = _walk.MostByFrequency;
        for (int f = 0; f < gain.Length; f++)
        {
            ref double group = ref _ofGroup[f >> GroupBits];
            group = Math.Max(group, most[f] + gain[f]);
        }
    }

    /// <summary>All prefixes of strong ones that leave room for a weak one.</summary>
    private void Prefixes(int stage, int[] strong, double[] levels, CancellationToken cancellationToken)
    {
        // Strongest first at this stage: what follows a prefix that is too weak is weaker still.
        double[] weakness = new double[strong.Length];
        int[] order = new int[strong.Length];
        for (int k = 0; k < order.Length; k++)
        {
            (weakness[k], order[k]) = (-levels[k] - _gains.At(stage, _field.FrequencyIndex[strong[k]]), k);
        }

        Array.Sort(weakness, order);
        _strong = [.. order.Select(k => strong[k])];
        _strongLevel = [.. weakness.Select(static w => -w)];
        _antenna = [.. order.Select(k => levels[k])];
        foreach (int n in _options.Orders)
        {
            if (_options.Signals >= 2)
            {
                Singles(stage, n, cancellationToken);
            }

            // Shared out among two, the greater part first: each pair of multiplicities once.
            for (int a = n / 2; a < n - 1 && _options.Signals >= 3; a++)
            {
                Pairs(stage, n, a, n - 1 - a, cancellationToken);
            }
        }
    }

    private void Singles(int stage, int order, CancellationToken cancellationToken)
    {
        double room = _laws[stage].Need(order) + _laws[stage].Penalty(order - 1);
        for (int i = 0; i < _strong.Length; i++)
        {
            double need = room + _sink.LiftDb - ((order - 1) * _strongLevel[i]);
            if (need >= _strongFrom[stage])
            {
                break;
            }

            int e = _strong[i];
            (_indices[0], _coefficients[0]) = (i, order - 1);
            Ask(stage, order, 1, (order - 1) * _field.FrequencyHz[e], (order - 1) * _field.BandwidthHz[e], need, cancellationToken);
        }
    }

    private void Pairs(int stage, int order, int a, int c, CancellationToken cancellationToken)
    {
        double room = _laws[stage].Need(order) + _laws[stage].Penalty(a) + _laws[stage].Penalty(c);
        for (int i = 0; i < _strong.Length; i++)
        {
            double left = room + _sink.LiftDb - (a * _strongLevel[i]);
            if (left - (c * _strongLevel[0]) >= _strongFrom[stage])
            {
                break;
            }

            // Equal multiplicities are one pair either way round.
            for (int j = a == c ? i + 1 : 0; j < _strong.Length; j++)
            {
                double need = left - (c * _strongLevel[j]);
                if (need >= _strongFrom[stage])
                {
                    break;
                }

                if (i == j)
                {
                    continue;
                }

                (int e, int f) = (_strong[i], _strong[j]);
                long width = (a * _field.BandwidthHz[e]) + (c * _field.BandwidthHz[f]);
                (_indices[0], _coefficients[0]) = (i, a);
                (_indices[1], _coefficients[1]) = (j, c);
                Ask(stage, order, 2, (a * _field.FrequencyHz[e]) + (c * _field.FrequencyHz[f]), width, need, cancellationToken);
                (_indices[0], _coefficients[0]) = (i, a);
                (_indices[1], _coefficients[1]) = (j, -c);
                Ask(stage, order, 2, (a * _field.FrequencyHz[e]) - (c * _field.FrequencyHz[f]), width, need, cancellationToken);
            }
        }
    }

    /// <summary>Looks up the weak emitters that complete a prefix, added or taken away, landing on the receiver's frequency or its mirror
    /// image.</summary>
    private void Ask(int stage, int order, int prefix, long frequency, long width, double need, CancellationToken cancellationToken)
    {
        if (++_steps > StepsPerLook)
        {
            _steps = 0;
            cancellationToken.ThrowIfCancellationRequested();
        }

        for (int image = -1; image <= 1; image += 2)
        {
            for (int sign = -1; sign <= 1; sign += 2)
            {
                long target = sign * ((image * _receiver.FrequencyHz) - frequency);
                long half = (_receiver.ChannelHz + width + _field.MaxBandwidthHz + 1) / 2;
                if (target + half <= 0)
                {
                    continue;
                }

                (int from, int to) = (_field.FirstAt(target - half), _field.FirstAt(target + half + 1));
                for (int g = from >> GroupBits; from < to && g << GroupBits < to; g++)
                {
                    if (_marking)
                    {
                        _ofGroup[g] = Math.Min(_ofGroup[g], need);
                    }
                    else if (_ofGroup[g] >= need)
                    {
                        int first = Math.Max(from, g << GroupBits);
                        Answer(stage, order, prefix, frequency, image, sign, first, Math.Min(to, (g + 1) << GroupBits), width, need);
                    }
                }
            }
        }
    }

    private void Answer(
        int stage, int order, int prefix, long frequency, int image, int sign, int from, int to, long width, double need)
    {
        ReadOnlySpan<float> most = _walk.MostByFrequency;
        ReadOnlySpan<double> gain = _gains.Of(stage);
        int second = prefix > 1 ? _coefficients[1] : 0;
        for (int f = from; f < to; f++)
        {
            if (most[f] >= need - gain[f])
            {
                Complete(
                    stage, order, prefix, frequency + (sign * _field.Frequencies[f]), image, sign, f, width, need, _coefficients[0],
                    second);
            }
        }
    }

    private void Complete(
        int stage, int order, int prefix, long total, int image, int sign, int frequency, long width, double need, int first, int second)
    {
        if (total == 0 || total > 0 != image > 0)
        {
            return;
        }

        double wanted = need - _gains.At(stage, frequency);
        if (_stamp[frequency] != _turn || _downTo[frequency] > wanted)
        {
            // Only what is wanted at all was put down, so all of it is looked at once; over the ground, which is dear, no deeper than is
            // asked for, and where that was not enough a little deeper at once.
            double down = !_walk.IsOverGround ? double.NegativeInfinity : _stamp[frequency] == _turn ? wanted - DeeperDb : wanted;
            (_stamp[frequency], _downTo[frequency], _from[frequency]) = (_turn, down, _lists.Count);
            _walk.AddWeak(frequency, down, _strongFrom, _lists);
            _count[frequency] = _lists.Count - _from[frequency];
        }

        for (int k = _from[frequency]; k < _from[frequency] + _count[frequency]; k++)
        {
            (int emitter, double level) = _lists[k];
            if (level < wanted)
            {
                break;
            }

            if (2 * Math.Abs(total - (image * _receiver.FrequencyHz)) <= _receiver.ChannelHz + width + _field.BandwidthHz[emitter])
            {
                Judge(stage, order, prefix, Math.Abs(total), image, sign, emitter, level, first, second);
            }
        }
    }

    private void Judge(int stage, int order, int prefix, long total, int image, int sign, int emitter, double level, int first, int second)
    {
        Span<int> indices = stackalloc int[prefix + 1];
        Span<int> coefficients = stackalloc int[prefix + 1];
        Span<double> antenna = stackalloc double[prefix + 1];
        (indices[0], coefficients[0], antenna[0]) = (_strong[_indices[0]], image * first, _antenna[_indices[0]]);
        if (prefix > 1)
        {
            (indices[1], coefficients[1], antenna[1]) = (_strong[_indices[1]], image * second, _antenna[_indices[1]]);
        }

        (indices[prefix], coefficients[prefix], antenna[prefix]) = (emitter, image * sign, level);
        Span<long> stages = stackalloc long[_laws.Length];
        for (int s = 0; s < stages.Length; s++)
        {
            ScreenStage own = _receiver.Profile.Stages[s];
            stages[s] = ProductLevel.OrderMicroDb(order, own.Intercepts.MicroDbm(order), _referral[s]);
            double parts = 0;
            for (int i = 0; i < indices.Length; i++)
            {
                int times = Math.Abs(coefficients[i]);
                double here = antenna[i] + _gains.At(s, _field.FrequencyIndex[indices[i]]);
                stages[s] += ProductLevel.EmitterMicroDb(times, MicroDb.Clamped(here), _field.NoiseLike[indices[i]]);
                parts += (times * here) - _laws[s].Penalty(times);
            }

            // An earlier stage that can make it has found it already. Where the worst alone is sought it may have been left out there:
            // to judge one twice does no harm then.
            if (s < stage && _sink.IsCounting && parts >= _laws[s].Need(order))
            {
                return;
            }
        }

        _sink.Judge(indices, coefficients, order, total, stages);
    }
}
