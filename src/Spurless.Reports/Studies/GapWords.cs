using Spurless.Drawing.Words;
using Spurless.Sites.Levels;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>
/// What is not known of a receiver, in at most five lines: gaps of one kind share a line, and what is left over is counted.
/// </summary>
internal static class GapWords
{
    /// <summary>Most lines.</summary>
    public const int Most = 5;

    /// <summary>The lines.</summary>
    public static IReadOnlyList<string> Of(ReceiverFindings receiver)
    {
        List<string> lines = [.. receiver.NotComputed.GroupBy(static g => g.Kind).Select(static g => NotComputedWords.Of(Joined([.. g])))];
        lines.AddRange(UsualWords.Of(receiver));
        lines.AddRange(receiver.OtherCauses.Where(static c => !c.OnlyUsual).SelectMany(static c => c.Missing)
            .GroupBy(static m => m.Kind).Select(static g => AssumptionWords.Missing([.. g.Distinct()])));
        int more = lines.Count - Most + 1;
        return lines.Count <= Most
            ? lines
            : [.. lines.Take(Most - 1), $"{StudyWords.Capital(Figures.CountInWords(more))} more kinds of figures are missing; "
                + "the JSON output names each with the measurement that would tell."];
    }

    /// <summary>Gaps of one kind as one.</summary>
    private static NotComputed Joined(IReadOnlyList<NotComputed> gaps) => gaps.Count == 1
        ? gaps[0]
        : new NotComputed(
            gaps[0].Kind,
            [.. gaps.SelectMany(static g => g.Transmitters).Distinct(StringComparer.Ordinal)],
            [.. gaps.SelectMany(static g => g.Others).Distinct(StringComparer.Ordinal)])
        {
            AtMostOverNoiseDb = [.. gaps.SelectMany(static g => g.AtMostOverNoiseDb)],
        };
}
