using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Interference;

/// <summary>
/// Finds ignition and arcing noise: impulses far over the rms of the 50 ms round them (kurtosis above 7 in 300 to 3,400 Hz), several a
/// second; those that come in step with twice the mains are a power line's. Against the rms of a longer time, what gets louder and softer,
/// as speech does, is peaked too.
/// </summary>
internal static class ImpulseRecogniser
{
    private const double HoleMarginS = 0.009;
    private const int Window = 600;

    /// <summary>Judges a place that nothing else explains.</summary>
    public static Finding? Find(Stretch stretch, Span span)
    {
        int from = (int)(span.FromS * Stretch.NarrowRate);
        int to = Math.Min(stretch.Narrow.Length, (int)(span.ToS * Stretch.NarrowRate));
        if (to - from < Stretch.NarrowRate / 4)
        {
            return null;
        }

        ReadOnlySpan<float> x = stretch.Speech.AsSpan(from, to - from);

        // A hole, with what the filter makes of its edges, holds no impulses and no quiet between them.
        if (stretch.InHole((double)from / Stretch.NarrowRate, Stretch.NarrowRate, x.Length, HoleMarginS) is { } hole)
        {
            x = Known(x, hole);
        }

        // The envelope, a value each millisecond.
        const int Per = 12;
        float[] envelope = new float[x.Length / Per];
        for (int k = 0; k < envelope.Length; k++)
        {
            envelope[k] = (float)Kernels.Power(x.Slice(k * Per, Per));
        }

        (double kurtosis, double mean) = Peaked(x);
        int impulses = 0;
        for (int k = 1; k + 1 < envelope.Length; k++)
        {
            impulses += envelope[k] > 4 * mean && envelope[k] >= envelope[k - 1] && envelope[k] > envelope[k + 1] ? 1 : 0;
        }

        double rate = impulses / span.LengthS;
        if (kurtosis < 7 || rate < 4)
        {
            return null;
        }

        return new Finding
        {
            Kind = SignalKind.Noise,
            StartS = stretch.StartS + span.FromS,
            EndS = stretch.StartS + span.ToS,
            Confidence = kurtosis > 9 ? 0.95 : 0.85,
            Evidence = new Evidence { ImpulsesPerS = rate, GatedByHz = Gating(envelope) },
        };
    }

    /// <summary>
    /// The fourth power over the square of the second within each window, and the mean power. Each window weighs by its power squared.
    /// </summary>
    internal static (double Kurtosis, double Mean) Peaked(ReadOnlySpan<float> x)
    {
        double fourth = 0;
        double flat = 0;
        double all = 0;
        for (int at = 0; at < x.Length; at += Window)
        {
            ReadOnlySpan<float> part = x[at..Math.Min(x.Length, at + Window)];
            double second = 0;
            foreach (float v in part)
            {
                double d = (double)v * v;
                second += d;
                fourth += d * d;
            }

            all += second;
            flat += second * second / part.Length;
        }

        return (flat > 0 ? fourth / flat : 0, all / Math.Max(1, x.Length));
    }

    /// <summary>A copy with what stood before a hole, as long as it, in the hole.</summary>
    private static float[] Known(ReadOnlySpan<float> x, bool[] hole)
    {
        float[] known = x.ToArray();
        int n = 0;
        while (n < known.Length)
        {
            int from = n;
            while (n < known.Length && hole[n])
            {
                n++;
            }

            for (int k = from; k < n; k++)
            {
                int back = k - (n - from);
                known[k] = back >= 0 ? known[back] : 0;
            }

            n = n == from ? n + 1 : n;
        }

        return known;
    }

    private static double? Gating(float[] envelope)
    {
        if (envelope.Length < 500)
        {
            return null;
        }

        int length = Math.Min(envelope.Length, 2_048);
        PowerSpectrum spectrum = new(2_048, length);
        float[] power = new float[1_024];
        float[] sum = new float[1_024];
        double mean = envelope.Average();
        float[] part = new float[length];
        for (int at = 0; at + length <= envelope.Length; at += length)
        {
            for (int n = 0; n < length; n++)
            {
                part[n] = (float)((envelope[at + n] - mean) / mean);
            }

            spectrum.OfReal(part, power);
            for (int b = 0; b < sum.Length; b++)
            {
                sum[b] += power[b];
            }
        }

        float[] sorted = [.. sum.Skip(40).Take(600).Order()];
        double floor = sorted[sorted.Length / 2];
        foreach (double mains in new[] { 50.0, 60.0 })
        {
            int bin = (int)Math.Round(2 * mains * 2_048 / 1_000);
            double line = Math.Max(sum[bin - 1], Math.Max(sum[bin], sum[bin + 1]));
            if (line > 20 * floor)
            {
                return mains;
            }
        }

        return null;
    }
}
