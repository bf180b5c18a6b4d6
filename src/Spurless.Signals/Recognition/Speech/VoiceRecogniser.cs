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

        double centre = voiced.Average(static f => f.CentroidHz);
        double spread = Math.Sqrt(voiced.Average(f => (f.CentroidHz - centre) * (f.CentroidHz - centre)));
        double levels = voiced.Average(static f => f.Db);
        double movement = Math.Sqrt(part.Average(f => Math.Pow(Math.Max(f.Db, levels - 20) - levels, 2)));
        double rate = Syllables(part) / lengthS;
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

    /// <summary>How often the level, smoothed over 60 ms, rises by more than 4 dB.</summary>
    private static int Syllables(List<Frame> part)
    {
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

        return rises;
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
        Correlator correlator = new();
        List<Frame> frames = [];
        int from = (int)(place.FromS * Stretch.NarrowRate);
        int to = Math.Min(x.Length, (int)(place.ToS * Stretch.NarrowRate));
        for (int at = from; at + Window <= to; at += Hop)
        {
            // What was said in a hole is not known: as before it.
            bool lost = frames.Count > 0 && stretch.TouchesHole(
                (double)at / Stretch.NarrowRate, (double)(at + Window) / Stretch.NarrowRate, HoleMarginS);
            frames.Add(lost ? frames[^1] : correlator.Measure(x.AsSpan(at, Window)));
        }

        // Voiced sounds stand over the quietest part; a steady signal has none.
        double loud = frames.Count == 0 ? 0 : frames.Select(static f => f.Db).Order().ElementAt(frames.Count * 9 / 10);
        return [.. frames.Select(f => f.Db < loud - 26 ? f with { Pitch = 0 } : f)];
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

    /// <summary>Measures one window after another; keeps working arrays.</summary>
    private sealed class Correlator
    {
        private readonly FastTransform _transform = new(Size);
        private readonly float[] _re = new float[Size];
        private readonly float[] _im = new float[Size];
        private readonly float[] _window = new float[Window];
        private readonly float[] _shape = new float[Size / 2];
        private readonly float[] _power = new float[Size / 2];

        public Correlator()
        {
            for (int n = 0; n < Window; n++)
            {
                _window[n] = (float)(0.5 - 0.5 * Math.Cos(2 * Math.PI * (n + 0.5) / Window));
            }

            // The window's own correlation, to take its fall out of the signal's.
            _window.CopyTo(_re, 0);
            Correlate();
            for (int k = 0; k < _shape.Length; k++)
            {
                _shape[k] = _re[k] / _re[0];
            }
        }

        /// <summary>Level, pitch and the middle of the spectrum of a window.</summary>
        public Frame Measure(ReadOnlySpan<float> x)
        {
            double energy = 0;
            for (int n = 0; n < Window; n++)
            {
                float v = x[n];
                energy += v * v;
                _re[n] = v * _window[n];
            }

            _re.AsSpan(Window).Clear();
            Correlate();
            double pitch = 0;
            double best = Periodic;
            for (int lag = Stretch.NarrowRate / 400; lag <= Stretch.NarrowRate / 70 && lag < Window * 0.6; lag++)
            {
                double r = _re[lag] / _re[0] / _shape[lag];
                if (r > best + 0.02 && _re[lag] >= _re[lag - 1] && _re[lag] >= _re[lag + 1])
                {
                    best = r;
                    pitch = (double)Stretch.NarrowRate / lag;
                }
            }

            (double centroid, double top) = Lines(_power, (double)Stretch.NarrowRate / Size);
            return new Frame(10 * Math.Log10(energy / Window + 1e-15), top > 0.9 ? 0 : pitch, centroid);
        }

        /// <summary>The autocorrelation by way of the spectrum, in place of the real parts; keeps the power of the lower half.</summary>
        private void Correlate()
        {
            _im.AsSpan().Clear();
            _transform.Forward(_re, _im);
            for (int k = 0; k < Size; k++)
            {
                _re[k] = _re[k] * _re[k] + _im[k] * _im[k];
            }

            _re.AsSpan(0, _power.Length).CopyTo(_power);
            _im.AsSpan().Clear();
            _transform.Forward(_re, _im);
        }
    }

    private readonly record struct Frame(double Db, double Pitch, double CentroidHz);
}
