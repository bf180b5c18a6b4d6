using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Speech;

/// <summary>
/// Finds speech by what it is made of: voiced sounds (many harmonics of a pitch of 70 to 400 Hz), whose level and spectrum move at the
/// speed of syllables. Single sideband that is off by some hertz keeps the spacing of its harmonics, which is why the pitch is taken from
/// the envelope's too.
/// </summary>
internal static class VoiceRecogniser
{
    private const int Window = 512;
    private const int Size = 1_024;
    private const int Hop = 240;
    private const double HopS = (double)Hop / Stretch.NarrowRate;
    private const double Periodic = 0.42;
    private const double LeastS = 0.5;
    private const double HoleMarginS = 0.004;

    /// <summary>Finds the speech in some places of a stretch.</summary>
    public static List<Finding> Find(Stretch stretch, IReadOnlyList<Span> places)
    {
        List<Finding> found = [];
        foreach (Span place in places)
        {
            if (place.LengthS < LeastS)
            {
                continue;
            }

            List<Frame> frames = Measure(stretch, place);

            // Speech hangs together: phrases with pauses of up to 1.4 s.
            int first = -1;
            int last = -1;
            for (int k = 0; k <= frames.Count; k++)
            {
                bool voiced = k < frames.Count && frames[k].Pitch > 0;
                if (first >= 0 && (k == frames.Count || voiced && k - last > 1.4 / HopS))
                {
                    if (Claim(stretch, place, frames, first, last) is { } finding)
                    {
                        found.Add(finding);
                    }

                    first = -1;
                }

                if (voiced)
                {
                    first = first < 0 ? k : first;
                    last = k;
                }
            }
        }

        return found;
    }

    private static Finding? Claim(Stretch stretch, Span place, List<Frame> frames, int first, int last)
    {
        int count = last - first + 1;
        List<Frame> part = frames.GetRange(first, count);
        double lengthS = count * HopS;
        if (lengthS < 0.3)
        {
            return null;
        }

        List<Frame> voiced = part.FindAll(static f => f.Pitch > 0);
        double share = (double)voiced.Count / count;
        double[] pitches = [.. voiced.Select(static f => f.Pitch).Order()];

        // Syllables: how often the level, smoothed over 60 ms, rises by 5 dB or more.
        int rises = 0;
        double low = part[0].Db;
        double high = part[0].Db;
        bool rising = false;
        foreach (double db in Smooth(part))
        {
            if (rising)
            {
                high = Math.Max(high, db);
                if (db < high - 4)
                {
                    rising = false;
                    low = db;
                }
            }
            else
            {
                low = Math.Min(low, db);
                if (db > low + 4)
                {
                    rising = true;
                    rises++;
                    high = db;
                }
            }
        }

        double centre = voiced.Average(static f => f.CentroidHz);
        double spread = Math.Sqrt(voiced.Average(f => (f.CentroidHz - centre) * (f.CentroidHz - centre)));
        double levels = voiced.Average(static f => f.Db);
        double movement = Math.Sqrt(part.Average(f => Math.Pow(Math.Max(f.Db, levels - 20) - levels, 2)));
        double rate = rises / lengthS;
        bool moves = movement > 2.2 && spread > 60;
        if (share < 0.18 || voiced.Count < 12 || !moves || rate is < 0.7 or > 12)
        {
            return null;
        }

        double score = Math.Min(1, share / 0.5) * Math.Min(1, spread / 150) * Math.Min(1, movement / 4);
        return new Finding
        {
            Kind = SignalKind.Voice,
            StartS = stretch.StartS + place.FromS + first * HopS,
            EndS = stretch.StartS + place.FromS + last * HopS + (double)Window / Stretch.NarrowRate,
            Confidence = 0.8 + 0.18 * score,
            Evidence = new Evidence
            {
                VoicedShare = share,
                PitchLowHz = pitches[pitches.Length / 10],
                PitchHighHz = pitches[Math.Min(pitches.Length - 1, pitches.Length * 9 / 10)],
            },
        };
    }

    private static IEnumerable<double> Smooth(List<Frame> part)
    {
        for (int k = 0; k < part.Count; k++)
        {
            int a = Math.Max(0, k - 1);
            int b = Math.Min(part.Count - 1, k + 1);
            double sum = 0;
            for (int j = a; j <= b; j++)
            {
                sum += part[j].Db;
            }

            yield return sum / (b - a + 1);
        }
    }

    private static List<Frame> Measure(Stretch stretch, Span place)
    {
        float[] x = stretch.Speech;
        FastTransform fft = new(Size);
        float[] re = new float[Size];
        float[] im = new float[Size];
        float[] window = new float[Window];
        float[] shape = new float[Size / 2];
        double perBin = (double)Stretch.NarrowRate / Size;
        for (int n = 0; n < Window; n++)
        {
            window[n] = (float)(0.5 - 0.5 * Math.Cos(2 * Math.PI * (n + 0.5) / Window));
        }

        // The window's own correlation, to take its fall out of the signal's.
        window.CopyTo(re, 0);
        Correlate(fft, re, im, null);
        for (int k = 0; k < shape.Length; k++)
        {
            shape[k] = re[k] / re[0];
        }

        List<Frame> frames = [];
        int from = (int)(place.FromS * Stretch.NarrowRate);
        int to = Math.Min(x.Length, (int)(place.ToS * Stretch.NarrowRate));
        double quiet = double.PositiveInfinity;
        float[] power = new float[Size / 2];
        for (int at = from; at + Window <= to; at += Hop)
        {
            // What was said in a hole is not known: as before it.
            if (frames.Count > 0 && stretch.TouchesHole(
                (double)at / Stretch.NarrowRate, (double)(at + Window) / Stretch.NarrowRate, HoleMarginS))
            {
                frames.Add(frames[^1]);
                continue;
            }

            double energy = 0;
            for (int n = 0; n < Window; n++)
            {
                float v = x[at + n];
                energy += v * v;
                re[n] = v * window[n];
            }

            double db = 10 * Math.Log10(energy / Window + 1e-15);
            quiet = Math.Min(quiet, db);
            re.AsSpan(Window).Clear();
            Correlate(fft, re, im, power);
            double pitch = 0;
            double best = Periodic;
            for (int lag = Stretch.NarrowRate / 400; lag <= Stretch.NarrowRate / 70 && lag < Window * 0.6; lag++)
            {
                double r = re[lag] / re[0] / shape[lag];
                if (r > best + 0.02 && re[lag] >= re[lag - 1] && re[lag] >= re[lag + 1])
                {
                    best = r;
                    pitch = (double)Stretch.NarrowRate / lag;
                }
            }

            (double centroid, double top) = Lines(power, perBin);
            frames.Add(new Frame(db, top > 0.9 ? 0 : pitch, centroid));
        }

        // Voiced sounds stand over the quietest part; a steady signal has none.
        double loud = frames.Count == 0 ? 0 : frames.Select(static f => f.Db).Order().ElementAt(frames.Count * 9 / 10);
        return [.. frames.Select(f => f.Db < loud - 26 ? f with { Pitch = 0 } : f)];
    }

    /// <summary>The autocorrelation by way of the spectrum, in <paramref name="re"/>; the power of the lower half where wanted.</summary>
    private static void Correlate(FastTransform fft, float[] re, float[] im, float[]? power)
    {
        im.AsSpan().Clear();
        fft.Forward(re, im);
        for (int k = 0; k < re.Length; k++)
        {
            re[k] = re[k] * re[k] + im[k] * im[k];
        }

        if (power is not null)
        {
            re.AsSpan(0, power.Length).CopyTo(power);
        }

        im.AsSpan().Clear();
        fft.Forward(re, im);
    }

    /// <summary>Middle of the power, and the share of it in the two strongest lines.</summary>
    private static (double CentroidHz, double Top) Lines(float[] power, double perBin)
    {
        double sum = 1e-20;
        double moment = 0;
        int a = 0;
        for (int b = 4; b < power.Length; b++)
        {
            sum += power[b];
            moment += power[b] * b * perBin;
            a = power[b] > power[a] ? b : a;
        }

        int second = 0;
        for (int b = 4; b < power.Length; b++)
        {
            if (Math.Abs(b - a) > 4 && (second == 0 || power[b] > power[second]))
            {
                second = b;
            }
        }

        double lines = 0;
        for (int d = -3; d <= 3; d++)
        {
            lines += a + d >= 0 && a + d < power.Length ? power[a + d] : 0;
            lines += second + d >= 0 && second + d < power.Length && Math.Abs(second + d - a) > 3 ? power[second + d] : 0;
        }

        return (moment / sum, lines / sum);
    }

    private readonly record struct Frame(double Db, double Pitch, double CentroidHz);
}
