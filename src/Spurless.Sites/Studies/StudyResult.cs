using Spurless.Files.Diagnostics;
using Spurless.Mixing.Causes;
using Spurless.Sites.Chains;

namespace Spurless.Sites.Studies;

/// <summary>What a study of one site found: the data behind the table, the JSON, the CSV, the report and the page.</summary>
public sealed record StudyResult
{
    /// <summary>The site's name.</summary>
    public required string Site { get; init; }

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

/// <summary>A file that went into a result.</summary>
/// <param name="Name">Its name as the user wrote it.</param>
/// <param name="Sha256">Its SHA-256 in lower-case hexadecimal.</param>
public sealed record InputFile(string Name, string Sha256);

/// <summary>What lands on one receiver.</summary>
public sealed record ReceiverFindings
{
    public required string Name { get; init; }

    /// <summary>The channel's centre, in hertz.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>The raster of the channel, in hertz: decides what can hit.</summary>
    public required long ChannelHz { get; init; }

    /// <summary>The noise bandwidth, in hertz.</summary>
    public required long IfBandwidthHz { get; init; }

    /// <summary>Noise at the receiver's input in <see cref="IfBandwidthHz"/>, external noise included, in dBm.</summary>
    public required double NoiseFloorDbm { get; init; }

    /// <summary>What was assumed of the receiver or its chain for want of a figure, a sentence each.</summary>
    public required IReadOnlyList<string> Assumed { get; init; }

    /// <summary>All emitters as they arrive, in the order of the site file.</summary>
    public required IReadOnlyList<CarrierFinding> Carriers { get; init; }

    /// <summary>Products by descending in-channel level, then mechanism, then terms; unknown levels last.</summary>
    public required IReadOnlyList<ProductFinding> Products { get; init; }

    /// <summary>How many products <c>--top</c> cut off.</summary>
    public required long ProductsLeftOut { get; init; }

    /// <summary>Whether <see cref="ProductsLeftOut"/> is a forecast: of a list that would be hopelessly long the rest is not counted.</summary>
    public bool ProductsLeftOutForecast { get; init; }

    /// <summary>Power sum of the listed products over the noise floor, in dB; null where there are none.</summary>
    public required double? SumOverNoiseDb { get; init; }

    /// <summary>Causes other than a product on the channel, worst first.</summary>
    public required IReadOnlyList<OtherCause> OtherCauses { get; init; }

    /// <summary>What cannot be computed for want of an input, with the measurement that would supply it, a sentence each.</summary>
    public IReadOnlyList<string> NotComputed { get; init; } = [];

    /// <summary>The same receiver with every circuit and two-port of its chain replaced by a through; null where the chain has none.</summary>
    public required ReceiverFindings? WithoutFilter { get; init; }

    /// <summary>What the filter costs the wanted signal: the chain's gain on the channel without it less that with it, in dB; null without one.</summary>
    public required double? WantedLossDb { get; init; }

    /// <summary>The chain as it was computed, for its response over frequency.</summary>
    public required ReceiveChain Chain { get; init; }

    /// <summary>Weakest wanted signal to protect, at the antenna connector, in dBm; null where not given.</summary>
    public required double? WantedDbm { get; init; }

    /// <summary>Number of products at or over the 'harmful' threshold.</summary>
    public int Harmful => CountOf(Verdict.Harmful);

    /// <summary>Number of products at or over the 'marginal' threshold and under the 'harmful' one.</summary>
    public int Marginal => CountOf(Verdict.Marginal);

    private int CountOf(Verdict verdict) => Products is ProductListing listing ? listing.CountOf(verdict) : Products.Count(p => p.Verdict == verdict);
}

/// <summary>How an emitter's level came to be known.</summary>
public enum LevelOrigin
{
    /// <summary>Measured at the site.</summary>
    Measured,

    /// <summary>Computed from power, gains and a path.</summary>
    Predicted,

    /// <summary>Neither a level nor what it could be computed from was given.</summary>
    Unknown,
}

/// <summary>One emitter as it arrives at one receiver.</summary>
public sealed record CarrierFinding
{
    public required string Emitter { get; init; }

    public required long FrequencyHz { get; init; }

    /// <summary>Occupied bandwidth in hertz.</summary>
    public required long BandwidthHz { get; init; }

    /// <summary>Level at the antenna connector, in dBm; null where unknown.</summary>
    public required double? LevelAtAntennaDbm { get; init; }

    /// <summary>Level at the receiver's first active stage, selectivity included, in dBm; null where unknown.</summary>
    public required double? LevelAtReceiverDbm { get; init; }

    public required LevelOrigin Origin { get; init; }

    /// <summary>How the level was known, in words: 'measured', 'free space over 650 m' ...</summary>
    public required string HowKnown { get; init; }

    /// <summary>One sigma of the level, in dB; null where the level is unknown.</summary>
    public required double? SigmaDb { get; init; }

    /// <summary>What was assumed of this carrier, a sentence each.</summary>
    public required IReadOnlyList<string> Assumed { get; init; }

    /// <summary>What the filter in line takes from it; null where the chain has none.</summary>
    public FilterRejection? Rejection
    {
        get => RejectionOf?.Value;
        init => RejectionOf = new Lazy<FilterRejection?>(value);
    }

    /// <summary>Finds <see cref="Rejection"/> when it is first asked for: its band over all phases takes longer than all else about a carrier.</summary>
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

/// <summary>Where a product is made.</summary>
public enum Mechanism
{
    /// <summary>In the receiver or an amplifier of its chain.</summary>
    Receiver,

    /// <summary>In the output stage of an emitter.</summary>
    Transmitter,
}

/// <summary>What a finding amounts to.</summary>
public enum Verdict
{
    Harmful,
    Marginal,
    Clear,
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
    /// <summary>What stands among <see cref="Assumed"/> where <see cref="NextDegreeErrorDb"/> is over 3 dB: the same words for all, so that they can be grouped.</summary>
    public const string NotTrustworthy = "level not trustworthy: the next degree of the stage's curve could change it by more than 3 dB";

    /// <summary>By descending magnitude of the coefficient, then name; signs such that the frequency is positive.</summary>
    public required IReadOnlyList<Term> Terms { get; init; }

    public required int Order { get; init; }

    public required long FrequencyHz { get; init; }

    /// <summary>Product less channel centre, in hertz.</summary>
    public required long OffsetHz { get; init; }

    /// <summary>Greatest width the product can occupy, in hertz.</summary>
    public required long BandwidthHz { get; init; }

    public required Mechanism Mechanism { get; init; }

    /// <summary>The receiver's name, <c>amplifier 1</c>, or the emitter's name; with several stages the strongest.</summary>
    public required string MadeIn { get; init; }

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

    public required Verdict Verdict { get; init; }

    public required Effects? Effects { get; init; }

    /// <summary>What was assumed for this product's level, a sentence each.</summary>
    public required IReadOnlyList<string> Assumed { get; init; }

    /// <summary>Whether our own transmitter takes part, so that the product keeps the repeater up.</summary>
    public required bool KeepsItselfUp { get; init; }

    /// <summary>Whether the product lies on the carrier of one of its own terms' frequencies (A - B + C with A and B on one frequency).</summary>
    public required bool OnCarrierOfItsOwn { get; init; }

    /// <summary>Likelihood in words that the product exceeds the 'harmful' threshold: <c>likely</c>, <c>possible</c>, <c>unlikely</c>; null where the level is unknown.</summary>
    public required string? Chance { get; init; }

    /// <summary>Fraction of time that all its emitters are on together (activity factors multiplied), 0 to 1.</summary>
    public required double OnTogether { get; init; }

    /// <summary>What one would hear, in words.</summary>
    public required string Hear { get; init; }

    /// <summary>The parts of the level of a product made in a transmitter; null for one made in the receiver, or of unknown level.</summary>
    public TransmitterSum? Sum { get; init; }
}

/// <summary>A cause of interference that is not a product on the channel.</summary>
/// <param name="Cause">One of the fixed words of the JSON format: <c>direct</c>, <c>transmitter_noise</c>, <c>blocking</c> ...</param>
/// <param name="Emitter">The emitter concerned, or null.</param>
/// <param name="LevelDbm">Level referred to the receiver's input, in dBm; null where unknown.</param>
/// <param name="OverNoiseDb">Level less noise floor, in dB.</param>
/// <param name="DesenseDb">Loss of sensitivity, in dB.</param>
/// <param name="Verdict">What it amounts to.</param>
/// <param name="Assumed">What was assumed, a sentence each.</param>
/// <param name="Says">The finding in a sentence.</param>
public sealed record OtherCause(
    string Cause, string? Emitter, double? LevelDbm, double? OverNoiseDb, double? DesenseDb, Verdict Verdict, IReadOnlyList<string> Assumed, string Says)
{
    /// <summary>Whose work a cure is.</summary>
    public CurePlace Cure { get; init; }

    /// <summary>What is missing for a level, with the measurement that would supply it, a sentence each.</summary>
    public IReadOnlyList<string> Missing { get; init; } = [];
}

/// <summary>Limits and thresholds of a study; null where the site file's or the default stands.</summary>
public sealed record StudyOptions
{
    /// <summary>Report floor for every receiver in dBm; <see cref="double.NegativeInfinity"/> for none; null for 20 dB under each receiver's noise floor.</summary>
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
