using CsCheck;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Screening;

namespace Spurless.Mixing.Tests.Screening;

/// <summary>
/// How strong an emitter must be to take part in any product that reaches the threshold: the bound by which a screening leaves emitters
/// out, against every product written out.
/// </summary>
public sealed class ReceiverLawTests
{
    private static readonly int[][] _orders = [[2, 3, 5], [3], [2, 4], [3, 5, 7], [2, 3, 4, 5]];

    private static readonly Gen<(int[] Orders, int Signals, bool Noise)> _kinds =
        Gen.Select(Gen.Int[0, 4].Select(static i => _orders[i]), Gen.Int[1, 3], Gen.Bool);

    // Every way to write a number of times as at most so many parts, in falling order.
    private static IEnumerable<int[]> Parts(int times, int most, int largest)
    {
        if (times == 0)
        {
            yield return [];
        }

        for (int first = Math.Min(times, largest); first >= 1 && most > 0; first--)
        {
            foreach (int[] rest in Parts(times - first, most - 1, first))
            {
                yield return [first, .. rest];
            }
        }
    }

    // What an emitter of so many times takes off: its coefficient's factorial, as a voltage or, of noise-like ones, as a power.
    private static double Penalty(int times, bool noise) =>
        (noise ? 10 : 20) * Math.Log10(Enumerable.Range(1, times).Aggregate(1.0, static (all, i) => all * i));

    private static double OfOrder(int n, Intercepts intercepts, double referral) =>
        MicroDb.ToDecibels(ProductLevel.OrderMicroDb(n, intercepts.MicroDbm(n), 0)) + referral;

    private static readonly Gen<(double Iip3, double Referral, double Threshold, double Strongest)> _levels =
        Gen.Select(Gen.Double[-20, 20], Gen.Double[-10, 25], Gen.Double[-140, -90], Gen.Double[-70, 10]);

    private static ReceiverLaw Law((int[] Orders, int Signals, bool Noise) kind, Intercepts intercepts, double referral,
        double threshold) => new(
        new ScreenStage(static _ => 0, static _ => 0, intercepts),
        referral,
        threshold,
        new ScreenOptions { Orders = kind.Orders, Signals = kind.Signals },
        kind.Noise);

    /// <summary>
    /// The bound is the least level with which some product still reaches the threshold, all others as strong as the strongest: looked for
    /// among all orders and all ways to share the times out.
    /// </summary>
    [Fact]
    public void LeastOfOne_is_the_least_of_all_products() =>
        Gen.Select(_kinds, _levels, Gen.Int[1, 3]).Sample(static (kind, at, leastTimes) =>
    {
        Intercepts intercepts = Intercepts.Complete(at.Iip3);
        double least = double.PositiveInfinity;
        foreach (int n in kind.Orders)
        {
            for (int j = leastTimes; j <= n; j++)
            {
                foreach (int[] rest in Parts(n - j, kind.Signals - 1, n))
                {
                    double others = rest.Sum(k => (k * at.Strongest) - Penalty(k, kind.Noise));
                    double own = at.Threshold - OfOrder(n, intercepts, at.Referral) - others + Penalty(j, kind.Noise);
                    least = Math.Min(least, own / j);
                }
            }
        }

        // A thousandth of a decibel is kept for rounding.
        double found = Law(kind, intercepts, at.Referral, at.Threshold).LeastOfOne(at.Strongest, leastTimes);
        Assert.True(double.IsPositiveInfinity(least) ? double.IsPositiveInfinity(found) : Math.Abs(found - least) < 0.0011,
            $"{found} and {least}");
        Assert.True(found <= least);
    }, iter: 300);

    /// <summary>The same for two: the stronger of them must reach the bound, whatever the weaker is.</summary>
    [Fact]
    public void LeastOfTwo_bounds_the_stronger_of_any_two() =>
        Gen.Select(_kinds, _levels, Gen.Double[0, 40].Array[3], Gen.Int[0, 1_000_000]).Sample(
        static (kind, at, under, seed) =>
        {
            Random random = new(seed);
            Intercepts intercepts = Intercepts.Complete(at.Iip3);
            ReceiverLaw law = Law(kind, intercepts, at.Referral, at.Threshold);
            double one = law.LeastOfOne(at.Strongest), two = law.LeastOfTwo(at.Strongest);
            foreach (int n in kind.Orders)
            {
                foreach (int[] times in Parts(n, kind.Signals, n))
                {
                    double[] levels = [.. times.Select((_, i) => at.Strongest - under[i])];
                    random.Shuffle(levels);
                    double level = OfOrder(n, intercepts, at.Referral)
                        + times.Select((k, i) => (k * levels[i]) - Penalty(k, kind.Noise)).Sum();
                    if (level < at.Threshold)
                    {
                        continue;
                    }

                    Assert.All(levels, l => Assert.True(l >= one, $"{l} is in it, under {one}"));
                    for (int i = 0; i < levels.Length; i++)
                    {
                        for (int k = i + 1; k < levels.Length; k++)
                        {
                            Assert.True(Math.Max(levels[i], levels[k]) >= two, $"{levels[i]} and {levels[k]} are in it, under {two}");
                        }
                    }
                }
            }
        }, iter: 300);

    /// <summary>A higher threshold and a better intercept ask for more, a stronger strongest for less.</summary>
    [Fact]
    public void Bounds_move_the_way_they_must() => Gen.Select(_kinds, _levels, Gen.Double[0.1, 20]).Sample(static (kind, at, more) =>
    {
        ReceiverLaw law = Law(kind, Intercepts.Complete(at.Iip3), at.Referral, at.Threshold);
        double here = law.LeastOfOne(at.Strongest);
        Assert.True(Law(kind, Intercepts.Complete(at.Iip3), at.Referral, at.Threshold + more).LeastOfOne(at.Strongest) >= here);
        Assert.True(Law(kind, Intercepts.Complete(at.Iip3 + more), at.Referral, at.Threshold).LeastOfOne(at.Strongest) >= here);
        Assert.True(law.LeastOfOne(at.Strongest + more) <= here);
        Assert.True(law.LeastOfOne(at.Strongest, 2) >= here);
    });
}
