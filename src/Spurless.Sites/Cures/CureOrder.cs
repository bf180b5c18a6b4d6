namespace Spurless.Sites.Cures;

/// <summary>The order of the list, and what another way of it makes superfluous.</summary>
internal static class CureOrder
{
    /// <summary>
    /// By the probability that it takes away what is heard, where something was observed, in whole percent; then what leaves nothing
    /// harmful first; then by how much is left, who must act, the loss of the wanted signal, the effort, fewer steps.
    /// </summary>
    public static IEnumerable<Cure> Sorted(IEnumerable<Cure> cures) => cures
        .OrderByDescending(static c => Math.Round(100 * (c.CuresHeard ?? 0)))
        .ThenBy(static c => c.Harmful)
        .ThenBy(static c => c.Actor)
        .ThenBy(static c => Math.Round(c.WantedLossDb, 2))
        .ThenBy(static c => c.Effort)
        .ThenBy(static c => c.OwnEffort)
        .ThenBy(static c => c.Steps.Count)
        .ThenBy(static c => c.Steps.Sum(Usualness))
        .ThenBy(static c => c.WorstOverNoiseDb ?? double.NegativeInfinity);

    /// <summary>
    /// Those that no other of the same means, or of some of them, is as good as in everything that the order asks of, in order. Two ways of
    /// different means stand beside each other: which of them can be had is for whoever reads the list to know.
    /// </summary>
    /// <param name="cures">The ways.</param>
    public static IReadOnlyList<Cure> Undominated(IEnumerable<Cure> cures)
    {
        List<Cure> kept = [];
        foreach (Cure cure in Sorted(cures))
        {
            // What comes later in the order cannot be better in its first key, so that it is enough to look at what is kept.
            if (!kept.Exists(k => NoWorse(k, cure)))
            {
                kept.Add(cure);
            }
        }

        return kept;
    }

    private static bool NoWorse(Cure a, Cure b) =>
        (a.CuresHeard ?? 0) >= (b.CuresHeard ?? 0) - 0.005 && a.Harmful <= b.Harmful && a.OtherHarmful <= b.OtherHarmful
            && a.Actor <= b.Actor && a.Effort <= b.Effort && a.OwnEffort <= b.OwnEffort
            && a.WantedLossDb <= b.WantedLossDb + 0.005
            && a.Steps.All(s => b.Steps.Any(o => o.Subject == s.Subject));

    // Of equal ways that first which is usual (common practice): an isolator keeps out whatever comes in, and needs no tuning to a channel.
    private static int Usualness(CureStep step) => step is IsolatorStep ? 0 : 1;
}
