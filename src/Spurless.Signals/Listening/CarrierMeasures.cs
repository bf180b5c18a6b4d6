using Spurless.Signals.Dsp;
using Spurless.Signals.Recognition;

namespace Spurless.Signals.Listening;

/// <summary>What the spectrum of one channel says of its carrier.</summary>
internal static class CarrierMeasures
{
    private const int FadeSteps = 10;
    private const double LeastSlow = 0.15;
    private const double MostFast = 0.12;
    private const double LongestHoleS = 0.15;

    /// <summary>
    /// The share of the power that is one steady line: a carrier, against a side band without one. It must stand still: the strongest of a
    /// voice's harmonics holds as much for a moment.
    /// </summary>
    public static double Steady(ReadOnlySpan<float> z, double rateHz, ReadOnlySpan<bool> on, int step)
    {
        int size = 1_024;
        while (size / rateHz < 0.06)
        {
            size *= 2;
        }

        if (z.Length / 2 < size)
        {
            return 1;
        }

        PowerSpectrum spectrum = new(size, size);
        float[] power = new float[size];
        double[] shares = new double[size];
        int count = 0;
        for (int n = 0; n + size <= z.Length / 2; n += size)
        {
            if (!on[Math.Min(on.Length - 1, n / step)])
            {
                continue;
            }

            spectrum.OfComplex(z.Slice(2 * n, 2 * size), power);
            double total = 1e-20;
            foreach (float p in power)
            {
                total += p;
            }

            for (int b = 0; b < size; b++)
            {
                shares[b] += power[b] / total;
            }

            count++;
        }

        if (count == 0)
        {
            return 1;
        }

        int top = Array.IndexOf(shares, shares.Max());
        return shares[Math.Max(0, top - 2)..Math.Min(size, top + 3)].Sum() / count;
    }

    /// <summary>
    /// Whether the size moves as a path that fades moves it: slowly, by much, and at audio's speed hardly at all while it is strong. What
    /// is modulated in amplitude moves at audio's speed, and slowly hardly at all; a single side band does both.
    /// </summary>
    /// <param name="size">The carrier's size.</param>
    /// <param name="on">When it is on, a value each step.</param>
    /// <param name="step">Samples of a step, about 2 ms.</param>
    /// <param name="noise">Noise power within 2.5 kHz: the means below are over a fifth of a step.</param>
    public static bool Fades(ReadOnlySpan<float> size, ReadOnlySpan<bool> on, int step, double noise)
    {
        int average = Math.Max(1, step / 5);
        int points = FadeSteps * step / average;
        List<(double Mean, double Fast)> blocks = [];
        double[] values = new double[points];
        for (int k = 1; k + FadeSteps < on.Length && (k + FadeSteps) * step <= size.Length; k += FadeSteps)
        {
            // One step more on either side: what is beside a hole is half in it.
            if (on[(k - 1)..(k + FadeSteps + 1)].Contains(false))
            {
                continue;
            }

            for (int p = 0; p < points; p++)
            {
                double sum = 0;
                foreach (float v in size.Slice(k * step + p * average, average))
                {
                    sum += v;
                }

                values[p] = sum / average;
            }

            blocks.Add(Block(values, noise / 2));
        }

        if (blocks.Count < 8)
        {
            return false;
        }

        double mean = blocks.Average(static b => b.Mean);
        double slow = Math.Sqrt(blocks.Average(b => (b.Mean - mean) * (b.Mean - mean))) / Math.Max(1e-12, mean);

        // Where paths add up all frequencies have one size; towards a notch each modulation is one of amplitude too.
        double[] fast =
        [
            .. blocks.OrderByDescending(static b => b.Mean).Take(Math.Max(4, blocks.Count / 4)).Select(static b => b.Fast).Order(),
        ];
        return slow > LeastSlow && fast[fast.Length / 2] < MostFast;
    }

    /// <summary>The mean of some values, and their scatter round a straight line as a share of it, less the noise's.</summary>
    private static (double Mean, double Fast) Block(double[] values, double noise)
    {
        double mean = values.Average();
        double middle = (values.Length - 1) / 2.0;
        double slope = 0;
        double squares = 0;
        for (int p = 0; p < values.Length; p++)
        {
            slope += (p - middle) * values[p];
            squares += (p - middle) * (p - middle);
        }

        slope /= squares;
        double sum = 0;
        for (int p = 0; p < values.Length; p++)
        {
            double off = values[p] - mean - slope * (p - middle);
            sum += off * off;
        }

        return (mean, Math.Sqrt(Math.Max(0, sum / values.Length - noise)) / Math.Max(1e-12, mean));
    }

    /// <summary>
    /// Where a path that fades took the carrier: gaps that are too short for a pause, in seconds from the first step.
    /// </summary>
    public static List<Span> Holes(ReadOnlySpan<bool> on, double stepS)
    {
        List<Span> holes = [];
        int since = -1;
        for (int k = 0; k < on.Length; k++)
        {
            if (!on[k])
            {
                since = since < 0 ? k : since;
            }
            else if (since >= 0)
            {
                if ((k - since) * stepS <= LongestHoleS)
                {
                    holes.Add(new Span(since * stepS, k * stepS));
                }

                since = -1;
            }
        }

        return holes;
    }

    /// <summary>The width that holds 99 % of the power, in hertz, the noise taken off.</summary>
    /// <param name="z">The channel: pairs.</param>
    /// <param name="rateHz">Its rate.</param>
    /// <param name="noisePerHz">Noise power a hertz.</param>
    public static double Width(ReadOnlySpan<float> z, double rateHz, double noisePerHz)
    {
        const int Size = 512;
        PowerSpectrum spectrum = new(Size, Math.Min(Size, z.Length / 2));
        float[] power = new float[Size];
        double[] sum = new double[Size];
        int count = 0;
        for (int n = 0; n + spectrum.Length <= z.Length / 2; n += spectrum.Length)
        {
            spectrum.OfComplex(z.Slice(2 * n, 2 * spectrum.Length), power);
            for (int b = 0; b < Size; b++)
            {
                sum[b] += power[b];
            }

            count++;
        }

        double floor = noisePerHz * rateHz / Size;
        double total = 0;
        for (int b = 0; b < Size; b++)
        {
            double v = sum[b] / Math.Max(1, count) - floor;
            sum[b] = v > 0.5 * floor ? v : 0;
            total += sum[b];
        }

        int low = 0;
        int high = Size - 1;
        double run = 0;
        for (int b = 0; b < Size && run < 0.005 * total; b++)
        {
            run += sum[b];
            low = b;
        }

        run = 0;
        for (int b = Size - 1; b > low && run < 0.005 * total; b--)
        {
            run += sum[b];
            high = b;
        }

        return (high - low + 1) * rateHz / Size;
    }
}
