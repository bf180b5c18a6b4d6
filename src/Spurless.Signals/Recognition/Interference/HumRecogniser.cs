using Spurless.Signals.Dsp;
using Spurless.Signals.Recognition.Tones;

namespace Spurless.Signals.Recognition.Interference;

/// <summary>
/// Finds mains hum: lines at multiples of 50 or 60 Hz (within 0.6 %), three of them, or the fundamental alone. They must keep their size: a
/// voice of that pitch does not.
/// </summary>
internal static class HumRecogniser
{
    private const int Size = 2_048;
    private const int Hop = 1_024;
    private const int MostHarmonics = 8;
    private const double LineDb = 14;
    private const double Tolerance = 0.006;

    /// <summary>Finds the hum of a stretch.</summary>
    public static List<Finding> Find(Stretch stretch)
    {
        float[] x = stretch.Low;
        List<Finding> found = [];
        int length = Math.Min(Size, x.Length);
        if (length < 600)
        {
            return found;
        }

        PowerSpectrum spectrum = new(Size, length);
        float[] power = new float[Size / 2];
        float[] sorted = new float[160];
        double perBin = (double)Stretch.LowRate / Size;
        List<(Span Span, double Mains, int Lines)> hits = [];
        for (int at = 0; at + length <= x.Length; at += Hop)
        {
            spectrum.OfReal(x.AsSpan(at, length), power);
            foreach (double mains in new[] { 50.0, 60.0 })
            {
                (double hz, int lines) = Fit(power, sorted, mains, perBin, length);
                if (lines > 0)
                {
                    Span span = new((double)at / Stretch.LowRate, (double)(at + length) / Stretch.LowRate);
                    if (Steady(stretch, hz, span))
                    {
                        hits.Add((span, hz, lines));
                    }
                }
            }
        }

        foreach (IGrouping<bool, (Span Span, double Mains, int Lines)> group in hits.GroupBy(static h => h.Mains > 55))
        {
            foreach (Span span in Span.Join(group.Select(static h => h.Span), 0.2))
            {
                List<(Span Span, double Mains, int Lines)> inside = [.. group.Where(h => h.Span.Overlap(span) > 0)];
                double mains = inside.Average(static h => h.Mains);
                int lines = inside.Max(static h => h.Lines);
                Span edges = Edges(stretch, mains, span);
                found.Add(new Finding
                {
                    Kind = SignalKind.Hum,
                    StartS = stretch.StartS + edges.FromS,
                    EndS = stretch.StartS + edges.ToS,
                    Confidence = lines >= 4 ? 0.98 : 0.93,
                    ToneHz = mains,
                    Evidence = new Evidence { Lines = lines },
                });
            }
        }

        return found;
    }

    private static (double Hz, int Lines) Fit(float[] power, float[] sorted, double mains, double perBin, int length)
    {
        double weights = 0;
        double sum = 0;
        int lines = 0;
        bool fundamental = false;
        int strong = 0;
        for (int h = 1; h <= MostHarmonics && h * mains < 420; h++)
        {
            if (Harmonic(power, sorted, h * mains, perBin, length) is not { } line || Math.Abs(line.Hz / h / mains - 1) > Tolerance)
            {
                continue;
            }

            lines++;
            fundamental |= h == 1 && line.OverDb > 20;
            strong += line.OverDb > 25 ? 1 : 0;
            weights += h;
            sum += line.Hz;
        }

        // Multiples of 300 Hz are both mains'; 100 Hz alone may be a squelch tone.
        return lines >= 3 || fundamental && strong >= 1 ? (sum / weights, lines) : (0, 0);
    }

    /// <summary>The line near a frequency, and how far it stands over the noise round it; null where none does.</summary>
    private static (double Hz, double OverDb)? Harmonic(float[] power, float[] sorted, double about, double perBin, int length)
    {
        int centre = (int)Math.Round(about / perBin);
        int reach = Math.Max(2, (int)Math.Ceiling(about * Tolerance / perBin));
        int best = centre;
        for (int b = centre - reach; b <= centre + reach; b++)
        {
            best = power[b] > power[best] ? b : best;
        }

        if (power[best] < power[best - 1] || power[best] < power[best + 1])
        {
            return null;
        }

        int count = 0;
        for (int b = Math.Max(8, best - 44); b < Math.Min(power.Length, best + 45) && count < sorted.Length; b++)
        {
            if (Math.Abs(b - best) > 6 * Size / length)
            {
                sorted[count++] = power[b];
            }
        }

        double floor = Kernels.Nth(sorted.AsSpan(0, count), count / 2) / 0.69 + 1e-16;
        double over = 10 * Math.Log10(power[best] / floor);
        if (over < LineDb)
        {
            return null;
        }

        double a = Math.Log(power[best - 1] + 1e-20);
        double m = Math.Log(power[best] + 1e-20);
        double c = Math.Log(power[best + 1] + 1e-20);
        double den = a - 2 * m + c;
        return ((best + (den < 0 ? 0.5 * (a - c) / den : 0)) * perBin, over);
    }

    /// <summary>Whether the strongest two harmonics keep their size through the span.</summary>
    private static bool Steady(Stretch stretch, double mains, Span span)
    {
        List<(double Size, double Scatter)> sizes = [];
        for (int h = 1; h <= 6; h++)
        {
            ToneMeasure measure = new(stretch.Low, Stretch.LowRate, h * mains, span, 0.2);
            sizes.Add((measure.MeanSize(span), measure.Scatter(span)));
        }

        return sizes.OrderByDescending(static s => s.Size).Take(2).Average(static s => s.Scatter) < 0.3;
    }

    private static Span Edges(Stretch stretch, double mains, Span span)
    {
        Span wide = new(Math.Max(0, span.FromS - 1.2), Math.Min(stretch.LengthS, span.ToS + 1.2));
        ToneMeasure? strongest = null;
        for (int h = 1; h <= 6; h++)
        {
            ToneMeasure measure = new(stretch.Low, Stretch.LowRate, h * mains, wide, 0.1);
            if (strongest is null || measure.MeanSize(span) > strongest.MeanSize(span))
            {
                strongest = measure;
            }
        }

        Span edges = strongest!.Edges();
        return edges.LengthS > 0.3 ? new Span(Math.Max(0, edges.FromS - 0.05), Math.Min(stretch.LengthS, edges.ToS + 0.05)) : span;
    }
}
