namespace Spurless.Signals.Recognition;

/// <summary>A carrier with nothing on it, by how much quieter it makes the receiver's noise.</summary>
internal static class Quieting
{
    private const double QuietingDb = 10;
    private const double LeastCarrierS = 0.7;
    private const double LeastLoudS = 0.4;

    /// <summary>The carriers among quiet places: those that last.</summary>
    public static IEnumerable<Finding> Carriers(Stretch stretch, ActivityMap map, List<Span> quiet) =>
        quiet.Where(static q => q.LengthS >= LeastCarrierS).Select(span => new Finding
        {
            Kind = SignalKind.Carrier,
            StartS = stretch.StartS + span.FromS,
            EndS = stretch.StartS + span.ToS,
            Confidence = 0.9,
            Evidence = new Evidence { QuietingDb = Loudest(map, []) - Level(map, span) },
        });

    /// <summary>Plain frames much quieter than the open receiver's noise, for 0.3 s or more: a carrier with nothing on it.</summary>
    public static List<Span> Find(ActivityMap map, List<Span> explained)
    {
        double loud = Loudest(map, explained);
        List<Span> quiet = [];
        if (double.IsNegativeInfinity(loud) || !IsOpenReceiver(map, loud))
        {
            return quiet;
        }

        foreach ((int from, int to) in map.PlainRuns(4))
        {
            int start = -1;
            for (int k = from; k <= to; k++)
            {
                bool isQuiet = k < to && map.SpeechDb[k] < loud - QuietingDb && map.TotalDb[k] > -85;
                if (isQuiet && start < 0)
                {
                    start = k;
                }
                else if (!isQuiet && start >= 0)
                {
                    if (k - start >= 5)
                    {
                        quiet.Add(new Span(start * ActivityMap.FrameS, k * ActivityMap.FrameS));
                    }

                    start = -1;
                }
            }
        }

        return quiet;
    }

    /// <summary>
    /// Whether the loud noise is that of the open receiver: it stands at an end of the stretch or for long. Loud and short between quiet,
    /// it is something sent that looks like noise.
    /// </summary>
    private static bool IsOpenReceiver(ActivityMap map, double loud)
    {
        const int Edge = 4;
        const int Long = 100;
        foreach ((int from, int to) in map.PlainRuns(6))
        {
            int loudFrames = Enumerable.Range(from, to - from).Count(k => map.SpeechDb[k] > loud - 3);
            bool atStart = from <= Edge && map.SpeechDb[from] > loud - 3;
            bool atEnd = to >= map.Count - Edge && map.SpeechDb[to - 1] > loud - 3;
            if (loudFrames >= 6 && (atStart || atEnd || loudFrames >= Long))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The level of the loudest noise that stands for a while, in dB.</summary>
    private static double Loudest(ActivityMap map, List<Span> explained)
    {
        List<double> levels = [];
        foreach ((int from, int to) in map.PlainRuns(6))
        {
            for (int k = from; k < to; k++)
            {
                Span frame = new(k * ActivityMap.FrameS, (k + 1) * ActivityMap.FrameS);
                if (!explained.Exists(s => s.Overlap(frame) > 0))
                {
                    levels.Add(map.SpeechDb[k]);
                }
            }
        }

        levels.Sort();
        int least = (int)(LeastLoudS / ActivityMap.FrameS);
        for (int i = levels.Count - 1; i >= least; i--)
        {
            if (levels[i] - levels[i - least] < 2.5)
            {
                return levels[i - least / 2];
            }
        }

        return double.NegativeInfinity;
    }

    /// <summary>Usual level of the noise between transmissions, in dB; null where there was none.</summary>
    public static double? UsualDb(ActivityMap map)
    {
        double[] levels = [.. map.PlainRuns(6).SelectMany(r => Enumerable.Range(r.From, r.To - r.From)).Select(k => map.SpeechDb[k])
            .Where(static db => db > -85).Order()];
        return levels.Length == 0 ? null : levels[levels.Length / 2];
    }

    private static double Level(ActivityMap map, Span span)
    {
        int from = (int)(span.FromS / ActivityMap.FrameS);
        int to = Math.Min(map.Count, (int)(span.ToS / ActivityMap.FrameS));
        return to > from ? Enumerable.Range(from, to - from).Average(k => map.SpeechDb[k]) : 0;
    }
}
