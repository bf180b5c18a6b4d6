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

    // Symbols of a raised cosine of roll-off 0.2 reach to 0.6 of their rate.
    private const double RollOff = 0.6;
    private const double Passed = 0.72;
    private const double LeastFiltered = 1_000;
    private const double MostFiltered = 6_000;

    // A third over the scatter of four levels, from which on they are claimed: evenly spread values have 1.7; of few symbols more is
    // wanted.
    private const double LeastFour = 2.35;
    private const double LeastFourOfFew = 2.7;
    private const int Many = 1_000;

    // Fewer are no proof: the pulses of a voice hold to one pitch for some tens of periods.
    private const int LeastTwoSymbols = 100;
    private const int LeastFourSymbols = 500;

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
            foreach (double rate in SymbolRates.Find(x, Rate, cut, hole))
            {
                if (Widest(x, rate, hole) is not { } eye)
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

    /// <summary>The eye as it stands, or behind a filter as wide as the rate needs where that opens it more.</summary>
    private static Eye? Widest(float[] x, double rateBd, bool[]? hole)
    {
        Eye? plain = Levels(x, rateBd, hole);
        if (plain is { Score: > 6 } || rateBd < LeastFiltered || rateBd > MostFiltered)
        {
            return plain;
        }

        float[] taps = BandPass.Design(0, Passed * rateBd, Rate, (int)(1.7 * Rate / (2 * (Passed - RollOff) * rateBd)));
        Eye? filtered = Levels(BandPass.Apply(x, taps), rateBd, hole);
        return plain is null || filtered?.Score > plain.Score ? filtered : plain;
    }

    private static Eye? Levels(float[] x, double rateBd, bool[]? hole)
    {
        List<double> all = SymbolClock.Sampled(x, Rate / rateBd, hole);
        List<double> samples = hole is null ? all : all.FindAll(static v => !double.IsNaN(v));
        if (samples.Count < LeastTwoSymbols)
        {
            return null;
        }

        double outer = samples.Select(Math.Abs).Order().ElementAt(samples.Count * 85 / 100);
        (double two, _) = Scatter(samples, [-1, 1]);
        (double four, double least) = Scatter(samples, [-1, -1.0 / 3, 1.0 / 3, 1]);

        // Two levels: scatter against half of their distance. Four: against a third of that, and each level must be used.
        double scoreTwo = 1 / (two + 1e-3);
        double scoreFour = least > 0.06 && samples.Count >= LeastFourSymbols ? 1.0 / 3 / (four + 1e-3) : 0;
        double leastFour = samples.Count < Many ? LeastFourOfFew : LeastFour;
        if (scoreTwo < 3.2 && scoreFour < leastFour || outer < 0.1)
        {
            return null;
        }

        int every = Every(all);
        if (samples.Count < LeastTwoSymbols * every)
        {
            return null;
        }

        bool isFour = scoreFour > leastFour && scoreTwo < 3.6;
        return isFour
            ? new Eye(4, rateBd / every, scoreFour * 1.5, Symbols(all), null)
            : scoreTwo >= 3.2 ? new Eye(2, rateBd / every, scoreTwo, [], null) : null;
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
