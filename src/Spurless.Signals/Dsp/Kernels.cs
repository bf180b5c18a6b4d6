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

    /// <summary>Eight values from a place on.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<float> Eight(ReadOnlySpan<float> x, int at) =>
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
}
