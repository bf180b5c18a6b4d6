using Spurless.Signals.Dsp;
using Spurless.Signals.Recognition.Tones;

namespace Spurless.Signals.Recognition.Squelch;

/// <summary>
/// Finds squelch tones, alone or under other sound: a line of 60 to 260 Hz that keeps its frequency and its size for 0.75 s and lies within
/// 0.5 % of a tone of the table. Mains hum is told apart by its other harmonics.
/// </summary>
internal static class CtcssRecogniser
{
    /// <summary>
    /// The tones, in hertz: 67.0 to 254.1 (seen in public copies of a data sheet's table and two lists), with the extra ones.
    /// </summary>
    public static readonly double[] Tones =
    [
        67.0, 69.3, 71.9, 74.4, 77.0, 79.7, 82.5, 85.4, 88.5, 91.5, 94.8, 97.4, 100.0, 103.5, 107.2, 110.9, 114.8, 118.8, 123.0, 127.3,
            131.8, 136.5, 141.3,
        146.2, 151.4, 156.7, 159.8, 162.2, 167.9, 173.8, 179.9, 183.5, 186.2, 189.9, 192.8, 196.6, 199.5, 203.5, 206.5, 210.7, 218.1,
            225.7, 229.1, 233.6,
        241.8, 250.3, 254.1,
    ];

    private const int Window = 500;
    private const int Hop = 100;
    private const int Size = 2_048;
    private const double Tolerance = 0.0055;
    private const double MoreTolerance = 0.002;

    /// <summary>Finds the tones of a stretch.</summary>
    public static List<Finding> Find(Stretch stretch)
    {
        float[] x = stretch.Low;
        List<Finding> found = [];
        if (x.Length < Window)
        {
            return found;
        }

        double perBin = (double)Stretch.LowRate / Size;
        PowerSpectrum spectrum = new(Size, Window);
        float[] power = new float[Size / 2];
        int frames = (x.Length - Window) / Hop + 1;
        double[] hz = new double[frames];
        for (int k = 0; k < frames; k++)
        {
            spectrum.OfReal(x.AsSpan(k * Hop, Window), power);
            hz[k] = Line(power, perBin);
        }

        int from = 0;
        while (from < frames)
        {
            if (double.IsNaN(hz[from]))
            {
                from++;
                continue;
            }

            // As long as the line stays within 1.5 Hz, with gaps of up to 0.4 s.
            int last = from;
            int seen = 1;
            double mean = hz[from];
            for (int k = from + 1; k < frames && k - last <= 4; k++)
            {
                if (Math.Abs(hz[k] - mean) < 1.5)
                {
                    last = k;
                    seen++;
                    mean += (hz[k] - mean) / Math.Min(seen, 20);
                }
            }

            if (seen >= 3 && seen >= 0.6 * (last - from + 1)
                && Claim(stretch, x, mean, new Span(from * 0.1, last * 0.1 + 0.5)) is { } finding)
            {
                found.Add(finding);
            }

            from = last + 1;
        }

        return found;
    }

    /// <summary>The strongest line where it holds a good share of what is below 270 Hz, else not a number.</summary>
    private static double Line(float[] power, double perBin)
    {
        int lowest = (int)(55 / perBin);
        int highest = (int)(268 / perBin);
        int best = lowest;
        double total = 0;
        for (int b = lowest; b < highest; b++)
        {
            total += power[b];
            best = power[b] > power[best] ? b : best;
        }

        if (best <= lowest + 1 || best >= highest - 1 || total < 1e-13)
        {
            return double.NaN;
        }

        double line = 0;
        for (int b = Math.Max(0, best - 8); b <= best + 8; b++)
        {
            line += power[b];
        }

        if (line < 0.35 * total)
        {
            return double.NaN;
        }

        double a = Math.Log(power[best - 1] + 1e-20);
        double m = Math.Log(power[best] + 1e-20);
        double c = Math.Log(power[best + 1] + 1e-20);
        double den = a - 2 * m + c;
        return (best + (den < 0 ? 0.5 * (a - c) / den : 0)) * perBin;
    }

    private static Finding? Claim(Stretch stretch, float[] x, double about, Span span)
    {
        Span wide = new(Math.Max(0, span.FromS - 0.4), Math.Min(stretch.LengthS, span.ToS + 0.4));
        ToneMeasure measure = new(x, Stretch.LowRate, about, wide, 0.08, stretch);
        Span edges = measure.Edges();
        Span inner = new(edges.FromS + 0.08, edges.ToS - 0.08);
        if (edges.LengthS < 0.75)
        {
            return null;
        }

        (double hz, double coherence) = measure.Frequency(inner);
        double nearest = Tones.MinBy(t => Math.Abs(t - hz));
        double tolerance = edges.LengthS < 1 ? Tolerance + MoreTolerance : Tolerance;
        if (Math.Abs(hz / nearest - 1) > tolerance || coherence < 0.75 || measure.Scatter(inner) > 0.42)
        {
            return null;
        }

        return new Finding
        {
            Kind = SignalKind.Ctcss,
            StartS = stretch.StartS + edges.FromS,
            EndS = stretch.StartS + edges.ToS,
            Confidence = coherence > 0.95 && edges.LengthS > 1 ? 0.99 : 0.93,
            ToneHz = hz,
            Code = nearest.ToString("0.0", System.Globalization.CultureInfo.InvariantCulture),
            Evidence = new Evidence { ToneDeviationHz = measure.MeanSize(inner) },
        };
    }
}
