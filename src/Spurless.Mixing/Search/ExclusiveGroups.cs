namespace Spurless.Mixing.Search;

/// <summary>Which emitters are never on the air together: for each emitter the groups it belongs to, usually none.</summary>
internal sealed class ExclusiveGroups
{
    private readonly int[][] _groupsOf;

    public ExclusiveGroups(SearchProblem problem)
    {
        Any = problem.ExclusiveGroups.Length > 0;
        _groupsOf = Any ? new int[problem.Emitters.Length][] : [];
        Array.Fill(_groupsOf, []);
        for (int g = 0; g < problem.ExclusiveGroups.Length; g++)
        {
            foreach (int member in problem.ExclusiveGroups[g].Distinct())
            {
                _groupsOf[member] = [.. _groupsOf[member], g];
            }
        }
    }

    /// <summary>Whether there is any group at all.</summary>
    public bool Any { get; }

    /// <summary>Whether an emitter excludes one of those chosen already. Only where there is <see cref="Any"/> group.</summary>
    public bool Excludes(int emitter, ReadOnlySpan<int> chosen)
    {
        int[] groups = _groupsOf[emitter];
        if (groups.Length == 0)
        {
            return false;
        }

        foreach (int other in chosen)
        {
            foreach (int group in _groupsOf[other])
            {
                if (Array.IndexOf(groups, group) >= 0)
                {
                    return true;
                }
            }
        }

        return false;
    }
}
