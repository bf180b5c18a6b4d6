using Spurless.Sites.Cures;

namespace Spurless.Reports.Cures;

/// <summary>Ways out as a study's report has them.</summary>
/// <param name="Answer">The ways out of the site that was studied.</param>
/// <param name="Chosen">
/// Rank of the one chosen, by index of the receiver in the site file; empty where nothing was chosen. A rank above the list's names none.
/// </param>
public sealed record ReportedWays(CureAnswer Answer, IReadOnlyDictionary<int, int> Chosen)
{
    /// <summary>So many of the best ways stand in a report; the chosen one always does.</summary>
    public const int Shown = 3;

    /// <summary>The ways out of a receiver; null where it was not asked about.</summary>
    /// <param name="receiver">Its index in the site file.</param>
    public CuredReceiver? Of(int receiver) => Answer.Receivers.FirstOrDefault(r => r.Index == receiver);

    /// <summary>Rank of the way chosen for a receiver; null for none.</summary>
    /// <param name="receiver">Its index in the site file.</param>
    public int? ChosenOf(int receiver) =>
        Chosen.TryGetValue(receiver, out int rank) && rank >= 1 && rank <= Of(receiver)?.Cures.Count ? rank : null;

    /// <summary>Ranks that are shown: the best, and the one chosen.</summary>
    /// <param name="cured">The list.</param>
    /// <param name="chosen">Rank of the one chosen; null for none.</param>
    internal static IEnumerable<int> Ranks(CuredReceiver cured, int? chosen) =>
        Enumerable.Range(1, Math.Min(Shown, cured.Cures.Count)).Concat(chosen is > Shown and { } rank ? [rank] : Array.Empty<int>());
}
