using System.Numerics;
using MathNet.Numerics.IntegralTransforms;
using Spurless.Mixing.Measurements;

namespace Spurless.Mixing.Tests.Measurements;

/// <summary>
/// Intercepts found again from a receiver simulated in the time domain: a polynomial whose coefficients follow from the definition of the
/// intercept (the reference product equals each tone there), with noise at its input, read by the FFT of a general numerics library.
/// </summary>
public class SimulatedBenchTests
{
    private const int Length = 1 << 14;
    private const int ChannelBin = 3_000;
    private const int HalfWidth = 200; // bins of the channel on either side

    // An amplitude of 1 is called 0 dBm; a1 = 1.
    private const double Iip2 = 12;
    private const double Iip3 = -3;
    private const double Iip5 = -6;

    private static readonly double A2 = 1 / Amplitude(Iip2);
    private static readonly double A3 = 4.0 / 3 / Math.Pow(Amplitude(Iip3), 2);
    private static readonly double A5 = 8.0 / 5 / Math.Pow(Amplitude(Iip5), 4);

    // Tones that land on the channel: A-B, 2A-B, 3A-2B.
    [Theory]
    [InlineData(2, 1, -1, 5_000, 2_000, -35, Iip2)]
    [InlineData(3, 2, -1, 3_310, 3_620, -35, Iip3)]
    [InlineData(5, 3, -2, 3_620, 3_930, -20, Iip5)]
    public void Intercept_is_that_of_the_polynomial(int order, int a, int b, int firstBin, int secondBin, double level, double expected)
    {
        Complex[] spectrum = Spectrum(firstBin, secondBin, level, level, noiseSigma: 1e-7, seed: order);
        double product = 20 * Math.Log10(2 * spectrum[ChannelBin].Magnitude);
        double found = InterceptLaw.Intercept(
            [a, b], [MeasuredFigure.Exact(level), MeasuredFigure.Exact(level)], MeasuredFigure.Exact(product)).Value;

        // The term of the next degree moves the third-order product by under 0.05 dB at -35 dBm (NextDegree), noise by far less.
        Assert.Equal(expected, found, 0.1);
    }

    [Fact]
    public void Intercept_of_unequal_tones_is_that_of_the_polynomial()
    {
        Complex[] spectrum = Spectrum(3_310, 3_620, -45, -37, noiseSigma: 1e-7, seed: 4);
        double product = 20 * Math.Log10(2 * spectrum[ChannelBin].Magnitude);
        double found = InterceptLaw.Intercept(
            [2, -1], [MeasuredFigure.Exact(-45), MeasuredFigure.Exact(-37)], MeasuredFigure.Exact(product)).Value;
        Assert.Equal(Iip3, found, 0.1);
    }

    /// <summary>
    /// The bench's own way: both tones raised until what is in the channel has doubled. Nothing is told but the noise in the channel and
    /// the tones' level.
    /// </summary>
    [Fact]
    public void Tones_raised_until_the_channel_has_doubled_give_the_intercept()
    {
        const double Sigma = 2e-5;
        double noise = Channel(Spectrum(3_310, 3_620, double.NegativeInfinity, double.NegativeInfinity, Sigma, seed: 11));
        (double low, double high) = (-70.0, -10.0);
        while (high - low > 0.001)
        {
            double level = (low + high) / 2;
            double there = Channel(Spectrum(3_310, 3_620, level, level, Sigma, seed: 11));
            (low, high) = there > 2 * noise ? (low, level) : (level, high);
        }

        double noiseDbm = 10 * Math.Log10(noise);
        double found = InterceptLaw.Intercept(
            [2, -1], [MeasuredFigure.Exact(low), MeasuredFigure.Exact(low)], MeasuredFigure.Exact(noiseDbm)).Value;

        // One line against noise in 401 bins: it may stand against the noise of its own bin by 10 % of its power, 0.4 dB in it and half
        // of that in the intercept; the seed is fixed.
        Assert.Equal(Iip3, found, 0.4);
    }

    // Power of a sine of amplitude A counts as A^2 here, as its level does.
    private static double Channel(Complex[] spectrum)
    {
        double sum = 0;
        for (int bin = ChannelBin - HalfWidth; bin <= ChannelBin + HalfWidth; bin++)
        {
            sum += 4 * spectrum[bin].Magnitude * spectrum[bin].Magnitude;
        }

        return sum;
    }

    private static double Amplitude(double dbm) => Math.Pow(10, dbm / 20);

    private static Complex[] Spectrum(int first, int second, double firstDbm, double secondDbm, double noiseSigma, int seed)
    {
        Random random = new(seed);
        Complex[] samples = new Complex[Length];
        for (int t = 0; t < Length; t++)
        {
            double phase = 2 * Math.PI * t / Length;
            double x = (Amplitude(firstDbm) * Math.Cos((first * phase) + 0.3)) + (Amplitude(secondDbm) * Math.Cos((second * phase) + 1.1));
            double gauss = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            x += noiseSigma * gauss;
            samples[t] = x + (A2 * x * x) + (A3 * x * x * x) + (A5 * x * x * x * x * x);
        }

        Fourier.Forward(samples, FourierOptions.NoScaling);
        return [.. samples.Select(static s => s / Length)];
    }
}
