namespace Spurless.Signals.Recognition.Packet;

/// <summary>
/// Finds packet radio of 1,200 Bd: tones of 1,200 and 2,200 Hz, NRZI, HDLC. Three slicers stand for flat audio and for audio that fell or
/// rose by 5 dB.
/// </summary>
internal static class AfskRecogniser
{
    private const double RateBd = 1_200;
    private const int PerBit = 10;
    private const double LeastPurity = 0.6;
    private static readonly float[] _gains = [1, 1.8f, 0.55f];

    /// <summary>Finds the transmissions of a stretch.</summary>
    public static List<Finding> Find(Stretch stretch)
    {
        List<Finding> found = [];
        foreach (Span span in stretch.ActiveWithin(0.3))
        {
            int from = (int)(span.FromS * Stretch.NarrowRate);
            int to = Math.Min(stretch.Narrow.Length, (int)(span.ToS * Stretch.NarrowRate));
            if (to - from < 40 * PerBit)
            {
                continue;
            }

            ReadOnlySpan<float> x = stretch.Narrow.AsSpan(from, to - from);
            float[] mark = Magnitude(x, 1_200);
            float[] space = Magnitude(x, 2_200);
            float[] pure = Purity(x, mark, space);
            List<Finding> best = [];
            foreach (float gain in _gains)
            {
                List<Finding> now = Slice(stretch, mark, space, pure, gain, (double)from / Stretch.NarrowRate);
                if (now.Sum(Weight) > best.Sum(Weight))
                {
                    best = now;
                }
            }

            found.AddRange(best);
        }

        return found;
    }

    private static int Weight(Finding f) => 100 * f.UnitsGood!.Value + f.Evidence.Flags!.Value;

    private static List<Finding> Slice(Stretch stretch, float[] mark, float[] space, float[] pure, float gain, double offsetS)
    {
        FrameReader reader = new();
        BitClock clock = new(RateBd / Stretch.NarrowRate, 0.12);
        float[] open = new float[mark.Length + 1];
        int[] known = new int[mark.Length + 1];
        bool[]? hole = stretch.InHole(offsetS, Stretch.NarrowRate, mark.Length, 1 / RateBd);
        int last = 0;
        for (int n = 0; n < mark.Length; n++)
        {
            float m = mark[n];
            float s = space[n] * gain;
            float v = m - s;
            bool lost = hole?[n] == true;
            open[n + 1] = open[n] + (lost ? 0 : Math.Abs(v) / (m + s + 1e-9f));
            known[n + 1] = known[n] + (lost ? 0 : 1);
            if (clock.Push(v, out float decided))
            {
                int level = decided > 0 ? 1 : 0;
                if (lost)
                {
                    reader.Lose();
                }
                else
                {
                    reader.Push(level == last ? 1 : 0, n, PerBit);
                }

                last = level;
            }
        }

        return FrameFindings.Make(
            stretch, SignalKind.Afsk1200, reader, Stretch.NarrowRate, offsetS - 0.5 * PerBit / Stretch.NarrowRate, RateBd, (from, to) =>
            {
                int a = (int)Math.Clamp(from, 0, mark.Length);
                int b = (int)Math.Clamp(to, 0, mark.Length);
                return (open[b] - open[a]) / Math.Max(1, known[b] - known[a]) > 0.52;
            },
            (from, to) =>
            {
                int a = (int)Math.Clamp(from, 0, mark.Length);
                int b = (int)Math.Clamp(to, 0, mark.Length);
                return b > a && (pure[b] - pure[a]) / (b - a) > LeastPurity;
            });
    }

    /// <summary>
    /// Running sum of the share of the power that the stronger tone holds. Lines 150 Hz apart, and a voice of that pitch, repeat every
    /// eight bits as flags do: what tells them apart is that their power lies elsewhere.
    /// </summary>
    private static float[] Purity(ReadOnlySpan<float> x, float[] mark, float[] space)
    {
        float[] sum = new float[x.Length + 1];
        double power = 0;
        for (int n = 0; n < x.Length; n++)
        {
            power += x[n] * x[n];
            power -= n >= PerBit ? x[n - PerBit] * x[n - PerBit] : 0;
            double tone = Math.Max(mark[n], space[n]);
            sum[n + 1] = sum[n] + (float)Math.Min(1, 2 * tone * tone / PerBit / Math.Max(1e-12, power));
        }

        return sum;
    }

    /// <summary>The size of a tone over a window of one bit.</summary>
    private static float[] Magnitude(ReadOnlySpan<float> x, double hz)
    {
        // Both tones have a whole number of periods in 60 samples at 12 kHz, so the table closes.
        const int Period = 60;
        Span<float> cos = stackalloc float[Period];
        Span<float> sin = stackalloc float[Period];
        for (int n = 0; n < Period; n++)
        {
            (double s, double c) = Math.SinCos(2 * Math.PI * hz * n / Stretch.NarrowRate);
            cos[n] = (float)c;
            sin[n] = (float)s;
        }

        float[] y = new float[x.Length];
        double re = 0;
        double im = 0;
        int phase = 0;
        for (int n = 0; n < x.Length; n++)
        {
            re += x[n] * cos[phase];
            im += x[n] * sin[phase];
            if (n >= PerBit)
            {
                int old = phase - PerBit < 0 ? phase - PerBit + Period : phase - PerBit;
                re -= x[n - PerBit] * cos[old];
                im -= x[n - PerBit] * sin[old];
            }

            y[n] = (float)Math.Sqrt(re * re + im * im);
            phase = phase + 1 == Period ? 0 : phase + 1;
        }

        return y;
    }
}
