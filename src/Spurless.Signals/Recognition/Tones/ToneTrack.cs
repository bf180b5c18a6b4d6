using Spurless.Signals.Dsp;

namespace Spurless.Signals.Recognition.Tones;

/// <summary>A line that stands for a while.</summary>
/// <param name="FromS">When it begins, in seconds from the stretch's start.</param>
/// <param name="ToS">When it ends.</param>
/// <param name="Hz">Its mean frequency.</param>
/// <param name="DriftHz">How far its frequency moved, from the first to the last third.</param>
/// <param name="WobbleHz">How far its frequency scatters, rms.</param>
/// <param name="LevelDb">Its level, in dB of full scale.</param>
/// <param name="OverNoiseDb">How far it stands over the noise in one bin.</param>
internal sealed record ToneTrack(double FromS, double ToS, double Hz, double DriftHz, double WobbleHz, double LevelDb, double OverNoiseDb)
{
    /// <summary>How long.</summary>
    public double LengthS => ToS - FromS;

    /// <summary>Its stretch of time.</summary>
    public Span Span => new(FromS, ToS);
}

/// <summary>
/// Follows lines through spectra of 171 ms, a quarter of that apart: a line is a local maximum 11 dB over the noise round it; it goes on
/// while it moves by less than 8 Hz from spectrum to spectrum.
/// </summary>
internal static class ToneTracker
{
    private const int Size = 2_048;
    private const int Hop = 512;
    private const double Threshold = 12.6;
    private const int MostLines = 24;
    private const double HopS = (double)Hop / Stretch.NarrowRate;
    private const double HalfS = Size / 2.0 / Stretch.NarrowRate;

    /// <summary>Finds the lines of a stretch from a frequency on that last at least so long.</summary>
    public static List<ToneTrack> Find(Stretch stretch, double lowestHz, double leastS)
    {
        float[] x = stretch.Narrow;
        PowerSpectrum spectrum = new(Size, Size);
        float[] power = new float[Size / 2];
        LineFloor floor = new(Size / 2, 32);
        double perBin = (double)Stretch.NarrowRate / Size;
        List<Course> open = [];
        List<Course> done = [];
        List<(double Hz, double Db, double Over)> peaks = [];
        int frames = Math.Max(0, (x.Length - Size) / Hop + 1);
        for (int k = 0; k < frames; k++)
        {
            spectrum.OfReal(x.AsSpan(k * Hop, Size), power);
            Peaks(power, floor, (int)Math.Ceiling(lowestHz / perBin), (int)(Math.Min(5_000, stretch.TopHz) / perBin), perBin, peaks);
            foreach (Course course in open)
            {
                course.Seen = false;
            }

            foreach ((double hz, double db, double over) in peaks)
            {
                Course? near = null;
                foreach (Course course in open)
                {
                    if (!course.Seen && Math.Abs(course.Hz - hz) < 8 && (near is null || Math.Abs(course.Hz - hz) < Math.Abs(near.Hz - hz)))
                    {
                        near = course;
                    }
                }

                if (near is null)
                {
                    near = new Course();
                    open.Add(near);
                }

                near.Add(k, hz, db, over);
            }

            for (int i = open.Count - 1; i >= 0; i--)
            {
                if (k - open[i].Last > 1)
                {
                    done.Add(open[i]);
                    open.RemoveAt(i);
                }
            }
        }

        done.AddRange(open);
        return
        [
            .. done.Where(c => c.Frames.Count >= 3 && (c.Last - c.First) * HopS + HalfS >= leastS)
                .Select(c => c.ToTrack(HopS, HalfS))
                .OrderBy(static t => t.FromS).ThenBy(static t => t.Hz),
        ];
    }

    private static void Peaks(float[] power, LineFloor floor, int lowest, int highest, double perBin,
        List<(double Hz, double Db, double Over)> peaks)
    {
        peaks.Clear();
        lowest = Math.Max(4, lowest);
        floor.Measure(power, lowest, highest);
        for (int bin = lowest; bin < highest; bin++)
        {
            // Few stand so far over the noise; every third is more than its neighbours.
            float v = power[bin];
            float noise = floor.At(bin);
            if (v < Threshold * noise || v < 1e-11f || v <= power[bin - 1] || v < power[bin + 1])
            {
                continue;
            }

            double a = Math.Log(power[bin - 1] + 1e-20);
            double b = Math.Log(v + 1e-20);
            double c = Math.Log(power[bin + 1] + 1e-20);
            double den = a - 2 * b + c;
            double d = den < 0 ? 0.5 * (a - c) / den : 0;
            double line = power[bin - 1] + v + power[bin + 1];
            peaks.Add(((bin + d) * perBin, 10 * Math.Log10(line), 10 * Math.Log10(v / (noise + 1e-20))));
        }

        // Side lobes of a strong line are none of their own.
        peaks.Sort(static (p, q) => q.Db.CompareTo(p.Db));
        if (peaks.Count > 0)
        {
            double strongest = peaks[0].Db;
            peaks.RemoveAll(p => p.Db < strongest - 45);
        }

        if (peaks.Count > MostLines)
        {
            peaks.RemoveRange(MostLines, peaks.Count - MostLines);
        }
    }

    private sealed class Course
    {
        public List<(int Frame, double Hz, double Db, double Over)> Frames { get; } = [];

        public double Hz { get; private set; }

        public int First => Frames[0].Frame;

        public int Last => Frames[^1].Frame;

        public bool Seen { get; set; }

        public void Add(int frame, double hz, double db, double over)
        {
            Frames.Add((frame, hz, db, over));
            Hz = hz;
            Seen = true;
        }

        public ToneTrack ToTrack(double hopS, double halfS)
        {
            // Spectra at the edges hold the line in part; the strong ones tell its frequency.
            double strongest = Frames.Max(static f => f.Db);
            List<(int Frame, double Hz, double Db, double Over)> strong = Frames.FindAll(f => f.Db > strongest - 4);
            double hz = strong.Average(static f => f.Hz);
            double wobble = Math.Sqrt(strong.Average(f => (f.Hz - hz) * (f.Hz - hz)));
            int third = Math.Max(1, strong.Count / 3);
            double drift = strong.TakeLast(third).Average(static f => f.Hz) - strong.Take(third).Average(static f => f.Hz);

            // The line begins where half of the window is in it.
            int first = Frames.Find(f => f.Db > strongest - 7).Frame;
            int last = Frames.FindLast(f => f.Db > strongest - 7).Frame;
            return new ToneTrack(
                first * hopS + halfS - hopS / 2, last * hopS + halfS + hopS / 2, hz, drift, wobble, strong.Average(static f => f.Db),
                    Frames.Max(static f => f.Over));
        }
    }
}
