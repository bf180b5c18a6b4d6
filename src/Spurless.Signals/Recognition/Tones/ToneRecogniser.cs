using System.Globalization;

namespace Spurless.Signals.Recognition.Tones;

/// <summary>Names the lines that stand alone: a call by two tones one after the other, or a steady tone.</summary>
internal static class ToneRecogniser
{
    private const double LeastS = 0.35;

    /// <summary>The second tone of a call lasts; a vowel does not.</summary>
    private const double LeastSecondS = 0.7;

    /// <summary>How much of a tone is in step with one frequency for a while: the harmonics of syllables in a row are not.</summary>
    internal const double LeastInStep = 0.8;

    private const double StepS = 0.7;

    /// <summary>Finds the calls of two tones; takes their lines out of the list.</summary>
    public static List<Finding> FindPairs(Stretch stretch, List<ToneTrack> tracks)
    {
        List<Finding> found = [];
        for (int i = 0; i < tracks.Count; i++)
        {
            ToneTrack first = tracks[i];
            if (!IsCallTone(first) || first.LengthS > 4 || !Alone(stretch, first))
            {
                continue;
            }

            ToneTrack? second = tracks
                .Where(t => t != first && IsCallTone(t) && Math.Abs(t.FromS - first.ToS) < 0.25 && t.ToS > first.ToS + 0.3
                    && Math.Abs(t.Hz / first.Hz - 1) > 0.02 && Math.Abs(t.LevelDb - first.LevelDb) < 12 && Alone(stretch, t))
                .MaxBy(static t => t.LevelDb);
            if (second is null)
            {
                continue;
            }

            (double hz1, Span at1) = Measure(stretch, first);
            (double hz2, Span at2) = Measure(stretch, second);
            if (at2.LengthS < LeastSecondS || InStep(stretch, hz1, at1) < LeastInStep || InStep(stretch, hz2, at2) < LeastInStep)
            {
                continue;
            }

            found.Add(new Finding
            {
                Kind = SignalKind.TwoTone,
                StartS = stretch.StartS + at1.FromS,
                EndS = stretch.StartS + at2.ToS,
                Confidence = first.LengthS > 0.6 && second.LengthS > 1 ? 0.97 : 0.9,
                ToneHz = hz1,
                Code = string.Create(CultureInfo.InvariantCulture, $"{hz1:0.0}/{hz2:0.0}"),
            });
            tracks.Remove(first);
            tracks.Remove(second);
            i = -1;
        }

        return found;
    }

    /// <summary>Names what is left as steady tones.</summary>
    public static List<Finding> FindSteady(Stretch stretch, IEnumerable<ToneTrack> tracks)
    {
        List<Finding> found = [];
        foreach (ToneTrack track in tracks)
        {
            if (track.LengthS < LeastS || track.WobbleHz > 3 + Math.Abs(track.DriftHz) || Math.Abs(track.DriftHz) > 12)
            {
                continue;
            }

            (double hz, Span at) = Measure(stretch, track);
            if (at.LengthS < LeastS || InStep(stretch, hz, at) < LeastInStep)
            {
                continue;
            }

            found.Add(new Finding
            {
                Kind = SignalKind.Tone,
                StartS = stretch.StartS + at.FromS,
                EndS = stretch.StartS + at.ToS,
                Confidence = track.LengthS > 0.8 && track.OverNoiseDb > 15 ? 0.97 : 0.88,
                ToneHz = hz,
                Evidence = new Evidence { DriftHz = track.DriftHz },
            });
        }

        return found;
    }

    /// <summary>The exact frequency and ends of a line.</summary>
    public static (double Hz, Span At) Measure(Stretch stretch, ToneTrack track)
    {
        Span wide = new(Math.Max(0, track.FromS - 0.25), Math.Min(stretch.LengthS, track.ToS + 0.25));
        ToneMeasure measure = new(stretch.Narrow, Stretch.NarrowRate, track.Hz, wide, 0.02);
        Span edges = measure.Edges();
        (double hz, _) = measure.Frequency(new Span(edges.FromS + 0.02, edges.ToS - 0.02));
        return (Math.Abs(hz - track.Hz) < 6 ? hz : track.Hz, edges);
    }

    /// <summary>
    /// The share of a tone that is in step with one frequency, 0 to 1: the mean over parts of some 0.7 s, in which a drift is none.
    /// </summary>
    internal static double InStep(Stretch stretch, double hz, Span at)
    {
        ToneMeasure measure = new(stretch.Narrow, Stretch.NarrowRate, hz, at, 0.02, stretch);
        int parts = Math.Max(1, (int)(at.LengthS / StepS));
        double partS = at.LengthS / parts;
        return Enumerable.Range(0, parts)
            .Average(k => measure.Frequency(new Span(at.FromS + k * partS, at.FromS + (k + 1) * partS)).Coherence);
    }

    /// <summary>Whether the line is half or more of what is in the speech band: a voice's harmonic is not.</summary>
    private static bool Alone(Stretch stretch, ToneTrack t)
    {
        int from = Math.Clamp((int)(t.FromS * Stretch.NarrowRate), 0, stretch.Speech.Length);
        int to = Math.Clamp((int)(t.ToS * Stretch.NarrowRate), from, stretch.Speech.Length);
        double noise = Math.Pow(10, (t.LevelDb - t.OverNoiseDb) / 10) * 3_100 / 8.8;
        double all = Dsp.Kernels.Power(stretch.Speech.AsSpan(from, to - from)) - noise;
        return Math.Pow(10, t.LevelDb / 10) > 0.5 * all;
    }

    private static bool IsCallTone(ToneTrack t) =>
        t.Hz is > 250 and < 3_400 && t.LengthS >= LeastS && t.WobbleHz < 3 && Math.Abs(t.DriftHz) < 6;
}
