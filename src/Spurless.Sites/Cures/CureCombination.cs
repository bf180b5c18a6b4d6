namespace Spurless.Sites.Cures;

/// <summary>One step that was tried, and how far each harmful mixture falls by it.</summary>
/// <param name="Step">The step.</param>
/// <param name="Cure">What it does alone.</param>
/// <param name="FallDb">By row of what was harmful: its fall in dB, infinite where it is no longer listed.</param>
internal sealed record TriedStep(CureStep Step, Cure Cure, double[] FallDb);

/// <summary>
/// Pairs and triples of steps that could end what no step ends alone. Nothing is left out by guess: a set is left out where a mixture
/// stays harmful even if all its steps' falls add up, or where another step does no less for every mixture and costs no more.
/// </summary>
internal static class CureCombination
{
    /// <summary>
    /// Two falls can add up to a little more than their sum: matching between parts of a chain, several stages in one row. In dB.
    /// </summary>
    private const double SlackDb = 3;

    /// <summary>Steps of which no other is as good for everything.</summary>
    /// <param name="tried">All steps.</param>
    public static IReadOnlyList<TriedStep> Undominated(IReadOnlyList<TriedStep> tried) =>
        [.. tried.Where((a, i) => HelpsAtAll(a) && !tried.Where((b, j) => j != i && Beats(b, a, j < i)).Any())];

    /// <summary>Sets of so many steps that could leave nothing harmful.</summary>
    /// <param name="steps">The steps.</param>
    /// <param name="overDb">By row: how far it stands over the threshold now, in dB.</param>
    /// <param name="size">2 or 3.</param>
    public static IEnumerable<IReadOnlyList<CureStep>> Sets(IReadOnlyList<TriedStep> steps, double[] overDb, int size)
    {
        int[] chosen = new int[size];
        return From(0, 0);

        IEnumerable<IReadOnlyList<CureStep>> From(int depth, int first)
        {
            for (int i = first; i < steps.Count; i++)
            {
                chosen[depth] = i;
                if (chosen[..depth].Any(c => steps[c].Step.Subject == steps[i].Step.Subject))
                {
                    continue;
                }

                if (depth + 1 < size)
                {
                    foreach (IReadOnlyList<CureStep> set in From(depth + 1, i + 1))
                    {
                        yield return set;
                    }
                }
                else if (Enough())
                {
                    yield return [.. chosen.Select(c => steps[c].Step)];
                }
            }
        }

        bool Enough()
        {
            for (int row = 0; row < overDb.Length; row++)
            {
                double fall = SlackDb;
                foreach (int c in chosen)
                {
                    fall += Math.Max(0, steps[c].FallDb[row]);
                }

                if (fall < overDb[row])
                {
                    return false;
                }
            }

            return true;
        }
    }

    private static bool HelpsAtAll(TriedStep step) => step.FallDb.Any(static f => f > 0.01);

    // Of two that are equal in everything the first stays.
    private static bool Beats(TriedStep a, TriedStep b, bool first)
    {
        bool noWorse = a.Step.Subject == b.Step.Subject && a.Step.Actor <= b.Step.Actor && a.Step.Effort <= b.Step.Effort
            && a.Cure.WantedLossDb <= b.Cure.WantedLossDb && a.Cure.Harmful <= b.Cure.Harmful;
        bool better = a.Step.Actor < b.Step.Actor || a.Step.Effort < b.Step.Effort || a.Cure.WantedLossDb < b.Cure.WantedLossDb;
        for (int row = 0; noWorse && row < a.FallDb.Length; row++)
        {
            noWorse = a.FallDb[row] >= b.FallDb[row];
            better |= a.FallDb[row] > b.FallDb[row];
        }

        return noWorse && (better || first);
    }
}
