using System.Numerics;

namespace Spurless.Mixing.Search.Fast;

/// <summary>
/// Tails of one multiplicity c against every receiver, in buckets of frequency modulo 2^32 Hz; contiguous buckets are contiguous in memory.
/// An entry says: a prefix of frequency s f_r - c f_j (s and c with their signs) lands exactly on receiver r by emitter j. Four columns of
/// 32 bits, so that <see cref="TailFilter"/> asks eight entries at a time.
/// </summary>
internal sealed class TailTable
{
    /// <summary>Reaches from here on are no use modulo 2^32: every entry is asked.</summary>
    public const long FarHz = 1L << 30;

    private uint[] _value = [];
    private uint[] _reach = [];
    private int[] _rank = [];
    private int[] _target = [];
    private int[] _starts = [];
    private int _shift;

    public int Count { get; private set; }

    /// <summary>The greatest reach of an entry.</summary>
    public long MaxReachHz { get; private set; }

    /// <summary>Sum of all reaches, to judge how full a bitmap would be.</summary>
    public double SumOfReachesHz { get; private set; }

    /// <summary>s f_r - c f_j modulo 2^32.</summary>
    public uint[] Value => _value;

    /// <summary>
    /// What the receiver's channel and the tail's own width add to the distance at which a prefix still lands: (B + c b_j) / 2 rounded up,
    /// at most <see cref="FarHz"/>.
    /// </summary>
    public uint[] Reach => _reach;

    /// <summary>Rank of the tail's emitter j.</summary>
    public int[] Rank => _rank;

    /// <summary>Member of the unit, times four, plus 2 for s negative (a mirror image), plus 1 for c negative.</summary>
    public int[] Target => _target;

    /// <summary>Lays the tails of ranks 1..<paramref name="rankCount"/>-1.</summary>
    public void Build(SearchUnit unit, int times, int rankCount)
    {
        Count = Math.Max(0, rankCount - 1) * unit.MemberCount * 4;
        (MaxReachHz, SumOfReachesHz) = (0, 0);
        if (Count == 0)
        {
            return;
        }

        // Half as many entries as buckets, and no finer: carriers crowd in few bands, and a run of eight is one step of the filter.
        int bits = Math.Clamp(BitOperations.Log2((uint)Count) + 1, 6, 20);
        _shift = 32 - bits;
        Workspace.Grow(ref _value, Count + TailFilter.Beyond);
        Workspace.Grow(ref _reach, Count + TailFilter.Beyond);
        Workspace.Grow(ref _rank, Count + TailFilter.Beyond);
        Workspace.Grow(ref _target, Count);
        Workspace.Grow(ref _starts, (1 << bits) + 2);
        Span<int> starts = _starts.AsSpan(0, (1 << bits) + 2);
        starts.Clear();

        // Counting sort: counts stand two places up, so that after the summation the start of each bucket stands one up and filling moves
        // it into place.
        ReadOnlySpan<long> carrier = unit.Emitters.Frequency.AsSpan(0, rankCount);
        ReadOnlySpan<long> receivers = unit.MemberFrequency.AsSpan(0, unit.MemberCount);
        for (int j = 1; j < carrier.Length; j++)
        {
            long tail = times * carrier[j];
            foreach (long receiver in receivers)
            {
                starts[Bucket(receiver - tail) + 2]++;
                starts[Bucket(receiver + tail) + 2]++;
                starts[Bucket(-receiver - tail) + 2]++;
                starts[Bucket(-receiver + tail) + 2]++;
            }
        }

        for (int i = 3; i < starts.Length; i++)
        {
            starts[i] += starts[i - 1];
        }

        for (int j = 1; j < carrier.Length; j++)
        {
            long tail = times * carrier[j];
            long width = times * unit.Emitters.Bandwidth[j];
            for (int m = 0; m < receivers.Length; m++)
            {
                long receiver = receivers[m];
                long reach = Math.Min(FarHz, (unit.MemberChannel[m] + width + 1) / 2);
                MaxReachHz = Math.Max(MaxReachHz, reach);
                SumOfReachesHz += 4.0 * reach;
                Place(receiver - tail, reach, j, m << 2);
                Place(receiver + tail, reach, j, (m << 2) + 1);
                Place(-receiver - tail, reach, j, (m << 2) + 2);
                Place(-receiver + tail, reach, j, (m << 2) + 3);
            }
        }
    }

    /// <summary>The entries that may lie within +-<paramref name="half"/>, under <see cref="FarHz"/>, of a frequency.</summary>
    /// <returns>A run, and a second one from the beginning where the modulus wraps (else empty).</returns>
    public (int From, int To, int SecondTo) Near(long frequency, long half)
    {
        int low = Bucket(frequency - half);
        int high = Bucket(frequency + half);
        return low <= high ? (_starts[low], _starts[high + 1], 0) : (_starts[low], Count, _starts[high + 1]);
    }

    private int Bucket(long value) => (int)(unchecked((uint)value) >> _shift);

    private void Place(long value, long reach, int rank, int target)
    {
        int at = _starts[Bucket(value) + 1]++;
        _value[at] = unchecked((uint)value);
        _reach[at] = (uint)reach;
        _rank[at] = rank;
        _target[at] = target;
    }
}
