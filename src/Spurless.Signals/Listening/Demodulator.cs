using Spurless.Signals.Dsp;
using Spurless.Signals.Recognition;

namespace Spurless.Signals.Listening;

/// <summary>A carrier taken apart.</summary>
/// <param name="CentreHz">Its middle, from the channel's.</param>
/// <param name="Hz">Its frequency from the channel's middle, a value a sample.</param>
/// <param name="Size">Its size, a value a sample.</param>
/// <param name="MeanSize">Its mean size while on.</param>
/// <param name="Modulation">How it is modulated.</param>
/// <param name="Fades">Whether it is one in frequency over a path that fades.</param>
internal sealed record Demodulated(double CentreHz, double[] Hz, float[] Size, double MeanSize, Modulation Modulation, bool Fades)
{
    /// <summary>What the frequency stays within of the centre for 98.5 % of the time it is on, in hertz.</summary>
    public double Deviation(ReadOnlySpan<bool> on, int step)
    {
        double[] deviations = new double[Hz.Length / 4 + 1];
        int held = 0;
        for (int n = 0; n < Hz.Length; n += 4)
        {
            if (on[Math.Min(on.Length - 1, n / step)])
            {
                deviations[held++] = Math.Abs(Hz[n] - CentreHz);
            }
        }

        Array.Sort(deviations, 0, held);
        return held == 0 ? 0 : deviations[(int)(held * 0.985)];
    }
}

/// <summary>Says how a channel's carrier is modulated, and gives its frequency and size over time.</summary>
internal static class Demodulator
{
    /// <summary>The channel's power, a value each step.</summary>
    public static double[] Envelope(ReadOnlySpan<float> pairs, int step)
    {
        double[] envelope = new double[pairs.Length / 2 / step];
        for (int k = 0; k < envelope.Length; k++)
        {
            envelope[k] = Kernels.Power(pairs.Slice(2 * k * step, 2 * step)) * 2;
        }

        return envelope;
    }

    /// <summary>The power between the noise and what is on.</summary>
    public static double Threshold(double[] envelope, double noise)
    {
        double strong = envelope.Length == 0 ? 0 : envelope.Order().ElementAt(envelope.Length * 85 / 100);
        return Math.Max(1.6 * noise, Math.Min(strong / 4, Math.Sqrt(strong * noise)));
    }

    /// <summary>Takes a carrier apart.</summary>
    /// <param name="part">The channel's samples, pairs.</param>
    /// <param name="rateHz">Samples a second.</param>
    /// <param name="on">When it is on, a value each step.</param>
    /// <param name="step">Samples of a step.</param>
    /// <param name="noise">Noise power within 2.5 kHz.</param>
    public static Demodulated Run(ReadOnlySpan<float> part, double rateHz, ReadOnlySpan<bool> on, int step, double noise)
    {
        (double centre, double[] frequency, float[] size) = Demodulate(part, rateHz, on, step);
        (double mean, double scatter) = Amplitude(size, on, step, noise);
        double steady = CarrierMeasures.Steady(part, rateHz, on, step);
        bool keyed = Gaps(on) >= 3 && scatter < 0.3;
        bool fades = scatter >= 0.2 && CarrierMeasures.Fades(size, on, step, noise);
        Modulation modulation = keyed ? Modulation.Keyed : scatter < 0.2 || fades ? Modulation.Fm
            : steady > 0.3 ? Modulation.Am : scatter > 0.42 ? Modulation.Ssb : Modulation.Fm;
        return new Demodulated(centre, frequency, size, mean, modulation, fades);
    }

    /// <summary>When something is on, a value each step: two of three over the threshold; holes under 8 ms are filled.</summary>
    public static bool[] OnMask(double[] envelope, double threshold)
    {
        bool[] on = new bool[envelope.Length];
        for (int k = 0; k < on.Length; k++)
        {
            double a = envelope[Math.Max(0, k - 1)];
            double c = envelope[Math.Min(on.Length - 1, k + 1)];
            int over = (a > threshold ? 1 : 0) + (envelope[k] > threshold ? 1 : 0) + (c > threshold ? 1 : 0);
            on[k] = over >= 2;
        }

        // Holes under 8 ms are the noise's or a fade's.
        int off = 0;
        for (int k = 0; k < on.Length; k++)
        {
            if (on[k])
            {
                if (off is > 0 and < 4 && k - off > 0)
                {
                    on.AsSpan(k - off, off).Fill(true);
                }

                off = 0;
            }
            else
            {
                off++;
            }
        }

        return on;
    }

    private static int Gaps(ReadOnlySpan<bool> on)
    {
        int gaps = 0;
        for (int k = 1; k < on.Length; k++)
        {
            gaps += on[k - 1] && !on[k] ? 1 : 0;
        }

        return gaps;
    }

    private static (double CentreHz, double[] Hz, float[] Size) Demodulate(
        ReadOnlySpan<float> z, double rateHz, ReadOnlySpan<bool> on, int step)
    {
        int count = z.Length / 2;
        double[] hz = new double[count];
        float[] size = new float[count];
        double re = 0;
        double im = 0;
        double scale = rateHz / (2 * Math.PI);
        for (int n = 1; n < count; n++)
        {
            double i = z[2 * n];
            double q = z[2 * n + 1];
            double a = i * z[2 * n - 2] + q * z[2 * n - 1];
            double b = q * z[2 * n - 2] - i * z[2 * n - 1];
            hz[n] = Math.Atan2(b, a) * scale;
            size[n] = (float)Math.Sqrt(i * i + q * q);
            re += a;
            im += b;
        }

        // The middle of the extremes where it is keyed wide, else the mean by power.
        double byPower = Math.Atan2(im, re) * scale;
        int smooth = Math.Max(1, (int)(rateHz * 0.0002));
        List<double> values = [];
        double sum = 0;
        for (int n = 0; n < count; n++)
        {
            sum += hz[n];
            if (n >= smooth)
            {
                sum -= hz[n - smooth];
            }

            if (n % 3 == 0 && n > smooth && on[Math.Min(on.Length - 1, n / step)])
            {
                values.Add(sum / smooth);
            }
        }

        if (values.Count < 20)
        {
            return (byPower, hz, size);
        }

        values.Sort();
        double low = values[values.Count / 20];
        double high = values[values.Count * 19 / 20];
        double quarter = values[values.Count * 3 / 4] - values[values.Count / 4];
        bool twoSided = quarter > 0.55 * (high - low) && high - low > 1_500;
        return (twoSided ? (low + high) / 2 : high - low > 800 ? values.Average() : byPower, hz, size);
    }

    /// <summary>Mean size, and its scatter as a share of the mean, less what the noise in the envelope's own width adds.</summary>
    private static (double Mean, double Scatter) Amplitude(float[] size, ReadOnlySpan<bool> on, int step, double noise)
    {
        int average = Math.Max(1, step / 5);
        double sum = 0;
        double squares = 0;
        int count = 0;
        for (int n = step; n + average < size.Length - step; n += average)
        {
            int k = Math.Min(on.Length - 1, n / step);
            if (!on[k] || k > 0 && !on[k - 1] || k + 1 < on.Length && !on[k + 1])
            {
                continue;
            }

            double a = 0;
            for (int j = 0; j < average; j++)
            {
                a += size[n + j];
            }

            a /= average;
            sum += a;
            squares += a * a;
            count++;
        }

        if (count == 0)
        {
            return (1e-9, 0);
        }

        double mean = sum / count;
        double variance = Math.Max(0, squares / count - mean * mean - noise / 2);
        return (Math.Max(1e-9, mean), Math.Sqrt(variance) / Math.Max(1e-9, mean));
    }
}
