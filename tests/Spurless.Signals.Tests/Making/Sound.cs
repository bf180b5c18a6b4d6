namespace Spurless.Signals.Tests.Making;

/// <summary>
/// Made audio at one rate, built up by adding signals at moments. Part of the modulator of the tests: it shares no code with the product.
/// Every random part takes a seed, so that a recording is the same on every machine.
/// </summary>
internal sealed class Sound
{
    public Sound(double rateHz, double seconds)
    {
        RateHz = rateHz;
        Samples = new double[(int)Math.Round(rateHz * seconds)];
    }

    public double RateHz { get; }

    public double[] Samples { get; }

    public double Seconds => Samples.Length / RateHz;

    /// <summary>Adds a signal, its first sample at a moment; what lies outside is cut.</summary>
    public Sound Add(double atS, double[] signal, double gain = 1)
    {
        int first = (int)Math.Round(atS * RateHz);
        for (int i = 0; i < signal.Length; i++)
        {
            int n = first + i;
            if (n >= 0 && n < Samples.Length)
            {
                Samples[n] += gain * signal[i];
            }
        }

        return this;
    }

    /// <summary>Adds white Gaussian noise of a given rms between two moments.</summary>
    public Sound Noise(double rms, int seed, double fromS = 0, double toS = double.PositiveInfinity)
    {
        Gauss gauss = new(seed);
        int first = (int)Math.Round(fromS * RateHz);
        int last = (int)Math.Min(Samples.Length, Math.Round(Math.Min(toS, Seconds) * RateHz));
        for (int n = first; n < last; n++)
        {
            Samples[n] += rms * gauss.Next();
        }

        return this;
    }

    /// <summary>The noise rms (white, over the whole rate) that gives a signal-to-noise ratio in 300 to 3,400 Hz.</summary>
    public double NoiseFor(double signalRms, double snrDb) =>
        signalRms / Math.Pow(10, snrDb / 20) / Math.Sqrt(Math.Min(3_100, RateHz / 2 - 300) / (RateHz / 2));

    public static double Rms(double[] x) => Math.Sqrt(x.Sum(static v => v * v) / Math.Max(1, x.Length));

    public float[] ToFloats() => [.. Samples.Select(static v => (float)v)];
}

/// <summary>Gaussian numbers by the polar method from a seed.</summary>
internal sealed class Gauss(int seed)
{
    private readonly Random _random = new(seed);
    private double? _spare;

    public double Next()
    {
        if (_spare is { } kept)
        {
            _spare = null;
            return kept;
        }

        double u, v, s;
        do
        {
            u = 2 * _random.NextDouble() - 1;
            v = 2 * _random.NextDouble() - 1;
            s = u * u + v * v;
        }
        while (s is >= 1 or 0);
        double f = Math.Sqrt(-2 * Math.Log(s) / s);
        _spare = v * f;
        return u * f;
    }
}
