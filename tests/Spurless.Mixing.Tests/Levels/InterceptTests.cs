using MathNet.Numerics.IntegralTransforms;

using Spurless.Mixing.Levels;
using Spurless.Mixing.Tests.Oracles;

namespace Spurless.Mixing.Tests.Levels;

public class InterceptTests
{
    [Fact]
    public void Complete_of_iip3_alone_fills_in_by_rule_and_marks()
    {
        Intercepts intercepts = Intercepts.Complete(-5);
        // The rule itself (common practice): odd = IIP3, IIP2 = IIP3 + 30, even n: IIP3 + 30/(n-1).
        Assert.Equal([25, -5, 5, -5, 1, -5, -5 + (30.0 / 7), -5], Enumerable.Range(2, 8).Select(intercepts.Dbm));
        Assert.Equal([true, false, true, true, true, true, true, true], Enumerable.Range(2, 8).Select(intercepts.IsAssumed));
        Assert.Equal([10, 3, 5, 5, 5, 5, 5, 5], Enumerable.Range(2, 8).Select(intercepts.SigmaDb));
    }

    [Fact]
    public void Complete_of_given_intercepts_keeps_them()
    {
        Intercepts intercepts = Intercepts.Complete(0, static n => n switch { 2 => -10, 5 => 3, _ => null });
        Assert.Equal([-10, 0, 0, 3, 0, 0, 0, 0], Enumerable.Range(2, 8).Select(intercepts.Dbm));
        Assert.False(intercepts.IsAssumed(2) || intercepts.IsAssumed(5));
        Assert.Throws<ArgumentOutOfRangeException>(() => Intercepts.Complete(double.NaN));
    }

    /// <summary>
    /// Device law: two exponential devices, x drive each, in balance but for a small gain error e: y = (1+e)(exp(x)-1) - (exp(-x)-1).
    /// Its odd coefficients are (2+e)/n!, its even ones e/n!. The rule says: from IIP2 and IIP3 alone every even intercept follows. Tested
    /// is the rule's core: the unbalance lowers the even-order *coefficients* by one factor, so IIP_n - IIP_n(single device) falls as
    /// 1/(n-1).
    /// </summary>
    [Theory]
    [InlineData(4)]
    [InlineData(6)]
    [InlineData(8)]
    public void Complete_of_a_balanced_exponential_pair_shifts_even_orders_as_its_power_series(int order)
    {
        double Intercept(int n, double unbalance)
        {
            // The n-th coefficient of y by an FFT over a circle (Cauchy's integral), independent of any closed form here.
            System.Numerics.Complex[] samples = new System.Numerics.Complex[64];
            for (int i = 0; i < samples.Length; i++)
            {
                System.Numerics.Complex x = System.Numerics.Complex.FromPolarCoordinates(1, 2 * Math.PI * i / samples.Length);
                samples[i] = ((1 + unbalance) * System.Numerics.Complex.Exp(x)) - System.Numerics.Complex.Exp(-x);
            }

            Fourier.Forward(samples, FourierOptions.AsymmetricScaling);
            double a1 = samples[1].Real / samples.Length;
            double an = samples[n].Real / samples.Length;
            // a_n C_ref 2^(1-n) A^n = a_1 A, as a level of A^2 (any reference: only differences are used).
            double central = 1;
            for (int i = 1; i <= n / 2; i++)
            {
                central = central * (n - i + 1) / i;
            }

            return 20.0 / (n - 1) * Math.Log10(Math.Abs(a1 / (an * central * Math.Pow(2, 1 - n))));
        }

        // Unbalanced device (e very large leaves one exponential): IIP2 - IIP3 and IIP_n - IIP3 are its own offsets. Balancing it raises
        // IIP2 by d and IIP_n by d/(n-1): exactly what the rule adds.
        foreach (double unbalance in new[] { 0.1, 0.01, 0.001 })
        {
            double d2 = Intercept(2, unbalance) - Intercept(2, 1e9) - (Intercept(3, unbalance) - Intercept(3, 1e9));
            double dn = Intercept(order, unbalance) - Intercept(order, 1e9) - (Intercept(3, unbalance) - Intercept(3, 1e9));
            Intercepts rule = Intercepts.Complete(0, n => n == 2 ? d2 : null);
            Assert.Equal(dn, rule.Dbm(order), 1e-6);
        }
    }

    // Check values 1.5, computed there from P_w, IMR and C; tolerance 0.01 dB.
    [Theory]
    [InlineData(-107, 70, 8, 2.0)]
    [InlineData(-107, 65, 8, -5.5)]
    [InlineData(-101, 65, 10, 1.5)]
    [InlineData(-99, 50, 9, -19.5)]
    [InlineData(-119, 75, 6, -3.5)]
    public void En300086_of_a_data_sheet_is_the_intercept(double wanted, double rejection, double coChannel, double expected)
    {
        Assert.Equal(expected, IntermodRejection.En300086(rejection, wanted, coChannel), 0.01);
        // By the other method the same relation, with S and CN12 in the places of P_w and C.
        Assert.Equal(expected, IntermodRejection.Tia603(rejection, wanted, coChannel), 0.01);
    }

    // Second derivation: at the failing point two tones R above P_w make a product C below P_w.
    [Fact]
    public void En300086_defaults_put_the_product_the_co_channel_rejection_under_the_wanted_signal()
    {
        double tone = IntermodRejection.En300086WantedDbm + 70;
        double product = PlainLevel.Dbm([2, -1], [tone, tone], [], IntermodRejection.En300086(70));
        Assert.Equal(IntermodRejection.En300086WantedDbm - IntermodRejection.En300086CoChannelDb, product, 1e-9);
    }
}
