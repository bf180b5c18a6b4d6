using System.Numerics;
using Spurless.Signals.Dsp;

namespace Spurless.Signals.Tests.Dsp;

/// <summary>Spectra against the discrete Fourier transform by its sum, and against the energy that a signal has.</summary>
public sealed class PowerSpectrumTests
{
    /// <summary>The window is Hann's, at half samples; powers so that their sum is the mean square under the window.</summary>
    [Theory]
    [InlineData(64, 64)]
    [InlineData(128, 100)]
    [InlineData(256, 200)]
    public void OfReal_isThePlainTransform(int size, int length)
    {
        float[] x = Plain.Noise(length, size);
        float[] power = new float[size / 2];
        new PowerSpectrum(size, length).OfReal(x, power);
        double[] window = Hann(length);
        double scale = window.Sum(static w => w * w) * size;
        Complex[] plain = Plain.Dft([.. x.Select((v, n) => new Complex(v * window[n], 0))], size);
        for (int k = 0; k < power.Length; k++)
        {
            Assert.Equal(2 * plain[k].Magnitude * plain[k].Magnitude / scale, power[k], 1e-5);
        }
    }

    [Theory]
    [InlineData(64, 64)]
    [InlineData(128, 100)]
    public void OfComplex_isThePlainTransform_lowestFirst(int size, int length)
    {
        float[] pairs = Plain.Noise(2 * length, size + 1);
        float[] power = new float[size];
        new PowerSpectrum(size, length).OfComplex(pairs, power);
        double[] window = Hann(length);
        double scale = window.Sum(static w => w * w) * size;
        Complex[] plain = Plain.Dft([.. Enumerable.Range(0, length).Select(n => new Complex(pairs[2 * n], pairs[2 * n + 1]) * window[n])],
            size);
        for (int k = 0; k < size; k++)
        {
            Complex at = plain[(k + size / 2) % size];
            Assert.Equal(at.Magnitude * at.Magnitude / scale, power[k], 1e-5);
        }
    }

    /// <summary>White noise of rms a: a^2 spread evenly, so the sum over all bins is a^2 (Parseval), each half holds half.</summary>
    [Fact]
    public void OfReal_ofNoise_sumsToItsMeanSquare()
    {
        PowerSpectrum spectrum = new(512, 512);
        float[] power = new float[256];
        double[] mean = new double[256];
        for (int run = 0; run < 400; run++)
        {
            spectrum.OfReal(Plain.Noise(512, 100 + run, 0.5), power);
            for (int b = 0; b < mean.Length; b++)
            {
                mean[b] += power[b] / 400;
            }
        }

        Assert.Equal(0.25, mean.Sum(), 0.005);
        Assert.Equal(0.125, mean[..128].Sum(), 0.004);
    }

    /// <summary>A sine of amplitude a holds a^2/2, wherever its frequency lies between two bins.</summary>
    [Theory]
    [InlineData(1_000)]
    [InlineData(1_003)]
    [InlineData(1_011.7)]
    public void OfReal_ofASine_holdsHalfItsSquare(double hz)
    {
        float[] power = new float[1_024];
        new PowerSpectrum(2_048, 2_048).OfReal(Plain.Sine(hz, 48_000, 2_048, 0.6, 1), power);
        int at = (int)Math.Round(hz / 48_000 * 2_048);
        Assert.Equal(0.18, power[(at - 4)..(at + 5)].Sum(), 0.001);
        Assert.True(power.Where((_, b) => Math.Abs(b - at) > 12).Max() < 1e-6);
    }

    /// <summary>A frequency over the centre stands over the middle bin, one under it below.</summary>
    [Theory]
    [InlineData(5)]
    [InlineData(-17)]
    [InlineData(0)]
    public void OfComplex_aRotation_standsOnItsSide(int bins)
    {
        const int Size = 256;
        float[] pairs = [.. Enumerable.Range(0, Size).SelectMany(n => new[]
        {
            (float)Math.Cos(2 * Math.PI * bins * n / Size), (float)Math.Sin(2 * Math.PI * bins * n / Size),
        })];
        float[] power = new float[Size];
        new PowerSpectrum(Size, Size).OfComplex(pairs, power);
        Assert.Equal(Size / 2 + bins, Array.IndexOf(power, power.Max()));
        Assert.Equal(1, power.Sum(), 1e-4);
    }

    /// <summary>The floor under lines: of an exponential law its mean, with and without lines over it.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(12)]
    public void LineFloor_ofNoise_isItsMean(int lines)
    {
        Random random = new(9);
        float[] power = [.. Enumerable.Range(0, 4_096).Select(_ => (float)(-3 * Math.Log(1 - random.NextDouble())))];
        for (int k = 0; k < lines; k++)
        {
            power[200 + 300 * k] = 5_000;
        }

        LineFloor floor = new(power.Length, 64);
        floor.Measure(power, 0, power.Length);
        double mean = Enumerable.Range(0, power.Length).Average(b => (double)floor.At(b));

        // Of three neighbours' medians the largest: a little over the mean, never twice of it.
        Assert.InRange(mean, 3, 4);
        Assert.All(Enumerable.Range(0, power.Length), b => Assert.InRange(floor.At(b), 1.8f, 6));
    }

    private static double[] Hann(int length) =>
        [.. Enumerable.Range(0, length).Select(n => 0.5 - 0.5 * Math.Cos(2 * Math.PI * (n + 0.5) / length))];
}
