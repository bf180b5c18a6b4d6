using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Spurless.Signals.Dsp;

/// <summary>Sums over spans, with vectors where the machine has them.</summary>
internal static class Kernels
{
    /// <summary>
    /// The sum of the products of two spans of one length: eight partial sums, whatever the machine's vectors are, so that it has the same
    /// bits everywhere.
    /// </summary>
    public static float Dot(ReadOnlySpan<float> a, ReadOnlySpan<float> b)
    {
        ReadOnlySpan<Vector256<float>> va = MemoryMarshal.Cast<float, Vector256<float>>(a);
        ReadOnlySpan<Vector256<float>> vb = MemoryMarshal.Cast<float, Vector256<float>>(b);
        Vector256<float> sum = Vector256<float>.Zero;
        for (int i = 0; i < va.Length; i++)
        {
            sum += va[i] * vb[i];
        }

        Vector128<float> four = sum.GetLower() + sum.GetUpper();
        float total = four[0] + four[2] + (four[1] + four[3]);
        for (int i = va.Length * Vector256<float>.Count; i < a.Length; i++)
        {
            total += a[i] * b[i];
        }

        return total;
    }

    /// <summary>The mean of the squares.</summary>
    public static double Power(ReadOnlySpan<float> x) => x.Length == 0 ? 0 : (double)Dot(x, x) / x.Length;

    /// <summary>Moving sum of the last <paramref name="length"/> samples, divided by the length.</summary>
    public static float[] MovingMean(ReadOnlySpan<float> x, int length)
    {
        float[] y = new float[x.Length];
        double sum = 0;
        for (int n = 0; n < x.Length; n++)
        {
            sum += x[n];
            if (n >= length)
            {
                sum -= x[n - length];
            }

            y[n] = (float)(sum / length);
        }

        return y;
    }

    /// <summary>
    /// The level in the middle between the two extremes of a keyed signal, in a sliding window: half of the sum of its 10th and 90th
    /// percentile (or of others, farther out). Unlike the mean it does not move with the share of ones.
    /// </summary>
    /// <param name="x">The signal.</param>
    /// <param name="window">Samples of the window.</param>
    /// <param name="step">Samples from one evaluation to the next; between them the level is drawn straight.</param>
    /// <param name="spread">Half of the difference of both percentiles, where wanted.</param>
    /// <param name="tail">How many such parts lie beyond a percentile: 10, or 100 for 1 %.</param>
    public static float[] MidLevel(ReadOnlySpan<float> x, int window, int step, float[]? spread = null, int tail = 10)
    {
        float[] y = new float[x.Length];
        // Some hundred samples tell a percentile well enough, one far out takes more; an odd step keeps them from standing in step with the
        // symbols.
        int stride = Math.Max(1, Math.Min(window, x.Length) / (tail > 10 ? 400 : 120) | 1);
        int most = Math.Min(window, x.Length) / stride + 1;
        float[] low = new float[most / tail + 1];
        float[] high = new float[most - most * (tail - 1) / tail + 1];
        int knots = x.Length / step + 2;
        float[] mid = new float[knots];
        float[] half = new float[knots];
        for (int k = 0; k < knots; k++)
        {
            int from = Math.Clamp(k * step - window / 2, 0, Math.Max(0, x.Length - window));
            int to = Math.Min(x.Length, from + window);
            int count = Math.Min(most, (to - from + stride - 1) / stride);
            if (count <= 0)
            {
                continue;
            }

            // A percentile takes the few values beyond it in order, not all of them.
            // The greatest stand there turned over, so that they rise too.
            Span<float> least = low.AsSpan(0, count / tail + 1);
            Span<float> greatest = high.AsSpan(0, count - Math.Min(count - 1, count * (tail - 1) / tail));
            least.Fill(float.PositiveInfinity);
            greatest.Fill(float.PositiveInfinity);
            for (int n = from, taken = 0; taken < count; n += stride, taken++)
            {
                float v = x[n];
                if (v < least[^1])
                {
                    Insert(least, v);
                }

                if (-v < greatest[^1])
                {
                    Insert(greatest, -v);
                }
            }

            mid[k] = (least[^1] - greatest[^1]) / 2;
            half[k] = (-greatest[^1] - least[^1]) / 2;
        }

        for (int n = 0; n < x.Length; n++)
        {
            int k = n / step;
            float u = (float)(n - k * step) / step;
            y[n] = mid[k] + (mid[k + 1] - mid[k]) * u;
            if (spread is not null)
            {
                spread[n] = half[k] + (half[k + 1] - half[k]) * u;
            }
        }

        return y;
    }

    /// <summary>Puts a value in its place among rising ones; the last goes.</summary>
    private static void Insert(Span<float> rising, float v)
    {
        int at = rising.Length - 1;
        for (; at > 0 && rising[at - 1] > v; at--)
        {
            rising[at] = rising[at - 1];
        }

        rising[at] = v;
    }
}
