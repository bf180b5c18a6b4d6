using System.Runtime.InteropServices;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Screening;

/// <summary>
/// Screens one receiver after another. From the strongest level there follows a level under which an emitter is weak: it can take part in
/// a product that counts
/// only once, and beside strong ones alone. The strong ones are gathered and searched; the weak ones are looked up by the frequency that
/// the strong ones leave
/// them (<see cref="WeakTails"/>). Exact: nobody is left out who could take part in a product that counts. An instance may be used by one
/// thread at a time.
/// </summary>
internal sealed class ScreenSearch
{
    /// <summary>An order that nobody asked for has an intercept that no level reaches.</summary>
    private const int NeverMicroDbm = 900 * MicroDb.PerDecibel;

    /// <summary>Weak ones that are weaker than a strong one by no more than this are looked round for at once; deeper only by frequency.
    /// </summary>
    private const double NearDb = 16;

    private readonly ScreenField _field;
    private readonly ScreenOptions _options;
    private readonly ScreenWalk _walk;
    private readonly WeakTails _weak;
    private readonly ScreenSink _sink = new();
    private readonly FastSearch _search = new(new FastSearchOptions { Threads = 1 });
    private readonly Dictionary<ScreenProfile, ProfileGains> _gains = new(ReferenceEqualityComparer.Instance);

    public ScreenSearch(ScreenField field, ScreenOptions options)
    {
        (_field, _options) = (field, options);
        _walk = new ScreenWalk(field, options.Ground);
        _weak = new WeakTails(field, options, _walk, _sink);
    }

    public ScreenFinding Run(ScreenReceiver receiver, CancellationToken cancellationToken)
    {
        if (!_gains.TryGetValue(receiver.Profile, out ProfileGains? gains))
        {
            _gains.Add(receiver.Profile, gains = new ProfileGains(receiver.Profile, _field));
        }

        IReadOnlyList<ScreenStage> stages = receiver.Profile.Stages;
        double threshold = receiver.NoiseFloorDbm + _options.MarginalFromDb - (10 * Math.Log10(stages.Count));
        double[] strongFrom = new double[stages.Count];
        double[] nearFrom = new double[stages.Count];
        ReceiverLaw[] laws = new ReceiverLaw[stages.Count];
        int[] referral = new int[stages.Count];
        _walk.Begin(receiver, gains, _options.WithinM);
        for (int s = 0; s < stages.Count; s++)
        {
            double refer = stages[s].ReferralDb(receiver.FrequencyHz);
            referral[s] = MicroDb.Clamped(refer);
            laws[s] = new ReceiverLaw(stages[s], refer, threshold, _options, _field.AnyNoiseLike);
            double strongest = _walk.Strongest(s);

            // One alone must be among the strong ones too where it is in a product more than once.
            strongFrom[s] = double.IsNegativeInfinity(strongest)
                ? double.MaxValue
                : Math.Min(laws[s].LeastOfTwo(strongest), laws[s].LeastOfOne(strongest, leastTimes: 2));
            nearFrom[s] = double.IsNegativeInfinity(strongest)
                ? double.MaxValue
                : Math.Min(strongFrom[s], Math.Max(strongFrom[s] - NearDb, laws[s].LeastOfOne(strongest)));
        }

        _walk.Gather(strongFrom, nearFrom);
        _sink.Begin(_field, receiver, _options);
        int[] strong = [.. _walk.Found];
        double[] levels = [.. _walk.Levels];
        if (strong.Length > 0)
        {
            if (strong.Length > SearchProblem.MaxEmitters)
            {
                // More than any search takes: what the strongest of them make is the least that there is.
                Array.Sort(levels, strong);
                (levels, strong) = (levels[^SearchProblem.MaxEmitters..], strong[^SearchProblem.MaxEmitters..]);
                _sink.MarkIncomplete();
            }

            bool all = _sink.IsComplete;
            Search(receiver, gains, strong, levels, referral, cancellationToken);
            if (all)
            {
                _weak.Run(receiver, gains, laws, strongFrom, strong, levels, referral, cancellationToken);
            }
        }

        return new ScreenFinding(_sink.Harmful, _sink.Marginal, _sink.Worst, _walk.WithoutLevel, _sink.IsComplete);
    }

    private void Search(ScreenReceiver receiver, ProfileGains gains, int[] strong, double[] antenna, int[] referral,
        CancellationToken cancellationToken)
    {
        SearchEmitter[] emitters = new SearchEmitter[strong.Length];
        for (int k = 0; k < strong.Length; k++)
        {
            int i = strong[k];
            emitters[k] = new SearchEmitter(_field.FrequencyHz[i], _field.BandwidthHz[i], _field.NoiseLike[i]);
        }

        SearchStage[] stages = new SearchStage[gains.Stages];
        for (int s = 0; s < stages.Length; s++)
        {
            int[] levels = new int[strong.Length];
            for (int k = 0; k < levels.Length; k++)
            {
                levels[k] = MicroDb.Clamped(antenna[k] + gains.At(s, _field.FrequencyIndex[strong[k]]));
            }

            ScreenStage stage = receiver.Profile.Stages[s];
            int[] intercepts = new int[Multinomial.MaxOrder + 1];
            Array.Fill(intercepts, NeverMicroDbm);
            foreach (int n in _options.Orders)
            {
                intercepts[n] = stage.Intercepts.MicroDbm(n);
            }

            stages[s] = new SearchStage
            {
                LevelMicroDbm = ImmutableCollectionsMarshal.AsImmutableArray(levels),
                InterceptMicroDbm = ImmutableCollectionsMarshal.AsImmutableArray(intercepts),
                ReferralMicroDb = referral[s],
            };
        }

        SearchProblem problem = new()
        {
            Emitters = ImmutableCollectionsMarshal.AsImmutableArray(emitters),
            Receivers =
            [
                new SearchReceiver
                {
                    FrequencyHz = receiver.FrequencyHz,
                    ChannelHz = receiver.ChannelHz,
                    FloorMicroDbm = MicroDb.Clamped(receiver.NoiseFloorDbm) + MicroDb.Clamped(_options.MarginalFromDb) - 20,
                    Stages = ImmutableCollectionsMarshal.AsImmutableArray(stages),
                },
            ],
            MinOrder = _options.Orders.Min(),
            MaxOrder = _options.Orders.Max(),
            MaxSignals = _options.Signals,
        };
        _sink.Turn(problem, strong);
        _search.Run(problem, _sink, null, cancellationToken);
    }
}
