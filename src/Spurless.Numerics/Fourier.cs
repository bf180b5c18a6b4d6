using System.Buffers.Binary;
using System.Numerics;

namespace Spurless.Numerics;

/// <summary>Fourier transform of a length that is a power of two.</summary>
public static class Fourier
{
    /// <summary>Transforms in place: <c>X_m = sum_t x_t e^{-j 2 pi m t / M}</c>.</summary>
    /// <param name="data">M values, M a power of two.</param>
    /// <remarks>
    /// Radix 2, decimation in time (Cooley and Tukey, from memory); error about 1e-16 lg2 M of the rms. For even real data the inverse is
    /// the same less a factor M.
    /// </remarks>
    public static void Transform(Complex[] data)
    {
        int length = data.Length;
        int bits = BitOperations.Log2((uint)length);
        for (int i = 0; i < length; i++)
        {
            int j = (int)(Reverse((uint)i) >> (32 - bits));
            if (bits > 0 && j > i)
            {
                (data[i], data[j]) = (data[j], data[i]);
            }
        }

        // Twiddles of the last stage serve all; computed one by one, so that no error grows.
        Complex[] twiddle = new Complex[Math.Max(1, length / 2)];
        for (int i = 0; i < twiddle.Length; i++)
        {
            (double sin, double cos) = Math.SinCos(-2 * Math.PI * i / length);
            twiddle[i] = new Complex(cos, sin);
        }

        // Depth first: halves that fit the cache are finished before the next are begun.
        Stages(data, 0, length, twiddle, 1);
    }

    private static void Stages(Complex[] data, int start, int length, Complex[] twiddle, int stride)
    {
        if (length > 4_096)
        {
            Stages(data, start, length / 2, twiddle, stride * 2);
            Stages(data, start + (length / 2), length / 2, twiddle, stride * 2);
            Butterflies(data.AsSpan(start, length), twiddle, stride);
            return;
        }

        for (int size = 2; size <= length; size *= 2)
        {
            for (int at = 0; at < length; at += size)
            {
                Butterflies(data.AsSpan(start + at, size), twiddle, stride * (length / size));
            }
        }
    }

    private static void Butterflies(Span<Complex> block, Complex[] twiddle, int stride)
    {
        int half = block.Length / 2;
        Span<Complex> low = block[..half];
        Span<Complex> high = block[half..];
        for (int i = 0, t = 0; i < low.Length && i < high.Length; i++, t += stride)
        {
            Complex w = twiddle[t];
            Complex h = high[i];
            double re = (h.Real * w.Real) - (h.Imaginary * w.Imaginary);
            double im = (h.Real * w.Imaginary) + (h.Imaginary * w.Real);
            Complex l = low[i];
            low[i] = new Complex(l.Real + re, l.Imaginary + im);
            high[i] = new Complex(l.Real - re, l.Imaginary - im);
        }
    }

    private static uint Reverse(uint x)
    {
        x = (x >> 1 & 0x5555_5555) | (x & 0x5555_5555) << 1;
        x = (x >> 2 & 0x3333_3333) | (x & 0x3333_3333) << 2;
        x = (x >> 4 & 0x0f0f_0f0f) | (x & 0x0f0f_0f0f) << 4;
        return BinaryPrimitives.ReverseEndianness(x);
    }
}
