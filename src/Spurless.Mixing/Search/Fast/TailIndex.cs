namespace Spurless.Mixing.Search.Fast;

/// <summary>All tails of one multiplicity c, for all receivers of a unit, and the bitmaps in front of them.</summary>
internal sealed class TailIndex
{
    private readonly uint[][] _maps = [[], []];
    private readonly int[] _shifts = new int[2];
    private readonly bool[] _used = new bool[2];
    private long[] _part = [];

    public TailTable Table { get; } = new();

    public bool IsEmpty => Table.Count == 0;

    /// <summary>Whether some prefixes have to be asked without a bitmap.</summary>
    public bool LacksMap { get; private set; }

    /// <summary>Part of a level that the tail of a rank contributes.</summary>
    public long[] Part => _part;

    /// <summary>Builds table and bitmaps.</summary>
    /// <param name="unit">The unit.</param>
    /// <param name="times">c.</param>
    /// <param name="rankCount">Tails of this rank and beyond can reach no threshold.</param>
    public void Build(SearchUnit unit, int times, int rankCount)
    {
        Table.Build(unit, times, rankCount);
        LacksMap = false;
        if (IsEmpty)
        {
            return;
        }

        RankedEmitters emitters = unit.Emitters;
        Workspace.Grow(ref _part, rankCount);
        for (int j = 0; j < rankCount; j++)
        {
            _part[j] = emitters.Part(j, times);
        }

        int room = unit.MaxOrder - times;
        BuildMap(0, room * emitters.MaxNarrowBandwidth);
        BuildMap(1, emitters.HasWide ? room * emitters.MaxBandwidth : -1);
        LacksMap = !_used[0] || (emitters.HasWide && !_used[1]);
    }

    /// <summary>The bitmap for prefixes of a class of width; false where it would be too full to be of use.</summary>
    public bool TryGetMap(bool widePrefix, out ReadOnlySpan<uint> map, out int shift)
    {
        int k = widePrefix ? 1 : 0;
        shift = _shifts[k];
        map = _maps[k].AsSpan(0, _used[k] ? 1 << (27 - shift) : 0);
        return _used[k];
    }

    private void BuildMap(int k, long prefixWidth)
    {
        _used[k] = false;
        long prefixReach = (prefixWidth / 2) + 1;
        if (prefixWidth < 0 || prefixReach + Table.MaxReachHz >= TailTable.FarHz)
        {
            return;
        }

        // Widths in hertz that one entry covers, all told, to choose bins so fine that few are set, but no finer.
        int count = Table.Count;
        double covered = 2 * (Table.SumOfReachesHz + ((double)count * prefixReach));
        // Bins much finer than what an entry covers make the map larger and no emptier.
        double average = covered / count;
        int bits = 12;
        while (bits < 21 && (covered / (1L << (32 - bits))) + count > (1 << bits) / 64.0 && 3L << (32 - bits) > average)
        {
            bits++;
        }

        if ((covered / (1L << (32 - bits))) + count > (1 << bits) / 2.0)
        {
            return;
        }

        _used[k] = true;
        _shifts[k] = 32 - bits;
        int words = 1 << (bits - 5);
        Workspace.Grow(ref _maps[k], words);
        Span<uint> map = _maps[k].AsSpan(0, words);
        map.Clear();
        Fill(map, 32 - bits, (uint)prefixReach);
    }

    private void Fill(Span<uint> map, int shift, uint prefixReach)
    {
        ReadOnlySpan<uint> values = Table.Value.AsSpan(0, Table.Count);
        ReadOnlySpan<uint> reaches = Table.Reach.AsSpan(0, Table.Count);
        for (int i = 0; i < values.Length; i++)
        {
            uint reach = prefixReach + reaches[i];
            uint first = unchecked(values[i] - reach) >> shift;
            uint last = unchecked(values[i] + reach) >> shift;
            int word = (int)(first >> 5);
            int end = (int)(last >> 5);
            uint head = uint.MaxValue << (int)(first & 31);
            uint tail = uint.MaxValue >> (31 - (int)(last & 31));
            if (word == end && first <= last)
            {
                map[word] |= head & tail;
                continue;
            }

            map[word] |= head;
            map[end] |= tail;
            for (word = (word + 1) & (map.Length - 1); word != end; word = (word + 1) & (map.Length - 1))
            {
                map[word] = uint.MaxValue;
            }
        }
    }
}
