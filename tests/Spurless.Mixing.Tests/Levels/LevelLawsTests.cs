using CsCheck;
using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Tests.Levels;

/// <summary>
/// Laws of levels, noise and intercepts that need no table: sums, scaling, derivatives, and the tests that define the figures.
/// </summary>
public sealed class LevelLawsTests
{
    private static readonly Gen<double[]> _levels = Gen.Double[-150, 20].Array[1, 12];

    /// <summary>
    /// In the order greatest, power sum, voltage sum; n equal ones are 10 lg n and 20 lg n over one; all by x dB, the sum by x dB.
    /// </summary>
    [Fact]
    public void Sums_lie_in_their_order_and_shift_with_their_parts() =>
        Gen.Select(_levels, Gen.Double[-40, 40]).Sample(static (levels, x) =>
    {
        double power = LevelSum.PowerDbm(levels), voltage = LevelSum.VoltageDbm(levels), n = levels.Length;
        Assert.True(levels.Max() <= power + 1e-12 && power <= voltage + 1e-12);
        Assert.True(power <= levels.Max() + (10 * Math.Log10(n)) + 1e-9 && voltage <= levels.Max() + (20 * Math.Log10(n)) + 1e-9);
        double[] moved = [.. levels.Select(l => l + x)], equal = [.. levels.Select(_ => x)];
        Assert.Equal(power + x, LevelSum.PowerDbm(moved), 1e-9);
        Assert.Equal(voltage + x, LevelSum.VoltageDbm(moved), 1e-9);
        Assert.Equal(x + (10 * Math.Log10(n)), LevelSum.PowerDbm(equal), 1e-9);
        Assert.Equal(x + (20 * Math.Log10(n)), LevelSum.VoltageDbm(equal), 1e-9);

        // Part sums of part sums are the sum.
        int half = levels.Length / 2;
        Assert.Equal(power, LevelSum.PowerDbm([LevelSum.PowerDbm(levels.AsSpan(0, half)), LevelSum.PowerDbm(levels.AsSpan(half))]), 1e-9);
    });

    /// <summary>First-order propagation: the spread of a power sum by its own derivatives, taken as differences.</summary>
    [Fact]
    public void SigmaDb_of_a_power_sum_is_that_of_its_derivatives() =>
        Gen.Select(Gen.Double[-150, 20].Array[6], Gen.Double[0, 10].Array[6]).Sample(static (levels, sigmas) =>
        {
            double variance = 0, weights = 0;
            for (int i = 0; i < levels.Length; i++)
            {
                double[] up = [.. levels], down = [.. levels];
                (up[i], down[i]) = (levels[i] + 1e-4, levels[i] - 1e-4);
                double slope = (LevelSum.PowerDbm(up) - LevelSum.PowerDbm(down)) / 2e-4;
                variance += slope * slope * sigmas[i] * sigmas[i];
                weights += slope;
            }

            Assert.Equal(1, weights, 1e-6);
            Assert.Equal(Math.Sqrt(variance), PowerSum.SigmaDb(levels, sigmas), 1e-5);
        });

    /// <summary>The cascade against noise temperatures added up stage by stage (each T0 (F - 1) over the gain before it).</summary>
    [Fact]
    public void Cascade_of_any_stages_is_the_sum_of_temperatures() =>
        Gen.Select(Gen.Double[-30, 30], Gen.Double[0, 12]).Array[1, 8].Sample(static stages =>
        {
            NoiseCascade noise = NoiseCascade.Source;
            double gain = 1, kelvin = 0;
            foreach ((double db, double figure) in stages)
            {
                double own = Math.Pow(10, db / 10);
                if (db < 0)
                {
                    noise = noise.Through(own);
                    kelvin += 290 * ((1 / own) - 1) / gain;
                }
                else
                {
                    noise = noise.Amplified(own, figure);
                    kelvin += 290 * (Math.Pow(10, figure / 10) - 1) / gain;
                }

                gain *= own;
            }

            Assert.Equal(1, noise.Gain / gain, 1e-9);
            Assert.Equal(10 * Math.Log10(1 + (kelvin / 290)), noise.NoiseFigureDb, 1e-6);
            Assert.Equal(1, noise.Output / (gain * (1 + (kelvin / 290))), 1e-9);
        });

    /// <summary>Two losses one behind the other are one loss of both, and losses alone at T0 leave the noise of T0.</summary>
    [Fact]
    public void Through_of_two_losses_is_through_of_both() => Gen.Select(Gen.Double[-60, 0], Gen.Double[-60, 0]).Sample(static (a, b) =>
    {
        double one = Math.Pow(10, a / 10), two = Math.Pow(10, b / 10);
        NoiseCascade apart = NoiseCascade.Source.Through(one).Through(two), whole = NoiseCascade.Source.Through(one * two);
        Assert.Equal(whole.Gain, apart.Gain, 1e-12);
        Assert.Equal(1, apart.Output, 1e-12);
        Assert.Equal(-a - b, apart.NoiseFigureDb, 1e-6);
    });

    /// <summary>
    /// The test that defines an intermodulation rejection, run with the intercept that is made of it: two equal signals 'rejection' dB over
    /// the reference give a product just as far under the wanted signal as the receiver fails at.
    /// </summary>
    [Fact]
    public void Intercept_of_a_rejection_fails_the_test_just_there() =>
        Gen.Select(Gen.Double[40, 90], Gen.Double[-125, -95], Gen.Double[3, 15]).Sample(static (rejection, wanted, ratio) =>
        {
            double iip3 = IntermodRejection.En300086(rejection, wanted, ratio), tones = wanted + rejection;
            Assert.Equal(wanted - ratio, (3 * tones) - (2 * iip3), 1e-9);
            double tia = IntermodRejection.Tia603(rejection, wanted, ratio), limit = wanted + rejection;
            Assert.Equal(wanted - ratio, (3 * limit) - (2 * tia), 1e-9);
        });

    /// <summary>Levels are relative: every intercept and every given one by x dB, everything that is filled in by x dB too.</summary>
    [Fact]
    public void Complete_shifts_with_what_is_given() =>
        Gen.Select(Gen.Double[-30, 40], Gen.Double[-30, 80].Nullable(0.5).Array[10], Gen.Double[-20, 20])
        .Sample(static (iip3, given, x) =>
        {
            Intercepts one = Intercepts.Complete(iip3, n => n == 3 ? null : given[n]);
            Intercepts other = Intercepts.Complete(iip3 + x, n => n == 3 ? null : given[n] + x);
            for (int n = 2; n <= Multinomial.MaxOrder; n++)
            {
                Assert.Equal(one.Dbm(n) + x, other.Dbm(n), 1e-9);
                Assert.Equal(one.IsAssumed(n), other.IsAssumed(n));
                Assert.Equal(n != 3 && given[n] is null, one.IsAssumed(n));
                Assert.True(n == 3 || given[n] is not { } stated || one.Dbm(n) == stated);
            }
        });

    /// <summary>
    /// The next degree's share: a dB of power is a dB of it, and nothing changes where levels and intercepts move together.
    /// </summary>
    [Fact]
    public void Ratio_of_the_next_degree_goes_with_power_over_intercept() =>
        Gen.Select(Gen.Int[2, NextDegree.MaxOrder], Gen.Double[-60, 0], Gen.Double[-10, 40], Gen.Double[-10, 40]).Sample(
            static (order, dbm, own, next) =>
            {
                double mw = Math.Pow(10, dbm / 10), one = NextDegree.Ratio(order, mw, own, next);
                Assert.Equal(2, NextDegree.Ratio(order, 2 * mw, own, next) / one, 1e-9);
                Assert.Equal(1, NextDegree.Ratio(order, 10 * mw, own + 10, next + 10) / one, 1e-9);
                Assert.Equal(Math.Pow(10, -(order + 1) / 2.0), NextDegree.Ratio(order, mw, own, next + 10) / one, 1e-9);
                Assert.True(NextDegree.ErrorDb(one) >= 0 && NextDegree.ErrorDb(2 * one) > NextDegree.ErrorDb(one) - 1e-15);
            });

    /// <summary>
    /// Every way to write an order as times of so many emitters, each weighed with n!/(k1! k2! ...): together they are m^n, what x1 + ... +
    /// xm to the n-th power comes to at 1 (multinomial theorem).
    /// </summary>
    [Theory]
    [InlineData(2, 5)]
    [InlineData(3, 4)]
    [InlineData(5, 3)]
    [InlineData(9, 3)]
    public void Multinomial_coefficients_add_up_to_the_power(int order, int emitters)
    {
        long sum = 0;
        int[] k = new int[emitters];
        Count(0, order);
        Assert.Equal((long)Math.Pow(emitters, order), sum);

        void Count(int at, int left)
        {
            if (at == emitters - 1)
            {
                k[at] = left;
                sum += Multinomial.Coefficient(k);
                return;
            }

            for (k[at] = 0; k[at] <= left; k[at]++)
            {
                Count(at + 1, left - k[at]);
            }
        }
    }

    [Fact]
    public void SigmaDb_of_a_product_grows_with_each_of_its_parts_and_in_proportion() =>
        Gen.Select(Gen.Int[-4, 4].Array[3], Gen.Double[0, 10].Array[3], Gen.Double[0, 5], Gen.Double[0, 10]).Sample(
            static (k, sigmas, common, intercept) =>
            {
                double one = LevelUncertainty.SigmaDb(k, sigmas, common, intercept);
                double[] doubled = [.. sigmas.Select(static s => 2 * s)];
                Assert.Equal(2 * one, LevelUncertainty.SigmaDb(k, doubled, 2 * common, 2 * intercept), 1e-9);
                Assert.Equal(one, LevelUncertainty.SigmaDb([.. k.Select(static c => -c)], sigmas, common, intercept), 1e-12);
                Assert.True(LevelUncertainty.SigmaDb(k, sigmas, common + 1, intercept) >= one);
                double up = LevelUncertainty.Chance(-100, 1 + one, -100 - intercept),
                    down = LevelUncertainty.Chance(-100, 1 + one, -100 + intercept);
                Assert.Equal(1, up + down, 1e-9);
                Assert.True(up >= 0.5);
            });
}
