using System.Runtime.Intrinsics;

namespace Spurless.Signals.Dsp;

/// <summary>Middle and height of keyed signals, by percentiles in a sliding window.</summary>
internal static class KeyedLevels
{
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
        (float[] mid, float[] half) = Levels(x, window, step, tail);
        float[] y = new float[x.Length];
        for (int k = 0; k * step < y.Length; k++)
        {
            Line(mid, k, step, y);
            if (spread is not null)
            {
                Line(half, k, step, spread);
            }
        }

        return y;
    }

    /// <summary>
    /// Puts a keyed signal's middle, as <see cref="MidLevel"/> has it, at 0, and where asked its usual height at 1.
    /// </summary>
    /// <param name="y">The signal; gets the result.</param>
    /// <param name="window">Samples of the window.</param>
    /// <param name="step">Samples from one evaluation to the next.</param>
    /// <param name="spread">Gets the height before, where wanted.</param>
    /// <param name="tail">How many such parts lie beyond a percentile.</param>
    /// <param name="scaled">Whether the height becomes 1; where there is none, what is not at the middle becomes large.</param>
    public static void Level(Span<float> y, int window, int step, Span<float> spread, int tail = 10, bool scaled = false)
    {
        const float Least = 1e-9f;
        (float[] mid, float[] half) = Levels(y, window, step, tail);
        Span<float> middle = stackalloc float[step];
        Span<float> height = stackalloc float[step];
        for (int k = 0; k * step < y.Length; k++)
        {
            Span<float> part = y.Slice(k * step, Math.Min(step, y.Length - k * step));
            Line(mid, k, step, middle, part.Length);
            if (scaled || spread.Length > 0)
            {
                Line(half, k, step, height, part.Length);
            }

            if (spread.Length > 0)
            {
                height[..part.Length].CopyTo(spread[(k * step)..]);
            }

            int n = 0;
            Vector256<float> least = Vector256.Create(Least);
            for (; n + 8 <= part.Length; n += 8)
            {
                Vector256<float> v = Kernels.Eight(part, n) - Kernels.Eight(middle, n);
                (scaled ? v / Vector256.Max(least, Kernels.Eight(height, n)) : v).CopyTo(part[n..]);
            }

            for (; n < part.Length; n++)
            {
                float v = part[n] - middle[n];
                part[n] = scaled ? v / Math.Max(Least, height[n]) : v;
            }
        }
    }

    /// <summary>Half of the sum and half of the difference of both percentiles, at each step.</summary>
    private static (float[] Mid, float[] Half) Levels(ReadOnlySpan<float> x, int window, int step, int tail)
    {
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

        return (mid, half);
    }

    /// <summary>The straight line from a knot to the next, where it lies in a signal.</summary>
    private static void Line(ReadOnlySpan<float> knots, int k, int step, Span<float> y) =>
        Line(knots, k, step, y[(k * step)..], Math.Min(step, y.Length - k * step));

    /// <summary>So many values of the straight line from a knot to the next.</summary>
    private static void Line(ReadOnlySpan<float> knots, int k, int step, Span<float> line, int count)
    {
        Vector256<float> steps = Vector256.Create((float)step);
        float from = knots[k];
        float rise = knots[k + 1] - from;
        int n = 0;
        for (; n + 8 <= count; n += 8)
        {
            Vector256<float> u = Vector256.ConvertToSingle(Vector256.CreateSequence(n, 1)) / steps;
            (Vector256.Create(from) + Vector256.Create(rise) * u).CopyTo(line[n..]);
        }

        for (; n < count; n++)
        {
            line[n] = from + rise * ((float)n / step);
        }
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
