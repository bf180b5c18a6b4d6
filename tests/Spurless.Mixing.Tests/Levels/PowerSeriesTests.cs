using System.Numerics;

using MathNet.Numerics.IntegralTransforms;

using Spurless.Mixing.Levels;
using Spurless.Mixing.Tests.Oracles;

namespace Spurless.Mixing.Tests.Levels;

/// <summary>
/// The multinomial levels and the next-degree error against a polynomial in the time domain and an FFT of a general numerics library. Each
/// carrier sits on a bin such that no two products share one; each line must agree to 1e-9 of the largest.
/// </summary>
public class PowerSeriesTests
{
    // 3 carriers in a number system with base 2n+1: products of order up to 9 have bins of their own.
    private const int Bins = 1 << 15;
    private static readonly int[] Carriers = [1, 23, 23 * 23];

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(9)]
    public void Level_of_every_product_of_a_power_is_that_of_the_spectrum(int order)
    {
        double[] amplitudes = [1.0, 0.7, 0.45];
        const double A1 = 1;
        const double An = 0.37;
        Complex[] spectrum = Spectrum(amplitudes, (order, An));
        // Intercept from its definition, a_n C_ref 2^(1-n) A^n = a_1 A; levels in dB of A^2 (the reference resistance cancels).
        double intercept = 20.0 / (order - 1) * Math.Log10(A1 / (An * Multinomial.Reference(order) * Math.Pow(2, 1 - order)));
        double[] levels = [.. amplitudes.Select(static a => 20 * Math.Log10(a))];
        double largest = spectrum.Max(static c => c.Magnitude);
        int lines = 0;
        foreach (int[] k in Vectors(order))
        {
            double expected = Math.Pow(10, PlainLevel.Dbm(k, levels, [], intercept) / 20);
            Assert.Equal(expected, spectrum[Bin(k)].Magnitude, 1e-9 * largest);
            lines++;
        }

        // Surface of the octahedron of radius n: 4 n^2 + 2 vectors, half of them mirror images.
        Assert.Equal((2 * order * order) + 1, lines);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    public void Ratio_of_the_next_degree_is_that_of_the_spectrum(int order)
    {
        double[] amplitudes = [1.0, 0.7, 0.45];
        const double An = 0.37;
        const double Next = 0.021;
        Complex[] spectrum = Spectrum(amplitudes, (order, An), (order + 2, Next));
        double largest = spectrum.Max(static c => c.Magnitude);
        double Intercept(int n, double a) => 20.0 / (n - 1) * Math.Log10(1 / (a * Multinomial.Reference(n) * Math.Pow(2, 1 - n)));
        double[] levels = [.. amplitudes.Select(static a => 20 * Math.Log10(a))];
        foreach (int[] k in Vectors(order))
        {
            double lowest = Math.Pow(10, PlainLevel.Dbm(k, levels, [], Intercept(order, An)) / 20);
            double ratio = PlainLevel.NextDegreeRatio(k, levels, Intercept(order, An), Intercept(order + 2, Next));
            Assert.Equal(lowest * (1 + ratio), spectrum[Bin(k)].Magnitude, 1e-9 * largest);
        }
    }

    // physics: for n = 3 delta = 6 sum_j 10^((P_j + IIP3 - 2 IIP5)/10) / (|k_j| + 1), worked by hand: 6 (0.01/3 + 0.01/2) = 0.05.
    [Fact]
    public void Ratio_of_third_order_with_two_tones_is_as_worked_by_hand()
    {
        Assert.Equal(0.05, PlainLevel.NextDegreeRatio([2, -1], [-20, -20], 0, 0), 1e-12);
        Assert.Equal(0.4238, NextDegree.ErrorDb(0.05), 1e-4); // 20 lg 1.05
        Assert.Throws<ArgumentOutOfRangeException>(() => PlainLevel.NextDegreeRatio([4, -4], [-20, -20], 0, 0));
    }

    private static IEnumerable<int[]> Vectors(int order)
    {
        for (int a = -order; a <= order; a++)
        {
            for (int b = -order; b <= order; b++)
            {
                int c = order - Math.Abs(a) - Math.Abs(b);
                if (c > 0 || (c == 0 && (b > 0 || (b == 0 && a > 0))))
                {
                    // The first other than zero from the back positive: one of each mirror pair. (Frequencies are then positive, the
                    // carriers being far apart.)
                    yield return [a, b, c];
                }
            }
        }
    }

    private static int Bin(int[] k) => k.Select(static (c, i) => c * Carriers[i]).Sum();

    /// <summary>One-sided amplitudes of a1 x + sum a_m x^m, x the sum of the carriers.</summary>
    private static Complex[] Spectrum(double[] amplitudes, params (int Degree, double Coefficient)[] terms)
    {
        Complex[] samples = new Complex[Bins];
        for (int t = 0; t < Bins; t++)
        {
            double x = 0;
            for (int i = 0; i < amplitudes.Length; i++)
            {
                // The phase is formed from an exact integer: no error grows with time.
                x += amplitudes[i] * Math.Cos(2 * Math.PI * ((long)t * Carriers[i] % Bins) / Bins);
            }

            samples[t] = terms.Sum(term => term.Coefficient * Math.Pow(x, term.Degree));
        }

        Fourier.Forward(samples, FourierOptions.AsymmetricScaling);
        return [.. samples.Take(Bins / 2).Select(static c => 2 * c / Bins)];
    }
}
