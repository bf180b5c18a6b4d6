using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Sites.Documents;
using Spurless.Sites.Recordings;

namespace Spurless.Reports.Recordings;

/// <summary>What was heard, in words: by what a kind is known, and what the answer is. Never what was said, and to whom.</summary>
public static class ListenWords
{
    /// <summary>The word that stands for a kind in JSON and CSV.</summary>
    public static string Token(SignalKind kind) => KindTokens.Of(kind);

    /// <summary>A kind's name with the figure that tells it from its like.</summary>
    public static string Name(Finding f)
    {
        ArgumentNullException.ThrowIfNull(f);
        return f.Kind switch
        {
            SignalKind.Pocsag => Text($"paging, {f.SymbolRateBd:0} bit/s"),
            SignalKind.Afsk1200 => "packet, 1200 Bd",
            SignalKind.Fsk9600 => "packet, 9600 Bd",
            SignalKind.Ctcss => Text($"squelch tone, {f.Code} Hz"),
            SignalKind.Dcs => $"squelch code {f.Code}",
            SignalKind.Dtmf => "dialling tones",
            SignalKind.TwoTone => "two-tone call",
            SignalKind.Morse => "Morse",
            SignalKind.Voice => f.Evidence.Modulation switch
            {
                Modulation.Am => "voice, AM",
                Modulation.Ssb => "voice, single sideband",
                Modulation.Fm => "voice, FM",
                _ => "voice",
            },
            SignalKind.Carrier => "carrier",
            SignalKind.Tone => Text($"tone, {f.ToneHz:0.0} Hz"),
            SignalKind.TwoLevelFsk => Text($"two-level FSK, {f.SymbolRateBd:0} Bd"),
            SignalKind.FourLevelFsk => Text($"four-level FSK, {f.SymbolRateBd:0} Bd"),
            SignalKind.Hum => Text($"mains hum, {f.ToneHz:0.00} Hz"),
            SignalKind.Comb => Text($"comb of lines, {f.ToneHz:0.0} Hz apart"),
            SignalKind.Noise => f.Evidence.GatedByHz is null ? "impulse noise" : "power-line noise",
            _ => "unknown",
        };
    }

    /// <summary>By what a kind is known.</summary>
    public static string Because(Finding f)
    {
        ArgumentNullException.ThrowIfNull(f);
        Evidence e = f.Evidence;
        string words = f.Kind switch
        {
            SignalKind.Pocsag =>
                Text($"{Count(e.SyncWords, "sync word")}; {f.UnitsGood} of {f.UnitsChecked} codewords pass their check as received") +
                (e.Corrected > 0 ? Text($", {e.Corrected} more after correction") : "")
                    + (f.Inverted == true ? "; turned over: a positive sample is 1" : "; upright: a positive sample is 0"),
            SignalKind.Afsk1200 or SignalKind.Fsk9600 => f.UnitsChecked == 0
                ? Text($"{Count(e.Flags, "flag")}, no whole frame")
                : Text($"{Count(e.Flags, "flag")}; {f.UnitsGood} of {Count(f.UnitsChecked, "frame")} with the right check sequence"),
            SignalKind.Ctcss => Text($"a steady line at {f.ToneHz:0.00} Hz, the standard tone {f.Code} Hz")
                + (e.ToneDeviationHz is { } d && e.Modulation is not null ? Text($", {d:0} Hz of deviation") : ""),
            SignalKind.Dcs =>
                Text($"{f.UnitsGood} of {f.UnitsChecked} words of 23 bits right; ")
                    + Text($"{f.Code} upright is {e.OtherPolarity ?? "no standard code"} inverted"),
            SignalKind.Dtmf => Text($"{Count(f.UnitsChecked, "digit")}: a tone of each group at once, nothing else"),
            SignalKind.TwoTone => Text($"{f.Code} Hz, one after the other"),
            SignalKind.Morse => Text($"elements of 1 to 3 at {e.WordsPerMinute:0.#} words a minute; ")
                + (f.Code?.Contains('*', StringComparison.Ordinal) == true ? "what could not be read stands as *" : "every letter is one"),
            SignalKind.Voice =>
                Text($"syllables; voiced {100 * e.VoicedShare:0} % of the time, pitch {e.PitchLowHz:0} to {e.PitchHighHz:0} Hz"),
            SignalKind.Carrier => e.QuietingDb is { } q ? Text($"the receiver's noise is quieter by {q:0} dB and nothing is on it")
                : "a carrier without modulation",
            SignalKind.Tone => Text($"one line at {f.ToneHz:0.0} Hz that stands still")
                + (e.DriftHz is { } w && Math.Abs(w) > 1 ? Text($", drifting by {w:0.#} Hz") : ""),
            SignalKind.TwoLevelFsk => Text($"changes come at {f.SymbolRateBd:0.0} a second; in between there are two levels"),
            SignalKind.FourLevelFsk => Text($"changes come at {f.SymbolRateBd:0.0} a second; in between there are four levels")
                + (e.Standard is { } s ? $"; sync words of {s}" : ""),
            SignalKind.Hum => Text($"{Count(e.Lines, "line")} at multiples of {f.ToneHz:0.00} Hz"),
            SignalKind.Comb => Text($"{Count(e.Lines, "line")} {f.ToneHz:0.0} Hz apart")
                + (e.DriftHz is { } v && Math.Abs(v) > 1 ? Text($", the highest drifting by {v:0.#} Hz") : ""),
            SignalKind.Noise => Text($"{e.ImpulsesPerS:0} impulses a second over their own mean")
                + (e.GatedByHz is { } g ? Text($", in step with the {g:0} Hz mains: a power line") : ""),
            _ => e.BandwidthHz is { } b ? Text($"fits no kind; {b:0} Hz wide") + (e.TonesHz.Count > 0
                ? $"; lines at {string.Join(", ", e.TonesHz.Select(static t => Text($"{t:0}")))} Hz" : "") : "fits no kind",
        };
        return e.DeviationHz is { } deviation && e.Modulation == Modulation.Fm
            ? words + Text($"; peak deviation {deviation / 1_000:0.0} kHz") : words;
    }

    /// <summary>The answer in a sentence or two.</summary>
    public static string Answer(Heard heard)
    {
        ArgumentNullException.ThrowIfNull(heard);
        if (heard.Transmissions.Count == 0)
        {
            return Text($"Nothing but noise or silence in {Duration(heard.DurationS)}.");
        }

        string[] kinds = [.. heard.Transmissions.SelectMany(static t => t.Kinds).GroupBy(static k => Token(k.Kind))
            .OrderByDescending(static g => g.Max(static k => k.Confidence))
            .Select(static g => Name(g.MaxBy(static k => k.Confidence)!))];
        string count = heard.Transmissions.Count == 1 ? "One transmission" : Text($"{heard.Transmissions.Count} transmissions");
        return Text(
            $"{count} in {Duration(heard.DurationS)}: {string.Join("; ", kinds.Take(6))}{(kinds.Length > 6 ? "; and others" : "")}.");
    }

    /// <summary>Which mixture fits best, in a sentence; empty where none stands out.</summary>
    public static string Fit(MixtureFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return fit.Share < 0.5 ? "No mixture of the site stands out."
            : $"That fits {StudyWords.Mixture(fit.Product, Typography.Fine)}: "
                + string.Join(" with ", fit.Product.Terms.Select(static t => t.Name)) + ".";
    }

    /// <summary>Why a mixture of the site fits, or not.</summary>
    public static string Reasons(MixtureFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        List<string> parts = [];
        if (fit.Explained.Count > 0)
        {
            parts.Add("it carries " + string.Join(", ", fit.Explained.Select(Plain)));
        }

        if (fit.Unexplained.Count > 0)
        {
            parts.Add("none of it carries " + string.Join(", ", fit.Unexplained.Select(Plain)));
        }

        if (fit.Missing.Count > 0)
        {
            parts.Add("nothing was heard of " + string.Join(" and ", fit.Missing) + ", which may have been silent");
        }

        if (fit.Measured is { DeviationHz: { } deviation, ExpectedDeviationHz: { } expected })
        {
            parts.Add(Text($"peak deviation {deviation / 1_000:0.0} kHz, its emitters make {expected / 1_000:0.0}"));
        }

        if (fit.Measured is { OffsetHz: { } offset, OffsetSigmaHz: { } sigma })
        {
            parts.Add(Text($"{Math.Abs(offset) / 1_000:0.0} kHz off its frequency, clocks leave {sigma / 1_000:0.0} open"));
        }

        return parts.Count == 0 ? "nothing heard speaks for or against it" : string.Join("; ", parts);
    }

    /// <summary>A share in percent, small and large ones as bounds.</summary>
    public static string Percent(double share) => share > 0.99 ? ">99" : share < 0.01 ? "<1" : Text($"{100 * share:0}");

    /// <summary>A kind in plain words, without its figures.</summary>
    public static string Plain(SignalKind kind) => kind switch
    {
        SignalKind.Pocsag => "paging",
        SignalKind.Afsk1200 or SignalKind.Fsk9600 => "packet",
        SignalKind.Ctcss => "a squelch tone",
        SignalKind.Dcs => "a squelch code",
        SignalKind.Dtmf => "dialling tones",
        SignalKind.TwoTone => "a two-tone call",
        SignalKind.Tone => "a tone",
        SignalKind.Morse => "Morse",
        SignalKind.Voice => "voice",
        SignalKind.TwoLevelFsk => "two-level data",
        SignalKind.FourLevelFsk => "four-level data",
        _ => Token(kind),
    };

    /// <summary>The cautions that stand beside every answer.</summary>
    public const string Caution =
        "What others send is not for you: many countries forbid to disclose or use it. Spurless says "
            + "what kind it is and when, never what it says or for whom. " +
        "The recording stays on this machine.";

    /// <summary>A moment of the recording as minutes and seconds.</summary>
    public static string Moment(double s)
    {
        // Rounded before it is taken apart: a clock shows no 60.
        double hundredths = Math.Round(s * 100, MidpointRounding.AwayFromZero), tenths = Math.Round(s * 10, MidpointRounding.AwayFromZero);
        return hundredths >= 360_000
            ? Text($"{(long)tenths / 36_000}:{(long)tenths / 600 % 60:00}:{(long)tenths % 600 / 10.0:00.0}")
            : Text($"{(long)hundredths / 6_000}:{(long)hundredths % 6_000 / 100.0:00.00}");
    }

    /// <summary>A moment of a recording: by the clock, to the tenth of a second, where the recording says when it was made.</summary>
    public static string Moment(Heard heard, double s)
    {
        ArgumentNullException.ThrowIfNull(heard);
        return heard.Start is { } start
            ? start.AddTicks((long)(Math.Round(10 * s, MidpointRounding.AwayFromZero) * TimeSpan.TicksPerSecond / 10)).ToUniversalTime()
                .ToString("HH:mm:ss.f", CultureInfo.InvariantCulture)
            : Moment(s);
    }

    /// <summary>What the eye or the tone of a finding shows, as a title.</summary>
    public static string TraceTitle(Finding f)
    {
        ArgumentNullException.ThrowIfNull(f);
        return f.Trace?.Eye is not null ? "Eye"
            : f.Trace?.Tone.All(static p => p.Hz is null) == true ? "Level of the tone" : "The tone over time";
    }

    /// <summary>What the eye or the tone of a finding says, in a sentence; empty without one.</summary>
    public static string TraceSays(Finding f)
    {
        ArgumentNullException.ThrowIfNull(f);
        if (f.Trace?.Eye is { } eye)
        {
            string open = eye.Openness switch
            {
                > 0.6 => "open: the levels stand apart",
                > 0.25 => "half closed by noise or by what stands beside it",
                _ => "closed by noise or by what stands beside it",
            };
            return Text($"{eye.Laid} symbols laid over each other; the eye is {open}.");
        }

        double[] hz = [.. (f.Trace?.Tone ?? []).Where(static p => p.Hz is not null).Select(static p => p.Hz!.Value)];
        return f.Trace is null ? "" : hz.Length == 0 ? "How strong the tone was: where it was keyed."
            : Text($"Its frequency lay between {hz.Min():0.0} and {hz.Max():0.0} Hz.");
    }

    private static string Duration(double s) => s < 90 ? Text($"{s:0.0} s") : s < 5_400 ? Text($"{s / 60:0.0} min")
        : Text($"{s / 3_600:0.0} h");

    private static string Count(int? n, string what) => Text($"{n} {what}{(n == 1 ? "" : "s")}");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
