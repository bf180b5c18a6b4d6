namespace Spurless.Fit.Tests;

/// <summary>The functions that a slowly turning error is made of, against closed forms and series.</summary>
public sealed class SmoothTermsTests
{
    // Rms over all delays of (2k + 1) j_k(theta), theta = pi times span times delay (Abramowitz and Stegun 10.1.47). Here j_k by its
    // ascending series (10.1.2), where the program integrates the wave itself; delays by Simpson's rule.
    [Theory]
    [InlineData(1e6)]
    [InlineData(50e6)]
    [InlineData(100e6)]
    [InlineData(300e6)]
    [InlineData(800e6)]
    public void Shares_are_those_of_the_spherical_Bessel_functions(double spanHz)
    {
        double[] shares = Terms(spanHz, 33).Shares;
        double most = Math.PI * spanHz * InstrumentErrors.MostDelayS;
        for (int k = 0; k < shares.Length; k++)
        {
            Assert.InRange(shares[k] / Rms(k, most), 0.99, 1.01);
        }

        // What is left out has next to no share: no more than a twentieth each.
        Assert.InRange(shares.Length, 1, 6);
        if (shares.Length < 6)
        {
            Assert.True(Rms(shares.Length, most) < 0.0505, $"{shares.Length} terms");
        }

        // The whole of a wave is its parts: the sum of (2k + 1) j_k squared is 1 (10.1.50).
        double whole = shares.Select(static (s, k) => s * s / ((2 * k) + 1)).Sum();
        Assert.InRange(whole, 0.995, 1.000_1);
    }

    [Fact]
    public void A_wider_sweep_needs_no_fewer_terms_and_its_constant_weighs_less()
    {
        double[][] all = [.. new[] { 1e6, 30e6, 90e6, 200e6, 500e6, 900e6 }.Select(static s => Terms(s, 17).Shares)];
        for (int i = 1; i < all.Length; i++)
        {
            Assert.True(all[i].Length >= all[i - 1].Length);
            Assert.True(all[i][0] < all[i - 1][0]);
        }

        Assert.Equal(1, all[0][0], 1e-4);
    }

    // P2 to P5 as they are printed (Abramowitz and Stegun, table 22.9), at the places of any grid; nothing behind its end.
    [Fact]
    public void Functions_are_the_Legendre_polynomials_over_the_sweep()
    {
        double[] f = [100e6, 130e6, 131e6, 400e6, 555e6, 900e6, 901e6];
        SmoothTerms terms = new(f, 16);
        Func<double, double>[] printed =
        [
            static _ => 1,
            static u => u,
            static u => ((3 * u * u) - 1) / 2,
            static u => ((5 * u * u * u) - (3 * u)) / 2,
            static u => ((35 * Math.Pow(u, 4)) - (30 * u * u) + 3) / 8,
            static u => ((63 * Math.Pow(u, 5)) - (70 * u * u * u) + (15 * u)) / 8,
        ];
        Assert.True(terms.Functions.Length >= 4);
        for (int k = 0; k < terms.Functions.Length; k++)
        {
            for (int i = 0; i < f.Length; i++)
            {
                double u = (2 * (f[i] - f[0]) / (f[^1] - f[0])) - 1;
                Assert.Equal(printed[k](u), terms.Functions[k][i], 1e-12);
            }

            Assert.All(terms.Functions[k][f.Length..], static v => Assert.Equal(0, v));
        }
    }

    [Fact]
    public void A_sweep_of_one_frequency_has_the_constant_alone()
    {
        SmoothTerms terms = new([145e6], 8);
        Assert.Equal(1, Assert.Single(terms.Shares), 1e-9);
        Assert.Equal(1, terms.Functions[0][0]);
    }

    private static SmoothTerms Terms(double spanHz, int points) =>
        new(DemoFilter.Grid(100e6, 100e6 + spanHz, points), (points + 7) & ~7);

    private static double Rms(int k, double most)
    {
        const int Steps = 400;
        double sum = 0;
        for (int i = 0; i <= Steps; i++)
        {
            double value = ((2 * k) + 1) * Bessel(k, most * i / Steps);
            sum += value * value * (i is 0 or Steps ? 1 : i % 2 == 1 ? 4 : 2);
        }

        return Math.Sqrt(sum / (3 * Steps));
    }

    private static double Bessel(int k, double t)
    {
        double first = 1;
        for (int i = 1; i <= k; i++)
        {
            first *= t / ((2 * i) + 1);
        }

        double sum = 1, term = 1;
        for (int m = 1; m < 40; m++)
        {
            term *= -t * t / 2 / (m * ((2 * (k + m)) + 1));
            sum += term;
        }

        return first * sum;
    }
}
