using System.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace Spurless.Mixing.Tests.Causes;

/// <summary>
/// Signals in the time domain over one period of everything, and their lines by the general numerics library's FFT: an oracle of its own.
/// </summary>
internal static class Simulated
{
    /// <summary>Samples of a sum of tones at whole bins.</summary>
    public static double[] Tones(int samples, params ReadOnlySpan<(int Bin, double Amplitude, double Phase)> tones)
    {
        double[] x = new double[samples];
        foreach ((int bin, double amplitude, double phase) in tones)
        {
            for (int t = 0; t < samples; t++)
            {
                // The product of bin and time is reduced as a whole number, so that the tone is exactly periodic.
                x[t] += amplitude * Math.Cos((2 * Math.PI * ((long)bin * t % samples) / samples) + phase);
            }
        }

        return x;
    }

    /// <summary>Peak amplitude of each line from 0 to half the samples.</summary>
    public static double[] Lines(ReadOnlySpan<double> x)
    {
        Complex[] spectrum = new Complex[x.Length];
        for (int t = 0; t < x.Length; t++)
        {
            spectrum[t] = x[t];
        }

        Fourier.Forward(spectrum, FourierOptions.AsymmetricScaling);
        double[] lines = new double[(x.Length / 2) + 1];
        for (int bin = 0; bin < lines.Length; bin++)
        {
            lines[bin] = spectrum[bin].Magnitude * (bin == 0 || 2 * bin == x.Length ? 1 : 2) / x.Length;
        }

        return lines;
    }

    public static double Db(double amplitude) => 20 * Math.Log10(amplitude);
}
