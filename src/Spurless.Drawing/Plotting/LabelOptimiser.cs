namespace Spurless.Drawing.Plotting;

/// <summary>
/// Chooses places for many labels together: none meets another, a mark, a line or the frame; the sum of what the places cost is small. Each
/// label first takes its best free way, the important ones before the others; then labels are moved one by one, and two by two where one
/// stands in the other's way, until nothing gets better or the rounds are used up. The same labels always give the same picture.
/// </summary>
internal static class LabelOptimiser
{
    private const int Rounds = 6;
    private const int Most = 120;
    private const double Crossing = 3;

    /// <summary>Chooses.</summary>
    /// <param name="placer">What is there already; what is chosen is taken in it.</param>
    /// <param name="wishes">The labels, the most important first; beyond 120 they are left out.</param>
    /// <returns>For each wish its way, or null where there is no room.</returns>
    public static IReadOnlyList<LabelWay?> Place(LabelPlacer placer, IReadOnlyList<LabelWish> wishes)
    {
        int count = Math.Min(wishes.Count, Most);
        List<(LabelWay Way, double Cost)>[] ways = new List<(LabelWay, double)>[count];
        (LabelWay Way, double Cost)?[] chosen = new (LabelWay, double)?[count];
        for (int i = 0; i < count; i++)
        {
            ways[i] =
            [
                .. wishes[i].Ways
                    .Where(w => placer.IsFree(w.Box) && (w.Leader is not { } l || placer.LineIsFree(l.From, l.To)))
                    .Select(w => (w, w.Cost + (Crossing * placer.Crossings(w.Box))))
                    .OrderBy(static w => w.Item2),
            ];
        }

        for (int i = 0; i < count; i++)
        {
            chosen[i] = Best(i, null);
        }

        bool better = true;
        for (int round = 0; round < Rounds && better; round++)
        {
            better = false;
            for (int i = 0; i < count; i++)
            {
                better |= Improve(i);
            }
        }

        foreach ((LabelWay way, _) in chosen.OfType<(LabelWay, double)>())
        {
            placer.BlockWords(way.Box);
            if (way.Leader is { } leader)
            {
                placer.BlockLine(leader.From, leader.To);
            }
        }

        return [.. wishes.Select((_, i) => i < count ? chosen[i]?.Way : null)];

        double CostOf(int i) => chosen[i]?.Cost ?? wishes[i].Missing;

        // The cheapest way that meets none of the chosen ones; 'apart' is not looked at.
        (LabelWay, double)? Best(int i, int? apart)
        {
            foreach ((LabelWay Way, double Cost) candidate in ways[i])
            {
                if (!Meeting(candidate.Way, i, apart).Any())
                {
                    return candidate;
                }
            }

            return null;
        }

        IEnumerable<int> Meeting(LabelWay way, int i, int? apart)
        {
            for (int j = 0; j < count; j++)
            {
                if (j != i && j != apart && chosen[j] is { } other && other.Way.Meets(way))
                {
                    yield return j;
                }
            }
        }

        bool Improve(int i)
        {
            foreach ((LabelWay Way, double Cost) candidate in ways[i])
            {
                if (candidate.Cost >= CostOf(i))
                {
                    return false;
                }

                int[] inTheWay = [.. Meeting(candidate.Way, i, null).Take(2)];
                if (inTheWay.Length == 0)
                {
                    chosen[i] = candidate;
                    return true;
                }

                if (inTheWay.Length > 1)
                {
                    continue;
                }

                // The one in the way is moved, if both together are then better off.
                int other = inTheWay[0];
                double before = CostOf(i) + CostOf(other);
                ((LabelWay, double)? own, (LabelWay, double)? theirs) = (chosen[i], chosen[other]);
                chosen[i] = candidate;
                chosen[other] = null;
                chosen[other] = Best(other, null);
                if (CostOf(i) + CostOf(other) < before - 1e-9)
                {
                    return true;
                }

                (chosen[i], chosen[other]) = (own, theirs);
            }

            return false;
        }
    }
}
