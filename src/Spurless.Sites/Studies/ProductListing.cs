using System.Collections;
using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>
/// The findings of a receiver, made when they are asked for: a list of two million products is held as numbers, and only what is read
/// becomes text. The first few thousand are kept once made. Safe for reading by several threads.
/// </summary>
internal sealed class ProductListing(IReadOnlyList<ScoredProduct> products, FindingBuilder builder) : IReadOnlyList<ProductFinding>
{
    private readonly ProductFinding?[] _kept = new ProductFinding?[Math.Min(products.Count, 4096)];

    public int Count => products.Count;

    public ProductFinding this[int index] =>
        index < _kept.Length ? _kept[index] ??= builder.Build(products[index]) : builder.Build(products[index]);

    /// <summary>
    /// How many products are of a verdict over 'clear': the first ones, since the list is worst first. None of them becomes a finding for
    /// it.
    /// </summary>
    /// <param name="verdict">Harmful or marginal.</param>
    public int CountOf(Verdict verdict)
    {
        int count = 0;
        foreach (ScoredProduct product in products)
        {
            Verdict its = builder.VerdictOf(product);
            if (its > verdict)
            {
                break;
            }

            count += its == verdict ? 1 : 0;
        }

        return count;
    }

    /// <summary>Whether something that the receiver makes itself is of unknown level; none becomes a finding for it.</summary>
    public bool HasUnknownMadeHere => products.Any(static p => !p.HasLevel && p.Transmitter is null);

    /// <summary>What is of unknown level and made in the receiver or its chain; none becomes a finding for it.</summary>
    public IEnumerable<ProductRecord> WithoutLevel =>
        products.Where(static p => !p.HasLevel && p.Transmitter is null).Select(static p => p.Record);

    public IEnumerator<ProductFinding> GetEnumerator()
    {
        for (int i = 0; i < products.Count; i++)
        {
            yield return this[i];
        }
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
