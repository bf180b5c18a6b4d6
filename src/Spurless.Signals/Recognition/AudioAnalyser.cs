using Spurless.Signals.Dsp;
using Spurless.Signals.Recognition.Interference;
using Spurless.Signals.Recognition.Keying;
using Spurless.Signals.Recognition.Packet;
using Spurless.Signals.Recognition.Paging;
using Spurless.Signals.Recognition.Speech;
using Spurless.Signals.Recognition.Squelch;
using Spurless.Signals.Recognition.Tones;
using Spurless.Signals.Recognition.Traces;

namespace Spurless.Signals.Recognition;

/// <summary>What was found in one stretch of audio: the kinds, and where something is on the air.</summary>
/// <param name="Findings">The kinds, each with its times in seconds from the recording's start.</param>
/// <param name="OnAir">Where something other than noise or silence is, in seconds from the recording's start.</param>
/// <param name="NoiseDb">Usual level of the noise between transmissions in 300 to 3,400 Hz, dB of full scale; null where there was
/// none.</param>
internal sealed record AudioAnalysis(List<Finding> Findings, List<Span> OnAir, double? NoiseDb);

/// <summary>
/// Runs all recognisers over a stretch, the particular kinds first: what they explain is not looked at again by the general ones.
/// </summary>
internal static class AudioAnalyser
{
    private const double QuietingDb = 10;
    private const double LeastCarrierS = 0.7;
    private const double LeastLoudS = 0.4;
    private const double GatedPitch = 0.08;

    /// <summary>On one quiet carrier, what stands this near to speech and is no keying is the speaker's: words end there.</summary>
    private const double BesideVoiceS = 1.0;

    /// <summary>Analyses a stretch.</summary>
    /// <param name="stretch">The audio.</param>
    /// <param name="carrierKnown">Whether the stretch is one carrier's, so that all of it is on the air.</param>
    public static AudioAnalysis Analyse(Stretch stretch, bool carrierKnown = false)
    {
        ActivityMap map = ActivityMap.Of(stretch);
        List<Span> something = carrierKnown ? [new Span(0, stretch.LengthS)] : map.Something();
        stretch.Active = Places(stretch, map, something, carrierKnown);

        List<Finding> keyed = [];
        List<Finding>[] particular = new List<Finding>[6];
        Func<List<Finding>>[] recognisers =
        [
            () => PagingRecogniser.Find(stretch),
            () => AfskRecogniser.Find(stretch),
            () => ScrambledRecogniser.Find(stretch),
            () => DcsRecogniser.Find(stretch),
            () => DtmfRecogniser.Find(stretch),
            () => HumRecogniser.Find(stretch),
        ];
        Parallel.For(0, recognisers.Length, k => particular[k] = recognisers[k]());
        keyed.AddRange(particular.SelectMany(static f => f));
        List<Finding> data = keyed.FindAll(static f => f.Kind is SignalKind.Pocsag or SignalKind.Afsk1200 or SignalKind.Fsk9600);
        List<Finding> found = [.. keyed];
        List<Span> taken = Local(stretch, data);

        List<Finding> subTones = CtcssRecogniser.Find(stretch);
        subTones.RemoveAll(t => keyed.Exists(k => k.Kind is SignalKind.Dcs && Covers(k, t) || Is(k, data) && Covers(k, t)
            || k.Kind == SignalKind.Hum && OfHum(k, t) && Covers(k, t)));
        found.AddRange(subTones);

        // Lines, less those that keying, dialling or hum make.
        List<ToneTrack> tracks = ToneTracker.Find(stretch, 275, 0.3);
        List<Span> explained = [.. taken, .. Local(stretch, keyed.FindAll(static f => f.Kind == SignalKind.Dtmf))];
        List<Finding> hum = keyed.FindAll(static f => f.Kind == SignalKind.Hum);
        tracks.RemoveAll(t => explained.Exists(s => s.Overlap(t.Span) > 0.5 * t.LengthS)
            || hum.Exists(h => Local(stretch, h).Overlap(t.Span) > 0.4 * t.LengthS
                && Math.Abs(t.Hz / h.ToneHz!.Value - Math.Round(t.Hz / h.ToneHz.Value)) < 0.06));

        List<Span> open = Without(Span.Join([.. something.Select(s => Grow(stretch, s, 0.1)), .. tracks.Select(static t => t.Span)], 0.8),
            explained);
        open.RemoveAll(p => OnlyLow(stretch, p, found));
        List<Finding> combs = CombRecogniser.Find(stretch, tracks);
        found.AddRange(combs);

        // The lowest line of a comb is no squelch tone.
        found.RemoveAll(f => f.Kind == SignalKind.Ctcss
            && combs.Exists(c => Covers(c, f) && Math.Abs(
                f.ToneHz!.Value / c.ToneHz!.Value - Math.Round(f.ToneHz.Value / c.ToneHz.Value)) < 0.02));
        List<Span> combed = Local(stretch, combs);

        List<Span> keyable = [.. Without(open, combed).Select(s => Grow(stretch, s, 0.15))];
        List<Finding> morse = MorseRecogniser.Find(stretch, keyable);
        found.AddRange(morse);
        tracks.RemoveAll(t => morse.Exists(m => Local(stretch, m)
            .Overlap(t.Span) > 0.3 * t.LengthS && Math.Abs(t.Hz - m.ToneHz!.Value) < 30));

        List<Finding> calls = ToneRecogniser.FindPairs(stretch, tracks);
        found.AddRange(calls);
        List<Span> toned = [.. Local(stretch, calls), .. Local(stretch, morse)];

        List<Finding> voice = VoiceRecogniser.Find(stretch, Without(open, [.. toned, .. combed]));
        voice.RemoveAll(v => IsGated(stretch, v));
        found.AddRange(voice);
        List<Span> spoken = Local(stretch, voice);

        // Harmonics of a voice stand still for a while; a steady tone goes on.
        List<Finding> steady = ToneRecogniser.FindSteady(
            stretch, tracks.Where(t => !spoken.Exists(s => s.Overlap(t.Span) > 0.3 * t.LengthS) || t.LengthS > 1.5 && t.WobbleHz < 1.5));
        List<Finding> tones = Strongest(steady);

        List<Span> rest = Without(open, [.. toned, .. spoken, .. combed, .. Local(stretch, tones), .. Local(stretch, hum)]);
        foreach (Span place in rest)
        {
            Span core = Core(place, something, carrierKnown);
            if (core.LengthS < 0.15)
            {
                continue;
            }

            core = Edges.Refine(stretch, core);
            if (OnlyLow(stretch, core, found))
            {
                continue;
            }

            if (KeyingRecogniser.Find(stretch, core) is { } keying)
            {
                found.Add(keying);
            }
            else if (carrierKnown && spoken.Exists(s => s.FromS - core.ToS < BesideVoiceS && core.FromS - s.ToS < BesideVoiceS))
            {
                continue;
            }
            else if (core.LengthS >= 0.4 && !carrierKnown | !AllPlain(map, core) && ImpulseRecogniser.Find(stretch, core) is { } impulses)
            {
                found.Add(impulses);
            }
            else if (core.LengthS >= 1.0 && !AllPlain(map, core)
                && !found.Exists(f => Local(stretch, f).Overlap(core) > 0.3 * core.LengthS))
            {
                found.Add(Unknown(stretch, core));
            }
        }

        found.AddRange(tones.Where(t => !found.Exists(
            f => f.Kind is SignalKind.TwoLevelFsk or SignalKind.FourLevelFsk or SignalKind.Noise && Covers(f, t))));
        List<Span> quiet = carrierKnown ? [] : Quieting(map, Local(stretch, found));
        List<Span> onAir = [.. something.Where(static s => s.LengthS >= 0.15)
            .Select(s => Edges.Refine(stretch, s)), .. quiet, .. found.Select(f => Local(stretch, f))];
        foreach (Span span in quiet.Where(static q => q.LengthS >= LeastCarrierS))
        {
            found.Add(new Finding
            {
                Kind = SignalKind.Carrier,
                StartS = stretch.StartS + span.FromS,
                EndS = stretch.StartS + span.ToS,
                Confidence = 0.9,
                Evidence = new Evidence { QuietingDb = Loudest(map, []) - Level(map, span) },
            });
        }

        return new AudioAnalysis(
            [.. found.Where(f => stretch.Owns(f.StartS - stretch.StartS) || f.EndS > stretch.OwnFromS && f.StartS < stretch.OwnToS)
                .Select(f => TraceMaker.Traced(stretch, f))],
            [.. Span.Join(onAir, 0.1).Select(s => new Span(stretch.StartS + s.FromS, stretch.StartS + s.ToS))],
            Usual(map));
    }

    /// <summary>Whether it is arcing in step with the mains, whose pitch stays at twice the mains as no speaker's does.</summary>
    private static bool IsGated(Stretch stretch, Finding voice) =>
        voice.Evidence is { PitchLowHz: { } low, PitchHighHz: { } high }
        && ImpulseRecogniser.Find(stretch, Local(stretch, voice)) is { Evidence.GatedByHz: { } mains }
        && low > (1 - GatedPitch) * 2 * mains && high < (1 + GatedPitch) * 2 * mains;

    /// <summary>Of tones at once only the strongest is named; over time each.</summary>
    private static List<Finding> Strongest(List<Finding> tones)
    {
        List<Finding> kept = [];
        foreach (Finding tone in tones.OrderByDescending(static t => t.LengthS))
        {
            if (!kept.Exists(k => Covers(k, tone)))
            {
                kept.Add(tone);
            }
        }

        return kept;
    }

    private static List<Span> Places(Stretch stretch, ActivityMap map, List<Span> something, bool carrierKnown)
    {
        // A long recording that is mostly noise is looked at only where something is; a short one throughout.
        int plain = map.Plain.Count(static p => p);
        bool sparse = !carrierKnown && stretch.LengthS > 25 && plain > 0.5 * map.Count;
        return sparse ? [.. something.Where(static s => s.LengthS >= 0.15)] : [new Span(0, stretch.LengthS)];
    }

    /// <summary>Plain frames much quieter than the open receiver's noise, for 0.3 s or more: a carrier with nothing on it.</summary>
    private static List<Span> Quieting(ActivityMap map, List<Span> explained)
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

    private static double? Usual(ActivityMap map)
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

    private static bool AllPlain(ActivityMap map, Span span)
    {
        int from = (int)(span.FromS / ActivityMap.FrameS);
        int to = Math.Min(map.Count, (int)Math.Ceiling(span.ToS / ActivityMap.FrameS));
        int plain = 0;
        for (int k = from; k < to; k++)
        {
            plain += map.Plain[k] ? 1 : 0;
        }

        return plain > 0.7 * (to - from);
    }

    /// <summary>The part of a place in which something really is.</summary>
    private static Span Core(Span place, List<Span> something, bool carrierKnown)
    {
        if (carrierKnown)
        {
            return place;
        }

        List<Span> inside = [.. something.Select(s => new Span(Math.Max(s.FromS, place.FromS), Math.Min(s.ToS, place.ToS)))
            .Where(static s => s.LengthS > 0.1)];
        return inside.Count == 0 ? new Span(place.FromS, place.FromS) : new Span(inside[0].FromS, inside[^1].ToS);
    }

    /// <summary>Whether a squelch tone or code or hum is there and little over it.</summary>
    private static bool OnlyLow(Stretch stretch, Span span, List<Finding> found)
    {
        if (!found.Exists(f => f.Kind is SignalKind.Ctcss or SignalKind.Dcs or SignalKind.Hum && Local(stretch, f)
            .Overlap(span) > 0.5 * span.LengthS))
        {
            return false;
        }

        double low = Kernels.Power(stretch.Low.AsSpan(
            (int)(span.FromS * Stretch.LowRate)..Math.Min(stretch.Low.Length, (int)(span.ToS * Stretch.LowRate))));
        double speech = Kernels.Power(
            stretch.Speech.AsSpan((int)(span.FromS * Stretch.NarrowRate)..Math.Min(
                stretch.Speech.Length, (int)(span.ToS * Stretch.NarrowRate))));
        return speech < 0.5 * low;
    }

    private static Finding Unknown(Stretch stretch, Span span) => new()
    {
        Kind = SignalKind.Unknown,
        StartS = stretch.StartS + span.FromS,
        EndS = stretch.StartS + span.ToS,
        Confidence = 0.5,
        Evidence = new Evidence { BandwidthHz = Occupied.Width(stretch, span), TonesHz = Occupied.Lines(stretch, span) },
    };

    private static bool Is(Finding f, List<Finding> of) => of.Contains(f);

    private static bool Covers(Finding f, Finding of) => Math.Min(f.EndS, of.EndS) - Math.Max(f.StartS, of.StartS) > 0.3 * of.LengthS;

    private static bool OfHum(Finding hum, Finding tone)
    {
        double turn = tone.ToneHz!.Value / hum.ToneHz!.Value;
        return Math.Abs(turn - Math.Round(turn)) < 0.012 * Math.Max(1, Math.Round(turn)) / 2;
    }

    private static Span Local(Stretch stretch, Finding f) => new(f.StartS - stretch.StartS, f.EndS - stretch.StartS);

    private static List<Span> Local(Stretch stretch, List<Finding> findings) => Span.Join(findings.Select(f => Local(stretch, f)), 0);

    private static Span Grow(Stretch stretch, Span s, double by) => new(Math.Max(0, s.FromS - by), Math.Min(stretch.LengthS, s.ToS + by));

    /// <summary>What is left of some stretches of time when others are taken away.</summary>
    private static List<Span> Without(List<Span> spans, List<Span> less)
    {
        List<Span> left = [];
        List<Span> holes = Span.Join(less, 0);
        foreach (Span span in spans)
        {
            double from = span.FromS;
            foreach (Span hole in holes)
            {
                if (hole.ToS <= from || hole.FromS >= span.ToS)
                {
                    continue;
                }

                if (hole.FromS > from)
                {
                    left.Add(new Span(from, hole.FromS));
                }

                from = Math.Max(from, hole.ToS);
            }

            if (from < span.ToS)
            {
                left.Add(span with { FromS = from });
            }
        }

        return left;
    }
}
