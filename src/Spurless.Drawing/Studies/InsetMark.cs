using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Studies;

/// <summary>
/// One mark of the magnified channel, at the true offset of what it stands for: a mixture, or several that lie too near each other to be
/// told apart.
/// </summary>
/// <param name="Of">The mixtures, by number; at least one.</param>
/// <param name="X">Its place along the offset.</param>
/// <param name="Y">Its place along the level: that of the strongest.</param>
/// <param name="Verdict">The worst verdict.</param>
/// <param name="After">Whether it shows what lands now; else what landed before.</param>
internal sealed record InsetMark(IReadOnlyList<NumberedFinding> Of, double X, double Y, Verdict Verdict, bool After)
{
    // Marks are 12 px wide: nearer than this they would lie upon each other.
    private const double NearX = 8;
    private const double NearY = 8;
    private const int MostNamed = 3;

    /// <summary>Its number, or its numbers, the first few and how many more.</summary>
    public string Numbers => string.Join(", ", Of.Take(MostNamed).Select(static f => f.Number.ToString(CultureInfo.InvariantCulture)))
        + (Of.Count > MostNamed ? string.Create(CultureInfo.InvariantCulture, $" +{Of.Count - MostNamed}") : "");

    /// <summary>Whether it stands for a mixture.</summary>
    public bool Holds(NumberedFinding? finding) => finding is not null && Of.Contains(finding);

    /// <summary>What a pick of it selects: each of its mixtures in turn.</summary>
    public NumberedFinding Next(NumberedFinding? selected)
    {
        for (int i = 0; i < Of.Count; i++)
        {
            if (Of[i] == selected)
            {
                return Of[(i + 1) % Of.Count];
            }
        }

        return Of[0];
    }

    /// <summary>Puts mixtures at their places; those that would lie upon each other share a mark.</summary>
    /// <param name="findings">The mixtures.</param>
    /// <param name="x">Where one stands along the offset.</param>
    /// <param name="y">Where along the level; null for one that is not shown.</param>
    /// <param name="after">Whether what lands now is shown.</param>
    public static IEnumerable<InsetMark> Stacked(
        IEnumerable<NumberedFinding> findings, Func<NumberedFinding, double> x, Func<NumberedFinding, double?> y, bool after)
    {
        List<(NumberedFinding Finding, double X, double Y)> rest =
            [.. findings.Where(f => y(f) is not null).Select(f => (f, x(f), y(f)!.Value)).OrderBy(static p => p.Item3)];
        while (rest.Count > 0)
        {
            (NumberedFinding first, double atX, double atY) = rest[0];
            List<NumberedFinding> near =
                [
                    .. rest
                        .Where(p => Math.Abs(p.X - atX) < NearX && p.Y - atY < NearY)
                        .Select(static p => p.Finding)
                        .OrderBy(static f => f.Number),
                ];
            rest.RemoveAll(p => near.Contains(p.Finding));
            yield return new InsetMark(near, atX, atY, near.Select(f => VerdictOf(f, after)).MinBy(Badness), after);
        }
    }

    private static Verdict VerdictOf(NumberedFinding f, bool after) => (after ? f.After : f.Before)!.Verdict;

    private static int Badness(Verdict verdict) => verdict switch
    {
        Verdict.Harmful => 0,
        Verdict.Marginal => 1,
        Verdict.Unknown => 2,
        _ => 3,
    };
}
