using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Words;

/// <summary>Neighbours of which only what is usual is known, in one sentence for all of them.</summary>
internal static class UsualWords
{
    // So many are named with their bound before the rest is counted.
    private const int Named = 3;

    /// <summary>A sentence for each kind of figure that is missing; none where nobody could matter.</summary>
    public static IEnumerable<string> Of(ReceiverFindings receiver)
    {
        OtherCause[] noisy = [.. receiver.OtherCauses
            .Where(static c => c is { OnlyUsual: true, Verdict: Verdict.Unknown, Finding.Cause: CauseKind.TransmitterNoise })
            .OrderByDescending(static c => c.AtMostOverNoiseDb)];
        if (noisy.Length > 0)
        {
            yield return $"Sideband noise of {noisy.Length} "
                + $"{(noisy.Length == 1 ? "transmitter" : "transmitters")} that could matter is not stated. "
                + $"If "
                    + $"{(noisy.Length == 1 ? "it is a usual base station" : "they are usual base stations")} "
                        + $"(-140 to -160 dBc/Hz far out): "
                + string.Join(", ", noisy.Take(Named).Select(static c => $"{c.Emitter} {CauseWords.AtMost(c.AtMostOverNoiseDb ?? 0)}"))
                + (noisy.Length > Named ? FormattableString.Invariant($", {noisy.Length - Named} more weaker than that") : "")
                + ". To know it, measure its noise density there behind a notch for its carrier, "
                    + "or hear whether the noise rises when it is switched on.";
        }
    }
}
