using Spurless.Signals.Dsp;

namespace Spurless.Signals.Listening;

/// <summary>What the spectrum of one channel says of its carrier.</summary>
internal static class CarrierMeasures
{
    /// <summary>The share of the power that is one steady line: a carrier, against a side band without one.</summary>
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
        double shares = 0;
        int count = 0;
        for (int n = 0; n + size <= z.Length / 2; n += size)
        {
            if (!on[Math.Min(on.Length - 1, n / step)])
            {
                continue;
            }

            spectrum.OfComplex(z.Slice(2 * n, 2 * size), power);
            int top = 0;
            double total = 1e-20;
            for (int b = 0; b < size; b++)
            {
                total += power[b];
                top = power[b] > power[top] ? b : top;
            }

            double line = 0;
            for (int b = Math.Max(0, top - 2); b <= Math.Min(size - 1, top + 2); b++)
            {
                line += power[b];
            }

            shares += line / total;
            count++;
        }

        return count == 0 ? 1 : shares / count;
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
