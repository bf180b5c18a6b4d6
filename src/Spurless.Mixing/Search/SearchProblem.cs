using System.Collections.Immutable;

using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Search;

/// <summary>One emitter as the search sees it.</summary>
/// <param name="FrequencyHz">Carrier in hertz, 1 to <see cref="SearchProblem.MaxFrequencyHz"/>.</param>
/// <param name="BandwidthHz">Occupied bandwidth in hertz, 0 to <see cref="SearchProblem.MaxFrequencyHz"/>.</param>
/// <param name="NoiseLike">Whether it is noise-like: taken j times it makes 10 lg(j!) dB more.</param>
public readonly record struct SearchEmitter(long FrequencyHz, long BandwidthHz, bool NoiseLike = false);

/// <summary>One non-linear stage of a receiver's chain.</summary>
public sealed record SearchStage
{
    /// <summary>
    /// Level of each emitter at this stage's input, in micro-dBm, in the order of <see cref="SearchProblem.Emitters"/>;
    /// <see cref="MicroDb.Unknown"/> where nobody knows it (then it must be unknown at every stage of the receiver).
    /// </summary>
    public required ImmutableArray<int> LevelMicroDbm { get; init; }

    /// <summary>Intercepts at this stage's input in micro-dBm by order: ten entries, of which 2 to 9 are used.</summary>
    public required ImmutableArray<int> InterceptMicroDbm { get; init; }

    /// <summary>
    /// What is added to a product's level at this stage's input to refer it to the receiver's input, in micro-dB: the gain from this stage
    /// on at the product's frequency. One figure for all products of the receiver; who needs it exact gives the greatest over the
    /// frequencies that can hit and computes the found products' levels again.
    /// </summary>
    public int ReferralMicroDb { get; init; }
}

/// <summary>One receiver as the search sees it.</summary>
public sealed record SearchReceiver
{
    /// <summary>The channel's centre in hertz, 1 to <see cref="SearchProblem.MaxFrequencyHz"/>.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>The channel's raster B in hertz, above 0.</summary>
    public required long ChannelHz { get; init; }

    /// <summary>Report floor in micro-dBm at the receiver's input, or null for none.</summary>
    public long? FloorMicroDbm { get; init; }

    /// <summary>
    /// The non-linear stages from the antenna on, at most 255. None: products have no level and every one that can hit is found.
    /// </summary>
    public ImmutableArray<SearchStage> Stages { get; init; } = [];

    /// <summary>
    /// What the strongest stage's level must reach for a product to be found: the floor less 10 lg of the number of stages (rounded up), so
    /// that the power sum of the stages cannot reach the floor unnoticed; <see cref="long.MinValue"/> without a floor.
    /// </summary>
    public long ThresholdMicroDbm => FloorMicroDbm is not { } floor
        ? long.MinValue
        : Stages.Length > 1 ? floor - (long)Math.Ceiling(10 * Math.Log10(Stages.Length) * MicroDb.PerDecibel) - 1 : floor;
}

/// <summary>What to search: emitters, receivers and limits. Immutable.</summary>
/// <remarks>
/// Found is every vector of integer coefficients k over the emitters with <c>MinOrder &lt;= sum |k_i| &lt;= MaxOrder</c>, at most
/// <see cref="MaxSignals"/> coefficients other than zero, no two emitters of one exclusive group, and frequency f_k = sum k_i f_i above 0
/// (of a vector and its mirror image that is one; frequency 0 is none), for each receiver with <c>2 |f_k - f_r| &lt;= B + sum |k_i| b_i</c>
/// whose level reaches the receiver's threshold or is unknown. Emitters on equal carriers are different signals.
/// </remarks>
public sealed record SearchProblem
{
    /// <summary>Highest frequency or bandwidth taken: 1 THz, so that sums of nine stay exact in 64 bits.</summary>
    public const long MaxFrequencyHz = 1_000_000_000_000;

    /// <summary>Most emitters in one problem.</summary>
    public const int MaxEmitters = ushort.MaxValue;

    /// <summary>The emitters; at most <see cref="MaxEmitters"/>.</summary>
    public required ImmutableArray<SearchEmitter> Emitters { get; init; }

    /// <summary>The receivers.</summary>
    public required ImmutableArray<SearchReceiver> Receivers { get; init; }

    /// <summary>Groups of emitters (indices) that are never on the air together.</summary>
    public ImmutableArray<ImmutableArray<int>> ExclusiveGroups { get; init; } = [];

    /// <summary>Lowest order, 2 to 9.</summary>
    public int MinOrder { get; init; } = 2;

    /// <summary>Highest order, 2 to 9.</summary>
    public int MaxOrder { get; init; } = 7;

    /// <summary>Most emitters in one product, 1 to 9.</summary>
    public int MaxSignals { get; init; } = 3;

    /// <summary>Refuses what the search cannot take; such a problem is the caller's bug, not the user's.</summary>
    /// <exception cref="ArgumentException">Says what is wrong.</exception>
    public void Validate()
    {
        Require(Emitters.Length <= MaxEmitters, "too many emitters");
        Require(MinOrder >= 2 && MinOrder <= MaxOrder && MaxOrder <= Multinomial.MaxOrder, "orders must be 2 to 9, lowest first");
        Require(MaxSignals >= 1 && MaxSignals <= Multinomial.MaxOrder, "signals must be 1 to 9");
        foreach (SearchEmitter emitter in Emitters)
        {
            Require(emitter.FrequencyHz is > 0 and <= MaxFrequencyHz, "an emitter's frequency is out of range");
            Require(emitter.BandwidthHz is >= 0 and <= MaxFrequencyHz, "an emitter's bandwidth is out of range");
        }

        foreach (ImmutableArray<int> group in ExclusiveGroups)
        {
            foreach (int member in group)
            {
                Require(member >= 0 && member < Emitters.Length, "an exclusive group names no emitter");
            }
        }

        foreach (SearchReceiver receiver in Receivers)
        {
            Require(receiver.FrequencyHz is > 0 and <= MaxFrequencyHz, "a receiver's frequency is out of range");
            Require(receiver.ChannelHz is > 0 and <= MaxFrequencyHz, "a receiver's channel is out of range");
            Require(receiver.FloorMicroDbm is null or (>= -100L * MicroDb.Limit and <= 100L * MicroDb.Limit), "a floor is out of range");
            Require(receiver.Stages.Length <= byte.MaxValue, "too many stages");
            foreach (SearchStage stage in receiver.Stages)
            {
                Require(stage.LevelMicroDbm.Length == Emitters.Length, "a stage must have one level per emitter");
                Require(
                    stage.InterceptMicroDbm.Length == Multinomial.MaxOrder + 1,
                    "a stage must have ten intercepts, of which 2 to 9 are used");
                Require(Math.Abs((long)stage.ReferralMicroDb) <= MicroDb.Limit, "a referral is out of range");
                for (int n = 2; n <= Multinomial.MaxOrder; n++)
                {
                    Require(Math.Abs((long)stage.InterceptMicroDbm[n]) <= MicroDb.Limit, "an intercept is out of range");
                }

                for (int i = 0; i < Emitters.Length; i++)
                {
                    int level = stage.LevelMicroDbm[i];
                    Require(level == MicroDb.Unknown || Math.Abs((long)level) <= MicroDb.Limit, "a level is out of range");
                    Require(
                        (level == MicroDb.Unknown) == (receiver.Stages[0].LevelMicroDbm[i] == MicroDb.Unknown),
                        "an emitter's level must be unknown at all stages of a receiver or at none");
                }
            }
        }
    }

    private static void Require(bool holds, string otherwise)
    {
        if (!holds)
        {
            throw new ArgumentException("Search problem: " + otherwise + ".");
        }
    }
}
