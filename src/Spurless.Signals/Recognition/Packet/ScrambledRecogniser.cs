using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Packet;

/// <summary>
/// Finds packet radio of 9,600 Bd: two-level FSK behind a discriminator, scrambler 1 + x^12 + x^17, NRZI, HDLC. Several receive filters are
/// tried, for transmitters and receivers that shape differently.
/// </summary>
internal static class ScrambledRecogniser
{
    private const double RateBd = 9_600;
    private const double PerBit = Stretch.WideRate / RateBd;

    /// <summary>So many bits behind one that is not known are not known either.</summary>
    private const int Scrambler = 18;

    /// <summary>Cut-off of the receive filter, in hertz, and how much of the signal's curvature is added.</summary>
    private static readonly (double CutHz, float Boost)[] _fronts = [(5_200, 0), (6_500, 0), (4_800, 0.25f), (4_000, 0)];

    /// <summary>Finds the transmissions of a stretch.</summary>
    public static List<Finding> Find(Stretch stretch)
    {
        List<Finding> found = [];
        if (stretch.TopHz < 4_500)
        {
            return found;
        }

        foreach (Span span in stretch.ActiveWithin(0.3))
        {
            int from = (int)(span.FromS * Stretch.WideRate);
            int to = Math.Min(stretch.Wide.Length, (int)(span.ToS * Stretch.WideRate));
            List<Finding> best = [];
            float[] y = new float[to - from];
            float[] open = new float[to - from + 1];
            foreach ((double cut, float boost) in _fronts)
            {
                List<Finding> now = Scan(stretch, stretch.Wide.AsSpan(from, to - from), y, open, (double)from / Stretch.WideRate, cut,
                    boost);
                if (now.Sum(Weight) > best.Sum(Weight))
                {
                    best = now;
                }

                if (best.Count > 0 && best.Sum(static f => f.UnitsGood) == best.Sum(static f => f.UnitsChecked))
                {
                    break;
                }
            }

            found.AddRange(best);
        }

        return found;
    }

    private static int Weight(Finding f) => 100 * f.UnitsGood!.Value + f.Evidence.Flags!.Value;

    private static List<Finding> Scan(Stretch stretch, ReadOnlySpan<float> x, float[] y, float[] open, double offsetS, double cutHz,
        float boost)
    {
        const int Taps = 24;
        float[] filter = LowPass(cutHz, Taps);
        y.AsSpan(0, Math.Min(Taps, y.Length)).Clear();
        for (int n = Taps; n < x.Length; n++)
        {
            y[n] = Kernels.Dot(x.Slice(n - Taps, Taps), filter);
        }

        if (boost > 0)
        {
            // The second difference over half a symbol lifts what a narrow receiver took off.
            for (int n = y.Length - 1; n > 5; n--)
            {
                y[n] = y[n] + boost * (2 * y[n] - y[n - 2] - y[Math.Min(y.Length - 1, n + 2)]);
            }
        }

        float[] spread = new float[y.Length];
        float[] mid = Kernels.MidLevel(y, 1_600, 400, spread);
        FrameReader reader = new();
        BitClock clock = new(RateBd / Stretch.WideRate, 0.06);
        uint history = 0;
        int[] known = new int[y.Length + 1];
        bool[]? hole = stretch.InHole(offsetS, Stretch.WideRate, y.Length, Scrambler / RateBd);
        int last = 0;
        for (int n = 0; n < y.Length; n++)
        {
            float v = y[n] - mid[n];
            bool lost = hole?[n] == true;
            open[n + 1] = open[n];
            known[n + 1] = known[n] + (lost ? 0 : 1);
            if (clock.Push(v, out float decided))
            {
                open[n + 1] += lost ? 0 : Math.Min(2, Math.Abs(decided) / (spread[n] + 1e-9f));
                uint bit = decided > 0 ? 1u : 0u;
                int plain = (int)((bit ^ history >> 11 ^ history >> 16) & 1);
                history = history << 1 | bit;
                if (lost)
                {
                    reader.Lose();
                }
                else
                {
                    reader.Push(plain == last ? 1 : 0, n, PerBit);
                }

                last = plain;
            }
        }

        return FrameFindings.Make(
            stretch, SignalKind.Fsk9600, reader, Stretch.WideRate, offsetS - (0.5 * Taps) / Stretch.WideRate, RateBd, (from, to) =>
            {
                int a = (int)Math.Clamp(from, 0, y.Length);
                int b = (int)Math.Clamp(to, 0, y.Length);
                return (open[b] - open[a]) / Math.Max(1, known[b] - known[a]) * PerBit > 0.6;
            });
    }

    /// <summary>A windowed sinc.</summary>
    private static float[] LowPass(double cutHz, int taps)
    {
        float[] h = new float[taps];
        double sum = 0;
        for (int k = 0; k < taps; k++)
        {
            double t = k - (taps - 1) / 2.0;
            double w = 0.54 + 0.46 * Math.Cos(2 * Math.PI * t / taps);
            double f = 2 * cutHz / Stretch.WideRate;
            double v = w * (Math.Abs(t) < 1e-9 ? f : Math.Sin(Math.PI * f * t) / (Math.PI * t));
            h[k] = (float)v;
            sum += v;
        }

        for (int k = 0; k < taps; k++)
        {
            h[k] = (float)(h[k] / sum);
        }

        return h;
    }
}
