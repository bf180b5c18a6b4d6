using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Keying;

/// <summary>
/// Finds keying of two and of four levels without knowing its rate: changes of level come only at multiples of the symbol's length, which
/// makes a line at the symbol rate in the spectrum of the squared slope; sampled at that rate, the levels stand apart.
/// </summary>
internal static class KeyingRecogniser
{
    private const int Rate = 48_000;
    private const double LeastS = 0.15;

    // What the filter and a path about to fade spoil beside a hole.
    private const double HoleMarginS = 0.002;

    /// <summary>Judges a place that nothing particular explains.</summary>
    public static Finding? Find(Stretch stretch, Span place)
    {
        int from = Math.Max(0, (int)(place.FromS * Rate));
        int to = Math.Min(stretch.Wide.Length, (int)(Math.Min(place.ToS, place.FromS + 6) * Rate));
        if (to - from < LeastS * Rate)
        {
            return null;
        }

        Finding? best = null;
        double bestScore = 0;
        bool[]? hole = stretch.InHole((double)from / Rate, Rate, to - from, HoleMarginS);
        foreach (double cut in new[] { 6_500.0, 3_400, 1_500 })
        {
            if (cut > 1.3 * stretch.TopHz && cut > 3_400)
            {
                continue;
            }

            float[] x = BandPass.Apply(stretch.Wide.AsSpan(from, to - from), BandPass.Design(0, Math.Min(cut, stretch.TopHz), Rate, 40));
            foreach (double rate in Rates(x, cut, hole))
            {
                if (Levels(x, rate, hole) is not { } eye)
                {
                    continue;
                }

                // A multiple of the rate has an open eye too, and so has every second symbol of a sharp one: the lowest with a line is the
                // rate.
                bool multiple = best is not null && IsMultiple(eye.RateBd, best.SymbolRateBd!.Value);
                bool divides = best is not null && IsMultiple(best.SymbolRateBd!.Value, eye.RateBd);
                if (multiple || !divides && eye.Score <= bestScore * 1.02)
                {
                    continue;
                }

                bestScore = eye.Score;
                best = new Finding
                {
                    Kind = eye.Count == 4 ? SignalKind.FourLevelFsk : SignalKind.TwoLevelFsk,
                    StartS = stretch.StartS + place.FromS,
                    EndS = stretch.StartS + place.ToS,
                    Confidence = eye.Score > 6 ? 0.96 : 0.88,
                    SymbolRateBd = eye.RateBd,
                    Evidence = new Evidence
                    {
                        Standard = eye.Count == 4 ? LandMobileSync.Name(eye.Symbols, eye.RateBd)
                        : null,
                        DeviationHz = eye.Outer
                    },
                };
            }
        }

        return best;
    }

    private static bool IsMultiple(double rate, double of) => rate / of > 1.5 && Math.Abs(rate / of - Math.Round(rate / of)) < 0.01;

    /// <summary>The strongest lines of the squared slope, strongest first.</summary>
    private static List<double> Rates(float[] x, double cut, bool[]? hole)
    {
        int step = cut > 5_000 ? 2 : cut > 2_000 ? 5 : 10;
        float[] slope = new float[x.Length];
        double mean = 0;
        int held = 0;
        for (int n = step; n < x.Length; n++)
        {
            float d = x[n] - x[n - step];
            slope[n] = d * d;
            mean += hole?[n] == true ? 0 : slope[n];
            held += hole?[n] == true ? 0 : 1;
        }

        mean /= Math.Max(1, held);
        int size = 1 << 15;
        int length = Math.Min(size, slope.Length);
        for (int n = 0; n < slope.Length; n++)
        {
            slope[n] = hole?[n] == true ? 0 : slope[n] - (float)mean;
        }

        PowerSpectrum spectrum = new(size, length);
        float[] power = new float[size / 2];
        float[] sum = new float[size / 2];
        for (int at = 0; at + length <= slope.Length; at += length)
        {
            spectrum.OfReal(slope.AsSpan(at, length), power);
            for (int b = 0; b < sum.Length; b++)
            {
                sum[b] += power[b];
            }
        }

        double perBin = (double)Rate / size;
        float[] sorted = new float[400];
        List<(double Hz, double Over)> lines = [];
        for (int b = (int)(45 / perBin); b < (int)(Math.Min(2 * cut, 11_000) / perBin); b++)
        {
            if (sum[b] <= sum[b - 1] || sum[b] < sum[b + 1] || lines.Count > 0 && sum[b] < 0.005 * lines.Max(static l => l.Over))
            {
                continue;
            }

            int side = Math.Clamp(b / 4, 12, 200);
            Span<float> near = sorted.AsSpan(0, Math.Min(400, 2 * side));
            sum.AsSpan(b - side, near.Length).CopyTo(near);
            near.Sort();
            double over = sum[b] / (near[near.Length / 2] + 1e-20);
            if (over > 25)
            {
                double a = Math.Log(sum[b - 1] + 1e-20);
                double m = Math.Log(sum[b] + 1e-20);
                double c = Math.Log(sum[b + 1] + 1e-20);
                double d = 0.5 * (a - c) / (a - 2 * m + c);
                lines.Add(((b + d) * perBin, sum[b]));
            }
        }

        // Sharp changes have lines at multiples of the rate too: the lowest line that the strongest one is a multiple of comes first.
        List<(double Hz, double Over)> strongest = [.. lines.OrderByDescending(static l => l.Over).Take(4)];
        if (strongest.Count == 0)
        {
            return [];
        }

        double top = strongest[0].Hz;
        double lowest = lines.Where(l => l.Over > 0.01 * strongest[0].Over
            && Math.Abs(top / l.Hz - Math.Round(top / l.Hz)) < 0.004 * (top / l.Hz))
            .Select(static l => l.Hz).Min();
        return lowest < 0.9 * top ? [lowest] : [.. strongest.Select(static l => l.Hz)];
    }

    private static Eye? Levels(float[] x, double rateBd, bool[]? hole)
    {
        double per = Rate / rateBd;
        int window = (int)(per * Math.Min(80, x.Length / per / 2));
        float[] spread = new float[x.Length];
        float[] mid = Kernels.MidLevel(x, Math.Max(64, window), Math.Max(32, window / 4), spread);

        List<double> all = Sampled(x, per, mid, spread, hole);
        List<double> samples = hole is null ? all : all.FindAll(static v => !double.IsNaN(v));
        if (samples.Count < 24)
        {
            return null;
        }

        double outer = samples.Select(Math.Abs).Order().ElementAt(samples.Count * 85 / 100);
        (double two, _) = Scatter(samples, [-1, 1]);
        (double four, double least) = Scatter(samples, [-1, -1.0 / 3, 1.0 / 3, 1]);

        // Two levels: scatter against half of their distance. Four: against a third of that, and each level must be used.
        double scoreTwo = 1 / (two + 1e-3);
        double scoreFour = least > 0.06 ? 1.0 / 3 / (four + 1e-3) : 0;
        if (scoreTwo < 3.2 && scoreFour < 2.7 || outer < 0.1)
        {
            return null;
        }

        bool isFour = scoreFour > 2.7 && scoreTwo < 3.6;
        return isFour
            ? new Eye(4, rateBd / Every(all), scoreFour * 1.5, Symbols(all), null)
            : scoreTwo >= 3.2 ? new Eye(2, rateBd / Every(all), scoreTwo, [], null) : null;
    }

    /// <summary>The signal in the middle of each symbol, its usual height at 1; not a number in a hole.</summary>
    private static List<double> Sampled(float[] x, double per, float[] mid, float[] spread, bool[]? hole)
    {
        // The phase of the line in the squared slope says where the changes are; decisions lie half a symbol off. Drift is followed block
        // by block.
        List<double> samples = [];
        double at = Phase(x, per, 0, Math.Min(x.Length, (int)(per * 64)), 0, hole);
        int block = (int)(per * 48);
        int next = block;
        while (at < x.Length - 2)
        {
            if (at > next && next + block < x.Length)
            {
                double fresh = Phase(x, per, next, next + block, at, hole);
                double move = fresh - at;
                move -= per * Math.Round(move / per);
                if (Math.Abs(move) < 0.3 * per)
                {
                    at += 0.5 * move;
                }

                next += block;
            }

            int n = (int)at;
            if (n >= 1 && n + 1 < x.Length)
            {
                double u = at - n;
                double v = x[n] + (x[n + 1] - x[n]) * u - mid[n];
                samples.Add(hole?[n] == true ? double.NaN : v / Math.Max(1e-9f, spread[n]));
            }

            at += per;
        }

        return samples;
    }

    /// <summary>Of how many samples a symbol consists: the changes of sign come only at multiples of that.</summary>
    private static int Every(List<double> samples)
    {
        List<int> changes = [.. Enumerable.Range(1, samples.Count - 1)
            .Where(i => samples[i] > 0 != samples[i - 1] > 0 && !double.IsNaN(samples[i]) && !double.IsNaN(samples[i - 1]))];
        if (changes.Count < 10)
        {
            return 1;
        }

        for (int k = 8; k >= 2; k--)
        {
            int most = changes.GroupBy(c => c % k).Max(static g => g.Count());
            if (most >= 0.96 * changes.Count)
            {
                return k;
            }
        }

        return 1;
    }

    /// <summary>The moment, at or behind <paramref name="from"/>, in the middle between changes.</summary>
    private static double Phase(float[] x, double per, int from, int to, double reference, bool[]? hole)
    {
        int step = Math.Max(1, (int)(per / 6));
        double re = 0;
        double im = 0;
        for (int n = Math.Max(from, step); n < to; n++)
        {
            double d = hole?[n] == true ? 0 : x[n] - x[n - step];
            (double s, double c) = Math.SinCos(2 * Math.PI * (n - step / 2.0) / per);
            re += d * d * c;
            im += d * d * s;
        }

        double change = Math.Atan2(im, re) / (2 * Math.PI) * per;
        double middle = change + per / 2;
        double floor = Math.Max(from, reference);
        return middle + per * Math.Ceiling((floor - middle) / per);
    }

    /// <summary>
    /// Rms distance from the nearest of a few levels (scaled to fit best), and the share of the level that is used least.
    /// </summary>
    private static (double Rms, double Least) Scatter(List<double> samples, double[] levels)
    {
        double scale = 1;
        double rms = 0;
        int[] used = new int[levels.Length];
        for (int pass = 0; pass < 6; pass++)
        {
            double vl = 0;
            double ll = 0;
            double sum = 0;
            Array.Clear(used);
            foreach (double v in samples)
            {
                int best = 0;
                for (int i = 1; i < levels.Length; i++)
                {
                    best = Math.Abs(v - scale * levels[i]) < Math.Abs(v - scale * levels[best]) ? i : best;
                }

                used[best]++;
                vl += v * levels[best];
                ll += levels[best] * levels[best];
                sum += (v - scale * levels[best]) * (v - scale * levels[best]);
            }

            rms = Math.Sqrt(sum / samples.Count) / scale;
            scale = vl / ll;
        }

        return (rms, (double)used.Min() / samples.Count);
    }

    private static int[] Symbols(List<double> samples)
    {
        double[] known = [.. samples.Where(static v => !double.IsNaN(v)).Select(Math.Abs).Order()];
        double outer = known[known.Length * 85 / 100];
        return [.. samples.Select(v => double.IsNaN(v) ? 0 : v / outer > 0.67 ? 3 : v > 0 ? 1 : v / outer > -0.67 ? -1 : -3)];
    }

    private sealed record Eye(int Count, double RateBd, double Score, int[] Symbols, double? Outer);
}
