using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Spurless.Signals.Dsp;

/// <summary>
/// Power spectra of real and complex signals, one window after another. Keeps working arrays: one for each thread.
/// Figures are powers: a sine of amplitude a in the middle of a bin gives a^2/2 in the sum over its line divided by
/// the window's equivalent noise bandwidth in bins.
/// </summary>
internal sealed class PowerSpectrum
{
    private readonly float[] _window;
    private readonly float _scale;

    // Of real signals two values in a row are one complex one: half the length will do.
    private FastTransform? _whole;
    private FastTransform? _half;
    private float[] _re = [];
    private float[] _im = [];
    private float[] _turn = [];

    /// <summary>Prepares transforms.</summary>
    /// <param name="size">Length of the transform, a power of two from 64 on.</param>
    /// <param name="length">Samples of the window, at most <paramref name="size"/>.</param>
    public PowerSpectrum(int size, int length)
    {
        Size = size;
        Length = length;
        _window = new float[length];
        double squares = 0;
        for (int n = 0; n < length; n++)
        {
            _window[n] = (float)(0.5 - 0.5 * Math.Cos(2 * Math.PI * (n + 0.5) / length));
            squares += _window[n] * (double)_window[n];
        }

        _scale = (float)(1 / (squares * size));
    }

    /// <summary>Length of the transform.</summary>
    public int Size { get; }

    /// <summary>Samples of the window.</summary>
    public int Length { get; }

    /// <summary>One-sided power of a real signal: the sum over all bins is its mean square.</summary>
    public void OfReal(ReadOnlySpan<float> x, Span<float> power)
    {
        _half ??= MakeHalf();
        int half = Size / 2;
        int whole = Length / 2;
        x = x[..Length];
        for (int n = 0; n < whole; n++)
        {
            _re[n] = x[2 * n] * _window[2 * n];
            _im[n] = x[2 * n + 1] * _window[2 * n + 1];
        }

        _re.AsSpan(whole, half - whole).Clear();
        _im.AsSpan(whole, half - whole).Clear();
        if (Length % 2 != 0)
        {
            _re[whole] = x[^1] * _window[^1];
        }

        _half.Forward(_re, _im);
        Unfold(power);
    }

    /// <summary>Two-sided power of a complex signal, lowest frequency first: bin <c>Size / 2</c> is the centre.</summary>
    public void OfComplex(ReadOnlySpan<float> pairs, Span<float> power)
    {
        if (_whole is null)
        {
            _whole = new FastTransform(Size);
            _re = new float[Size];
            _im = new float[Size];
            _half = null;
        }

        Pairs.Split(pairs[..(2 * Length)], _re, _im);
        for (int n = 0; n < Length; n++)
        {
            _re[n] *= _window[n];
            _im[n] *= _window[n];
        }

        _re.AsSpan(Length).Clear();
        _im.AsSpan(Length).Clear();
        _whole.Forward(_re, _im);
        int half = Size / 2;
        Squares(_re.AsSpan(half), _im.AsSpan(half), power[..half]);
        Squares(_re.AsSpan(0, half), _im.AsSpan(0, half), power[half..Size]);
    }

    private FastTransform MakeHalf()
    {
        int half = Size / 2;
        _whole = null;
        (_re, _im) = (new float[half], new float[half]);
        _turn = new float[Size];
        for (int k = 0; k < half; k++)
        {
            (double sin, double cos) = Math.SinCos(-2 * Math.PI * k / Size);
            (_turn[k], _turn[half + k]) = ((float)cos, (float)sin);
        }

        return new FastTransform(half);
    }

    /// <summary>
    /// The spectrum of a real signal by that of its even values as real and its odd ones as imaginary parts, each bin and its mirror
    /// image at once.
    /// </summary>
    private void Unfold(Span<float> power)
    {
        int half = Size / 2;
        Vector256<float> scale = Vector256.Create(_scale / 2);
        Vector256<int> back = Vector256.Create(7, 6, 5, 4, 3, 2, 1, 0);
        float first = _re[0] + _im[0];
        power[0] = 2 * _scale * (first * first);
        for (int k = 1; k <= half / 2; k += 8)
        {
            int mirror = half - k - 7;
            Vector256<float> zr = Vector256.Create(_re.AsSpan(k, 8)), zi = Vector256.Create(_im.AsSpan(k, 8));
            Vector256<float> mr = Vector256.Shuffle(Vector256.Create(_re.AsSpan(mirror, 8)), back);
            Vector256<float> mi = Vector256.Shuffle(Vector256.Create(_im.AsSpan(mirror, 8)), back);
            Vector256<float> wr = Vector256.Create(_turn.AsSpan(k, 8)), wi = Vector256.Create(_turn.AsSpan(half + k, 8));

            // Even values' part, and the odd ones' turned.
            Vector256<float> er = zr + mr, ei = zi - mi, or = zi + mi, oi = mr - zr;
            Vector256<float> tr = wr * or - wi * oi, ti = wr * oi + wi * or;
            Vector256<float> ur = er + tr, ui = ei + ti;
            Vector256<float> vr = er - tr, vi = ei - ti;
            Vector256.Shuffle(scale * (vr * vr + vi * vi), back).CopyTo(power[mirror..]);
            (scale * (ur * ur + ui * ui)).CopyTo(power[k..]);
        }
    }

    private void Squares(ReadOnlySpan<float> re, ReadOnlySpan<float> im, Span<float> power)
    {
        ReadOnlySpan<Vector256<float>> r = MemoryMarshal.Cast<float, Vector256<float>>(re);
        ReadOnlySpan<Vector256<float>> i = MemoryMarshal.Cast<float, Vector256<float>>(im);
        Span<Vector256<float>> p = MemoryMarshal.Cast<float, Vector256<float>>(power);
        Vector256<float> scale = Vector256.Create(_scale);
        for (int k = 0; k < p.Length; k++)
        {
            p[k] = scale * (r[k] * r[k] + i[k] * i[k]);
        }
    }
}
