using System.Collections.Immutable;

using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Search.Fast;

/// <summary>
/// The emitters of a unit in order of rank, strongest first, with what the kernels ask of each; and for each class of width (narrow, wide)
/// the ranks that belong to it. Kept from run to run: for levels seen before nothing is sorted again.
/// </summary>
internal sealed class RankedEmitters
{
    /// <summary>
    /// Stands for the level of an emitter that nobody knows: stronger than any sum of levels, and nine of it do not overflow.
    /// </summary>
    public const long UnknownStrength = 10_000_000_000_000_000;

    /// <summary>
    /// An emitter wider than this is 'wide': those blur the bitmaps and have their own. Above all land mobile channels, under all
    /// broadcasting.
    /// </summary>
    private const long WideFromHz = 30_001;

    private ImmutableArray<SearchEmitter> _emitters;
    private ImmutableArray<int> _levels;
    private bool _takesUnknown;
    private int _maxOrder;
    private bool _sortedByFrequency;

    private int[] _level = [];
    private bool[] _noiseLike = [];
    private long[] _sortKey = [];
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

    public int Count { get; private set; }

    public bool HasWide { get; private set; }

    public long MaxNarrowBandwidth { get; private set; }

    public long MaxBandwidth { get; private set; }

    /// <summary>Emitter's index by rank.</summary>
    public int[] Emitter => _emitter;

    /// <summary>
    /// Bound of level by rank, in micro-dBm, descending: j times it less 20 lg(j!) is never under what the emitter contributes.
    /// </summary>
    public ReadOnlySpan<long> Strength => _strength.AsSpan(0, Count);

    public long[] Frequency => _frequency;

    public long[] Bandwidth => _bandwidth;

    public bool[] IsWide => _isWide;

    /// <summary>Lays the emitters out.</summary>
    /// <param name="problem">Whose emitters.</param>
    /// <param name="levels">Their levels; default where levels play no part.</param>
    /// <param name="takesUnknown">Whether emitters of unknown level take part.</param>
    public void Prepare(SearchProblem problem, ImmutableArray<int> levels, bool takesUnknown)
    {
        // Both arrays are immutable: the same one holds the same figures.
        if (problem.Emitters == _emitters && levels == _levels && takesUnknown == _takesUnknown && problem.MaxOrder == _maxOrder)
        {
            return;
        }

        (_emitters, _levels, _takesUnknown, _maxOrder, _sortedByFrequency) = (
            problem.Emitters, levels, takesUnknown, problem.MaxOrder, false);
        Sort();
        LayOut();
        PrepareClasses();
    }

    /// <summary>
    /// Part of a level that the emitter of a rank contributes when taken j times; <see cref="UnknownStrength"/> where it is unknown.
    /// </summary>
    public long Part(int rank, int times)
    {
        int level = _level[rank];
        return level == MicroDb.Unknown
            ? UnknownStrength
            : ((long)times * level) - Bounds.Penalty[times] + (_noiseLike[rank] ? Multinomial.FactorialPowerMicroDb(times) : 0);
    }

    /// <summary>Number of leading ranks whose strength reaches <c>total / times</c>.</summary>
    public int Reaching(long total, int times)
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

    /// <summary>The carriers of a class of width whose ranks lie in [from, to): frequencies modulo 2^32, and ranks.</summary>
    public ReadOnlySpan<uint> Carriers(bool wide, int from, int to, out ReadOnlySpan<int> ranks)
    {
        int k = wide ? 1 : 0;
        int start = _classBefore[k][from];
        int length = _classBefore[k][to] - start;
        ranks = _classRank[k].AsSpan(start, length);
        return _classFrequency[k].AsSpan(start, length);
    }

    /// <summary>The ranks of a class of width by ascending frequency, once <see cref="SortByFrequency"/> was called.</summary>
    public ReadOnlySpan<int> ByFrequency(bool wide) => _classByFrequency[wide ? 1 : 0].AsSpan(0, _classBefore[wide ? 1 : 0][Count]);

    /// <summary>Lays out what <see cref="ByFrequency"/> gives.</summary>
    public void SortByFrequency()
    {
        if (_sortedByFrequency)
        {
            return;
        }

        _sortedByFrequency = true;
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

    private void Sort()
    {
        ReadOnlySpan<SearchEmitter> emitters = _emitters.AsSpan();
        ReadOnlySpan<int> levels = _levels.IsDefault ? [] : _levels.AsSpan();
        Workspace.Grow(ref _emitter, emitters.Length);
        Workspace.Grow(ref _sortKey, emitters.Length);
        int count = 0;
        for (int i = 0; i < emitters.Length; i++)
        {
            long strength = levels.IsEmpty ? 0 : Bound(levels[i], emitters[i].NoiseLike);
            if (strength < UnknownStrength || _takesUnknown)
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
    }

    private void LayOut()
    {
        Workspace.Grow(ref _strength, Count);
        Workspace.Grow(ref _level, Count);
        Workspace.Grow(ref _noiseLike, Count);
        Workspace.Grow(ref _frequency, Count);
        Workspace.Grow(ref _bandwidth, Count);
        Workspace.Grow(ref _isWide, Count);
        MaxNarrowBandwidth = MaxBandwidth = 0;
        for (int rank = 0; rank < Count; rank++)
        {
            SearchEmitter emitter = _emitters[_emitter[rank]];
            _strength[rank] = -_sortKey[rank];
            _level[rank] = _levels.IsDefault ? 0 : _levels[_emitter[rank]];
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

    /// <summary>
    /// Level such that j times it less 20 lg(j!) bounds what the emitter contributes: of a noise-like one the most it gains per order is
    /// added.
    /// </summary>
    private long Bound(int level, bool noiseLike)
    {
        if (level == MicroDb.Unknown)
        {
            return UnknownStrength;
        }

        long gain = 0;
        for (int j = 2; noiseLike && j <= _maxOrder; j++)
        {
            gain = Math.Max(gain, (Multinomial.FactorialPowerMicroDb(j) / j) + 1);
        }

        return level + gain;
    }
}
