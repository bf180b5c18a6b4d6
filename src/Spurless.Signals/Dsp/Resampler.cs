namespace Spurless.Signals.Dsp;

/// <summary>
/// Changes the rate of a signal by a windowed-sinc filter in its polyphase form. Flat to 0.40 of the lower rate within 0.1 dB, stop band
/// from 0.52 of it under -60 dB. Linear phase; sample 0 stands at the same moment in both.
/// </summary>
internal sealed class Resampler
{
    private const int MaxPhases = 512;
    private const int HalfTaps = 16;
    private const double Beta = 6.5;

    private readonly double _step;
    private readonly int _phases;
    private readonly int _taps;
    private readonly int _half;
    private readonly float[] _filter;
    private readonly long _up;
    private readonly long _down;

    /// <summary>Designs the filter for a pair of rates.</summary>
    public Resampler(double fromHz, double toHz)
    {
        _step = fromHz / toHz;
        double shrink = Math.Min(1, toHz / fromHz);
        _half = (int)Math.Ceiling(HalfTaps / shrink);
        _taps = 2 * _half;
        (_up, _down) = Ratio(fromHz, toHz);
        _phases = _up > 0 ? (int)_up : MaxPhases;
        _filter = new float[_phases * _taps];
        double cut = 0.46 * shrink;
        double scale = 1 / Bessel(Beta);
        for (int p = 0; p < _phases; p++)
        {
            double sum = 0;
            for (int k = 0; k < _taps; k++)
            {
                double t = k - _half + 1 - (double)p / _phases;
                double u = t / _half;
                double window = Math.Abs(u) >= 1 ? 0 : Bessel(Beta * Math.Sqrt(1 - u * u)) * scale;
                double sinc = Math.Abs(t) < 1e-9 ? 2 * cut : Math.Sin(2 * Math.PI * cut * t) / (Math.PI * t);
                double h = window * sinc;
                _filter[p * _taps + k] = (float)h;
                sum += h;
            }

            for (int k = 0; k < _taps; k++)
            {
                _filter[p * _taps + k] = (float)(_filter[p * _taps + k] / sum);
            }
        }
    }

    /// <summary>The signal at another rate; beyond its ends it counts as 0.</summary>
    public static float[] Convert(float[] x, double fromHz, double toHz) => Math.Abs(fromHz - toHz) < 1e-9 * toHz ? x
        : new Resampler(fromHz, toHz).Convert(x);

    /// <summary>The signal at the other rate; beyond its ends it counts as 0.</summary>
    public float[] Convert(ReadOnlySpan<float> x)
    {
        int count = (int)(x.Length / _step);
        float[] y = GC.AllocateUninitializedArray<float>(count);
        float[] edge = new float[_taps];
        int n = 0;
        while (n < count)
        {
            (int first, int of) = Place(n);
            bool four = n + 4 <= count && first >= 0;
            (int First, int Of) last = four ? Place(n + 3) : default;
            if (four && last.First + _taps <= x.Length)
            {
                (int First, int Of) second = Place(n + 1), third = Place(n + 2);
                Kernels.FourDots(x, (first, second.First, third.First, last.First), _filter, (of, second.Of, third.Of, last.Of), _taps,
                    y.AsSpan(n, 4));
                n += 4;
                continue;
            }

            for (int k = 0; k < _taps; k++)
            {
                int at = first + k;
                edge[k] = at >= 0 && at < x.Length ? x[at] : 0;
            }

            y[n++] = Kernels.Dot(edge, _filter.AsSpan(of, _taps));
        }

        return y;
    }

    /// <summary>Where in the signal a sample's first factor stands, and where in the filter.</summary>
    private (int First, int Of) Place(int n)
    {
        if (_up > 0)
        {
            (long whole, long phase) = Math.DivRem(n * _down, _up);
            return ((int)whole - _half + 1, (int)phase * _taps);
        }

        double position = n * _step;
        long floor = (long)position;
        return ((int)floor - _half + 1, (int)((position - floor) * _phases) * _taps);
    }

    /// <summary>The rates as a ratio of small whole numbers, or (0, 0).</summary>
    private static (long Up, long Down) Ratio(double fromHz, double toHz)
    {
        if (fromHz != Math.Floor(fromHz) || toHz != Math.Floor(toHz))
        {
            return (0, 0);
        }

        long a = (long)fromHz;
        long b = (long)toHz;
        while (b != 0)
        {
            (a, b) = (b, a % b);
        }

        long up = (long)toHz / a;
        return up <= MaxPhases ? (up, (long)fromHz / a) : (0, 0);
    }

    /// <summary>The modified Bessel function of order 0, by its series.</summary>
    private static double Bessel(double x)
    {
        double term = 1;
        double sum = 1;
        for (int k = 1; term > 1e-12 * sum; k++)
        {
            term *= x / (2 * k) * (x / (2 * k));
            sum += term;
        }

        return sum;
    }
}
