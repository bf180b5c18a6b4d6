using System.Numerics;

using MathNet.Numerics.IntegralTransforms;

using Spurless.Mixing.Spread;

namespace Spurless.Mixing.Tests.Spread;

public class ShareTests
{
    [Theory]
    [InlineData(0, 1)]
    [InlineData(3_999, 1)]
    [InlineData(4_000, 0.5)]
    [InlineData(-4_000, 0.5)]
    [InlineData(4_001, 1e-7)]
    public void Of_a_line_is_all_half_or_the_floor(double offset, double share) =>
        Assert.Equal(share, InChannelShare.Of(offset, 8_000, [2, -1], [EmitterSpread.Line, EmitterSpread.Line]));

    // Tables of the normal distribution: 68.27 % within one sigma, 95.45 % within two (textbook, from memory).
    [Theory]
    [InlineData(4_000, 0.682689)]
    [InlineData(2_000, 0.954500)]
    public void Of_a_gaussian_is_that_of_the_tables(double sigma, double share) =>
        Assert.Equal(share, InChannelShare.Of(0, 8_000, [1], [new EmitterSpread(0, sigma)]), 1e-6);

    // 2A - B with variances k^2 sigma^2: sqrt(4 * 900 + 1600) = ... by hand 3600*... sigma 1500 and 4000 give 5000.
    [Fact]
    public void Of_a_product_adds_variances_by_the_square_of_the_coefficients() =>
        Assert.Equal(
            InChannelShare.Of(700, 8_000, [1], [new EmitterSpread(0, 5_000)]),
            InChannelShare.Of(700, 8_000, [2, -1], [new EmitterSpread(0, 1_500), new EmitterSpread(0, 4_000)]),
            1e-12);

    // Two keyed emitters make four lines: 2 x (+-1 kHz) and (+-3 kHz) at +-5 and +-1 kHz; the inner two are inside 8 kHz, one of the edge
    // ones at half.
    [Fact]
    public void Of_two_keyed_emitters_multiplies_lines_out()
    {
        EmitterSpread[] spreads = [new(1_000, 0), new(3_000, 0)];
        Assert.Equal(0.5, InChannelShare.Of(0, 8_000, [2, -1], spreads));
        Assert.Equal(0.75, InChannelShare.Of(0, 10_000, [2, -1], spreads));
        Assert.Equal(1, InChannelShare.Of(0, 10_001, [2, -1], spreads));
    }

    [Fact]
    public void Of_a_far_product_is_the_floor() =>
        Assert.Equal(InChannelShare.Floor, InChannelShare.Of(1e9, 8_000, [1], [new EmitterSpread(0, 2_000)]));

    // physics section 2, the rules one by one: 16 kHz FM has 5 kHz deviation, 11 kHz 2.5 kHz, a broadcaster 180 kHz 75 kHz (Carson's rule).
    [Theory]
    [InlineData(0, "F3E", 0, 0)]
    [InlineData(16_000, "N0N", 0, 0)]
    [InlineData(16_000, "F3E", 0, 0.35 * 5_000)]
    [InlineData(11_000, "g3e", 0, 0.35 * 2_500)]
    [InlineData(6_000, "F3E", 0, 0.35 * 300)]
    [InlineData(180_000, "F8EHF", 0, 0.35 * 75_000)]
    [InlineData(16_000, "F1D", 0.28 * 16_000, 0.05 * 16_000)]
    [InlineData(30_000, "G1D", 0.28 * 30_000, 0.05 * 30_000)]
    [InlineData(30_001, "G1D", 0, 30_001 / 3.4641016151377544)]
    [InlineData(7_600, "FXW", 0, 7_600 / 3.4641016151377544)]
    [InlineData(20_000, null, 0, 20_000 / 3.4641016151377544)]
    public void From_of_an_emission_is_by_its_rule(long bandwidth, string? emission, double shift, double sigma)
    {
        EmitterSpread spread = EmitterSpread.From(bandwidth, emission);
        Assert.Equal(shift, spread.ShiftHz, 1e-9);
        Assert.Equal(sigma, spread.SigmaHz, 1e-9);
    }

    /// <summary>
    /// Share against simulated FM: two voice-like signals (coloured noise of 300 to 3,000 Hz, clipped at the peak deviation as a
    /// transmitter's limiter does), their phases combined as the product combines them, spectrum by an FFT of a numerics library.
    /// </summary>
    /// <remarks>With white modulating noise, which speech is not, A+B comes out 3.3 dB low at -29 dB; the others hold there too.</remarks>
    [Theory]
    [InlineData(2, -1)]
    [InlineData(1, 1)]
    [InlineData(3, -2)]
    public void Of_simulated_fm_is_within_three_dB_down_to_minus_35_dB(int first, int second)
    {
        const double Rate = 192_000;
        const int Length = 1 << 19;
        const double Deviation = 5_000;
        Random random = new(7);
        double[] a = Voice(random, Length, Rate);
        double[] b = Voice(random, Length, Rate);
        Complex[] product = new Complex[Length];
        double phase = 0;
        for (int t = 0; t < Length; t++)
        {
            phase += 2 * Math.PI * Deviation * ((first * a[t]) + (second * b[t])) / Rate;
            product[t] = Complex.FromPolarCoordinates(1, phase) * (0.5 - (0.5 * Math.Cos(2 * Math.PI * t / Length)));
        }

        Fourier.Forward(product, FourierOptions.AsymmetricScaling);
        double[] power = [.. product.Select(static c => (c.Real * c.Real) + (c.Imaginary * c.Imaginary))];
        double total = power.Sum();
        EmitterSpread spread = EmitterSpread.From(16_000, "F3E");
        int compared = 0;
        for (double offset = 0; offset <= 40_000; offset += 1_000)
        {
            double inside = 0;
            for (int bin = (int)((offset - 4_000) * Length / Rate); bin <= (int)((offset + 4_000) * Length / Rate); bin++)
            {
                inside += power[(bin + Length) % Length];
            }

            double simulated = 10 * Math.Log10(inside / total);
            if (simulated < -35)
            {
                break;
            }

            double share = 10 * Math.Log10(InChannelShare.Of(offset, 8_000, [first, second], [spread, spread]));
            Assert.True(Math.Abs(share - simulated) <= 3, $"{first} {second} at {offset} Hz: {share} dB, simulated {simulated} dB");
            compared++;
        }

        Assert.True(compared >= 10, $"only {compared} offsets compared");
    }

    /// <summary>The tail joins the Gaussian where it begins, and falls by 14 dB for each 3 kHz from there to the floor.</summary>
    [Fact]
    public void Of_modulation_far_out_falls_exponentially()
    {
        EmitterSpread spread = EmitterSpread.From(11_200, "F3E");
        double from = 4_000 + (3.4173 * spread.SigmaHz);
        double at = InChannelShare.Of(from, 8_000, [1], [spread]);
        Assert.Equal(-35, 10 * Math.Log10(at), 0.01);
        Assert.Equal(at, InChannelShare.Of(from + 1e-6, 8_000, [1], [spread]), 1e-9);
        Assert.Equal(-49, 10 * Math.Log10(InChannelShare.Of(from + 3_000, 8_000, [1], [spread])), 0.01);
        Assert.Equal(InChannelShare.Floor, InChannelShare.Of(from + 9_000, 8_000, [1], [spread]));
    }

    /// <summary>
    /// Wide spreads fall more slowly than the tail as they are: it begins where it is the slower, and only raises the share.
    /// </summary>
    [Fact]
    public void Of_modulation_is_never_under_the_Gaussian_and_falls_with_distance()
    {
        foreach (long bandwidth in new[] { 6_000L, 11_200, 16_000, 25_000, 180_000 })
        {
            EmitterSpread spread = EmitterSpread.From(bandwidth, "F3E");
            EmitterSpread bare = spread with { ModulationHz = 0 };
            double last = 1;
            for (double offset = 0; offset < 400_000; offset += 250)
            {
                double share = InChannelShare.Of(offset, 8_000, [2, -1], [spread, spread]);
                Assert.True(share <= last * (1 + 1e-12), $"{bandwidth} Hz wide rises at {offset} Hz");
                Assert.True(share >= InChannelShare.Of(offset, 8_000, [2, -1], [bare, bare]) * (1 - 1e-9));
                last = share;
            }
        }
    }

    /// <summary>
    /// Noise of 300 to 3,000 Hz with an rms of 0.35 of its clipping level 1, falling 3 dB per octave above 500 Hz: speech falls by about 9,
    /// pre-emphasis raises by 6 (long-term spectrum of speech, from memory).
    /// </summary>
    private static double[] Voice(Random random, int length, double rate)
    {
        Complex[] bins = new Complex[length];
        for (int i = 1; i < length / 2; i++)
        {
            double f = i * rate / length;
            if (f is >= 300 and <= 3_000)
            {
                bins[i] = Complex.FromPolarCoordinates(
                    Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()) * 500 / Math.Max(500, f)), 2 * Math.PI * random.NextDouble());
            }
        }

        Fourier.Inverse(bins, FourierOptions.AsymmetricScaling);
        double rms = Math.Sqrt(bins.Sum(static c => c.Real * c.Real) / length);
        return [.. bins.Select(c => Math.Clamp(0.35 * c.Real / rms, -1, 1))];
    }
}
