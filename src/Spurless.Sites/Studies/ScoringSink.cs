using Spurless.Mixing.Search;

namespace Spurless.Sites.Studies;

/// <summary>Takes what the search finds, scores it, and keeps per receiver what reaches the report floor, or the strongest of it.</summary>
internal sealed class ScoringSink : IProductSink
{
    private readonly ProductScorer[] _scorers;
    private readonly List<ScoredProduct>[] _kept;
    private readonly long[] _found;
    private readonly long[] _wantedFrom;
    private readonly IComparer<ScoredProduct> _worstFirst;
    private readonly int?[] _top;
    private readonly int _limit;
    private readonly ProductChoice? _choice;

    public ScoringSink(
        IReadOnlyList<ProductScorer> scorers, IComparer<ScoredProduct> worstFirst, IReadOnlyList<int?> top, int limit,
        ProductChoice? choice = null)
    {
        _choice = choice;
        _scorers = [.. scorers];
        _kept = [.. scorers.Select(static _ => new List<ScoredProduct>())];
        _found = new long[scorers.Count];
        _wantedFrom = new long[scorers.Count];
        Array.Fill(_wantedFrom, long.MinValue);
        _worstFirst = worstFirst;
        _top = [.. top];
        _limit = limit;
    }

    /// <summary>The receiver at which the list grew too long, or null.</summary>
    public int? Overflowed { get; private set; }

    public bool Add(in ProductRecord product) => Keep(product.Receiver, _scorers[product.Receiver].Score(product));

    /// <summary>Takes a product that a transmitter made, whose level is known.</summary>
    /// <param name="r">The receiver, by index of the scorers.</param>
    /// <param name="product">The product.</param>
    /// <param name="transmitter">Index of the transmitter among those computed.</param>
    public bool AddMade(int r, in ProductRecord product, int transmitter) => Keep(r, _scorers[r].ScoreMade(product, transmitter));

    private bool Keep(int r, in ScoredProduct scored)
    {
        if (!_scorers[r].Reaches(scored) || _choice?.Invoke(r, scored.Record) == false)
        {
            return true;
        }

        _found[r]++;
        List<ScoredProduct> list = _kept[r];
        if (_top[r] is not { } top)
        {
            if (list.Count >= _limit)
            {
                Overflowed = r;
                return false;
            }

            list.Add(scored);
            return true;
        }

        list.Add(scored);
        if (list.Count >= (2L * top) + 1024)
        {
            Trim(list, top);
            if (list[top - 1].HasLevel)
            {
                Volatile.Write(ref _wantedFrom[r], list[top - 1].InChannel - _scorers[r].MostOverSearchMicroDb);
            }
        }

        return true;
    }

    /// <summary>Levels, as the search knows them, from which a product can still get among the strongest of a receiver.</summary>
    public long WantedFromMicroDbm(int receiver) => Volatile.Read(ref _wantedFrom[receiver]);

    /// <summary>The products of a receiver in the order of the results, and how many more there were.</summary>
    public (IReadOnlyList<ScoredProduct> Products, long LeftOut) Of(int receiver)
    {
        List<ScoredProduct> list = _kept[receiver];
        Trim(list, _top[receiver] ?? int.MaxValue);
        return (list, _found[receiver] - list.Count);
    }

    private void Trim(List<ScoredProduct> list, int most)
    {
        list.Sort(_worstFirst);
        if (list.Count > most)
        {
            list.RemoveRange(most, list.Count - most);
        }
    }
}
