using Spurless.Signals.Recognition;

namespace Spurless.Signals.Listening;

/// <summary>
/// Holes in audio: where a recorder dropped samples, or a squelch closed for a moment. Only a level that falls abruptly by 40 dB and comes
/// back abruptly within 0.3 s is one, and only where such falls are few: the gaps of keying, of Morse or of dialled digits, come too often.
/// A fade that the receiver fills with its own noise cannot be told from what is sent, and is none.
/// </summary>
internal static class AudioHoles
{
    private const double CellS = 0.0005;
    private const double LeastS = 0.003;
    private const double LongestS = 0.3;
    private const double AroundS = 1.5;
    private const double FallDb = 40;

    // The noise between transmissions may stand round 40 dB under them: a pause is told with some room.
    private const double PauseDb = 26;

    // Within a millisecond beside an edge: what dies away behind a filter of 300 Hz falls by 12 dB in that time.
    private const double EdgeDb = 20;
    private const int EdgeCells = 2;

    /// <summary>One step of 16 bits: what a recorder that drops samples writes for them.</summary>
    private const float Zero = 1.01f / 32_768;

    /// <summary>A long pause with more than this share of silence is one of silence: beside such a one gaps are the signal's own.</summary>
    private const double MostDead = 0.9;

    /// <summary>Of the time round it, less pauses with noise in them, the share that silence may take.</summary>
    private const double MostShare = 0.2;

    /// <summary>Finds the holes of audio, in seconds from its first sample, in order, apart.</summary>
    /// <param name="audio">The audio.</param>
    /// <param name="rateHz">Its samples a second.</param>
    public static List<Span> Find(ReadOnlySpan<float> audio, double rateHz)
    {
        int cell = Math.Max(1, (int)Math.Round(CellS * rateHz));
        float[] peaks = new float[audio.Length / cell];
        for (int k = 0; k < peaks.Length; k++)
        {
            foreach (float v in audio.Slice(k * cell, cell))
            {
                peaks[k] = Math.Max(peaks[k], Math.Abs(v));
            }
        }

        double cellS = cell / rateHz;
        float[] usual = Usual(peaks, (int)(AroundS / cellS));
        List<(int From, int To)> quiet = Quiet(peaks, usual, FallDb);
        List<(int From, int To)> pauses = Quiet(peaks, usual, PauseDb).FindAll(p => (p.To - p.From) * cellS > LongestS
            && Inside(quiet, p.From, p.To) < MostDead * (p.To - p.From));
        quiet.RemoveAll(q => pauses.Exists(p => p.From <= q.From && p.To >= q.To));
        List<Span> holes = [];
        foreach ((int from, int to) in quiet)
        {
            if ((to - from) * cellS is >= LeastS and <= LongestS && from > 0 && to < peaks.Length
                && IsLoud(peaks, usual[from], from - EdgeCells, from) && IsLoud(peaks, usual[to], to, to + EdgeCells)
                && Share(quiet, pauses, (from + to) / 2, (int)(AroundS / cellS), peaks.Length) <= MostShare)
            {
                holes.Add(new Span(from * cellS, to * cellS));
            }
        }

        return holes;
    }

    /// <summary>
    /// The usual peak round each cell: what a fifth of the cells within 1.5 s are over, since most of a recording may be pause.
    /// </summary>
    private static float[] Usual(float[] peaks, int around)
    {
        int step = Math.Max(1, around / 6);
        int stride = Math.Max(1, 2 * around / 400) | 1;
        float[] usual = new float[peaks.Length];
        List<float> part = [];
        for (int at = 0; at < peaks.Length; at += step)
        {
            part.Clear();
            for (int k = Math.Max(0, at + step / 2 - around); k < Math.Min(peaks.Length, at + step / 2 + around); k += stride)
            {
                part.Add(peaks[k]);
            }

            part.Sort();
            usual.AsSpan(at, Math.Min(step, peaks.Length - at)).Fill(part.Count == 0 ? 0 : part[part.Count * 4 / 5]);
        }

        return usual;
    }

    private static List<(int From, int To)> Quiet(float[] peaks, float[] usual, double fallDb)
    {
        float fall = (float)Math.Pow(10, -fallDb / 20);
        List<(int, int)> quiet = [];
        int since = -1;
        for (int k = 0; k <= peaks.Length; k++)
        {
            bool isQuiet = k < peaks.Length && usual[k] > 10 * Zero && peaks[k] < Math.Max(Zero, fall * usual[k]);
            if (isQuiet && since < 0)
            {
                since = k;
            }
            else if (!isQuiet && since >= 0)
            {
                quiet.Add((since, k));
                since = -1;
            }
        }

        return quiet;
    }

    /// <summary>Whether a signal stands right beside an edge: one that dies away, as behind a filter, does not.</summary>
    private static bool IsLoud(float[] peaks, float usual, int from, int to)
    {
        float edge = (float)Math.Pow(10, -EdgeDb / 20) * usual;
        for (int k = Math.Max(0, from); k < Math.Min(peaks.Length, to); k++)
        {
            if (peaks[k] > edge)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The share of quiet cells round one in the time that is no noisy pause.</summary>
    private static double Share(List<(int From, int To)> quiet, List<(int From, int To)> pauses, int at, int around, int cells)
    {
        int from = Math.Max(0, at - around);
        int to = Math.Min(cells, at + around);
        return (double)Inside(quiet, from, to) / Math.Max(1, to - from - Inside(pauses, from, to));
    }

    private static int Inside(List<(int From, int To)> of, int from, int to) =>
        of.Sum(q => Math.Max(0, Math.Min(to, q.To) - Math.Max(from, q.From)));
}
