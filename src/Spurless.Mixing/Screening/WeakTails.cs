namespace Spurless.Mixing.Screening;

/// <summary>
/// The products with a weak emitter: one that is in a product only once, beside strong ones alone. The strong ones leave little choice of
/// its frequency, so weak emitters are looked up by frequency: first by runs of frequencies, of which it is known how much arrives at
/// most. One instance a thread.
/// </summary>
internal sealed class WeakTails
{
    private const int StepsPerLook = 10_000;

    private readonly ScreenField _field;
    private readonly ScreenRuns _runs;
    private readonly ScreenOptions _options;
    private readonly ScreenSink _sink;
    private readonly WeakReach _reach;
    private readonly WeakJudge _judge;
    private readonly StrongEmitters _strong = new();
    private readonly WeakPrefix _prefix = new();

    // Per run: no emitter arrives stronger at the stage, in dBm.
    private readonly double[] _most;
    private int _steps;

    private ScreenReceiver _receiver = null!;
    private ProfileGains _gains = null!;
    private ReceiverLaw[] _laws = [];
    private double[] _strongFrom = [];
    private double _halfIf;
    private double _least;
    private long _channelAndWidest;

    public WeakTails(ScreenField field, ScreenOptions options, ScreenWalk walk, ScreenSink sink)
    {
        (_field, _runs, _options, _sink) = (field, field.Runs, options, sink);
        (_reach, _judge) = (new WeakReach(field, walk), new WeakJudge(field, sink, _strong));
        _most = new double[_runs.Trees.Length];
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
        (_receiver, _gains, _laws, _strongFrom, _steps) = (receiver, gains, laws, strongFrom, 0);
        (_halfIf, _channelAndWidest) = (receiver.IfBandwidthHz / 2.0, receiver.ChannelHz + _field.MaxBandwidthHz + 1);
        _reach.Begin();
        _judge.Begin(receiver, gains, laws, referral, _options);
        for (int s = 0; s < laws.Length; s++)
        {
            _strong.LayOut(_field, gains, s, strong, levels);
            ReadOnlySpan<double> most = gains.MostOfRuns(s);
            for (int g = 0; g < most.Length; g++)
            {
                _most[g] = _reach.Most(g) + most[g];
            }

            _least = double.PositiveInfinity;
            foreach (int n in _options.Orders)
            {
                _least = Math.Min(_least, laws[s].Need(n) - ((n - 1) * _strong.Level[0]));
            }

            Prefixes(s, cancellationToken);
        }
    }

    /// <summary>All prefixes of strong ones that leave room for a weak one.</summary>
    private void Prefixes(int stage, CancellationToken cancellationToken)
    {
        _prefix.Stage = stage;
        foreach (int n in _options.Orders)
        {
            _prefix.Order = n;
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
        for (int i = 0; i < _strong.Count; i++)
        {
            double need = room + _sink.LiftDb - ((order - 1) * _strong.Level[i]);
            if (need >= _strongFrom[stage])
            {
                break;
            }

            Look(cancellationToken);
            _prefix.Take(i, order - 1);
            Ask((order - 1) * _strong.Frequency[i], (order - 1) * _strong.Width[i], need);
        }
    }

    private void Pairs(int stage, int order, int a, int c, CancellationToken cancellationToken)
    {
        double room = _laws[stage].Need(order) + _laws[stage].Penalty(a) + _laws[stage].Penalty(c);
        double strongFrom = _strongFrom[stage];
        int count = _strong.Count;
        ReadOnlySpan<double> level = _strong.Level;
        ReadOnlySpan<long> frequency = _strong.Frequency;
        ReadOnlySpan<long> width = _strong.Width;
        for (int i = 0; i < count; i++)
        {
            double left = room + _sink.LiftDb - (a * level[i]);
            if (left - (c * level[0]) >= strongFrom)
            {
                break;
            }

            Look(cancellationToken);
            (long ofFirst, long widthOfFirst) = (a * frequency[i], a * width[i]);

            // Equal multiplicities are one pair either way round.
            for (int j = a == c ? i + 1 : 0; j < count; j++)
            {
                double need = left - (c * level[j]);
                if (need >= strongFrom)
                {
                    break;
                }

                if (i == j)
                {
                    continue;
                }

                long both = widthOfFirst + (c * width[j]);
                long ofSecond = c * frequency[j];
                _prefix.Take(i, a, j, c);
                Ask(ofFirst + ofSecond, both, need);
                _prefix.Take(i, a, j, -c);
                Ask(ofFirst - ofSecond, both, need);
            }

            _steps += count;
        }
    }

    private void Look(CancellationToken cancellationToken)
    {
        if (++_steps > StepsPerLook)
        {
            _steps = 0;
            cancellationToken.ThrowIfCancellationRequested();
        }
    }

    /// <summary>Looks up the weak emitters that complete the prefix, added or taken away, landing on the receiver's frequency or its
    /// mirror image.</summary>
    private void Ask(long frequency, long width, double need)
    {
        long half = (_channelAndWidest + width) / 2;
        long receiver = _receiver.FrequencyHz;
        Ask(frequency, width, need, half, frequency + receiver, -1, -1);
        Ask(frequency, width, need, half, -frequency - receiver, -1, 1);
        Ask(frequency, width, need, half, frequency - receiver, 1, -1);
        Ask(frequency, width, need, half, receiver - frequency, 1, 1);
    }

    private void Ask(long frequency, long width, double need, long half, long target, int image, int sign)
    {
        if (target + half <= 0)
        {
            return;
        }

        (int first, int last) = _runs.Between(target - half, target + half);
        for (int g = first; g <= last; g++)
        {
            if (need <= _most[g])
            {
                Answer(g, frequency, width, need, target, image, sign);
            }
        }
    }

    /// <summary>Asks one run of frequencies.</summary>
    private void Answer(int run, long frequency, long width, double need, long target, int image, int sign)
    {
        double gain = _gains.MostOfRuns(_prefix.Stage)[run];
        _reach.Look(run, need - gain, _least - gain);
        _most[run] = _reach.Most(run) + gain;
        ChannelRings rings = new(
            _halfIf, _prefix.Variance(_strong) + _runs.SigmaSquared[run], _prefix.Shift(_strong) + _runs.ShiftHz[run]);
        long lands = (_receiver.ChannelHz + width + _runs.BandwidthHz[run] + 1) / 2;
        long within = Math.Min(lands, rings.Within(_most[run] - need));
        if (within < 0)
        {
            return;
        }

        ScreenTree tree = _runs.Trees[run];
        int from = Math.Max(tree.FirstFrequency, _field.FirstAt(target - within));
        int to = Math.Min(tree.LastFrequency, _field.FirstAt(target + within + 1) - 1);
        ReadOnlySpan<float> most = _reach.MostByFrequency;
        ReadOnlySpan<double> gains = _gains.Of(_prefix.Stage);
        for (int f = from; f <= to; f++)
        {
            long hertz = _field.Frequencies[f];
            double drop = rings.LeastDropDb(Math.Abs(hertz - target));
            if (most[f] >= need + drop - gains[f])
            {
                Complete(run, f, frequency + (sign * hertz), width, need + drop - gains[f], drop, image, sign);
            }
        }
    }

    private void Complete(int run, int frequency, long total, long width, double wanted, double drop, int image, int sign)
    {
        if (total == 0 || total > 0 != image > 0)
        {
            return;
        }

        long off = Math.Abs(total - (image * _receiver.FrequencyHz));
        (int from, int to) = _reach.Weak(run, frequency, wanted, _gains, _strongFrom);
        for (int k = from; k < to; k++)
        {
            (int emitter, double level) = _reach[k];
            if (level < wanted)
            {
                break;
            }

            if (2 * off <= _receiver.ChannelHz + width + _field.BandwidthHz[emitter])
            {
                _judge.Judge(_prefix, Math.Abs(total), image, sign, emitter, level, drop);
            }
        }
    }
}
