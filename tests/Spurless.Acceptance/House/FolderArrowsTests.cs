using System.Reflection;
using System.Runtime.CompilerServices;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.House;

/// <summary>
/// No folder of a room knows a neighbour that knows it back, directly or over others. A namespace is a folder; a folder and the folders
/// inside it are one room and may know each other, so that what is compared is always two folders side by side.
/// </summary>
public class FolderArrowsTests
{
    // Every room of src/, so that a new one is looked at from its first day.
    private static readonly string[] Rooms =
    [
        .. Directory.GetDirectories(Repository.PathOf("src"), "Spurless*").Select(static d => Path.GetFileName(d)!).Order(
            StringComparer.Ordinal),
    ];

    [Fact]
    public void Folders_know_no_neighbour_that_knows_them_back()
    {
        SortedSet<string> found = new(StringComparer.Ordinal);
        Dictionary<string, string> because = [];
        int arrows = 0;
        foreach (string room in Rooms)
        {
            Dictionary<(string From, string To), string> known = Arrows(Assembly.Load(room));
            arrows += known.Count;
            foreach (((string from, string to), string why) in known)
            {
                if (string.CompareOrdinal(from, to) < 0 && Reaches(known, to, from))
                {
                    string pair = $"{from} <-> {to}";
                    found.Add(pair);
                    because[pair] = why + (known.TryGetValue((to, from), out string? back) ? ", and " + back : ", and back over others");
                }
                else if (string.CompareOrdinal(from, to) > 0 && !known.ContainsKey((to, from)) && Reaches(known, to, from))
                {
                    string pair = $"{to} <-> {from}";
                    found.Add(pair);
                    because[pair] = why + ", and back over others";
                }
            }
        }

        Assert.True(arrows > 40 && Rooms.Length > 10, $"only {arrows} arrows between folders were seen");
        Assert.True(found.Count == 0, "folders that know each other:\n" + string.Join('\n', found.Select(p => $"{p}: {because[p]}")));
    }

    [Fact]
    public void Arrows_of_a_known_pair_are_seen()
    {
        // The test's own eyes: the search knows its levels, not the other way round.
        Dictionary<(string From, string To), string> known = Arrows(Assembly.Load("Spurless.Mixing"));
        Assert.True(known.ContainsKey(("Spurless.Mixing.Search", "Spurless.Mixing.Levels")));
        Assert.False(known.ContainsKey(("Spurless.Mixing.Levels", "Spurless.Mixing.Search")));
    }

    private static Dictionary<(string From, string To), string> Arrows(Assembly assembly)
    {
        Dictionary<(string, string), string> arrows = [];
        foreach ((Type from, Type to) in TypeReferences.Of(assembly))
        {
            if (IsOurs(from) && IsOurs(to) && Neighbours(from.Namespace!, to.Namespace!) is { } pair)
            {
                arrows.TryAdd(pair, $"{from.Name} knows {to.Name}");
            }
        }

        return arrows;
    }

    private static bool IsOurs(Type type) => type.Namespace?.StartsWith("Spurless", StringComparison.Ordinal) == true
        && !type.IsDefined(typeof(CompilerGeneratedAttribute), false) && type.Name != "_Imports";

    /// <summary>The two folders side by side in which two namespaces lie; null where one lies within the other.</summary>
    private static (string From, string To)? Neighbours(string from, string to)
    {
        string[] a = from.Split('.');
        string[] b = to.Split('.');
        int common = 0;
        while (common < Math.Min(a.Length, b.Length) && a[common] == b[common])
        {
            common++;
        }

        return common == a.Length || common == b.Length ? null : (string.Join('.', a[..(common + 1)]), string.Join('.', b[..(common + 1)]));
    }

    private static bool Reaches(Dictionary<(string From, string To), string> known, string from, string to)
    {
        // Only folders side by side: what is reached over a folder of another depth is another pair's matter.
        HashSet<string> seen = [from];
        Queue<string> next = new(seen);
        while (next.TryDequeue(out string? at))
        {
            foreach ((string _, string further) in known.Keys.Where(k => k.From == at))
            {
                if (further == to)
                {
                    return true;
                }

                if (seen.Add(further))
                {
                    next.Enqueue(further);
                }
            }
        }

        return false;
    }
}
