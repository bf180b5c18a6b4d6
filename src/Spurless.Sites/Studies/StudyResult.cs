using Spurless.Files.Diagnostics;
using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Sites.Chains;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Studies;

/// <summary>What a study of one site found: the data behind the table, the JSON, the CSV, the report and the page.</summary>
public sealed record StudyResult
{
    /// <summary>The site's name.</summary>
    public required string Site { get; init; }

    /// <summary>Whom to ask, in the user's words; null where the site file says nothing.</summary>
    public string? Contact { get; init; }

    /// <summary>The user's own notes; null where the site file has none.</summary>
    public string? Notes { get; init; }

    /// <summary>What was heard on the channel, in the user's words.</summary>
    public IReadOnlyList<string> Heard { get; init; } = [];

    /// <summary>One entry per receiver, in the order of the site file.</summary>
    public required IReadOnlyList<ReceiverFindings> Receivers { get; init; }

    /// <summary>Keys of the site file that were read and checked but that no computation uses yet.</summary>
    public required IReadOnlyList<string> KeysNotUsedYet { get; init; }

    /// <summary>The limits and thresholds that were in force.</summary>
    public required StudyOptions Options { get; init; }

    /// <summary>Every file that was read, with its SHA-256, the site file first.</summary>
    public required IReadOnlyList<InputFile> Inputs { get; init; }

    /// <summary>Warnings that the reading gave.</summary>
    public required IReadOnlyList<Diagnostic> Warnings { get; init; }
}

/// <summary>What lands on one receiver.</summary>
public sealed record ReceiverFindings
{
    /// <summary>The receiver's name.</summary>
    public required string Name { get; init; }

    /// <summary>The channel's centre, in hertz.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>The raster of the channel, in hertz: decides what can hit.</summary>
    public required long ChannelHz { get; init; }

    /// <summary>The noise bandwidth, in hertz.</summary>
    public required long IfBandwidthHz { get; init; }

    /// <summary>Noise at the receiver's input in <see cref="IfBandwidthHz"/>, external noise included, in dBm.</summary>
    public required double NoiseFloorDbm { get; init; }

    /// <summary>
    /// Level at the antenna connector that gives 12 dB SINAD through the chain as it stands, external noise included, mixtures not, in dBm.
    /// </summary>
    public required double SensitivityAtAntennaDbm { get; init; }

    /// <summary>What was assumed of the receiver or its chain for want of a figure.</summary>
    public required IReadOnlyList<ReceiverAssumption> Assumed { get; init; }

    /// <summary>All emitters as they arrive, in the order of the site file.</summary>
    public required IReadOnlyList<CarrierFinding> Carriers { get; init; }

    /// <summary>Products by descending in-channel level, then mechanism, then terms; unknown levels last.</summary>
    public required IReadOnlyList<ProductFinding> Products { get; init; }

    /// <summary>How many products <c>--top</c> cut off.</summary>
    public required long ProductsLeftOut { get; init; }

    /// <summary>
    /// Whether <see cref="ProductsLeftOut"/> is a forecast: of a list that would be hopelessly long the rest is not counted.
    /// </summary>
    public bool ProductsLeftOutForecast { get; init; }

    /// <summary>
    /// Power sum of the listed products over the noise floor, in dB, the greatest of what can be on the air together; null where there
    /// are none.
    /// </summary>
    public required double? SumOverNoiseDb { get; init; }

    /// <summary>Whether emitters that are never on together keep some of the listed products out of the sum.</summary>
    public bool SumOfSome { get; init; }

    /// <summary>
    /// Whether the groups of emitters that are never on together were too many and too tangled to try them all: then the sum is a bound,
    /// never too low.
    /// </summary>
    public bool SumIsBound { get; init; }

    /// <summary>
    /// What a wanted signal at the antenna connector has to stand up against: noise, mixtures and other causes of known level together, in
    /// dBm referred to that connector for 12 dB SINAD. Null where something that arises at this receiver is of unknown level, and where
    /// <c>--top</c> left mixtures out of the sum.
    /// </summary>
    /// <remarks>
    /// What comes in on the channel itself with unknown level is left out: it passes every change of the chain as the wanted signal does,
    /// so that it makes differences smaller but never turns them round.
    /// </remarks>
    public double? BurdenAtAntennaDbm
    {
        get
        {
            bool known = ProductsLeftOut == 0 && !HasUnknownMadeHere
                && OtherCauses.All(static c =>
                    c.Cure != CurePlace.Receiver || (c.Missing.Count == 0 && (c.OverNoiseDb ?? c.DesenseDb) is not null));
            if (!known)
            {
                return null;
            }

            double added = OtherCauses.Where(static c => c.OverNoiseDb is not null).Select(static c => c.OverNoiseDb!.Value)
                .Append(SumOverNoiseDb ?? double.NegativeInfinity)
                .Sum(static over => Math.Pow(10, over / 10));
            double desense = OtherCauses.Where(static c => c.OverNoiseDb is null).Max(static c => c.DesenseDb) ?? 0;
            return SensitivityAtAntennaDbm + (10 * Math.Log10(1 + added)) + desense;
        }
    }

    /// <summary>
    /// By how much weaker a signal is heard with the filter in than without it, in dB; below 0 the filter costs more than it cures. Null
    /// without a filter, and where a level is not known or a list was cut.
    /// </summary>
    public double? FilterGainDb => WithoutFilter?.BurdenAtAntennaDbm - BurdenAtAntennaDbm;

    /// <summary>Causes other than a product on the channel, worst first.</summary>
    public required IReadOnlyList<OtherCause> OtherCauses { get; init; }

    /// <summary>Products that cannot be computed for want of an input: an entry for each gap, not for each product.</summary>
    public IReadOnlyList<NotComputed> NotComputed { get; init; } = [];

    /// <summary>How far was looked; null for a receiver without its filter.</summary>
    public SearchLimits? Limits { get; init; }

    /// <summary>
    /// The same receiver with every circuit and two-port of its chain replaced by a through; null where the chain has none.
    /// </summary>
    public required ReceiverFindings? WithoutFilter { get; init; }

    /// <summary>
    /// What the filter costs the wanted signal: the chain's gain on the channel without it less that with it, in dB; null without one.
    /// </summary>
    public required double? WantedLossDb { get; init; }

    /// <summary>The chain as it was computed, for its response over frequency.</summary>
    public required ReceiveChain Chain { get; init; }

    /// <summary>Weakest wanted signal to protect, at the antenna connector, in dBm; null where not given.</summary>
    public required double? WantedDbm { get; init; }

    /// <summary>Number of products at or over the 'harmful' threshold.</summary>
    public int Harmful => CountOf(Verdict.Harmful);

    /// <summary>Number of products at or over the 'marginal' threshold and under the 'harmful' one.</summary>
    public int Marginal => CountOf(Verdict.Marginal);

    private bool HasUnknownMadeHere => Products is ProductListing listing
        ? listing.HasUnknownMadeHere
        : Products.Any(static p => p.OverNoiseDb is null && p.Mechanism == Mechanism.Receiver);

    private int CountOf(Verdict verdict) =>
        Products is ProductListing listing ? listing.CountOf(verdict) : Products.Count(p => p.Verdict == verdict);
}

/// <summary>One emitter as it arrives at one receiver.</summary>
public sealed record CarrierFinding
{
    /// <summary>The emitter's name.</summary>
    public required string Emitter { get; init; }

    /// <summary>Its carrier, in hertz.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>Occupied bandwidth in hertz.</summary>
    public required long BandwidthHz { get; init; }

    /// <summary>Level at the antenna connector, in dBm; null where unknown.</summary>
    public required double? LevelAtAntennaDbm { get; init; }

    /// <summary>Level at the receiver's first active stage, selectivity included, in dBm; null where unknown.</summary>
    public required double? LevelAtReceiverDbm { get; init; }

    /// <summary>Where its level comes from.</summary>
    public required LevelOrigin Origin { get; init; }

    /// <summary>How the level is known, or why it is not.</summary>
    public required LevelNote HowKnown { get; init; }

    /// <summary>One sigma of the level, in dB; null where the level is unknown.</summary>
    public required double? SigmaDb { get; init; }

    /// <summary>What was assumed of this carrier.</summary>
    public required IReadOnlyList<LevelNote> Assumed { get; init; }

    /// <summary>What the filter in line takes from it; null where the chain has none.</summary>
    public FilterRejection? Rejection
    {
        get => RejectionOf?.Value;
        init => RejectionOf = new Lazy<FilterRejection?>(value);
    }

    /// <summary>Whether it is never on while this receiver listens (half-duplex): it takes part in nothing here.</summary>
    public bool HeldOff { get; init; }

    /// <summary>
    /// Finds <see cref="Rejection"/> when it is first asked for: its band over all phases takes longer than all else about a carrier.
    /// </summary>
    internal Lazy<FilterRejection?>? RejectionOf { get; init; }

    /// <summary>The receiver this emitter follows (our own transmitter), or null.</summary>
    public required string? Follows { get; init; }
}

/// <summary>One emitter's share in a mixture.</summary>
/// <param name="Emitter">Index into <see cref="ReceiverFindings.Carriers"/>.</param>
/// <param name="Name">The emitter's name.</param>
/// <param name="FrequencyHz">Its frequency in hertz.</param>
/// <param name="Coefficient">How many times it takes part, with sign; never 0.</param>
public sealed record Term(int Emitter, string Name, long FrequencyHz, int Coefficient);

/// <summary>What a finding amounts to.</summary>
public enum Verdict
{
    /// <summary>At or over the level, above noise, from which the study calls it harmful.</summary>
    Harmful,

    /// <summary>Under that, but at or over the level from which it is worth watching.</summary>
    Marginal,

    /// <summary>Under both.</summary>
    Clear,

    /// <summary>Not known, for want of a figure.</summary>
    Unknown,
}

/// <summary>What a product does to the receiver.</summary>
/// <param name="OpensSquelch">Whether it opens a carrier squelch.</param>
/// <param name="NoiseRiseDb">By how much it raises the noise, in dB.</param>
/// <param name="SpoilsWanted">Whether it spoils the weakest wanted signal; null where none was stated.</param>
public sealed record Effects(bool OpensSquelch, double NoiseRiseDb, bool? SpoilsWanted);

/// <summary>One mixture that can land on the receiver's channel.</summary>
public sealed record ProductFinding
{
    /// <summary>The name of the receiver on whose channel it can land.</summary>
    public required string Receiver { get; init; }

    /// <summary>By descending magnitude of the coefficient, then name; signs such that the frequency is positive.</summary>
    public required IReadOnlyList<Term> Terms { get; init; }

    /// <summary>Which product it is, wherever it is made.</summary>
    public ProductIdentity Identity => new(Receiver, Terms);

    /// <summary>Which row of a list it is: the same product can stand there once for the receiver and once for each transmitter.</summary>
    public ProductRow Row => new(Identity, Mechanism == Mechanism.Transmitter ? MadeIn : null);

    /// <summary>The sum of the coefficients' magnitudes.</summary>
    public required int Order { get; init; }

    /// <summary>The product's frequency, in hertz, above 0.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>Product less channel centre, in hertz.</summary>
    public required long OffsetHz { get; init; }

    /// <summary>Greatest width the product can occupy, in hertz.</summary>
    public required long BandwidthHz { get; init; }

    /// <summary>The place that makes it, with its level there alone; with several stages of the receiver the strongest.</summary>
    public required MixingPlace Made { get; init; }

    /// <summary>What kind of place makes it.</summary>
    public Mechanism Mechanism => Made.Mechanism;

    /// <summary>The receiver's name, <c>amplifier 1</c>, or the emitter's name; with several stages the strongest.</summary>
    public string MadeIn => Made.Name ?? "";

    /// <summary>
    /// Every place that can make this product: the receiver's active stages, antenna first, then the transmitter of each of its emitters in
    /// their order, then outside. A level is null where it cannot be known.
    /// </summary>
    public required IReadOnlyList<MixingPlace> Places { get; init; }

    /// <summary>Level referred to the receiver's input, stages added in power, in dBm; null where an emitter's level is unknown.</summary>
    public required double? LevelDbm { get; init; }

    /// <summary>The same with stages added in voltage.</summary>
    public required double? LevelWorstDbm { get; init; }

    /// <summary>What of <see cref="LevelDbm"/> falls inside the receiver's noise bandwidth, in dBm.</summary>
    public required double? InChannelLevelDbm { get; init; }

    /// <summary><see cref="InChannelLevelDbm"/> less the noise floor, in dB.</summary>
    public required double? OverNoiseDb { get; init; }

    /// <summary>One sigma of the level, in dB.</summary>
    public required double? SigmaDb { get; init; }

    /// <summary>Error from the term of the next degree, in dB; null for orders 8 and 9 and for unknown levels.</summary>
    public required double? NextDegreeErrorDb { get; init; }

    /// <summary>What it amounts to.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>What it does to the receiver; null where its level is unknown.</summary>
    public required Effects? Effects { get; init; }

    /// <summary>What it does to who listens; from 10 dB under the noise on it costs sensitivity (0.4 dB there).</summary>
    public Impact Impact => Effects is not { } effects || OverNoiseDb is not { } over ? Impact.NotKnown
        : effects.OpensSquelch ? Impact.OpensSquelch
        : effects.SpoilsWanted == true ? Impact.SpoilsWanted
        : over >= ProductEffects.CostsFromDb ? Impact.CostsSensitivity
        : Impact.NotHeard;

    /// <summary>
    /// Chance that it does harm times the share of time that it is there, in whole percent: what decides between mixtures that do the same.
    /// </summary>
    public int WeightPercent => (int)Math.Round(100 * (Chance ?? 0) * OnTogether);

    /// <summary>What was assumed for this product's level.</summary>
    public required IReadOnlyList<Assumption> Assumed { get; init; }

    /// <summary>Whether the stage that makes it cannot deliver what the law of its order gives, so that the level was capped.</summary>
    public bool Saturated => Assumed.Any(static a => a.Kind == AssumptionKind.Saturated);

    /// <summary>
    /// Whether its level can be relied on: neither capped, nor open to over 3 dB from the next degree, nor made of a signal that is not
    /// weak where it is mixed.
    /// </summary>
    public bool Trustworthy =>
        !Assumed.Any(static a => a.Kind is AssumptionKind.NextDegree or AssumptionKind.Saturated or AssumptionKind.SignalNotWeak);

    /// <summary>Whether our own transmitter takes part, so that the product keeps the repeater up.</summary>
    public required bool KeepsItselfUp { get; init; }

    /// <summary>
    /// Whether the product lies on the carrier of one of its own terms' frequencies (A - B + C with A and B on one frequency).
    /// </summary>
    public required bool OnCarrierOfItsOwn { get; init; }

    /// <summary>Chance that the product exceeds the 'harmful' threshold, 0 to 1; null where the level is unknown.</summary>
    public required double? Chance { get; init; }

    /// <summary>Fraction of time that all its emitters are on together (activity factors multiplied), 0 to 1.</summary>
    public required double OnTogether { get; init; }

    /// <summary>The modulations that one would hear of it, one per term, in their order.</summary>
    public required IReadOnlyList<HeardModulation> Heard { get; init; }

    /// <summary>
    /// The parts of the level of a product made in a transmitter; null for one made in the receiver, or of unknown level.
    /// </summary>
    public TransmitterSum? Sum { get; init; }
}

/// <summary>Limits and thresholds of a study; null where the site file's or the default stands.</summary>
public sealed record StudyOptions
{
    /// <summary>
    /// Report floor for every receiver in dBm; <see cref="double.NegativeInfinity"/> for none; null for 20 dB under each receiver's noise
    /// floor.
    /// </summary>
    public double? FloorDbm { get; init; }

    /// <summary>Lowest and highest order searched, 2 to 9.</summary>
    public (int Lowest, int Highest)? Orders { get; init; }

    /// <summary>Most emitters in one product, 1 to 9.</summary>
    public int? Signals { get; init; }

    /// <summary>Longest list per receiver; null for no limit.</summary>
    public int? Top { get; init; }

    /// <summary>Told of lists that are longer than anybody reads, before the search; null for nobody.</summary>
    public IProgress<LongList>? LongLists { get; init; }

    /// <summary>Most products of one receiver that are listed; a test sets it lower.</summary>
    internal int LongestList { get; init; } = TooManyProductsException.Limit;

    /// <summary>A product is harmful from this many dB over noise.</summary>
    public double HarmfulFromDb { get; init; }

    /// <summary>A product is marginal from this many dB over noise.</summary>
    public double MarginalFromDb { get; init; } = -10;
}
