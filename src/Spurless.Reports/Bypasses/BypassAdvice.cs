using System.Globalization;
using Spurless.Sites.Bypasses;

namespace Spurless.Reports.Bypasses;

/// <summary>What would keep the contacts from going back and forth.</summary>
public static class BypassAdvice
{
    /// <summary>How often a transmission made them go back.</summary>
    public static string Times(KeyingTrial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        return string.Create(CultureInfo.InvariantCulture, $"{trial.WentBack} in {trial.LastsS:0.#} s");
    }

    /// <summary>The advice, each a sentence without a full stop; empty where nothing chatters.</summary>
    public static IReadOnlyList<string> Of(BypassAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        List<string> all = [];
        KeyingTrial[] speech = [.. answer.Trials.Where(static t => t is { Kind: KeyingKind.TwoTones, Chatters: true })];
        if (speech.Max(static t => t.LeastHangS) is { } hang)
        {
            all.Add(
                $"a hang of {BypassWords.Si(hang, "s")} or more bridges what single sideband did here; syllables and words pause for "
                    + "longer, and an operator who is thinking longer still (common practice: 0.3 to 1 s)");
        }

        double[] never =
        [
            .. answer.Trials.Where(static t => t is { Kind: KeyingKind.TwoTones, CameOver: false }).Select(static t => t.PowerW),
        ];
        if (never.Length > 0 && answer.OperatesAtW is { } least)
        {
            all.Add(
                $"single sideband of up to {BypassWords.Si(never.Max(), "W")} of peak power did not always bring it over, though a carrier "
                    + $"of {BypassWords.Si(least, "W")} does: it then works into the filter all the time");
        }

        if (answer.Steadier is { } more)
        {
            all.Add(
                $"by the smoothing alone: {BypassWords.Si(more.SmoothingF, "F")} in place of "
                    + $"{BypassWords.Si(answer.Document.Circuit.SmoothingF, "F")} holds it at "
                    + $"{BypassWords.Si(answer.Document.PowerW, "W")}, "
                    + $"with an attack of {BypassWords.SiOr(more.AttackS, "s")} and a hang of {BypassWords.SiOr(more.HangS, "s")}; at "
                    + "lower power it may need more");
        }
        else if (speech.Any(t => t.PowerW == answer.Document.PowerW))
        {
            all.Add("no smoothing that was tried, up to ten thousand times as much, stops it at full power: lengthen the hang behind it");
        }

        if (answer.Trials.FirstOrDefault(static t => t is { Kind: KeyingKind.Morse, Chatters: true }) is { LeastHangS: { } morse })
        {
            all.Add($"a hang of {BypassWords.Si(morse, "s")} bridges the space between words of Morse at this speed");
        }

        if (all.Count > 0)
        {
            all.Add("hold the relay by the transmitter's own key line, and none of this matters");
        }

        return all;
    }
}
