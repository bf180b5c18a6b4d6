using Spurless.Sites.Studies;

namespace Spurless.Sites.Plans;

/// <summary>The channels of a band, weighed for one receiver of a site.</summary>
public sealed record PlanAnswer
{
    /// <summary>What was asked.</summary>
    public required PlanQuestion Question { get; init; }

    /// <summary>The receiver's name.</summary>
    public required string Receiver { get; init; }

    /// <summary>Where it stands now, in hertz.</summary>
    public required long PresentHz { get; init; }

    /// <summary>Our own transmitters, which move along; empty for none.</summary>
    public required IReadOnlyList<PlanTransmitter> Transmitters { get; init; }

    /// <summary>Number of channels of the band, those that are not offered counted.</summary>
    public required int Channels { get; init; }

    /// <summary>The channels that are offered, best first: by harmful, marginal, worst level, frequency.</summary>
    public required IReadOnlyList<PlanChannel> Offered { get; init; }

    /// <summary>Those that are not, by frequency.</summary>
    public required IReadOnlyList<PlanTaken> NotOffered { get; init; }

    /// <summary>The best channels, each with what a whole study of it says besides.</summary>
    public required IReadOnlyList<PlanLook> Looks { get; init; }

    /// <summary>Channels that are quiet side by side; null where that was not asked.</summary>
    public PlanTogether? Together { get; init; }

    /// <summary>Lowest and highest order that was sought.</summary>
    public required (int Lowest, int Highest) Orders { get; init; }

    /// <summary>Most emitters in one mixture.</summary>
    public required int Signals { get; init; }

    /// <summary>Emitters that stand in the band, on channels or between, by frequency.</summary>
    public required IReadOnlyList<PlanMark> Marks { get; init; }

    /// <summary>
    /// Harmful mixtures with our own transmitter that can land on every channel of the band alike, as they are on the best one: the rest
    /// of them is as far apart as the transmitter from the receiver, so that another shift, not another channel, is the way out. Worst
    /// first.
    /// </summary>
    public required IReadOnlyList<PlanProduct> WithTheShift { get; init; }

    /// <summary>The offered channel on which the receiver stands now; null where it is not one of them.</summary>
    public PlanChannel? Present => Offered.FirstOrDefault(c => c.FrequencyHz == PresentHz);

    /// <summary>How many offered channels have nothing harmful, marginal or unknown.</summary>
    public int Quiet => Offered.Count(static c => c.IsQuiet);
}

/// <summary>One of our own transmitters.</summary>
/// <param name="Name">Its name.</param>
/// <param name="PresentHz">Where it stands now, in hertz.</param>
/// <param name="ShiftHz">Its frequency less the receiver's, on every channel, in hertz.</param>
public sealed record PlanTransmitter(string Name, long PresentHz, long ShiftHz);

/// <summary>A channel that is offered. What is counted is made in the receiver or its chain, as a study of the site with the receiver and
/// our own transmitter moved there finds it.</summary>
public sealed record PlanChannel
{
    /// <summary>Receive frequency in hertz.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>Mixtures that are harmful there.</summary>
    public required int Harmful { get; init; }

    /// <summary>Mixtures that are marginal there.</summary>
    public required int Marginal { get; init; }

    /// <summary>Mixtures of unknown level that can land there.</summary>
    public required int Unknown { get; init; }

    /// <summary>The worst over the noise in dB; null where nothing reaches the report floor.</summary>
    public double? WorstOverNoiseDb => Worst?.OverNoiseDb;

    /// <summary>
    /// Power sum over the noise in dB, the greatest of what can be on together; null where nothing reaches the report floor.
    /// </summary>
    public required double? SumOverNoiseDb { get; init; }

    /// <summary>Whether that sum may be too high: emitters that are never on together were too tangled to try them all.</summary>
    public bool SumIsBound { get; init; }

    /// <summary>The worst mixture, or null.</summary>
    public required PlanProduct? Worst { get; init; }

    /// <summary>The mixture nearest to the channel's centre of those that reach the report floor, or null.</summary>
    public required PlanProduct? Nearest { get; init; }

    /// <summary>What our own transmitter would make in other receivers of the site: an entry for each on which anything lands.</summary>
    public IReadOnlyList<PlanElsewhere> Elsewhere { get; init; } = [];

    /// <summary>Whether nothing harmful, marginal or unknown lands there.</summary>
    public bool IsQuiet => Harmful == 0 && Marginal == 0 && Unknown == 0;
}

/// <summary>A mixture on a channel.</summary>
/// <param name="Terms">In the order of the results, with frequencies as they are on that channel.</param>
/// <param name="FrequencyHz">Its frequency in hertz.</param>
/// <param name="OverNoiseDb">What of it falls into the channel, over the noise, in dB.</param>
public sealed record PlanProduct(IReadOnlyList<Term> Terms, long FrequencyHz, double OverNoiseDb)
{
    /// <summary>Its order.</summary>
    public int Order => Terms.Sum(static t => Math.Abs(t.Coefficient));
}

/// <summary>What mixtures with our own transmitter do in another receiver of the site.</summary>
/// <param name="Receiver">That receiver's name.</param>
/// <param name="Harmful">How many are harmful.</param>
/// <param name="Marginal">How many are marginal.</param>
/// <param name="Unknown">How many are of unknown level.</param>
/// <param name="WorstOverNoiseDb">The worst over its noise in dB; null where none has a level.</param>
public sealed record PlanElsewhere(string Receiver, int Harmful, int Marginal, int Unknown, double? WorstOverNoiseDb);

/// <summary>Why a channel is not offered.</summary>
public enum PlanReason
{
    /// <summary>An emitter stands on it.</summary>
    Emitter,

    /// <summary>Another receiver of the site listens on it.</summary>
    Receiver,

    /// <summary>An emitter stands where our own transmitter would.</summary>
    EmitterOnTransmit,

    /// <summary>Another receiver of the site listens where our own transmitter would stand.</summary>
    ReceiverOnTransmit,

    /// <summary>The band plan does not let us listen there.</summary>
    BandPlan,

    /// <summary>The band plan does not let us transmit where our own transmitter would stand.</summary>
    BandPlanOnTransmit,
}

/// <summary>A channel that is not offered.</summary>
/// <param name="FrequencyHz">Receive frequency in hertz.</param>
/// <param name="Reason">Why.</param>
/// <param name="By">The emitter's or receiver's name, or the band plan's word.</param>
public sealed record PlanTaken(long FrequencyHz, PlanReason Reason, string By);

/// <summary>Something that stands in the band.</summary>
/// <param name="Name">Its name.</param>
/// <param name="FrequencyHz">Its frequency in hertz.</param>
/// <param name="IsReceiver">Whether it listens there.</param>
public sealed record PlanMark(string Name, long FrequencyHz, bool IsReceiver);

/// <summary>What a whole study of a channel says besides.</summary>
/// <param name="FrequencyHz">Receive frequency in hertz.</param>
/// <param name="MadeElsewhere">Harmful mixtures that transmitters make.</param>
/// <param name="Causes">Other causes that are harmful on the receiver there.</param>
/// <param name="CausesElsewhere">Harmful causes that our own transmitter would be on the other receivers, by the receiver's name.</param>
public sealed record PlanLook(
    long FrequencyHz,
    int MadeElsewhere,
    IReadOnlyList<OtherCause> Causes,
    IReadOnlyList<(string Receiver, OtherCause Cause)> CausesElsewhere)
{
    /// <summary>Whether it says nothing against the channel.</summary>
    public bool IsClear => MadeElsewhere == 0 && Causes.Count == 0 && CausesElsewhere.Count == 0;
}

/// <summary>Channels side by side, each with our receiver and transmitter on it, and what lands on all of them together.</summary>
public sealed record PlanTogether
{
    /// <summary>Receive frequencies in hertz, ascending; empty where there is no such set.</summary>
    public required IReadOnlyList<long> FrequenciesHz { get; init; }

    /// <summary>What lands on all of them together.</summary>
    public required PlanScore Score { get; init; }

    /// <summary>No set of as many channels can be better than this, figure by figure.</summary>
    public required PlanScore Bound { get; init; }

    /// <summary>Whether it is known that no set is better: by harmful, marginal, worst level, and then the order of the list.</summary>
    public required bool IsBest { get; init; }

    /// <summary>Why there is no set, or null.</summary>
    public string? Problem { get; init; }
}

/// <summary>What lands on one or more receivers.</summary>
/// <param name="Harmful">How many mixtures are harmful.</param>
/// <param name="Marginal">How many are marginal.</param>
/// <param name="Unknown">How many are of unknown level.</param>
/// <param name="WorstOverNoiseDb">The worst over the noise in dB; null for none.</param>
public sealed record PlanScore(int Harmful, int Marginal, int Unknown, double? WorstOverNoiseDb);
