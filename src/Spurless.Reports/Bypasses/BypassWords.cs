using System.Globalization;
using Spurless.Circuits.Stress;
using Spurless.Drawing.Words;
using Spurless.Sites.Bypasses;

namespace Spurless.Reports.Bypasses;

/// <summary>What a bypass relay does, in sentences.</summary>
public static class BypassWords
{
    private static readonly (double Scale, string Prefix)[] Prefixes =
        [(1e-3, "k"), (1, ""), (1e3, "m"), (1e6, "u"), (1e9, "n"), (1e12, "p")];

    /// <summary>The verdict: one sentence or a few, with their full stops.</summary>
    /// <param name="answer">The answer.</param>
    public static string Conclusion(BypassAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        string power = Si(answer.Document.PowerW, "W");
        List<string> all = [];
        if (answer.OperatesAtW is not { } operates)
        {
            all.Add(answer.Document.Circuit.FullCoilA < answer.Document.Circuit.Coil.OperatesA
                ? $"It never comes over: the supply drives {Si(answer.Document.Circuit.FullCoilA, "A")} through the coil, which needs "
                    + $"{Si(answer.Document.Circuit.Coil.OperatesA, "A")}"
                : "It never comes over: the driver cannot carry what the coil needs");
        }
        else if (answer.Press.AttackS is not { } attack)
        {
            all.Add(operates > answer.Document.PowerW
                ? $"At {power} it stays in the filter: it takes {Si(operates, "W")} to bring it over"
                : $"At {power} it does not come over within {Si(answer.Press.OnS, "s")}, though "
                    + $"{Si(operates, "W")} bring it over in the end");
        }
        else
        {
            string heat = answer.Filter is { } filter ? UntilThen(filter, attack) : "";
            all.Add($"At {power} it comes over in {Si(attack, "s")}{heat}");
            all.Add($"Under {Si(operates, "W")} it stays in the filter");
        }

        if (Chatter(answer) is { } chatter)
        {
            all.Add(chatter);
        }

        return string.Join(' ', all.Select(static s => StudyWords.Capital(s) + "."));
    }

    /// <summary>Which transmissions make it go back and forth; null where none was tried or none does.</summary>
    public static string? Chatter(BypassAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        KeyingTrial[] speech = [.. answer.Trials.Where(static t => t.Kind == KeyingKind.TwoTones)];
        KeyingTrial[] bad = [.. speech.Where(static t => t.Chatters)];
        bool morse = answer.Trials.Any(static t => t is { Kind: KeyingKind.Morse, Chatters: true });
        if (bad.Length == 0)
        {
            return morse ? "A keyed carrier makes it chatter" : null;
        }

        double most = speech.Max(static t => t.PowerW), worst = bad.Max(static t => t.PowerW), least = bad.Min(static t => t.PowerW);
        string how = worst >= most
            ? $"single sideband makes it chatter at {Si(worst, "W")}"
            : worst > least
                ? $"single sideband at low level makes it chatter: of the powers tried, from {Si(least, "W")} to {Si(worst, "W")}"
                : $"single sideband at low level makes it chatter: of the powers tried, at {Si(worst, "W")}";
        return how + (morse ? ", and so does a keyed carrier" : "");
    }

    /// <summary>What a figure is with a prefix, three digits before a thousand: <c>4.1 ms</c>; watts by the thousand in kW.</summary>
    /// <param name="value">In the unit.</param>
    /// <param name="unit">The unit.</param>
    public static string Si(double value, string unit)
    {
        int at = Math.Abs(value) switch
        {
            >= 1e3 when unit == "W" => 0,
            0 or >= 1 => 1,
            >= 1e-3 => 2,
            >= 1e-6 => 3,
            >= 1e-9 => 4,
            _ => 5,
        };
        if (Math.Abs(value) * Prefixes[at].Scale >= 999.5 && (at > 1 || (at == 1 && unit == "W")))
        {
            at--; // what rounds to a thousand is one of the next prefix
        }

        (double scale, string prefix) = Prefixes[at];
        double scaled = value * scale;
        string digits = Math.Abs(scaled) >= 99.95 ? "0" : Math.Abs(scaled) >= 9.995 ? "0.0" : "0.00";
        string text = scaled.ToString(digits, CultureInfo.InvariantCulture);
        text = text.Contains('.', StringComparison.Ordinal) ? text.TrimEnd('0').TrimEnd('.') : text;
        return $"{text} {prefix}{unit}";
    }

    /// <summary>A figure that may not be known.</summary>
    /// <param name="value">In the unit; null where it is not known.</param>
    /// <param name="unit">The unit.</param>
    public static string SiOr(double? value, string unit) => value is { } known && double.IsFinite(known) ? Si(known, unit) : "-";

    /// <summary>A transmission in words.</summary>
    public static string Of(KeyingTrial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        return trial.Kind == KeyingKind.Morse
            ? FormattableString.Invariant($"Morse, {BypassQuestion.MorseWordsAMinute:0} words/min")
            : FormattableString.Invariant($"SSB, {trial.ApartHz:0} Hz apart");
    }

    /// <summary>What was taken for want of a figure, each a sentence without a full stop.</summary>
    public static IReadOnlyList<string> Assumed(BypassAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        List<string> all = [];
        if (answer.Document.StandingWaveRatio is null)
        {
            all.Add("no swr was stated: the line counts as matched");
        }
        else if (answer.Document.StandingWaveRatio > 1)
        {
            all.Add(FormattableString.Invariant(
                $"at an SWR of {answer.Document.StandingWaveRatio:0.##} the tap may stand anywhere on the line; figures are ")
                + "for a matched one where nothing else is said");
        }

        all.Add("while the contacts come over the tap sees the line as matched; what the filter itself sends back is not counted there");
        all.Add("what operates the relay off the air is reckoned on the frequency transmitted on");
        if (answer.Filter is { Stress: { } stress })
        {
            all.AddRange(Bench.StressWords.Assumptions(stress));
        }
        else if (answer.Filter is not null)
        {
            all.Add("the filter is a sweep: what each of its parts takes is not known, and what parts of it bear is not either");
        }

        if (answer.OffAir is { Unknown.Count: > 0 } air)
        {
            all.Add($"not counted off the air, for their level is not known: {string.Join(", ", air.Unknown)}");
        }

        return all;
    }

    /// <summary>What can hurt somebody or something, each without a full stop.</summary>
    public static IReadOnlyList<string> Cautions(BypassAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        List<string> all =
        [
            "It fails towards harm: without its supply, stuck, or under the least power, the filter stands in the transmitter's way, and "
                + "nothing tells of it",
            "The contacts always change under power, and those that chatter burn: use contacts rated for it",
            "Radio-frequency voltages burn the skin deeply and are not felt in time: no power while the cover is off, and nobody at the "
                + "line or the filter while it is keyed",
            "Try it into a dummy load, at low power first; reflected power that rises is the sign to stop",
            "Whether and with what power you may transmit is for the licence, the rules where you are and whoever answers for the site "
                + "to say",
        ];
        if (answer.Filter?.Stress is { } stress)
        {
            all.AddRange(Bench.StressWords.Cautions(stress).Where(static c => c.StartsWith("Beryllia", StringComparison.Ordinal)));
        }

        return all;
    }

    private static string UntilThen(BypassedFilterFindings filter, double attackS)
    {
        PartStress? hottest = filter.Stress?.Parts.MaxBy(static p => p.DissipationW);
        return hottest is not null ? $"; until then {hottest.Part} takes {Si(hottest.DissipationW * attackS, "J")}"
            : filter.HeatW is { } heat ? $"; until then the filter takes {Si(heat * attackS, "J")}"
            : "";
    }
}
