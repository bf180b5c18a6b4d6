namespace Spurless.Design.Designing;

/// <summary>The order of candidates: what meets first; of those what is built surely, of coils rather than of lines, of coils that
/// can be wound, of few parts, with little loss.</summary>
internal static class CandidateOrder
{
    /// <summary>From this yield after tuning on builds are as good as sure.</summary>
    private const double SureYield = 0.9;

    public static IEnumerable<DesignCandidate> Ranked(IEnumerable<DesignCandidate> candidates) => candidates
        .OrderByDescending(static c => c.Meets)
        .ThenByDescending(static c => c.Meets ? 0 : c.WeightedMargin)
        .ThenByDescending(static c => c.Tuned is null ? 0 : c.Tuned.Yield >= SureYield ? 10 : (int)(10 * c.Tuned.Yield))
        .ThenBy(static c => c.UsesLines)
        .ThenBy(static c => c.UnwoundCoils)
        .ThenBy(static c => c.PartCount)
        .ThenBy(static c => Math.Round(c.WorstPassLossDb, 2))
        .ThenByDescending(static c => c.WeightedMargin)
        .ThenBy(static c => c.Family, StringComparer.Ordinal);
}
