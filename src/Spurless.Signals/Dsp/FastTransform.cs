using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Spurless.Signals.Dsp;

/// <summary>
/// Fourier transform of a length that is a power of two, 16 to 2^20: <c>X_m = sum_t x_t e^{-j 2 pi m t / M}</c>. Radix 4 with a radix 2 at
/// the end where the length wants it, each stage from one pair of arrays into another so that the result stands in order (Stockham's way,
/// from memory). The same sums in the same order on every machine: vectors only say how many are done at once. Keeps working arrays: one
/// for each thread.
/// </summary>
internal sealed class FastTransform
{
    private const int LeastBits = 4;
    private const int MostBits = 20;

    // Constants, made where they are first wanted: the same for every transform of a length.
    private static readonly Lazy<Stage[]>[] _stages =
        [.. Enumerable.Range(0, MostBits + 1).Select(static bits => new Lazy<Stage[]>(() => Plan(1 << bits)))];

    private readonly Stage[] _plan;
    private readonly float[] _re;
    private readonly float[] _im;

    /// <summary>Prepares transforms of a length.</summary>
    public FastTransform(int size)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(size, 1 << LeastBits);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(size, 1 << MostBits);
        Size = size;
        _plan = _stages[BitOperations.Log2((uint)size)].Value;
        _re = new float[size];
        _im = new float[size];
    }

    /// <summary>Length of the transform.</summary>
    public int Size { get; }

    /// <summary>Transforms in place.</summary>
    /// <param name="re">Real parts, as many as the transform is long.</param>
    /// <param name="im">Imaginary parts.</param>
    public void Forward(Span<float> re, Span<float> im)
    {
        re = re[..Size];
        im = im[..Size];
        Span<float> xr = re, xi = im, yr = _re, yi = _im;
        foreach (Stage stage in _plan)
        {
            if (stage.Stride == 1)
            {
                First(stage, xr, xi, yr, yi);
            }
            else if (stage.Radix == 2)
            {
                Last(stage, xr, xi, yr, yi);
            }
            else if (stage.Stride < Vector256<float>.Count)
            {
                Four(stage, xr, xi, yr, yi);
            }
            else
            {
                Eight(stage, xr, xi, yr, yi);
            }

            Span<float> swap = xr;
            xr = yr;
            yr = swap;
            swap = xi;
            xi = yi;
            yi = swap;
        }

        if (_plan.Length % 2 != 0)
        {
            xr.CopyTo(re);
            xi.CopyTo(im);
        }
    }

    private static Stage[] Plan(int size)
    {
        List<Stage> stages = [];
        int stride = 1;
        for (int length = size; length > 1; length /= 4, stride *= 4)
        {
            stages.Add(length == 2 ? new Stage(2, 1, stride, []) : new Stage(4, length / 4, stride, Twiddles(length)));
            if (length == 2)
            {
                break;
            }
        }

        return [.. stages];
    }

    /// <summary>Of each first, second and third power of the root of one: all real parts, then all imaginary ones.</summary>
    private static float[] Twiddles(int length)
    {
        int count = length / 4;
        float[] w = new float[6 * count];
        for (int power = 1; power <= 3; power++)
        {
            for (int p = 0; p < count; p++)
            {
                (double sin, double cos) = Math.SinCos(-2 * Math.PI * power * p / length);
                w[(2 * power - 2) * count + p] = (float)cos;
                w[(2 * power - 1) * count + p] = (float)sin;
            }
        }

        return w;
    }

    /// <summary>The first stage: what belongs together lies a quarter apart and comes to stand side by side.</summary>
    private static void First(Stage stage, ReadOnlySpan<float> xr, ReadOnlySpan<float> xi, Span<float> yr, Span<float> yi)
    {
        int m = stage.Count;
        ReadOnlySpan<float> w = stage.Twiddles;
        for (int p = 0; p < m; p += Vector128<float>.Count)
        {
            Butterfly(Load4(xr, p), Load4(xi, p), Load4(xr, p + m), Load4(xi, p + m), Load4(xr, p + 2 * m), Load4(xi, p + 2 * m),
                Load4(xr, p + 3 * m), Load4(xi, p + 3 * m), out Vector128<float> r0, out Vector128<float> i0, out Vector128<float> r1,
                out Vector128<float> i1, out Vector128<float> r2, out Vector128<float> i2, out Vector128<float> r3,
                out Vector128<float> i3);
            (r1, i1) = Times(r1, i1, Load4(w, p), Load4(w, m + p));
            (r2, i2) = Times(r2, i2, Load4(w, 2 * m + p), Load4(w, 3 * m + p));
            (r3, i3) = Times(r3, i3, Load4(w, 4 * m + p), Load4(w, 5 * m + p));
            StoreTurned(yr[(4 * p)..], r0, r1, r2, r3);
            StoreTurned(yi[(4 * p)..], i0, i1, i2, i3);
        }
    }

    /// <summary>A stage in which four lie side by side.</summary>
    private static void Four(Stage stage, ReadOnlySpan<float> xr, ReadOnlySpan<float> xi, Span<float> yr, Span<float> yi)
    {
        (int m, int s) = (stage.Count, stage.Stride);
        ReadOnlySpan<float> w = stage.Twiddles;
        for (int p = 0; p < m; p++)
        {
            int a = s * p;
            int to = 4 * s * p;
            Butterfly(Load4(xr, a), Load4(xi, a), Load4(xr, a + s * m), Load4(xi, a + s * m), Load4(xr, a + 2 * s * m),
                Load4(xi, a + 2 * s * m), Load4(xr, a + 3 * s * m), Load4(xi, a + 3 * s * m), out Vector128<float> r0,
                out Vector128<float> i0, out Vector128<float> r1, out Vector128<float> i1, out Vector128<float> r2,
                out Vector128<float> i2, out Vector128<float> r3, out Vector128<float> i3);
            (r1, i1) = Times(r1, i1, Vector128.Create(w[p]), Vector128.Create(w[m + p]));
            (r2, i2) = Times(r2, i2, Vector128.Create(w[2 * m + p]), Vector128.Create(w[3 * m + p]));
            (r3, i3) = Times(r3, i3, Vector128.Create(w[4 * m + p]), Vector128.Create(w[5 * m + p]));
            Store(yr, to, r0);
            Store(yi, to, i0);
            Store(yr, to + s, r1);
            Store(yi, to + s, i1);
            Store(yr, to + 2 * s, r2);
            Store(yi, to + 2 * s, i2);
            Store(yr, to + 3 * s, r3);
            Store(yi, to + 3 * s, i3);
        }
    }

    /// <summary>A stage in which eight or more lie side by side.</summary>
    private static void Eight(Stage stage, ReadOnlySpan<float> xr, ReadOnlySpan<float> xi, Span<float> yr, Span<float> yi)
    {
        (int m, int s) = (stage.Count, stage.Stride);
        ReadOnlySpan<float> w = stage.Twiddles;
        for (int p = 0; p < m; p++)
        {
            Vector256<float> w1 = Vector256.Create(w[p]), v1 = Vector256.Create(w[m + p]);
            Vector256<float> w2 = Vector256.Create(w[2 * m + p]), v2 = Vector256.Create(w[3 * m + p]);
            Vector256<float> w3 = Vector256.Create(w[4 * m + p]), v3 = Vector256.Create(w[5 * m + p]);
            int end = s * p + s;
            for (int a = s * p, to = 4 * s * p; a < end; a += Vector256<float>.Count, to += Vector256<float>.Count)
            {
                Vector256<float> ar = Load8(xr, a), br = Load8(xr, a + s * m), cr = Load8(xr, a + 2 * s * m);
                Vector256<float> ai = Load8(xi, a), bi = Load8(xi, a + s * m), ci = Load8(xi, a + 2 * s * m);
                Vector256<float> dr = Load8(xr, a + 3 * s * m), di = Load8(xi, a + 3 * s * m);
                Vector256<float> sr = ar + cr, si = ai + ci, tr = br + dr, ti = bi + di;
                Store(yr, to, sr + tr);
                Store(yi, to, si + ti);
                (Vector256<float> ur, Vector256<float> ui) = (sr - tr, si - ti);
                Store(yr, to + 2 * s, ur * w2 - ui * v2);
                Store(yi, to + 2 * s, ur * v2 + ui * w2);
                (sr, si, tr, ti) = (ar - cr, ai - ci, br - dr, bi - di);
                (ur, ui) = (sr + ti, si - tr);
                Store(yr, to + s, ur * w1 - ui * v1);
                Store(yi, to + s, ur * v1 + ui * w1);
                (ur, ui) = (sr - ti, si + tr);
                Store(yr, to + 3 * s, ur * w3 - ui * v3);
                Store(yi, to + 3 * s, ur * v3 + ui * w3);
            }
        }
    }

    /// <summary>The radix 2 at the end: sums and differences of both halves.</summary>
    private static void Last(Stage stage, ReadOnlySpan<float> xr, ReadOnlySpan<float> xi, Span<float> yr, Span<float> yi)
    {
        int s = stage.Stride;
        for (int q = 0; q < s; q += Vector128<float>.Count)
        {
            Vector128<float> ar = Load4(xr, q), ai = Load4(xi, q), br = Load4(xr, q + s), bi = Load4(xi, q + s);
            Store(yr, q, ar + br);
            Store(yi, q, ai + bi);
            Store(yr, q + s, ar - br);
            Store(yi, q + s, ai - bi);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Butterfly(Vector128<float> ar, Vector128<float> ai, Vector128<float> br, Vector128<float> bi, Vector128<float> cr,
        Vector128<float> ci, Vector128<float> dr, Vector128<float> di, out Vector128<float> r0, out Vector128<float> i0,
        out Vector128<float> r1, out Vector128<float> i1, out Vector128<float> r2, out Vector128<float> i2, out Vector128<float> r3,
        out Vector128<float> i3)
    {
        (Vector128<float> sr, Vector128<float> si, Vector128<float> tr, Vector128<float> ti) = (ar + cr, ai + ci, br + dr, bi + di);
        (r0, i0, r2, i2) = (sr + tr, si + ti, sr - tr, si - ti);
        (sr, si, tr, ti) = (ar - cr, ai - ci, br - dr, bi - di);
        (r1, i1, r3, i3) = (sr + ti, si - tr, sr - ti, si + tr);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector128<float> Re, Vector128<float> Im) Times(Vector128<float> re, Vector128<float> im, Vector128<float> wr,
        Vector128<float> wi) => (re * wr - im * wi, re * wi + im * wr);

    /// <summary>Writes the first of each, then the second of each, and so on.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void StoreTurned(Span<float> to, Vector128<float> a, Vector128<float> b, Vector128<float> c, Vector128<float> d)
    {
        to = to[..16];
        if (Sse.IsSupported)
        {
            (Vector128<float> ab, Vector128<float> cd) = (Sse.UnpackLow(a, b), Sse.UnpackLow(c, d));
            Store(to, 0, Sse.MoveLowToHigh(ab, cd));
            Store(to, 4, Sse.MoveHighToLow(cd, ab));
            (ab, cd) = (Sse.UnpackHigh(a, b), Sse.UnpackHigh(c, d));
            Store(to, 8, Sse.MoveLowToHigh(ab, cd));
            Store(to, 12, Sse.MoveHighToLow(cd, ab));
            return;
        }

        for (int k = 0; k < 4; k++)
        {
            (to[4 * k], to[4 * k + 1], to[4 * k + 2], to[4 * k + 3]) = (a[k], b[k], c[k], d[k]);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<float> Load4(ReadOnlySpan<float> from, int at) =>
        Vector128.LoadUnsafe(ref MemoryMarshal.GetReference(from), (nuint)at);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<float> Load8(ReadOnlySpan<float> from, int at) =>
        Vector256.LoadUnsafe(ref MemoryMarshal.GetReference(from), (nuint)at);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(Span<float> to, int at, Vector128<float> value) =>
        value.StoreUnsafe(ref MemoryMarshal.GetReference(to), (nuint)at);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(Span<float> to, int at, Vector256<float> value) =>
        value.StoreUnsafe(ref MemoryMarshal.GetReference(to), (nuint)at);

    /// <summary>One pass over all values.</summary>
    /// <param name="Radix">4 or 2.</param>
    /// <param name="Count">How many groups, each with its own powers of the root of one.</param>
    /// <param name="Stride">How many lie side by side in a group.</param>
    /// <param name="Twiddles">The powers.</param>
    private sealed record Stage(int Radix, int Count, int Stride, float[] Twiddles);
}
