using Spurless.Circuits.Parts;

namespace Spurless.Drawing.Schematics;

/// <summary>A block between two named nodes.</summary>
internal sealed record Edge(string A, string B, Block Block)
{
    /// <summary>The other end.</summary>
    public string Other(string node) => A == node ? B : A;

    /// <summary>Whether it joins these two.</summary>
    public bool Joins(string a, string b) => (A == a && B == b) || (A == b && B == a);

    /// <summary>The block as it runs from a node.</summary>
    public Block From(string node) => A == node ? Block : Block.Reversed();
}

/// <summary>Makes blocks of parts that stand in series or side by side.</summary>
internal static class Reduction
{
    /// <summary>
    /// Joins edges until nothing is left to join: those between the same nodes side by side, those at a node that nothing else touches in
    /// series.
    /// </summary>
    /// <param name="edges">The edges.</param>
    /// <param name="kept">Nodes that must stay.</param>
    public static List<Edge> Reduce(IEnumerable<Edge> edges, IReadOnlySet<string> kept)
    {
        List<Edge> left = [.. edges];
        bool again = true;
        while (again)
        {
            again = Parallel(left) || Series(left, kept);
        }

        return left;
    }

    private static bool Parallel(List<Edge> left)
    {
        for (int i = 0; i < left.Count; i++)
        {
            int j = left.FindIndex(i + 1, e => e.Joins(left[i].A, left[i].B));
            if (j > 0)
            {
                left[i] = left[i] with { Block = Block.InParallel(left[i].Block, left[j].From(left[i].A)) };
                left.RemoveAt(j);
                return true;
            }
        }

        return false;
    }

    private static bool Series(List<Edge> left, IReadOnlySet<string> kept)
    {
        foreach (
            string node in left
                .SelectMany(static e => (string[])[e.A, e.B])
                .Distinct()
                .Where(n => !kept.Contains(n) && n != Circuit.Ground))
        {
            List<Edge> at = left.FindAll(e => e.A == node || e.B == node);
            if (at.Count == 2 && at[0].Other(node) != at[1].Other(node))
            {
                int where = left.IndexOf(at[0]);
                string from = at[0].Other(node);
                left[where] = new Edge(from, at[1].Other(node), Block.InSeries(at[0].From(from), at[1].From(node)));
                left.Remove(at[1]);
                return true;
            }
        }

        return false;
    }
}
