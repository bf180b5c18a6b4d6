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
internal sealed class AudioAnalyser
{
    private const double GatedPitch = 0.08;
    private const double ShortCodeS = 69 / 134.4;
    private const double FlagHz = 1_200 / 8.0;
    private const double OffFlagHz = 1.5;

    /// <summary>On one quiet carrier, what stands this near to speech and is no keying is the speaker's: words end there.</summary>
    private const double BesideVoiceS = 1.0;

    /// <summary>Beyond what joins places: seven dots of slow Morse, ten words a minute, part its words by 0.84 s.</summary>
    private const double WordGapS = 0.8;

    private readonly Stretch _stretch;
    private readonly bool _carrierKnown;
    private readonly ActivityMap _map;
    private readonly List<Span> _something;
    private readonly List<Finding> _found = [];

    private AudioAnalyser(Stretch stretch, bool carrierKnown)
    {
        _stretch = stretch;
        _carrierKnown = carrierKnown;
        _map = ActivityMap.Of(stretch);
        _something = carrierKnown ? [new Span(0, stretch.LengthS)] : _map.Something();
        stretch.Active = Places(stretch, _map, _something, carrierKnown);
    }

    /// <summary>Analyses a stretch.</summary>
    /// <param name="stretch">The audio.</param>
    /// <param name="carrierKnown">Whether the stretch is one carrier's, so that all of it is on the air.</param>
    public static AudioAnalysis Analyse(Stretch stretch, bool carrierKnown = false) => new AudioAnalyser(stretch, carrierKnown).Run();

    private AudioAnalysis Run()
    {
        List<Finding> keyed = Particular();
        List<Finding> hum = keyed.FindAll(static f => f.Kind == SignalKind.Hum);
        List<Span> explained = [.. Local(_stretch, Data(keyed)), .. Local(_stretch, keyed.FindAll(static f => f.Kind == SignalKind.Dtmf))];
        _found.AddRange(keyed);
        _found.AddRange(SubTones(keyed));
        List<ToneTrack> tracks = Tracks(explained, hum);
        List<Span> open = Without(
            Span.Join([.. _something.Select(s => Grow(_stretch, s, 0.1)), .. tracks.Select(static t => t.Span)], 0.8), explained);
        open.RemoveAll(p => OnlyLow(_stretch, p, _found));
        List<Span> combed = Combs(tracks);
        List<Span> toned = Toned(open, combed, tracks);

        List<Finding> voice = VoiceRecogniser.Find(_stretch, Without(open, [.. toned, .. combed]));
        voice.RemoveAll(v => IsGated(_stretch, v));
        _found.AddRange(voice);
        List<Span> spoken = Local(_stretch, voice);

        // Harmonics of a voice stand still for a while; a steady tone goes on.
        List<Finding> tones = Strongest(ToneRecogniser.FindSteady(
            _stretch, tracks.Where(t => !spoken.Exists(s => s.Overlap(t.Span) > 0.3 * t.LengthS) || t.LengthS > 1.5 && t.WobbleHz < 1.5)));
        foreach (Span place in Without(open, [.. toned, .. spoken, .. combed, .. Local(_stretch, tones), .. Local(_stretch, hum)]))
        {
            if (General(place, spoken) is { } general)
            {
                _found.Add(general);
            }
        }

        _found.AddRange(tones.Where(t => !_found.Exists(
            f => f.Kind is SignalKind.TwoLevelFsk or SignalKind.FourLevelFsk or SignalKind.Noise && Covers(f, t))));
        return Result();
    }

    /// <summary>Kinds that are claimed by what their standards define, each by itself.</summary>
    private List<Finding> Particular()
    {
        Func<List<Finding>>[] recognisers =
        [
            () => PagingRecogniser.Find(_stretch),
            () => AfskRecogniser.Find(_stretch),
            () => ScrambledRecogniser.Find(_stretch),
            () => DcsRecogniser.Find(_stretch),
            () => DtmfRecogniser.Find(_stretch),
            () => HumRecogniser.Find(_stretch),
        ];
        List<Finding>[] particular = new List<Finding>[recognisers.Length];
        Parallel.For(0, recognisers.Length, k => particular[k] = recognisers[k]());

        // Two tones a multiple of 150 Hz apart repeat every eight bits as flags do: among digits only a frame is packet.
        List<Finding> all = [.. particular.SelectMany(static f => f)];
        all.RemoveAll(f => f is { Kind: SignalKind.Afsk1200, UnitsGood: 0 }
            && all.Exists(d => d.Kind == SignalKind.Dtmf && Covers(d, f)));
        return all;
    }

    private static List<Finding> Data(List<Finding> keyed) =>
        keyed.FindAll(static f => f.Kind is SignalKind.Pocsag or SignalKind.Afsk1200 or SignalKind.Fsk9600);

    /// <summary>Squelch tones, less those that codes, data or hum make.</summary>
    private List<Finding> SubTones(List<Finding> keyed)
    {
        List<Finding> subTones = CtcssRecogniser.Find(_stretch);
        List<Finding> data = Data(keyed);
        subTones.RemoveAll(t => keyed.Exists(k => k.Kind is SignalKind.Dcs && Covers(k, t) || data.Contains(k) && Covers(k, t)
            || k.Kind == SignalKind.Hum && OfHum(k, t) && Covers(k, t)));
        return subTones;
    }

    /// <summary>Lines, less those that keying, dialling or hum make.</summary>
    private List<ToneTrack> Tracks(List<Span> explained, List<Finding> hum)
    {
        List<ToneTrack> tracks = ToneTracker.Find(_stretch, 275, 0.3);
        tracks.RemoveAll(t => explained.Exists(s => s.Overlap(t.Span) > 0.5 * t.LengthS)
            || hum.Exists(h => Local(_stretch, h).Overlap(t.Span) > 0.4 * t.LengthS
                && Math.Abs(t.Hz / h.ToneHz!.Value - Math.Round(t.Hz / h.ToneHz.Value)) < 0.06));
        return tracks;
    }

    /// <summary>Where combs are; the lowest line of one is no squelch tone.</summary>
    private List<Span> Combs(List<ToneTrack> tracks)
    {
        List<Finding> combs = CombRecogniser.Find(_stretch, tracks);
        _found.AddRange(combs);
        _found.RemoveAll(f => f.Kind == SignalKind.Ctcss
            && combs.Exists(c => Covers(c, f) && Math.Abs(
                f.ToneHz!.Value / c.ToneHz!.Value - Math.Round(f.ToneHz.Value / c.ToneHz.Value)) < 0.02));

        // Flags in a row repeat every eight bits: lines that are no multiples of that apart are none of theirs.
        _found.RemoveAll(f => f is { Kind: SignalKind.Afsk1200, UnitsChecked: 0 } && combs.Exists(c => Covers(c, f)
            && Math.Abs(c.ToneHz!.Value - FlagHz * Math.Round(c.ToneHz.Value / FlagHz)) > OffFlagHz));

        // For less than three words of a code its lowest line reads as one.
        _found.RemoveAll(f => f.Kind == SignalKind.Dcs && f.LengthS < ShortCodeS && combs.Exists(c => Covers(c, f)));
        return Local(_stretch, combs);
    }

    /// <summary>Where Morse and calls by two tones are; their lines leave the list.</summary>
    private List<Span> Toned(List<Span> open, List<Span> combed, List<ToneTrack> tracks)
    {
        List<Span> places = [.. Without(open, combed).Select(s => Grow(_stretch, s, 0.15))];
        List<Span> joined = Span.Join(places, WordGapS);
        List<Finding> morse = MorseRecogniser.Find(_stretch, joined);

        // What stands near something else that is no Morse is looked at by itself.
        morse.AddRange(MorseRecogniser.Find(_stretch, places.FindAll(
            p => !joined.Contains(p) && !morse.Exists(m => Local(_stretch, m).Overlap(p) > 0))));
        _found.AddRange(morse);
        tracks.RemoveAll(t => morse.Exists(m => Local(_stretch, m)
            .Overlap(t.Span) > 0.3 * t.LengthS && Math.Abs(t.Hz - m.ToneHz!.Value) < 30));
        List<Finding> calls = ToneRecogniser.FindPairs(_stretch, tracks);
        _found.AddRange(calls);
        return [.. Local(_stretch, calls), .. Local(_stretch, morse)];
    }

    /// <summary>What a place is that no particular kind explains; null for nothing of its own.</summary>
    private Finding? General(Span place, List<Span> spoken)
    {
        Span core = Core(place, _something, _carrierKnown);
        if (core.LengthS < 0.15)
        {
            return null;
        }

        core = Edges.Refine(_stretch, core);
        if (OnlyLow(_stretch, core, _found))
        {
            return null;
        }

        if (KeyingRecogniser.Find(_stretch, core) is { } keying)
        {
            return keying;
        }

        if (_carrierKnown && spoken.Exists(s => s.FromS - core.ToS < BesideVoiceS && core.FromS - s.ToS < BesideVoiceS))
        {
            return null;
        }

        if (core.LengthS >= 0.4 && !_carrierKnown | !AllPlain(_map, core) && ImpulseRecogniser.Find(_stretch, core) is { } impulses)
        {
            return impulses;
        }

        return core.LengthS >= 1.0 && !AllPlain(_map, core)
            && !_found.Exists(f => Local(_stretch, f).Overlap(core) > 0.3 * core.LengthS) ? Unknown(_stretch, core) : null;
    }

    /// <summary>The findings that are this stretch's, with carriers by their quieting, and where something is on the air.</summary>
    private AudioAnalysis Result()
    {
        List<Span> quiet = _carrierKnown ? [] : Quieting.Find(_map, Local(_stretch, _found));
        List<Span> onAir = [.. _something.Where(static s => s.LengthS >= 0.15)
            .Select(s => Edges.Refine(_stretch, s)), .. quiet, .. _found.Select(f => Local(_stretch, f))];
        _found.AddRange(Quieting.Carriers(_stretch, _map, quiet));
        return new AudioAnalysis(
            [.. _found.Where(f => _stretch.Owns(f.StartS - _stretch.StartS) || f.EndS > _stretch.OwnFromS && f.StartS < _stretch.OwnToS)
                .Select(f => TraceMaker.Traced(_stretch, f))],
            [.. Span.Join(onAir, 0.1).Select(s => new Span(_stretch.StartS + s.FromS, _stretch.StartS + s.ToS))],
            Quieting.UsualDb(_map));
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
