namespace Spurless.Mixing.Search;

/// <summary>Keeps all products, up to a limit.</summary>
/// <param name="limit">Most products kept; one more stops the search.</param>
public sealed class ProductList(int limit = ProductList.DefaultLimit) : IProductSink
{
    /// <summary>Longest list that anybody is asked to read: 2,000,000 products, 96 MB.</summary>
    public const int DefaultLimit = 2_000_000;

    private readonly List<ProductRecord> _products = [];

    /// <summary>The products, as found until <see cref="Sort"/>.</summary>
    public IReadOnlyList<ProductRecord> Products => _products;

    /// <summary>Whether there were more than the limit.</summary>
    public bool Overflowed { get; private set; }

    /// <inheritdoc/>
    public bool Add(in ProductRecord product)
    {
        if (_products.Count >= limit)
        {
            Overflowed = true;
            return false;
        }

        _products.Add(product);
        return true;
    }

    /// <summary>Sorts by receiver, descending level, order and terms.</summary>
    public void Sort() => _products.Sort();
}
