namespace Spurless.Mixing.Search;

/// <summary>Keeps the strongest products of each receiver; the search's thresholds rise as it fills.</summary>
/// <remarks>
/// Of equal levels those first in the order of <see cref="ProductRecord.CompareTo"/> are kept, so that the result does not depend on the
/// order in which they come. Products of unknown level stand last. Memory: 48 bytes a product kept. For who uses the search without a
/// study, and for bench; a study keeps its own lists, since it scores each product exactly.
/// </remarks>
public sealed class TopProducts : IRisingSink
{
    private readonly ProductRecord[][] _heaps;
    private readonly int[] _counts;
    private readonly long[] _wantedFrom;
    private readonly int _keep;

    /// <summary>For a number of receivers.</summary>
    /// <param name="receivers">Number of receivers in the problem.</param>
    /// <param name="keep">Products to keep of each, at least 1.</param>
    public TopProducts(int receivers, int keep)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(receivers);
        ArgumentOutOfRangeException.ThrowIfLessThan(keep, 1);
        _keep = keep;
        _heaps = new ProductRecord[receivers][];
        Array.Fill(_heaps, []);
        _counts = new int[receivers];
        _wantedFrom = new long[receivers];
        Array.Fill(_wantedFrom, long.MinValue);
    }

    /// <summary>The products kept of one receiver, strongest first.</summary>
    /// <param name="receiver">Index of the receiver.</param>
    public IReadOnlyList<ProductRecord> Of(int receiver)
    {
        ProductRecord[] kept = _heaps[receiver][.._counts[receiver]];
        Array.Sort(kept);
        return kept;
    }

    /// <inheritdoc/>
    public long WantedFromMicroDbm(int receiver) => Volatile.Read(ref _wantedFrom[receiver]);

    /// <inheritdoc/>
    public bool Add(in ProductRecord product)
    {
        int r = product.Receiver;
        int count = _counts[r];
        if (count < _keep)
        {
            if (count == _heaps[r].Length)
            {
                Array.Resize(ref _heaps[r], Math.Min(_keep, Math.Max(16, 2 * count)));
            }

            // The heap's top is the last in order: the one to go first.
            ProductRecord[] heap = _heaps[r];
            int at = count;
            for (int parent; at > 0 && heap[parent = (at - 1) / 2] < product; at = parent)
            {
                heap[at] = heap[parent];
            }

            heap[at] = product;
            _counts[r] = count + 1;
        }
        else if (product < _heaps[r][0])
        {
            ProductRecord[] heap = _heaps[r];
            int at = 0;
            for (int child; (child = (2 * at) + 1) < count; at = child)
            {
                child += child + 1 < count && heap[child + 1] > heap[child] ? 1 : 0;
                if (heap[child] <= product)
                {
                    break;
                }

                heap[at] = heap[child];
            }

            heap[at] = product;
        }

        if (_counts[r] == _keep && _heaps[r][0].HasLevel)
        {
            Volatile.Write(ref _wantedFrom[r], _heaps[r][0].LevelMicroDbm);
        }

        return true;
    }
}
