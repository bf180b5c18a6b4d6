namespace Spurless.Signals.Recognition.Tones;

/// <summary>
/// Finds Morse: a tone keyed in dots and dashes of 1 to 3, with gaps of 1, 3 and 7 dots. Claimed where at least 85 % of the elements and
/// gaps fit one dot and every letter is one. An identification is sent to be read, so its text is given.
/// </summary>
internal static class MorseRecogniser
{
    private const double AverageS = 0.012;
    private const int LeastMarks = 5;

    /// <summary>How far the marks of one key's tone lie apart, rms, in hertz; syllables differ by more.</summary>
    private const double MostSpreadHz = 6;

    private const int LeastMeasured = 3;

    private const double HoleMarginS = 0.004;

    /// <summary>Finds Morse among the places where a tone comes and goes.</summary>
    public static List<Finding> Find(Stretch stretch, IReadOnlyList<Span> places)
    {
        List<Finding> found = [];
        foreach (Span place in places)
        {
            if (place.LengthS < 0.4)
            {
                continue;
            }

            foreach (double hz in Pitches(stretch, place))
            {
                ToneMeasure measure = new(stretch.Narrow, Stretch.NarrowRate, hz, place, AverageS);
                if (measure.Count < 2)
                {
                    continue;
                }

                double stepS = measure.TimeS(1) - measure.TimeS(0);
                bool[]? hole = stretch.InHole(measure.TimeS(0), 1 / stepS, measure.Count, AverageS / 2 + HoleMarginS);
                if (FromEnvelope([.. Enumerable.Range(0, measure.Count).Select(measure.Size)], stepS, measure.TimeS(0), hole) is { } keyed
                    && Alone(stretch, measure, keyed, hole) && PitchOf(stretch, hz, keyed) is { } pitch)
                {
                    found.Add(keyed with
                    {
                        StartS = stretch.StartS + keyed.StartS,
                        EndS = stretch.StartS + keyed.EndS,
                        ToneHz = pitch,
                    });
                    break;
                }
            }
        }

        return found;
    }

    /// <summary>
    /// Whether what else is in the speech band stays as it is while the key is down. Under a voice it rises with the line that looked
    /// keyed.
    /// </summary>
    private static bool Alone(Stretch stretch, ToneMeasure measure, Finding keyed, bool[]? hole)
    {
        int half = (int)(AverageS * Stretch.NarrowRate / 2);
        double[] sizes = [.. Enumerable.Range(0, measure.Count).Select(measure.Size)];
        double high = sizes.Order().ElementAt((int)(sizes.Length * 0.92));
        List<double> down = [];
        List<double> up = [];
        for (int k = 0; k < sizes.Length; k++)
        {
            int at = (int)(measure.TimeS(k) * Stretch.NarrowRate);
            if (hole?[k] == true || measure.TimeS(k) < keyed.StartS || measure.TimeS(k) > keyed.EndS
                || at < half || at + half > stretch.Speech.Length)
            {
                continue;
            }

            double rest = Math.Max(0, Dsp.Kernels.Power(stretch.Speech.AsSpan(at - half, 2 * half)) - sizes[k] * sizes[k] / 2);
            if (sizes[k] > 0.75 * high)
            {
                down.Add(rest);
            }
            else if (sizes[k] < 0.25 * high)
            {
                up.Add(rest);
            }
        }

        if (down.Count == 0 || up.Count == 0)
        {
            return false;
        }

        down.Sort();
        up.Sort();
        return down[down.Count / 2] < 3 * up[up.Count / 2] + 0.15 * high * high / 2;
    }

    /// <summary>Reads keying from a tone's size over time.</summary>
    /// <param name="size">The size, evenly spaced.</param>
    /// <param name="stepS">The spacing.</param>
    /// <param name="fromS">The moment of the first.</param>
    /// <param name="hole">Which of them a fade took; null for none.</param>
    public static Finding? FromEnvelope(double[] size, double stepS, double fromS, bool[]? hole = null)
    {
        if (size.Length < 20)
        {
            return null;
        }

        double[] sorted = [.. hole is null ? size.Order() : size.Where((_, k) => !hole[k]).Order()];
        if (sorted.Length < 20)
        {
            return null;
        }

        List<Span> holes = hole is null ? [] : Bridge(size, hole, stepS, fromS);
        double high = sorted[(int)(sorted.Length * 0.92)];
        double low = sorted[(int)(sorted.Length * 0.1)];
        if (high < 2.5 * low || high <= 0)
        {
            return null;
        }

        double threshold = low + 0.5 * (high - low);
        double back = low + 0.38 * (high - low);
        List<(double At, double For)> marks = [];
        bool on = false;
        double since = 0;
        for (int k = 1; k < size.Length; k++)
        {
            double edge = on ? back : threshold;
            if (!on && size[k] > threshold || on && size[k] < back)
            {
                double share = Math.Clamp((edge - size[k - 1]) / (size[k] - size[k - 1] + 1e-30), 0, 1);
                double t = fromS + (k - 1 + share) * stepS;
                if (on)
                {
                    marks.Add((since, t - since));
                }

                on = !on;
                since = t;
            }
        }

        if (on)
        {
            marks.Add((since, fromS + size.Length * stepS - since));
        }

        // Clicks of the noise are shorter than any dot (40 words a minute: 30 ms).
        marks.RemoveAll(static m => m.For < 0.014);
        for (int i = marks.Count - 1; i > 0; i--)
        {
            if (marks[i].At - (marks[i - 1].At + marks[i - 1].For) < 0.012)
            {
                marks[i - 1] = (marks[i - 1].At, marks[i].At + marks[i].For - marks[i - 1].At);
                marks.RemoveAt(i);
            }
        }

        return marks.Count < LeastMarks ? null : new MorseReader(marks, holes).Read();
    }

    /// <summary>
    /// Draws the size on through holes: on where it is on at both ends, off where it is off, else changing in the middle.
    /// </summary>
    private static List<Span> Bridge(double[] size, bool[] hole, double stepS, double fromS)
    {
        List<Span> holes = [];
        int k = 0;
        while (k < size.Length)
        {
            if (!hole[k])
            {
                k++;
                continue;
            }

            int from = k;
            while (k < size.Length && hole[k])
            {
                k++;
            }

            double before = from > 0 ? size[from - 1] : k < size.Length ? size[k] : 0;
            double after = k < size.Length ? size[k] : before;
            for (int n = from; n < k; n++)
            {
                size[n] = n < (from + k) / 2 ? before : after;
            }

            holes.Add(new Span(fromS + from * stepS, fromS + k * stepS));
        }

        return holes;
    }

    /// <summary>The frequencies at which something strong stands for part of the place.</summary>
    private static List<double> Pitches(Stretch stretch, Span place)
    {
        const int Size = 1_024;
        Dsp.PowerSpectrum spectrum = new(Size, Size);
        float[] power = new float[Size / 2];
        double[] sum = new double[Size / 2];
        int from = (int)(place.FromS * Stretch.NarrowRate);
        int to = Math.Min(stretch.Narrow.Length, (int)(place.ToS * Stretch.NarrowRate));
        for (int at = from; at + Size <= to; at += Size)
        {
            spectrum.OfReal(stretch.Narrow.AsSpan(at, Size), power);
            for (int b = 0; b < sum.Length; b++)
            {
                sum[b] += power[b];
            }
        }

        double perBin = (double)Stretch.NarrowRate / Size;
        double[] sorted = [.. sum.Skip(12).Take(340).Order()];
        double floor = sorted[sorted.Length / 2];
        List<(double Hz, double Power)> peaks = [];
        for (int b = (int)(250 / perBin); b < (int)(3_000 / perBin); b++)
        {
            if (sum[b] > sum[b - 1] && sum[b] >= sum[b + 1] && sum[b] > 6 * floor)
            {
                double d = (sum[b + 1] - sum[b - 1]) / (sum[b - 1] + sum[b] + sum[b + 1]);
                peaks.Add(((b + d) * perBin, sum[b]));
            }
        }

        return [.. peaks.OrderByDescending(static p => p.Power).Take(2).Select(static p => p.Hz)];
    }

    /// <summary>The pitch over the marks alone, where the phase can be followed; null where it is not one from mark to mark.</summary>
    private static double? PitchOf(Stretch stretch, double about, Finding keyed)
    {
        ToneMeasure measure = new(stretch.Narrow, Stretch.NarrowRate, about, new Span(keyed.StartS, keyed.EndS), AverageS, stretch);
        double strongest = Enumerable.Range(0, measure.Count).Select(measure.Size).DefaultIfEmpty(0).Max();
        double sum = 0;
        double squares = 0;
        double weight = 0;
        int marks = 0;
        int k = 0;
        while (k < measure.Count)
        {
            int from = k;
            while (k < measure.Count && measure.Size(k) > 0.5 * strongest)
            {
                k++;
            }

            if (k - from >= 6)
            {
                (double hz, _) = measure.Frequency(new Span(measure.TimeS(from), measure.TimeS(k - 1)));
                double w = Math.Pow(k - from, 3);
                sum += w * (hz - about);
                squares += w * (hz - about) * (hz - about);
                weight += w;
                marks++;
            }

            k = Math.Max(k, from + 1);
        }

        if (marks < LeastMeasured)
        {
            return null;
        }

        double off = sum / weight;
        return squares / weight - off * off < MostSpreadHz * MostSpreadHz ? about + off : null;
    }
}
