using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Spurless.Signals.Dsp;

/// <summary>Sums over spans, with vectors where the machine has them.</summary>
internal static class Kernels
{
    /// <summary>Means of so many and fewer are added up anew for each.</summary>
    private const int Short = 16;

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

        return Rest(Total(sum), a, b, va.Length * Vector256<float>.Count);
    }

    /// <summary>
    /// Four sums of products at once, each with the bits that <see cref="Dot"/> gives: what one waits for the others do meanwhile.
    /// </summary>
    /// <param name="x">Where the values are from.</param>
    /// <param name="at">Where each of the four begins in it.</param>
    /// <param name="h">Where the factors are from.</param>
    /// <param name="of">Where each of the four begins in it.</param>
    /// <param name="length">How many each takes.</param>
    /// <param name="sums">Gets the four.</param>
    public static void FourDots(ReadOnlySpan<float> x, (int A, int B, int C, int D) at, ReadOnlySpan<float> h,
        (int A, int B, int C, int D) of, int length, Span<float> sums)
    {
        ReadOnlySpan<float> xa = x.Slice(at.A, length), xb = x.Slice(at.B, length), xc = x.Slice(at.C, length), xd = x.Slice(at.D, length);
        ReadOnlySpan<float> ha = h.Slice(of.A, length), hb = h.Slice(of.B, length), hc = h.Slice(of.C, length), hd = h.Slice(of.D, length);
        Vector256<float> a = Vector256<float>.Zero, b = a, c = a, d = a;
        int n = 0;
        for (; n + 8 <= length; n += 8)
        {
            a += Eight(xa, n) * Eight(ha, n);
            b += Eight(xb, n) * Eight(hb, n);
            c += Eight(xc, n) * Eight(hc, n);
            d += Eight(xd, n) * Eight(hd, n);
        }

        sums[0] = Rest(Total(a), xa, ha, n);
        sums[1] = Rest(Total(b), xb, hb, n);
        sums[2] = Rest(Total(c), xc, hc, n);
        sums[3] = Rest(Total(d), xd, hd, n);
    }

    /// <summary>
    /// For each place the sum of the products of the values from there on with a filter's, added up one after another, the first value's
    /// first: every place for itself, however many are done at once.
    /// </summary>
    /// <param name="x">The values: as many as results, and one less than the filter has.</param>
    /// <param name="h">The filter, its first factor for the first value.</param>
    /// <param name="y">Gets the results.</param>
    public static void Slide(ReadOnlySpan<float> x, ReadOnlySpan<float> h, Span<float> y)
    {
        x = x[..(y.Length + h.Length - 1)];
        int n = 0;
        for (; n + 32 <= y.Length; n += 32)
        {
            Vector256<float> a = Vector256<float>.Zero, b = a, c = a, d = a;
            for (int k = 0; k < h.Length; k++)
            {
                Vector256<float> factor = Vector256.Create(h[k]);
                a += factor * Eight(x, n + k);
                b += factor * Eight(x, n + k + 8);
                c += factor * Eight(x, n + k + 16);
                d += factor * Eight(x, n + k + 24);
            }

            a.CopyTo(y[n..]);
            b.CopyTo(y[(n + 8)..]);
            c.CopyTo(y[(n + 16)..]);
            d.CopyTo(y[(n + 24)..]);
        }

        for (; n < y.Length; n++)
        {
            float sum = 0;
            for (int k = 0; k < h.Length; k++)
            {
                sum += h[k] * x[n + k];
            }

            y[n] = sum;
        }
    }

    /// <summary>The value that stands at a place when all are in rising order; turns the order about.</summary>
    public static float Nth(Span<float> x, int place)
    {
        int low = 0;
        int high = x.Length - 1;
        while (low < high)
        {
            float pivot = x[(low + high) / 2];
            int i = low;
            int j = high;
            while (i <= j)
            {
                while (x[i] < pivot)
                {
                    i++;
                }

                while (x[j] > pivot)
                {
                    j--;
                }

                if (i <= j)
                {
                    (x[i], x[j]) = (x[j], x[i]);
                    i++;
                    j--;
                }
            }

            if (place <= j)
            {
                high = j;
            }
            else if (place >= i)
            {
                low = i;
            }
            else
            {
                return x[place];
            }
        }

        return x[place];
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<float> Eight(ReadOnlySpan<float> x, int at) =>
        Vector256.LoadUnsafe(ref MemoryMarshal.GetReference(x), (nuint)at);

    private static float Total(Vector256<float> sum)
    {
        Vector128<float> four = sum.GetLower() + sum.GetUpper();
        return four[0] + four[2] + (four[1] + four[3]);
    }

    private static float Rest(float total, ReadOnlySpan<float> a, ReadOnlySpan<float> b, int from)
    {
        for (int i = from; i < a.Length; i++)
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
        float[] y = GC.AllocateUninitializedArray<float>(x.Length);
        MovingMean(x, length, y);
        return y;
    }

    /// <summary>The same, into an array that is there, another one.</summary>
    public static void MovingMean(ReadOnlySpan<float> x, int length, Span<float> y)
    {
        if (length <= Short)
        {
            ShortMean(x, length, y);
            return;
        }

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
    }

    /// <summary>Adds to each value so many times what it is more than the one before.</summary>
    public static void AddRise(ReadOnlySpan<float> x, float gain, Span<float> y)
    {
        if (x.Length == 0)
        {
            return;
        }

        y[0] = x[0];
        int n = 1;
        for (; n + 8 <= x.Length; n += 8)
        {
            Vector256<float> v = Eight(x, n);
            (v + gain * (v - Eight(x, n - 1))).CopyTo(y[n..]);
        }

        for (; n < x.Length; n++)
        {
            y[n] = x[n] + gain * (x[n] - x[n - 1]);
        }
    }

    /// <summary>The mean of a few, each added up by itself, the oldest first: nothing waits for the one before.</summary>
    private static void ShortMean(ReadOnlySpan<float> x, int length, Span<float> y)
    {
        for (int n = 0; n < Math.Min(length - 1, x.Length); n++)
        {
            float sum = 0;
            for (int k = 0; k <= n; k++)
            {
                sum += x[k];
            }

            y[n] = sum / length;
        }

        int at = length - 1;
        for (; at + 8 <= x.Length; at += 8)
        {
            Vector256<float> sum = Eight(x, at - length + 1);
            for (int k = length - 2; k >= 0; k--)
            {
                sum += Eight(x, at - k);
            }

            (sum / Vector256.Create((float)length)).CopyTo(y[at..]);
        }

        for (; at < x.Length; at++)
        {
            float sum = x[at - length + 1];
            for (int k = length - 2; k >= 0; k--)
            {
                sum += x[at - k];
            }

            y[at] = sum / length;
        }
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
                Vector256<float> v = Eight(part, n) - Eight(middle, n);
                (scaled ? v / Vector256.Max(least, Eight(height, n)) : v).CopyTo(part[n..]);
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
