using Spurless.Sites.Levels;

namespace Spurless.Drawing.Words;

/// <summary>Which products are not known, and the measurement that would tell, in words.</summary>
internal static class NotComputedWords
{
    // So many names stand in a sentence before the rest is counted.
    private const int Named = 6;

    /// <summary>The gap in two sentences.</summary>
    public static string Of(NotComputed gap)
    {
        string where = Where(gap.Transmitters);
        bool one = gap.Transmitters.Count == 1;
        return gap.Kind switch
        {
            NotComputedKind.OutputPowers => $"Mixtures made in {where} are not all known, for want of: "
                + $"{NamesOf([.. gap.Others.Select(static n => "output power of " + n)])}. "
                + "To know it, read it from the licence, or measure it at the transmitter's output with a through-line wattmeter.",
            NotComputedKind.Arrivals => $"Mixtures of {NamesOf(gap.Others)} in {where} are not known: how strongly "
                + $"{(gap.Others.Count == 1 ? "it arrives" : "they arrive")} at {(one ? "its output" : "their outputs")} is not stated. "
                + "To know it, measure each there, or say where their antennas stand.",
            NotComputedKind.TurnRoundLoss =>
                $"Mixtures made in {where} are not known, for want of the turn-round loss of {NamesOf(gap.Transmitters)}{AtMost(gap)}. "
                + "To know it, feed a weak signal into the output through a coupler or circulator and "
                + "read the mixture 2A-B against it on an analyser.",
            NotComputedKind.Couplings => $"Mixtures made in {where} are not known: how strongly the other transmitters arrive at "
                + $"{(one ? "its output" : "their outputs")} is not stated. "
                + "To know it, measure each at that output line, the transmitter off and its line "
                    + "ended in the analyser, and write it as coupling.",
            NotComputedKind.PowersAndCouplings => $"Mixtures made in {where} are not known: output power and couplings are not stated. "
                + "To know them, read the power from the licence and measure the coupling at the output line.",
            _ =>
                $"Mixtures made in {where} are not known here, for want of "
                    + $"{(one ? "its level" : "their levels")} at {NamesOf(gap.Others)}. "
                    + $"Measure {(one ? "it" : "them")} at the antenna connector.",
        };
    }

    /// <summary>What they make at most if they are usual: the worst of them; nothing where that is not known of all.</summary>
    private static string AtMost(NotComputed gap) => gap.AtMostOverNoiseDb.Count == 0 || gap.AtMostOverNoiseDb.Any(static b => b is null)
        ? ""
        : gap.AtMostOverNoiseDb.Max() is { } most and >= 0
            ? $"; usual base stations (6 to 20 dB) would make {CauseWords.AtMost(most)}"
            : $"; what usual base stations (6 to 20 dB) would make lies {CauseWords.AtMost(gap.AtMostOverNoiseDb.Max() ?? 0)}";

    private static string Where(IReadOnlyList<string> names) => (names.Count == 1 ? "the transmitter of " : "the transmitters of ")
        + NamesOf(names);

    private static string NamesOf(IReadOnlyList<string> names) => NameList.Of(names, Named);
}
