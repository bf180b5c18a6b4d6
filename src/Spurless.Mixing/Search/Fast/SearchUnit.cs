using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Search.Fast;

/// <summary>
/// What is searched in one go: receivers' stages that see the same levels, so that one order of the emitters by strength serves them all,
/// with one inverted index over all of them. Receivers without a floor need no levels and make one unit together.
/// </summary>
internal sealed class SearchUnit
{
    /// <summary>Threshold without a floor: under any sum of levels, and far from overflow.</summary>
    public const long NoThreshold = -100_000_000_000_000_000;

    /// <summary>
    /// Most entries of the index together, which bounds its memory to 16 bytes each; a single receiver is taken whatever its number of
    /// emitters.
    /// </summary>
    public const int MaxEntries = 1 << 21;

    private const int Orders = Multinomial.MaxOrder + 1;

    private readonly TailIndex?[] _tails = new TailIndex?[Orders];
    private readonly long[] _need = new long[Orders];
    private IRisingSink? _rising;

    private int[] _memberReceiver = [];
    private int[] _memberStage = [];
    private bool[] _sharesReceiver = [];
    private long[] _memberFrequency = [];
    private long[] _memberChannel = [];
    private long[] _memberThreshold = [];
    private long[] _memberConstant = [];

    public SearchProblem Problem { get; private set; } = null!;

    public ExclusiveGroups Exclusive { get; private set; } = null!;

    public RankedEmitters Emitters { get; } = new();

    public int Count => Emitters.Count;

    public int MemberCount { get; private set; }

    public int MinOrder => Problem.MinOrder;

    public int MaxOrder => Problem.MaxOrder;

    /// <summary>Whether levels play no part in what is found.</summary>
    public bool WithoutLevels { get; private set; }

    public int[] MemberReceiver => _memberReceiver;

    /// <summary>Stage of the receiver whose levels these are; -1 where levels play no part.</summary>
    public int[] MemberStage => _memberStage;

    /// <summary>Whether other stages of the member's receiver must be asked before a product is this member's.</summary>
    public bool[] SharesReceiver => _sharesReceiver;

    public long[] MemberFrequency => _memberFrequency;

    public long[] MemberChannel => _memberChannel;

    /// <summary>Lays the unit out for some stages of a problem.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="exclusive">Its exclusive groups.</param>
    /// <param name="members">Receiver and stage of each member; the levels of all of them are equal, or all stages are -1.</param>
    /// <param name="rising">Sink that raises thresholds, or null.</param>
    public void Prepare(
        SearchProblem problem, ExclusiveGroups exclusive, ReadOnlySpan<(int Receiver, int Stage)> members, IRisingSink? rising)
    {
        (Problem, Exclusive, _rising) = (problem, exclusive, rising);
        (int receiver, int stage) = members[0];
        WithoutLevels = stage < 0;
        // Products with an unknown level belong to the first stage alone; a unit of later stages leaves those emitters out.
        bool takesUnknown = WithoutLevels;
        foreach ((int _, int s) in members)
        {
            takesUnknown |= s == 0;
        }

        Emitters.Prepare(problem, WithoutLevels ? default : problem.Receivers[receiver].Stages[stage].LevelMicroDbm, takesUnknown);
        PrepareMembers(members);
        RaiseThresholds();
    }

    /// <summary>Builds the index. Before it is used, and not while.</summary>
    public void BuildIndex(CancellationToken cancellationToken)
    {
        bool lacksMap = false;
        for (int c = 1; c <= MaxOrder - 1; c++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            TailIndex tails = _tails[c] ??= new TailIndex();
            tails.Build(this, c, LastUsefulTail(c));
            lacksMap |= tails.LacksMap;
        }

        if (lacksMap)
        {
            Emitters.SortByFrequency();
        }
    }

    /// <summary>The tails of multiplicity c.</summary>
    public TailIndex Tails(int c) => _tails[c]!;

    /// <summary>
    /// What the emitters' parts must add up to for a product of an order to be found at the easiest member; rises with the sink's wants.
    /// </summary>
    public long Need(int order) => Volatile.Read(ref _need[order]);

    /// <summary>Constant part of a level at a member.</summary>
    public long Constant(int member, int order) => _memberConstant[(member * Orders) + order];

    /// <summary>Threshold at a member, as far as the sink's wants had risen when last asked.</summary>
    public long Threshold(int member) => Volatile.Read(ref _memberThreshold[member]);

    /// <summary>Number of leading ranks whose emitter can be the strongest of a product that reaches a threshold.</summary>
    public int LeadingRanks()
    {
        int ranks = 0;
        for (int n = MinOrder; n <= MaxOrder; n++)
        {
            ranks = Math.Max(ranks, Emitters.Reaching(Need(n) + Bounds.LeastPenalty(n, Problem.MaxSignals), n));
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
            long prefix = Bounds.Most(n - c, Problem.MaxSignals - 1, Emitters.Strength[0]);
            last = Math.Max(last, Problem.MaxSignals < 2 ? 0 : Emitters.Reaching(Need(n) - prefix + Bounds.Penalty[c], c));
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
        Workspace.Grow(ref _memberConstant, MemberCount * Orders);
        for (int m = 0; m < MemberCount; m++)
        {
            SearchReceiver receiver = Problem.Receivers[members[m].Receiver];
            _memberReceiver[m] = members[m].Receiver;
            _memberStage[m] = members[m].Stage;
            _sharesReceiver[m] = WithoutLevels || receiver.Stages.Length > 1;
            _memberFrequency[m] = receiver.FrequencyHz;
            _memberChannel[m] = receiver.ChannelHz;
            _memberThreshold[m] = WithoutLevels ? NoThreshold : Math.Max(NoThreshold, receiver.ThresholdMicroDbm);
            SearchStage? stage = WithoutLevels ? null : receiver.Stages[members[m].Stage];
            for (int n = 2; n < Orders; n++)
            {
                _memberConstant[(m * Orders) + n] = stage is null
                    ? 0
                    : ProductLevel.OrderMicroDb(n, stage.InterceptMicroDbm[n], stage.ReferralMicroDb);
            }
        }
    }
}
