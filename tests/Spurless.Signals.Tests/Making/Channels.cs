namespace Spurless.Signals.Tests.Making;

/// <summary>What lies between a modulator and a recording.</summary>
internal static class Channels
{
    /// <summary>A first-order low-pass: de-emphasis (6 dB an octave over its corner).</summary>
    public static double[] DeEmphasis(double[] x, double rate, double tauS = 530e-6)
    {
        double a = Math.Exp(-1 / (rate * tauS));
        double y = 0;
        return [.. x.Select(v => y = a * y + (1 - a) * v)];
    }

    /// <summary>Windowed-sinc band-pass, linear phase; the delay is taken out. A low edge of 0 is a low-pass.</summary>
    public static double[] Band(double[] x, double rate, double lowHz, double highHz, double transitionHz = 150)
    {
        int half = (int)(1.7 * rate / transitionHz);
        double[] h = new double[2 * half + 1];
        for (int k = -half; k <= half; k++)
        {
            double window = 0.54 + 0.46 * Math.Cos(Math.PI * k / (half + 1));
            double high = k == 0 ? 2 * highHz / rate : Math.Sin(2 * Math.PI * highHz * k / rate) / (Math.PI * k);
            double low = k == 0 ? 2 * lowHz / rate : Math.Sin(2 * Math.PI * lowHz * k / rate) / (Math.PI * k);
            h[k + half] = window * (high - low);
        }

        double[] y = new double[x.Length];
        for (int n = 0; n < x.Length; n++)
        {
            double sum = 0;
            for (int k = Math.Max(-half, n - x.Length + 1); k <= Math.Min(half, n); k++)
            {
                sum += h[k + half] * x[n - k];
            }

            y[n] = sum;
        }

        return y;
    }

    /// <summary>
    /// The audio of a speaker: 300 to 3,000 Hz by a second-order high-pass and a fourth-order low-pass (bilinear, maximally flat).
    /// </summary>
    public static double[] Speaker(double[] x, double rate)
    {
        double[] y = Biquad(x, rate, 300, Math.Sqrt(0.5), highPass: true);
        y = Biquad(y, rate, 3_000, 0.5412, highPass: false);
        return Biquad(y, rate, 3_000, 1.3066, highPass: false);
    }

    public static double[] Clip(double[] x, double at) => [.. x.Select(v => Math.Clamp(v, -at, at))];

    /// <summary>Fading of two paths (a deep notch that wanders), for IQ.</summary>
    public static (double[] I, double[] Q) Fade(double[] i, double[] q, double rate, double delayS, double beatHz, double depth)
    {
        int d = (int)Math.Round(delayS * rate);
        double[] a = new double[i.Length];
        double[] b = new double[i.Length];
        for (int n = 0; n < i.Length; n++)
        {
            double ph = 2 * Math.PI * beatHz * n / rate;
            double di = n >= d ? i[n - d] : 0;
            double dq = n >= d ? q[n - d] : 0;
            a[n] = i[n] + depth * (di * Math.Cos(ph) - dq * Math.Sin(ph));
            b[n] = q[n] + depth * (di * Math.Sin(ph) + dq * Math.Cos(ph));
        }

        return (a, b);
    }

    private static double[] Biquad(double[] x, double rate, double corner, double q, bool highPass)
    {
        double w = 2 * Math.PI * corner / rate;
        double alpha = Math.Sin(w) / (2 * q);
        double cos = Math.Cos(w);
        double b1 = highPass ? -(1 + cos) : 1 - cos;
        double b0 = Math.Abs(b1) / 2;
        double a0 = 1 + alpha;
        double x1 = 0, x2 = 0, y1 = 0, y2 = 0;
        double[] y = new double[x.Length];
        for (int n = 0; n < x.Length; n++)
        {
            double v = (b0 * x[n] + b1 * x1 + b0 * x2 + 2 * cos * y1 - (1 - alpha) * y2) / a0;
            (x2, x1, y2, y1) = (x1, x[n], y1, v);
            y[n] = v;
        }

        return y;
    }
}

/// <summary>A recorded band of complex samples, built up from transmitters.</summary>
internal sealed class Band
{
    public Band(double rateHz, double seconds)
    {
        RateHz = rateHz;
        I = new double[(int)Math.Round(rateHz * seconds)];
        Q = new double[I.Length];
    }

    public double RateHz { get; }

    public double[] I { get; }

    public double[] Q { get; }

    /// <summary>Adds a frequency-modulated carrier: the modulation's unit is one peak deviation; it is held between its samples.</summary>
    public Band Fm(double atS, double offsetHz, double deviationHz, double[] modulation, double modulationRate, double amplitude)
    {
        int first = (int)Math.Round(atS * RateHz);
        int count = (int)(modulation.Length / modulationRate * RateHz);
        double phase = 0;
        for (int k = 0; k < count; k++)
        {
            int n = first + k;
            if (n < 0 || n >= I.Length)
            {
                continue;
            }

            double m = At(modulation, k / RateHz * modulationRate);
            phase += 2 * Math.PI * (offsetHz + deviationHz * m) / RateHz;
            I[n] += amplitude * Math.Cos(phase);
            Q[n] += amplitude * Math.Sin(phase);
        }

        return this;
    }

    /// <summary>Adds an amplitude-modulated carrier; depth 1 is full modulation by one.</summary>
    public Band Am(double atS, double offsetHz, double depth, double[] modulation, double modulationRate, double amplitude)
    {
        int first = (int)Math.Round(atS * RateHz);
        int count = (int)(modulation.Length / modulationRate * RateHz);
        for (int k = 0; k < count; k++)
        {
            int n = first + k;
            if (n < 0 || n >= I.Length)
            {
                continue;
            }

            double envelope = amplitude * Math.Max(0, 1 + depth * At(modulation, k / RateHz * modulationRate));
            double phase = 2 * Math.PI * offsetHz * k / RateHz;
            I[n] += envelope * Math.Cos(phase);
            Q[n] += envelope * Math.Sin(phase);
        }

        return this;
    }

    /// <summary>Adds white noise of a power per hertz.</summary>
    public Band Noise(double powerPerHz, int seed)
    {
        Gauss gauss = new(seed);
        double sigma = Math.Sqrt(powerPerHz * RateHz / 2);
        for (int n = 0; n < I.Length; n++)
        {
            I[n] += sigma * gauss.Next();
            Q[n] += sigma * gauss.Next();
        }

        return this;
    }

    /// <summary>
    /// What a plain receiver's discriminator gives: a filter of a width round an offset, then the change of phase; one is a peak deviation.
    /// </summary>
    public double[] Discriminator(double deviationHz)
    {
        double[] y = new double[I.Length];
        for (int n = 1; n < I.Length; n++)
        {
            double re = I[n] * I[n - 1] + Q[n] * Q[n - 1];
            double im = Q[n] * I[n - 1] - I[n] * Q[n - 1];
            y[n] = Math.Atan2(im, re) * RateHz / (2 * Math.PI) / deviationHz;
        }

        return y;
    }

    private static double At(double[] x, double t)
    {
        int k = (int)t;
        return k + 1 >= x.Length ? x[^1] : x[k] + (x[k + 1] - x[k]) * (t - k);
    }
}
