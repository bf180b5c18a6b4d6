using System.Numerics;

namespace Spurless.Mixing.Search.Fast;

/// <summary>One tail against one receiver: a prefix of this frequency lands exactly on the receiver.</summary>
/// <param name="Value">s f_r - c f_j in hertz, s and c with their signs.</param>
/// <param name="Rank">Rank of the tail's emitter j.</param>
/// <param name="Target">Member of the unit, times four, plus 2 for s negative, plus 1 for c negative.</param>
internal readonly record struct TailEntry(long Value, int Rank, int Target)
{
    public int Member => Target >> 2;

    public bool MirrorImage => (Target & 2) != 0;

    public bool NegativeTail => (Target & 1) != 0;
}

/// <summary>Tails of one multiplicity and one class of width, in buckets of frequency modulo 2^32 Hz. Contiguous buckets are contiguous in memory.</summary>
internal sealed class TailBuckets
{
    private TailEntry[] _entries = [];
    private int[] _starts = [];
    private int _shift;
    private int _count;

    /// <summary>The greatest width of a tail's own emitter.</summary>
    public long MaxBandwidthHz { get; private set; }

    public bool IsEmpty => _count == 0;

    public ReadOnlySpan<TailEntry> Entries => _entries.AsSpan(0, _count);

    /// <summary>Lays the tails of ranks 1..<paramref name="rankCount"/>-1 of the class.</summary>
    public void Build(SearchUnit unit, int times, int rankCount, bool wide)
    {
        int tails = 0;
        MaxBandwidthHz = 0;
        for (int j = 1; j < rankCount; j++)
        {
            if (unit.IsWide[j] == wide)
            {
                tails++;
                MaxBandwidthHz = Math.Max(MaxBandwidthHz, unit.Bandwidth[j]);
            }
        }

        _count = tails * unit.MemberCount * 4;
        if (_count == 0)
        {
            return;
        }

        int bits = Math.Clamp(BitOperations.Log2((uint)_count) + 1, 6, 20);
        _shift = 32 - bits;
        int buckets = 1 << bits;
        Workspace.Grow(ref _entries, _count);
        Workspace.Grow(ref _starts, buckets + 2);
        Span<int> starts = _starts.AsSpan(0, buckets + 2);
        starts.Clear();

        // Counting sort: counts stand two places up, so that after the summation the start of each bucket stands one up and filling moves it into place.
        for (int pass = 0; pass < 2; pass++)
        {
            for (int j = 1; j < rankCount; j++)
            {
                if (unit.IsWide[j] != wide)
                {
                    continue;
                }

                long tail = times * unit.Frequency[j];
                for (int m = 0; m < unit.MemberCount; m++)
                {
                    long receiver = unit.MemberFrequency[m];
                    if (pass == 0)
                    {
                        starts[Bucket(receiver - tail) + 2]++;
                        starts[Bucket(receiver + tail) + 2]++;
                        starts[Bucket(-receiver - tail) + 2]++;
                        starts[Bucket(-receiver + tail) + 2]++;
                    }
                    else
                    {
                        Place(starts, receiver - tail, j, m << 2);
                        Place(starts, receiver + tail, j, (m << 2) + 1);
                        Place(starts, -receiver - tail, j, (m << 2) + 2);
                        Place(starts, -receiver + tail, j, (m << 2) + 3);
                    }
                }
            }

            if (pass == 0)
            {
                for (int i = 2; i < starts.Length; i++)
                {
                    starts[i] += starts[i - 1];
                }
            }
        }
    }

    /// <summary>The entries that may lie within +-<paramref name="half"/> of a frequency: at most two runs, the second one where the modulus wraps.</summary>
    public void Near(long frequency, long half, out ReadOnlySpan<TailEntry> first, out ReadOnlySpan<TailEntry> second)
    {
        second = [];
        if (half >= 1L << 30)
        {
            first = Entries;
            return;
        }

        int low = Bucket(frequency - half);
        int high = Bucket(frequency + half);
        if (low <= high)
        {
            first = _entries.AsSpan(_starts[low].._starts[high + 1]);
        }
        else
        {
            first = _entries.AsSpan(_starts[low].._count);
            second = _entries.AsSpan(0, _starts[high + 1]);
        }
    }

    private int Bucket(long value) => (int)(unchecked((uint)value) >> _shift);

    private void Place(Span<int> starts, long value, int rank, int target) =>
        _entries[starts[Bucket(value) + 1]++] = new TailEntry(value, rank, target);
}

/// <summary>All tails of one multiplicity c, for all receivers of a unit, and the bitmaps in front of them.</summary>
internal sealed class TailIndex
{
    private readonly uint[][] _maps = [[], []];
    private readonly int[] _shifts = new int[2];
    private readonly bool[] _used = new bool[2];

    /// <summary>Tails with narrow emitters.</summary>
    public TailBuckets Narrow { get; } = new();

    /// <summary>Tails with wide emitters.</summary>
    public TailBuckets Wide { get; } = new();

    public bool IsEmpty => Narrow.IsEmpty && Wide.IsEmpty;

    /// <summary>Whether some prefixes have to be asked without a bitmap.</summary>
    public bool LacksMap { get; private set; }

    /// <summary>Builds tables and bitmaps.</summary>
    /// <param name="unit">The unit.</param>
    /// <param name="times">c.</param>
    /// <param name="rankCount">Tails of this rank and beyond can reach no threshold.</param>
    public void Build(SearchUnit unit, int times, int rankCount)
    {
        Narrow.Build(unit, times, rankCount, false);
        Wide.Build(unit, times, rankCount, true);
        int room = unit.MaxOrder - times;
        BuildMap(unit, times, 0, room * unit.MaxNarrowBandwidth);
        BuildMap(unit, times, 1, unit.HasWide ? room * unit.MaxBandwidth : -1);
        LacksMap = !IsEmpty && (!_used[0] || (unit.HasWide && !_used[1]));
    }

    /// <summary>The bitmap for prefixes of a class of width; false where it would be too full to be of use.</summary>
    public bool TryGetMap(bool widePrefix, out ReadOnlySpan<uint> map, out int shift)
    {
        int k = widePrefix ? 1 : 0;
        shift = _shifts[k];
        map = _maps[k].AsSpan(0, _used[k] ? 1 << (27 - shift) : 0);
        return _used[k];
    }

    private void BuildMap(SearchUnit unit, int times, int k, long prefixWidth)
    {
        _used[k] = false;
        int count = Narrow.Entries.Length + Wide.Entries.Length;
        if (count == 0 || prefixWidth < 0)
        {
            return;
        }

        // Widths in hertz that one entry covers, all told, to choose bins so fine that few are set, but no finer.
        double covered = (Narrow.Entries.Length * (double)(unit.MaxChannel + (times * Narrow.MaxBandwidthHz) + prefixWidth))
            + (Wide.Entries.Length * (double)(unit.MaxChannel + (times * Wide.MaxBandwidthHz) + prefixWidth));
        // Bins much finer than what an entry covers make the map larger and no emptier.
        double average = covered / count;
        int bits = 12;
        while (bits < 21 && (covered / (1L << (32 - bits))) + count > (1 << bits) / 32.0 && 3L << (32 - bits) > average)
        {
            bits++;
        }

        if ((covered / (1L << (32 - bits))) + count > (1 << bits) / 2.0)
        {
            return;
        }

        _used[k] = true;
        int shift = 32 - bits;
        _shifts[k] = shift;
        int words = 1 << (bits - 5);
        Workspace.Grow(ref _maps[k], words);
        Span<uint> map = _maps[k].AsSpan(0, words);
        map.Clear();
        Fill(unit, times, Narrow.Entries, prefixWidth, map, shift);
        Fill(unit, times, Wide.Entries, prefixWidth, map, shift);
    }

    private static void Fill(SearchUnit unit, int times, ReadOnlySpan<TailEntry> entries, long prefixWidth, Span<uint> map, int shift)
    {
        foreach (ref readonly TailEntry entry in entries)
        {
            long half = ((unit.MemberChannel[entry.Member] + (times * unit.Bandwidth[entry.Rank]) + prefixWidth) / 2) + 1;
            if (half >= 1L << 30)
            {
                map.Fill(uint.MaxValue);
                return;
            }

            uint bin = unchecked((uint)(entry.Value - half)) >> shift;
            uint last = unchecked((uint)(entry.Value + half)) >> shift;
            uint mask = uint.MaxValue >> shift;
            while (true)
            {
                map[(int)(bin >> 5)] |= 1u << (int)(bin & 31);
                if (bin == last)
                {
                    break;
                }

                bin = bin + 1 & mask;
            }
        }
    }
}
