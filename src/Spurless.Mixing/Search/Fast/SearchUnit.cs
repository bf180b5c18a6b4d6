using System.Collections.Immutable;
using System.Runtime.InteropServices;

using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Search.Fast;

/// <summary>
/// What is searched in one go: receivers' stages that see the same levels, so that one order of the emitters by strength serves them all, with one
/// inverted index over all of them. Receivers without a floor need no levels and make one unit together.
/// </summary>
internal sealed class SearchUnit
{
    /// <summary>Stands for the level of an emitter that nobody knows: stronger than any sum of levels, and nine of it do not overflow.</summary>
    public const long UnknownStrength = 10_000_000_000_000_000;

    /// <summary>Threshold without a floor: under any sum of levels, and far from overflow.</summary>
    public const long NoThreshold = -100_000_000_000_000_000;

    /// <summary>An emitter wider than this is 'wide': those blur the bitmaps and have their own. Above all land mobile channels, under all broadcasting.</summary>
    private const long WideFromHz = 30_001;

    /// <summary>Most entries of the index together, which bounds its memory to 16 bytes each; a single receiver is taken whatever its number of emitters.</summary>
    public const int MaxEntries = 1 << 21;

    private readonly TailIndex?[] _tails = new TailIndex?[Multinomial.MaxOrder + 1];
    private readonly long[] _need = new long[Multinomial.MaxOrder + 1];
    private int[] _level = [];
    private bool[] _noiseLike = [];
    private long[] _sortKey = [];
    private IRisingSink? _rising;

    // In order of rank: strongest first.
    private int[] _emitter = [];
    private long[] _strength = [];
    private long[] _frequency = [];
    private long[] _bandwidth = [];
    private bool[] _isWide = [];

    // Ranks and frequencies of each class of width, and how many of the class stand ahead of a rank.
    private readonly uint[][] _classFrequency = [[], []];
    private readonly int[][] _classRank = [[], []];
    private readonly int[][] _classBefore = [[], []];

    // Ranks of each class by ascending frequency, where an index has no bitmap.
    private readonly int[][] _classByFrequency = [[], []];
    private long[] _frequencyKey = [];

    private int[] _memberReceiver = [];
    private int[] _memberStage = [];
    private bool[] _sharesReceiver = [];
    private long[] _memberFrequency = [];
    private long[] _memberChannel = [];
    private long[] _memberThreshold = [];
    private long[] _memberConstant = [];

    public SearchProblem Problem { get; private set; } = null!;

    public ExclusiveGroups Exclusive { get; private set; } = null!;

    public int Count { get; private set; }

    public int MemberCount { get; private set; }

    public int MinOrder => Problem.MinOrder;

    public int MaxOrder => Problem.MaxOrder;

    public bool HasWide { get; private set; }

    public long MaxNarrowBandwidth { get; private set; }

    public long MaxBandwidth { get; private set; }

    public long MaxChannel { get; private set; }

    /// <summary>Whether levels play no part in what is found.</summary>
    public bool WithoutLevels { get; private set; }

    /// <summary>Emitter's index by rank.</summary>
    public int[] Emitter => _emitter;

    /// <summary>Bound of level by rank, in micro-dBm, descending: j times it less 20 lg(j!) is never under what the emitter contributes.</summary>
    public ReadOnlySpan<long> Strength => _strength.AsSpan(0, Count);

    public long[] Frequency => _frequency;

    public long[] Bandwidth => _bandwidth;

    public bool[] IsWide => _isWide;

    public int[] MemberReceiver => _memberReceiver;

    /// <summary>Stage of the receiver whose levels these are; -1 where levels play no part.</summary>
    public int[] MemberStage => _memberStage;

    /// <summary>Whether other stages of the member's receiver must be asked before a product is this member's.</summary>
    public bool[] SharesReceiver => _sharesReceiver;

    public long[] MemberFrequency => _memberFrequency;

    public long[] MemberChannel => _memberChannel;

    public static ReadOnlySpan<int> Penalty => Penalties;

    /// <summary>20 lg(j!) in micro-dB.</summary>
    private static readonly int[] Penalties = [.. Enumerable.Range(0, Multinomial.MaxOrder + 1).Select(Multinomial.FactorialVoltageMicroDb)];

    /// <summary>Least sum of penalties when m orders are shared by at most s emitters: as evenly as can be.</summary>
    private static readonly long[,] LeastPenalty = ComputeLeastPenalty();

    /// <summary>Lays the unit out for some stages of a problem.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="exclusive">Its exclusive groups.</param>
    /// <param name="members">Receiver and stage of each member; the levels of all of them are equal, or all stages are -1.</param>
    /// <param name="rising">Sink that raises thresholds, or null.</param>
    public void Prepare(SearchProblem problem, ExclusiveGroups exclusive, ReadOnlySpan<(int Receiver, int Stage)> members, IRisingSink? rising)
    {
        (Problem, Exclusive, _rising) = (problem, exclusive, rising);
        WithoutLevels = members[0].Stage < 0;
        PrepareMembers(members);
        SortEmitters(members);
        PrepareClasses();
        RaiseThresholds();
    }

    /// <summary>Builds the index. Before it is used, and not while.</summary>
    public void BuildIndex(CancellationToken cancellationToken)
    {
        for (int c = 1; c <= MaxOrder - 1; c++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            (_tails[c] ??= new TailIndex()).Build(this, c, LastUsefulTail(c));
        }

        if (Array.Exists(_tails, static t => t is { LacksMap: true }))
        {
            SortByFrequency();
        }
    }

    /// <summary>The ranks of a class of width by ascending frequency; laid out only where an index lacks a bitmap.</summary>
    public ReadOnlySpan<int> RanksByFrequency(bool wide) => _classByFrequency[wide ? 1 : 0].AsSpan(0, _classBefore[wide ? 1 : 0][Count]);

    private void SortByFrequency()
    {
        for (int k = 0; k < 2; k++)
        {
            int count = _classBefore[k][Count];
            Workspace.Grow(ref _classByFrequency[k], count);
            Workspace.Grow(ref _frequencyKey, count);
            for (int i = 0; i < count; i++)
            {
                _classByFrequency[k][i] = _classRank[k][i];
                _frequencyKey[i] = _frequency[_classRank[k][i]];
            }

            MemoryExtensions.Sort(_frequencyKey.AsSpan(0, count), _classByFrequency[k].AsSpan(0, count));
        }
    }

    /// <summary>The tails of multiplicity c.</summary>
    public TailIndex Tails(int c) => _tails[c]!;

    /// <summary>What the emitters' parts must add up to for a product of an order to be found at the easiest member; rises with the sink's wants.</summary>
    public long Need(int order) => Volatile.Read(ref _need[order]);

    /// <summary>Part of a level that the emitter of a rank contributes when taken j times; <see cref="UnknownStrength"/> where it is unknown.</summary>
    public long Part(int rank, int times)
    {
        int level = _level[rank];
        return level == MicroDb.Unknown
            ? UnknownStrength
            : ((long)times * level) - Penalties[times] + (_noiseLike[rank] ? Multinomial.FactorialPowerMicroDb(times) : 0);
    }

    /// <summary>Constant part of a level at a member.</summary>
    public long Constant(int member, int order) => _memberConstant[(member * (Multinomial.MaxOrder + 1)) + order];

    /// <summary>Threshold at a member, as far as the sink's wants had risen when last asked.</summary>
    public long Threshold(int member) => Volatile.Read(ref _memberThreshold[member]);

    /// <summary>Number of leading ranks whose strength reaches <c>total / times</c>.</summary>
    public int RanksReaching(long total, int times)
    {
        // Least whole strength s with times * s >= total.
        long least = total >= 0 ? (total + times - 1) / times : -(-total / times);
        ReadOnlySpan<long> strength = Strength;
        int low = 0;
        int high = strength.Length;
        while (low < high)
        {
            int middle = (low + high) >>> 1;
            if (strength[middle] >= least)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }

    /// <summary>Most that m orders on at most s emitters of this strength or less can contribute.</summary>
    public static long Most(int m, int s, long strength) => (m * strength) - LeastPenalty[m, Math.Min(s, m)];

    /// <summary>The carriers of a class of width whose ranks lie in [from, to).</summary>
    public ReadOnlySpan<uint> Carriers(bool wide, int from, int to, out ReadOnlySpan<int> ranks)
    {
        int k = wide ? 1 : 0;
        int start = _classBefore[k][from];
        int length = _classBefore[k][to] - start;
        ranks = _classRank[k].AsSpan(start, length);
        return _classFrequency[k].AsSpan(start, length);
    }

    /// <summary>Number of leading ranks whose emitter can be the strongest of a product that reaches a threshold.</summary>
    public int LeadingRanks()
    {
        int ranks = 0;
        for (int n = MinOrder; n <= MaxOrder; n++)
        {
            ranks = Math.Max(ranks, RanksReaching(Need(n) + LeastPenalty[n, Math.Min(n, Problem.MaxSignals)], n));
        }

        return ranks;
    }

    /// <summary>Asks the sink what it still wants.</summary>
    public void RaiseThresholds()
    {
        if (_rising is not null)
        {
            for (int m = 0; m < MemberCount; m++)
            {
                long wanted = Math.Max(NoThreshold, _rising.WantedFromMicroDbm(_memberReceiver[m]));
                if (wanted > _memberThreshold[m])
                {
                    Volatile.Write(ref _memberThreshold[m], wanted);
                }
            }
        }

        for (int n = MinOrder; n <= MaxOrder; n++)
        {
            long least = long.MaxValue;
            for (int m = 0; m < MemberCount; m++)
            {
                least = Math.Min(least, _memberThreshold[m] - Constant(m, n));
            }

            Volatile.Write(ref _need[n], least);
        }
    }

    /// <summary>Tails from this rank on cannot reach any threshold, whatever stands in front of them.</summary>
    private int LastUsefulTail(int c)
    {
        int last = 0;
        for (int n = Math.Max(MinOrder, c + 1); n <= MaxOrder && Count > 0; n++)
        {
            long prefix = Most(n - c, Problem.MaxSignals - 1, _strength[0]);
            last = Math.Max(last, Problem.MaxSignals < 2 ? 0 : RanksReaching(Need(n) - prefix + Penalties[c], c));
        }

        return last;
    }

    private void PrepareMembers(ReadOnlySpan<(int Receiver, int Stage)> members)
    {
        MemberCount = members.Length;
        Workspace.Grow(ref _memberReceiver, MemberCount);
        Workspace.Grow(ref _memberStage, MemberCount);
        Workspace.Grow(ref _sharesReceiver, MemberCount);
        Workspace.Grow(ref _memberFrequency, MemberCount);
        Workspace.Grow(ref _memberChannel, MemberCount);
        Workspace.Grow(ref _memberThreshold, MemberCount);
        Workspace.Grow(ref _memberConstant, MemberCount * (Multinomial.MaxOrder + 1));
        MaxChannel = 0;
        for (int m = 0; m < MemberCount; m++)
        {
            SearchReceiver receiver = Problem.Receivers[members[m].Receiver];
            _memberReceiver[m] = members[m].Receiver;
            _memberStage[m] = members[m].Stage;
            _sharesReceiver[m] = WithoutLevels || receiver.Stages.Length > 1;
            _memberFrequency[m] = receiver.FrequencyHz;
            _memberChannel[m] = receiver.ChannelHz;
            MaxChannel = Math.Max(MaxChannel, receiver.ChannelHz);
            _memberThreshold[m] = WithoutLevels ? NoThreshold : Math.Max(NoThreshold, receiver.ThresholdMicroDbm);
            for (int n = 2; n <= Multinomial.MaxOrder; n++)
            {
                _memberConstant[(m * (Multinomial.MaxOrder + 1)) + n] = WithoutLevels
                    ? 0
                    : ProductLevel.OrderMicroDb(
                        n, receiver.Stages[members[m].Stage].InterceptMicroDbm[n], receiver.Stages[members[m].Stage].ReferralMicroDb);
            }
        }
    }

    private void SortEmitters(ReadOnlySpan<(int Receiver, int Stage)> members)
    {
        ReadOnlySpan<SearchEmitter> emitters = Problem.Emitters.AsSpan();
        ReadOnlySpan<int> levels = WithoutLevels ? [] : Problem.Receivers[members[0].Receiver].Stages[members[0].Stage].LevelMicroDbm.AsSpan();
        // Products with an unknown level belong to the first stage alone; a unit of later stages leaves those emitters out.
        bool takesUnknown = WithoutLevels;
        foreach ((int _, int stage) in members)
        {
            takesUnknown |= stage == 0;
        }

        Workspace.Grow(ref _emitter, emitters.Length);
        Workspace.Grow(ref _sortKey, emitters.Length);
        int count = 0;
        for (int i = 0; i < emitters.Length; i++)
        {
            long strength = WithoutLevels ? 0 : Bound(levels[i], emitters[i].NoiseLike);
            if (strength < UnknownStrength || takesUnknown)
            {
                _emitter[count] = i;
                _sortKey[count++] = -strength;
            }
        }

        Count = count;
        // Ties by index, so that the order is the same everywhere.
        MemoryExtensions.Sort(_sortKey.AsSpan(0, count), _emitter.AsSpan(0, count));
        for (int from = 0, to; from < count; from = to)
        {
            for (to = from + 1; to < count && _sortKey[to] == _sortKey[from]; to++)
            {
            }

            if (to > from + 1)
            {
                _emitter.AsSpan(from, to - from).Sort();
            }
        }

        Workspace.Grow(ref _strength, count);
        Workspace.Grow(ref _level, count);
        Workspace.Grow(ref _noiseLike, count);
        Workspace.Grow(ref _frequency, count);
        Workspace.Grow(ref _bandwidth, count);
        Workspace.Grow(ref _isWide, count);
        MaxNarrowBandwidth = MaxBandwidth = 0;
        for (int rank = 0; rank < count; rank++)
        {
            SearchEmitter emitter = emitters[_emitter[rank]];
            _strength[rank] = -_sortKey[rank];
            _level[rank] = WithoutLevels ? 0 : levels[_emitter[rank]];
            _noiseLike[rank] = emitter.NoiseLike;
            _frequency[rank] = emitter.FrequencyHz;
            _bandwidth[rank] = emitter.BandwidthHz;
            _isWide[rank] = emitter.BandwidthHz >= WideFromHz;
            MaxBandwidth = Math.Max(MaxBandwidth, emitter.BandwidthHz);
            MaxNarrowBandwidth = _isWide[rank] ? MaxNarrowBandwidth : Math.Max(MaxNarrowBandwidth, emitter.BandwidthHz);
        }
    }

    private void PrepareClasses()
    {
        HasWide = false;
        for (int k = 0; k < 2; k++)
        {
            Workspace.Grow(ref _classFrequency[k], Count);
            Workspace.Grow(ref _classRank[k], Count);
            Workspace.Grow(ref _classBefore[k], Count + 1);
            int n = 0;
            for (int rank = 0; rank < Count; rank++)
            {
                _classBefore[k][rank] = n;
                if (_isWide[rank] == (k == 1))
                {
                    _classFrequency[k][n] = unchecked((uint)_frequency[rank]);
                    _classRank[k][n++] = rank;
                }
            }

            _classBefore[k][Count] = n;
            HasWide |= k == 1 && n > 0;
        }
    }

    /// <summary>Level such that j times it less 20 lg(j!) bounds what the emitter contributes: of a noise-like one the most it gains per order is added.</summary>
    private long Bound(int level, bool noiseLike)
    {
        if (level == MicroDb.Unknown)
        {
            return UnknownStrength;
        }

        long gain = 0;
        for (int j = 2; noiseLike && j <= MaxOrder; j++)
        {
            gain = Math.Max(gain, (Multinomial.FactorialPowerMicroDb(j) / j) + 1);
        }

        return level + gain;
    }

    private static long[,] ComputeLeastPenalty()
    {
        const int Max = Multinomial.MaxOrder;
        long[,] least = new long[Max + 1, Max + 1];
        for (int m = 1; m <= Max; m++)
        {
            for (int s = 1; s <= m; s++)
            {
                // The logarithm of the factorial is convex: the even share is the least.
                int more = m % s;
                least[m, s] = ((long)(s - more) * Penalties[m / s]) + (more == 0 ? 0 : (long)more * Penalties[(m / s) + 1]);
            }
        }

        return least;
    }
}
