using System.Collections.Immutable;

namespace Spurless.Mixing.Search.Fast;

/// <summary>Shares a problem's receivers and stages out into units.</summary>
internal static class UnitPlan
{
    /// <summary>
    /// Members of each unit. Stages that see the same levels go together; receivers without a floor too, whatever their levels, for those
    /// decide nothing. Where a sink raises thresholds each receiver is alone, for a common bound could be no higher than that of the
    /// receiver with the fewest products. No unit's index grows beyond <see cref="SearchUnit.MaxEntries"/>.
    /// </summary>
    public static List<(int Receiver, int Stage)[]> Make(SearchProblem problem, bool rising)
    {
        List<List<(int Receiver, int Stage)>> groups = [];
        Dictionary<int, List<int>> byHash = [];
        List<(int Receiver, int Stage)>? withoutLevels = null;
        bool together = rising || SeeTheSame(problem);
        int perMember = 4 * Math.Max(1, problem.Emitters.Length) * (problem.MaxOrder - 1);
        int most = rising ? 1 : Math.Max(1, SearchUnit.MaxEntries / perMember);
        for (int r = 0; r < problem.Receivers.Length; r++)
        {
            SearchReceiver receiver = problem.Receivers[r];
            if (receiver.Stages.IsEmpty || (receiver.FloorMicroDbm is null && !together))
            {
                if (withoutLevels is null || withoutLevels.Count == most)
                {
                    groups.Add(withoutLevels = []);
                }

                withoutLevels.Add((r, -1));
                continue;
            }

            for (int s = 0; s < receiver.Stages.Length; s++)
            {
                GroupOf(problem, receiver, receiver.Stages[s].LevelMicroDbm, groups, byHash, most).Add((r, s));
            }
        }

        return [.. groups.Select(static g => g.ToArray())];
    }

    private static List<(int Receiver, int Stage)> GroupOf(
        SearchProblem problem,
        SearchReceiver receiver,
        ImmutableArray<int> levels,
        List<List<(int Receiver, int Stage)>> groups,
        Dictionary<int, List<int>> byHash,
        int most)
    {
        // One without a floor would take the bound from all others.
        HashCode hash = default;
        hash.Add(receiver.FloorMicroDbm is null);
        foreach (int level in levels)
        {
            hash.Add(level);
        }

        if (!byHash.TryGetValue(hash.ToHashCode(), out List<int>? alike))
        {
            byHash.Add(hash.ToHashCode(), alike = []);
        }

        foreach (int g in alike)
        {
            SearchReceiver first = problem.Receivers[groups[g][0].Receiver];
            ImmutableArray<int> others = first.Stages[groups[g][0].Stage].LevelMicroDbm;
            if (groups[g].Count < most && first.FloorMicroDbm is null == receiver.FloorMicroDbm is null
                && (others == levels || others.AsSpan().SequenceEqual(levels.AsSpan())))
            {
                return groups[g];
            }
        }

        alike.Add(groups.Count);
        List<(int Receiver, int Stage)> group = [];
        groups.Add(group);
        return group;
    }

    /// <summary>Whether all receivers without a floor have one stage with the same levels: then their levels come with the walk.</summary>
    private static bool SeeTheSame(SearchProblem problem)
    {
        ImmutableArray<int> common = default;
        foreach (SearchReceiver receiver in problem.Receivers)
        {
            if (receiver.FloorMicroDbm is not null || receiver.Stages.IsEmpty)
            {
                continue;
            }

            ImmutableArray<int> own = receiver.Stages[0].LevelMicroDbm;
            if (receiver.Stages.Length > 1 || !(common.IsDefault || common == own || common.AsSpan().SequenceEqual(own.AsSpan())))
            {
                return false;
            }

            common = own;
        }

        return true;
    }
}
