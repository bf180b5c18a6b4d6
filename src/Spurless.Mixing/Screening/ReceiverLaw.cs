using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Screening;

/// <summary>
/// What a receiver asks of levels, per stage: how strong an emitter must be there to take part in any product over the threshold, given
/// the strongest one.
/// Bounds only: they let too many through and never too few.
/// </summary>
internal readonly struct ReceiverLaw
{
    // Rounding of levels to micro-dB, and a little more.
    private const double MarginDb = 0.001;

    private readonly double _threshold;
    private readonly double[] _perOrder;
    private readonly double _penaltyScale;
    private readonly int _signals;
    private readonly IReadOnlyList<int> _orders;

    /// <summary>For one stage.</summary>
    /// <param name="stage">The stage.</param>
    /// <param name="referralDb">Its referral at the receiver's frequency.</param>
    /// <param name="thresholdDbm">What a product must reach at the receiver's input.</param>
    /// <param name="options">Orders and signals.</param>
    /// <param name="anyNoiseLike">Whether some emitter makes more than a constant one.</param>
    public ReceiverLaw(ScreenStage stage, double referralDb, double thresholdDbm, ScreenOptions options, bool anyNoiseLike)
    {
        (_threshold, _signals, _orders) = (thresholdDbm - MarginDb, options.Signals, options.Orders);
        _penaltyScale = anyNoiseLike ? 10 : 20;
        _perOrder = new double[Multinomial.MaxOrder + 1];
        foreach (int n in options.Orders)
        {
            _perOrder[n] = MicroDb.ToDecibels(ProductLevel.OrderMicroDb(n, stage.Intercepts.MicroDbm(n), 0)) + referralDb;
        }
    }

    /// <summary>What the emitters' parts of a product of an order must add up to, in dB: each its level so many times less its
    /// penalty.</summary>
    public double Need(int order) => _threshold - _perOrder[order];

    /// <summary>The least level at which one emitter can take part, the others being as strong as the strongest.</summary>
    /// <param name="strongest">Level of the strongest emitter.</param>
    /// <param name="leastTimes">How often it takes part at least.</param>
    public double LeastOfOne(double strongest, int leastTimes = 1)
    {
        double least = double.PositiveInfinity;
        foreach (int n in _orders)
        {
            for (int j = leastTimes; j <= n; j++)
            {
                if (j < n && _signals < 2)
                {
                    continue;
                }

                double rest = n == j ? 0 : ((n - j) * strongest) - Split(n - j, _signals - 1);
                least = Math.Min(least, (_threshold - _perOrder[n] - rest + Penalty(j)) / j);
            }
        }

        return least;
    }

    /// <summary>The least level of the stronger of two emitters of one product, the third being as strong as the strongest: two under it
    /// are never in one product.</summary>
    public double LeastOfTwo(double strongest)
    {
        double least = double.PositiveInfinity;
        foreach (int n in _orders)
        {
            for (int both = 2; both <= n && _signals > 1; both++)
            {
                if (both < n && _signals < 3)
                {
                    continue;
                }

                double rest = n == both ? 0 : ((n - both) * strongest) - Split(n - both, _signals - 2);
                least = Math.Min(least, (_threshold - _perOrder[n] - rest + Split(both, 2)) / both);
            }
        }

        return least;
    }

    /// <summary>The least that taking an emitter so many times costs, in dB.</summary>
    public double Penalty(int times) => _penaltyScale * Math.Log10(Multinomial.Factorial(times));

    /// <summary>Least sum of penalties of so many times shared out over at most so many emitters.</summary>
    private double Split(int times, int emitters)
    {
        emitters = Math.Clamp(emitters, 1, times);
        (int each, int more) = Math.DivRem(times, emitters);
        return (more * Penalty(each + 1)) + ((emitters - more) * Penalty(each));
    }
}
