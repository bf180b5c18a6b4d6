using NWaves.Transforms;

namespace Spurless.Signals.Dsp;

/// <summary>
/// Power spectra of real and complex signals, one window after another. Keeps working arrays: one for each thread.
/// Figures are powers: a sine of amplitude a in the middle of a bin gives a^2/2 in the sum over its line divided by
/// the window's equivalent noise bandwidth in bins.
/// </summary>
internal sealed class PowerSpectrum
{
    private readonly Fft _fft;
    private readonly float[] _window;
    private readonly float[] _re;
    private readonly float[] _im;
    private readonly float _scale;

    /// <summary>Prepares transforms.</summary>
    /// <param name="size">Length of the transform, a power of two.</param>
    /// <param name="length">Samples of the window, at most <paramref name="size"/>.</param>
    public PowerSpectrum(int size, int length)
    {
        Size = size;
        Length = length;
        _fft = new Fft(size);
        _re = new float[size];
        _im = new float[size];
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
        for (int n = 0; n < Length; n++)
        {
            _re[n] = x[n] * _window[n];
        }

        _re.AsSpan(Length).Clear();
        _im.AsSpan().Clear();
        _fft.Direct(_re, _im);
        int half = Size / 2;
        for (int k = 0; k < half; k++)
        {
            power[k] = 2 * _scale * (_re[k] * _re[k] + _im[k] * _im[k]);
        }
    }

    /// <summary>Two-sided power of a complex signal, lowest frequency first: bin <c>Size / 2</c> is the centre.</summary>
    public void OfComplex(ReadOnlySpan<float> pairs, Span<float> power)
    {
        for (int n = 0; n < Length; n++)
        {
            _re[n] = pairs[2 * n] * _window[n];
            _im[n] = pairs[2 * n + 1] * _window[n];
        }

        _re.AsSpan(Length).Clear();
        _im.AsSpan(Length).Clear();
        _fft.Direct(_re, _im);
        int half = Size / 2;
        for (int k = 0; k < Size; k++)
        {
            int from = k ^ half;
            power[k] = _scale * (_re[from] * _re[from] + _im[from] * _im[from]);
        }
    }
}
