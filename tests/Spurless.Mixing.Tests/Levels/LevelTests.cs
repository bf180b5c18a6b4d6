using Spurless.Mixing.Levels;
using Spurless.Mixing.Tests.Oracles;

namespace Spurless.Mixing.Tests.Levels;

/// <summary>Levels of products against figures from outside: the project's list of check values, whose section is named at each.</summary>
public class LevelTests
{
    // Check values 1.1: multinomial expansion, each row computed there by an FFT. C(k) there is n! / (2^(n-1) prod |k_i|!).
    [Theory]
    [InlineData(new[] { 1, 1 }, 1.0, 0)]
    [InlineData(new[] { 1, -1 }, 1.0, 0)]
    [InlineData(new[] { 2 }, 0.5, -6.021)]
    [InlineData(new[] { 2, -1 }, 0.75, 0)]
    [InlineData(new[] { 1, 1, -1 }, 1.5, 6.021)]
    [InlineData(new[] { 3 }, 0.25, -9.542)]
    [InlineData(new[] { 2, -2 }, 0.75, 0)]
    [InlineData(new[] { 3, -1 }, 0.5, -3.522)]
    [InlineData(new[] { 3, -2 }, 0.625, 0)]
    [InlineData(new[] { 2, 1, -2 }, 1.875, 9.542)]
    [InlineData(new[] { 2, 2, -1 }, 1.875, 9.542)]
    [InlineData(new[] { 3, -1, -1 }, 1.25, 6.021)]
    [InlineData(new[] { 1, 1, 1, -1, -1 }, 7.5, 21.584)]
    [InlineData(new[] { 4, -3 }, 0.546875, 0)]
    [InlineData(new[] { 3, 1, -3 }, 2.1875, 12.041)]
    public void Multinomial_of_a_product_is_that_of_the_expansion(int[] k, double amplitude, double againstReferenceDb)
    {
        int order = k.Sum(Math.Abs);
        Assert.Equal(amplitude, Multinomial.Coefficient(k) * Math.Pow(2, 1 - order), 12);
        double dB = 20 * Math.Log10((double)Multinomial.Coefficient(k) / Multinomial.Reference(order));
        Assert.Equal(againstReferenceDb, dB, 0.0006);
        long micro = Multinomial.OrderMicroDb(order) - k.Sum(static c => (long)Multinomial.FactorialVoltageMicroDb(Math.Abs(c)));
        Assert.Equal(dB, MicroDb.ToDecibels(micro), 5e-6); // ten figures rounded to half a micro-dB
    }

    // physics: C of the reference product for n = 2..9; n over n/2, Pascal's triangle.
    [Fact]
    public void Reference_of_orders_two_to_nine_is_the_central_binomial_coefficient() =>
        Assert.Equal([2, 3, 6, 10, 20, 35, 70, 126], Enumerable.Range(2, 8).Select(Multinomial.Reference));

    // Check values 1.2: computed there, tolerance 0.01 dB.
    [Theory]
    [InlineData(new[] { 2, -1 }, new[] { -30.0, -30 }, 0, -90.00)]
    [InlineData(new[] { 2, -1 }, new[] { -30.0, -40 }, -5, -90.00)]
    [InlineData(new[] { 2, -1 }, new[] { -40.0, -30 }, -5, -100.00)]
    [InlineData(new[] { 1, 1, -1 }, new[] { -30.0, -35, -40 }, 0, -98.98)]
    [InlineData(new[] { 3, -2 }, new[] { -30.0, -30 }, 0, -150.00)]
    [InlineData(new[] { 1, 1 }, new[] { -30.0, -30 }, 30, -90.00)]
    public void Dbm_of_known_tones_is_as_computed(int[] k, double[] levels, double intercept, double expected) =>
        Assert.Equal(expected, PlainLevel.Dbm(k, levels, [], intercept), 0.01);

    // Definition of the intercept: tones at IIP_n make a two-tone product as strong as they.
    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(9)]
    public void Dbm_of_tones_at_the_intercept_is_the_intercept(int order) =>
        Assert.Equal(7.5, PlainLevel.Dbm([(order + 1) / 2, -(order / 2)], [7.5, 7.5], [], 7.5), 1e-9);

    // The intermodulation ratio D of equal tones P gives IIP3 = P + D/2 (check values 1.2, seen in a receiver's user guide).
    [Fact]
    public void Dbm_of_two_tones_lies_twice_the_distance_to_the_intercept_below_them() =>
        Assert.Equal(60, -30 - PlainLevel.Dbm([2, -1], [-30, -30], [], 0), 1e-9);

    // E|g|^(2j) = j! for complex Gaussian g of mean square 1 (moments of the exponential distribution): checked by drawing, 3 sigma.
    [Fact]
    public void Dbm_of_a_noise_like_carrier_is_that_of_its_mean_powers_moment()
    {
        Random random = new(1);
        double sum = 0;
        const int Draws = 400_000;
        for (int i = 0; i < Draws; i++)
        {
            double power = -Math.Log(1 - random.NextDouble());
            sum += power * power;
        }

        double constant = PlainLevel.Dbm([2, -1], [-30, -40], [], 0);
        double noiseLike = PlainLevel.Dbm([2, -1], [-30, -40], [true, true], 0);
        Assert.Equal(10 * Math.Log10(sum / Draws), noiseLike - constant, 0.05);
    }

    [Fact]
    public void MicroDb_parts_add_up_to_the_level_in_decibels()
    {
        Random random = new(2);
        for (int trial = 0; trial < 2_000; trial++)
        {
            int[] k = [random.Next(1, 4), -random.Next(1, 4), random.Next(1, 4)];
            int order = k.Sum(Math.Abs);
            double[] p = [.. k.Select(_ => (random.NextDouble() * 100) - 90)];
            bool[] noise = [.. k.Select(_ => random.Next(2) == 0)];
            double intercept = (random.NextDouble() * 60) - 20;
            long micro = ProductLevel.OrderMicroDb(order, MicroDb.FromDecibels(intercept), 0);
            for (int i = 0; i < k.Length; i++)
            {
                micro += ProductLevel.EmitterMicroDb(Math.Abs(k[i]), MicroDb.FromDecibels(p[i]), noise[i]);
            }

            // 9 emitter parts, 8 intercept parts, 7 constants, each rounded by at most half a micro-dB.
            Assert.Equal(PlainLevel.Dbm(k, p, noise, intercept), MicroDb.ToDecibels(micro), 12e-6);
        }
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(1000.1)]
    public void MicroDb_of_what_is_no_level_is_refused(double level) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MicroDb.FromDecibels(level));

    [Fact]
    public void Clamped_of_a_deep_stop_band_is_the_limit() =>
        Assert.Equal((-MicroDb.Limit, MicroDb.Limit), (MicroDb.Clamped(double.NegativeInfinity), MicroDb.Clamped(1e9)));
}
