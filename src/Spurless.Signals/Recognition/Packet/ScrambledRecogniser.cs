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

    private const int Taps = 24;

    /// <summary>
    /// Another filter is tried where one showed so many flags in a row: a transmission begins with dozens, of which one bit in ten wrong
    /// leaves many threes; random bits show three once in some minutes.
    /// </summary>
    private const int Hint = 3;

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
            using Rented y = new(to - from);
            using Rented spread = new(to - from);
            foreach ((double cut, float boost) in _fronts)
            {
                (List<Finding> now, int row) = Scan(
                    stretch, stretch.Wide.AsSpan(from, to - from), y.Span, spread.Span, (double)from / Stretch.WideRate, cut, boost);
                if (now.Sum(Weight) > best.Sum(Weight))
                {
                    best = now;
                }

                if (row < Hint || best.Count > 0 && best.Sum(static f => f.UnitsGood) == best.Sum(static f => f.UnitsChecked))
                {
                    break;
                }
            }

            found.AddRange(best);
        }

        return found;
    }

    private static int Weight(Finding f) => 100 * f.UnitsGood!.Value + f.Evidence.Flags!.Value;

    /// <summary>What is found, and the most flags that stand in a row.</summary>
    private static (List<Finding> Found, int Row) Scan(
        Stretch stretch, ReadOnlySpan<float> x, Span<float> y, Span<float> spread, double offsetS, double cutHz, float boost)
    {
        Filter(x, y, cutHz, boost);
        KeyedLevels.Level(y, 1_600, 400, spread);
        FrameReader reader = new();
        BitClock clock = new(RateBd / Stretch.WideRate, 0.06);
        Openness open = new((int)(y.Length / PerBit) + 1);
        uint history = 0;
        bool[]? hole = stretch.InHole(offsetS, Stretch.WideRate, y.Length, Scrambler / RateBd);
        int last = 0;
        for (int n = 0; n < y.Length; n++)
        {
            if (!clock.Push(y[n], out float decided))
            {
                continue;
            }

            uint bit = decided > 0 ? 1u : 0u;
            int plain = (int)((bit ^ history >> 11 ^ history >> 16) & 1);
            history = history << 1 | bit;
            if (hole?[n] == true)
            {
                reader.Lose();
            }
            else
            {
                open.Add(n, Math.Min(2, Math.Abs(decided) / (spread[n] + 1e-9f)));
                reader.Push(plain == last ? 1 : 0, n, PerBit);
            }

            last = plain;
        }

        List<Finding> found = FrameFindings.Make(stretch, SignalKind.Fsk9600, reader, Stretch.WideRate,
            offsetS - (0.5 * Taps) / Stretch.WideRate, RateBd, (from, to) => open.Mean(from, to) > 0.6);
        return (found, reader.FlagRuns.Select(static r => r.Count).DefaultIfEmpty(0).Max());
    }

    /// <summary>The receive filter; what it delays by is half of its length.</summary>
    private static void Filter(ReadOnlySpan<float> x, Span<float> y, double cutHz, float boost)
    {
        int none = Math.Min(Taps, y.Length);
        y[..none].Clear();
        if (y.Length > none)
        {
            Kernels.Slide(x, LowPass(cutHz), y[none..]);
        }

        if (boost > 0)
        {
            // The second difference over half a symbol lifts what a narrow receiver took off.
            for (int n = y.Length - 1; n > 5; n--)
            {
                y[n] = y[n] + boost * (2 * y[n] - y[n - 2] - y[Math.Min(y.Length - 1, n + 2)]);
            }
        }
    }

    /// <summary>A windowed sinc.</summary>
    private static float[] LowPass(double cutHz)
    {
        float[] h = new float[Taps];
        double sum = 0;
        for (int k = 0; k < Taps; k++)
        {
            double t = k - (Taps - 1) / 2.0;
            double w = 0.54 + 0.46 * Math.Cos(2 * Math.PI * t / Taps);
            double f = 2 * cutHz / Stretch.WideRate;
            double v = w * (Math.Abs(t) < 1e-9 ? f : Math.Sin(Math.PI * f * t) / (Math.PI * t));
            h[k] = (float)v;
            sum += v;
        }

        for (int k = 0; k < Taps; k++)
        {
            h[k] = (float)(h[k] / sum);
        }

        return h;
    }

    /// <summary>How far from the middle the bits were decided, against the usual height.</summary>
    private sealed class Openness(int most)
    {
        private readonly List<int> _at = new(most);
        private readonly List<double> _sum = new(most + 1) { 0 };

        public void Add(int at, float height)
        {
            _at.Add(at);
            _sum.Add(_sum[^1] + height);
        }

        /// <summary>The mean over the bits decided from a sample up to another; 0 where there are none.</summary>
        public double Mean(long from, long to)
        {
            int first = Place(from);
            int behind = Place(to);
            return behind > first ? (_sum[behind] - _sum[first]) / (behind - first) : 0;
        }

        private int Place(long at)
        {
            int place = _at.BinarySearch((int)Math.Clamp(at, 0, int.MaxValue));
            return place < 0 ? ~place : place;
        }
    }
}
