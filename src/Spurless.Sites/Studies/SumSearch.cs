using System.Collections.Immutable;

namespace Spurless.Sites.Studies;

/// <summary>Products that are on the air together or not at all.</summary>
/// <param name="Needs">Members of groups that they need, each once.</param>
/// <param name="Power">Their power in milliwatts.</param>
internal sealed record SumBundle(int[] Needs, double Power);

/// <summary>Chooses at most one member of each group so that the power of what needs only chosen members is greatest.</summary>
internal sealed class SumSearch
{
    /// <summary>
    /// So often a bundle is looked at in all, some tenths of a second; what is left then counts as if nothing were excluded there.
    /// </summary>
    private const long MostLooks = 20_000_000;

    /// <summary>Groups deeper than this in one part count as if they excluded nothing.</summary>
    private const int MostDeep = 2_000;

    private readonly SumBundle[] _bundles;
    private readonly int[][] _groups;
    private readonly Dictionary<int, int[]> _bundlesOf;
    private readonly Dictionary<int, int> _off = [];
    private readonly int[] _offNeeds;
    private readonly CancellationToken _cancellationToken;
    private double _alive;
    private double _best;
    private long _looks;

    private SumSearch(SumBundle[] bundles, int[][] groups, long looks, CancellationToken cancellationToken)
    {
        (_bundles, _looks, _cancellationToken) = (bundles, looks, cancellationToken);
        _bundlesOf = bundles.SelectMany(static (b, i) => b.Needs.Select(m => (Member: m, Bundle: i)))
            .GroupBy(static p => p.Member, static p => p.Bundle)
            .ToDictionary(static g => g.Key, static g => g.ToArray());
        _offNeeds = new int[bundles.Length];
        _alive = bundles.Sum(static b => b.Power);

        // Heaviest members and groups first: the bound then cuts the rest early.
        double Weight(int member) => _bundlesOf[member].Sum(i => bundles[i].Power);
        _groups =
        [
            .. groups.Select(g => (int[])[.. g.OrderByDescending(Weight).ThenBy(static m => m)])
                .OrderByDescending(g => g.Sum(Weight) - Weight(g[0])),
        ];
    }

    private bool IsBound { get; set; }

    /// <summary>The greatest sum.</summary>
    /// <param name="bundles">At least one, no two with the same needs.</param>
    /// <param name="groups">Emitters of which at most one is on; they may overlap.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>The sum in milliwatts, and whether it is a bound from above because not all could be tried.</returns>
    public static (double Milliwatts, bool IsBound) Greatest(
        SumBundle[] bundles, ImmutableArray<ImmutableArray<int>> groups, CancellationToken cancellationToken)
    {
        Dictionary<int, int> parent = [];
        foreach (SumBundle bundle in bundles)
        {
            foreach (int need in bundle.Needs)
            {
                parent.TryAdd(need, need);
                Join(parent, bundle.Needs[0], need);
            }
        }

        // A member that no product needs excludes nothing that counts; a group with one left excludes nothing.
        List<int[]> open = [];
        foreach (ImmutableArray<int> group in groups)
        {
            int[] needed = [.. group.Where(parent.ContainsKey).Distinct()];
            if (needed.Length > 1)
            {
                open.Add(needed);
                Array.ForEach(needed, m => Join(parent, needed[0], m));
            }
        }

        ILookup<int, int[]> groupsOf = open.ToLookup(g => Root(parent, g[0]));
        double sum = 0;
        bool bound = false;
        long looks = 0;
        foreach (IGrouping<int, SumBundle> part in bundles.GroupBy(b => Root(parent, b.Needs[0])))
        {
            cancellationToken.ThrowIfCancellationRequested();
            int[][] own = [.. groupsOf[part.Key]];
            if (own.Length == 0)
            {
                sum += part.Sum(static b => b.Power);
                continue;
            }

            SumSearch search = new([.. part], own, looks, cancellationToken);
            search.Follow(0);
            sum += search._best;
            bound |= search.IsBound;
            looks = search._looks;
        }

        return (sum, bound);
    }

    private static int Root(Dictionary<int, int> parent, int member)
    {
        while (parent[member] != member)
        {
            member = parent[member] = parent[parent[member]];
        }

        return member;
    }

    private static void Join(Dictionary<int, int> parent, int one, int other) => parent[Root(parent, other)] = Root(parent, one);

    private void Follow(int group)
    {
        _cancellationToken.ThrowIfCancellationRequested();
        if (_alive <= _best)
        {
            return;
        }

        if (group == _groups.Length - 1)
        {
            _best = Math.Max(_best, OfLast(_groups[group]));
            return;
        }

        if (_looks >= MostLooks || group >= MostDeep)
        {
            (_best, IsBound) = (_alive, true);
            return;
        }

        bool any = false;
        foreach (int on in _groups[group].Where(m => !_off.ContainsKey(m)).ToArray())
        {
            any = true;
            if (_looks >= MostLooks)
            {
                (_best, IsBound) = (Math.Max(_best, _alive), true);
                return;
            }

            double before = _alive;
            Switch(group, on, off: true);
            Follow(group + 1);
            Switch(group, on, off: false);

            // What was taken off comes back as it was, without rounding.
            _alive = before;
        }

        if (!any)
        {
            Follow(group + 1);
        }
    }

    /// <summary>The sum with the best member of the last open group: no other group is in the way of it.</summary>
    private double OfLast(int[] group)
    {
        HashSet<int> members = [.. group];
        Dictionary<int, double> own = [];
        double touched = 0;
        foreach (int bundle in group.SelectMany(m => _bundlesOf[m]).Distinct())
        {
            _looks++;
            if (_offNeeds[bundle] == 0)
            {
                touched += _bundles[bundle].Power;
                int[] needs = [.. _bundles[bundle].Needs.Where(members.Contains)];
                if (needs.Length == 1)
                {
                    own[needs[0]] = own.GetValueOrDefault(needs[0]) + _bundles[bundle].Power;
                }
            }
        }

        return Math.Max(0, _alive - touched) + own.Values.DefaultIfEmpty(0).Max();
    }

    private void Switch(int group, int on, bool off)
    {
        foreach (int member in _groups[group])
        {
            if (member == on || (off ? _off.ContainsKey(member) : _off.GetValueOrDefault(member, -1) != group))
            {
                continue;
            }

            _ = off ? _off.TryAdd(member, group) : _off.Remove(member);
            foreach (int bundle in _bundlesOf[member])
            {
                _looks++;
                int needs = _offNeeds[bundle] += off ? 1 : -1;
                _alive -= off && needs == 1 ? _bundles[bundle].Power : 0;
            }
        }
    }
}
