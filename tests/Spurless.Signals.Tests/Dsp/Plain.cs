using System.Numerics;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Dsp;

/// <summary>Slow reference implementations by the definitions, in double precision: they share nothing with the product.</summary>
internal static class Plain
{
    /// <summary>The discrete Fourier transform by its sum.</summary>
    public static Complex[] Dft(IReadOnlyList<Complex> x, int size)
    {
        Complex[] y = new Complex[size];
        for (int k = 0; k < size; k++)
        {
            for (int n = 0; n < x.Count; n++)
            {
                y[k] += x[n] * Complex.FromPolarCoordinates(1, -2 * Math.PI * ((long)k * n % size) / size);
            }
        }

        return y;
    }

    /// <summary>What a filter passes at a frequency, by the sum of its taps.</summary>
    public static Complex Response(IReadOnlyList<float> taps, double hz, double rate)
    {
        Complex sum = 0;
        for (int k = 0; k < taps.Count; k++)
        {
            sum += taps[k] * Complex.FromPolarCoordinates(1, -2 * Math.PI * hz * k / rate);
        }

        return sum;
    }

    /// <summary>A convolution by its sum, the filter's middle at the sample; beyond the ends the signal is 0.</summary>
    public static double[] Convolved(IReadOnlyList<float> x, IReadOnlyList<float> taps)
    {
        int half = taps.Count / 2;
        return [.. Enumerable.Range(0, x.Count).Select(n => Enumerable.Range(0, taps.Count)
            .Sum(k => n + k - half >= 0 && n + k - half < x.Count ? (double)x[n + k - half] * taps[k] : 0))];
    }

    /// <summary>White Gaussian noise of rms 1.</summary>
    public static float[] Noise(int count, int seed, double rms = 1)
    {
        Gauss gauss = new(seed);
        return [.. Enumerable.Range(0, count).Select(_ => (float)(rms * gauss.Next()))];
    }

    public static float[] Sine(double hz, double rate, int count, double amplitude = 1, double phase = 0) =>
        [.. Enumerable.Range(0, count).Select(n => (float)(amplitude * Math.Sin(phase + 2 * Math.PI * hz * n / rate)))];

    public static double Power(IEnumerable<float> x) => x.Average(static v => (double)v * v);

    public static double Db(double ratio) => 10 * Math.Log10(ratio);
}
