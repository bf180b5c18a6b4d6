namespace Spurless.Sites.Cures;

/// <summary>Who has to act for a step, the easiest to win over first.</summary>
public enum CureActor
{
    /// <summary>The receiver's keeper.</summary>
    You,

    /// <summary>Whoever keeps a transmitter.</summary>
    OwnerOfTransmitter,

    /// <summary>The owner of the site.</summary>
    SiteOwner,

    /// <summary>Whoever coordinates and licenses channels.</summary>
    Coordinator,
}

/// <summary>Roughly how much work a step is.</summary>
public enum CureEffort
{
    /// <summary>Minutes at the bench.</summary>
    Minutes,

    /// <summary>An evening's work.</summary>
    Evening,

    /// <summary>Something to buy.</summary>
    Purchase,

    /// <summary>Work that somebody else does.</summary>
    SomebodyElse,
}

/// <summary>Where in the receive chain something is put.</summary>
public enum ChainPlace
{
    /// <summary>Before the first preamplifier, behind what is passive there.</summary>
    BeforeAmplifier,

    /// <summary>At the receiver's input.</summary>
    AtReceiver,
}

/// <summary>How many isolators stand behind a transmitter.</summary>
public enum Isolators
{
    /// <summary>One, taken for 25 dB (common practice: 20 to 30 dB).</summary>
    Single,

    /// <summary>Two in a row, taken for 55 dB (common practice: 45 to 60 dB).</summary>
    Double,
}

/// <summary>One thing done to a site to make a receiver quiet.</summary>
public abstract record CureStep
{
    /// <summary>Who acts.</summary>
    public virtual CureActor Actor => CureActor.You;

    /// <summary>How much work it is.</summary>
    public abstract CureEffort Effort { get; }

    /// <summary>What it changes: no cure has two steps that change the same.</summary>
    public abstract string Subject { get; }
}

/// <summary>An attenuator put into the receive chain.</summary>
/// <param name="Db">Its loss in whole dB, 1 or more.</param>
/// <param name="Place">Where.</param>
public sealed record PadStep(int Db, ChainPlace Place) : CureStep
{
    /// <inheritdoc/>
    public override CureEffort Effort => CureEffort.Minutes;

    /// <inheritdoc/>
    public override string Subject => "pad";
}

/// <summary>A filter of a usual kind put into the receive chain; a circuit file is written for it.</summary>
/// <param name="Filter">The filter.</param>
/// <param name="Place">Where.</param>
public sealed record UsualFilterStep(UsualFilter Filter, ChainPlace Place) : CureStep
{
    /// <inheritdoc/>
    public override CureEffort Effort => Filter is UsualBandPass { UnloadedQ: > 500 } ? CureEffort.Purchase : CureEffort.Evening;

    /// <inheritdoc/>
    public override string Subject => "filter";
}

/// <summary>A filter of which there is a file beside the site's, put into the receive chain.</summary>
/// <param name="Path">The file, relative to the site file.</param>
/// <param name="Name">What it is called.</param>
/// <param name="IsCircuit">Whether it is a circuit; else a sweep.</param>
/// <param name="Place">Where.</param>
public sealed record FileFilterStep(string Path, string Name, bool IsCircuit, ChainPlace Place) : CureStep
{
    /// <inheritdoc/>
    public override CureEffort Effort => CureEffort.Minutes;

    /// <inheritdoc/>
    public override string Subject => "filter";
}

/// <summary>The first preamplifier taken out, or put behind the last filter.</summary>
/// <param name="BehindFilter">Whether it is put behind the last filter rather than taken out.</param>
public sealed record AmplifierStep(bool BehindFilter) : CureStep
{
    /// <inheritdoc/>
    public override CureEffort Effort => CureEffort.Minutes;

    /// <inheritdoc/>
    public override string Subject => "preamplifier";
}

/// <summary>A receiver whose intercepts are higher.</summary>
/// <param name="ByDb">By how much, in dB.</param>
public sealed record InterceptStep(double ByDb) : CureStep
{
    /// <inheritdoc/>
    public override CureEffort Effort => CureEffort.Purchase;

    /// <inheritdoc/>
    public override string Subject => "receiver";
}

/// <summary>A step at a transmitter.</summary>
/// <param name="Transmitter">Its name.</param>
/// <param name="IsOwn">Whether it follows the receiver that is to be cured.</param>
public abstract record TransmitterStep(string Transmitter, bool IsOwn) : CureStep
{
    /// <inheritdoc/>
    public override CureActor Actor => IsOwn ? CureActor.You : CureActor.OwnerOfTransmitter;

    /// <inheritdoc/>
    public override CureEffort Effort => IsOwn ? CureEffort.Purchase : CureEffort.SomebodyElse;
}

/// <summary>Isolators behind a transmitter.</summary>
/// <param name="Transmitter">Its name.</param>
/// <param name="IsOwn">Whether it is our own.</param>
/// <param name="Kind">One or two.</param>
/// <param name="AgainstHz">Frequencies in hertz that come in there and make the product: at these the isolation is wanted.</param>
public sealed record IsolatorStep(string Transmitter, bool IsOwn, Isolators Kind, IReadOnlyList<long> AgainstHz)
    : TransmitterStep(Transmitter, IsOwn)
{
    /// <summary>Isolation in dB that it is taken for.</summary>
    public double Db => Kind == Isolators.Double ? 55 : 25;

    /// <inheritdoc/>
    public override string Subject => "isolator of " + Transmitter;
}

/// <summary>A band-pass cavity behind a transmitter.</summary>
/// <param name="Transmitter">Its name.</param>
/// <param name="IsOwn">Whether it is our own.</param>
/// <param name="CentreHz">The transmitter's frequency in hertz.</param>
public sealed record OutputCavityStep(string Transmitter, bool IsOwn, long CentreHz) : TransmitterStep(Transmitter, IsOwn)
{
    /// <inheritdoc/>
    public override string Subject => "output filter of " + Transmitter;
}

/// <summary>A transmitter's antenna moved straight up or down, away from the others of its structure.</summary>
/// <param name="Transmitter">Its name.</param>
/// <param name="IsOwn">Whether it is our own.</param>
/// <param name="Metres">Vertical distance from the antennas whose carriers it mixes.</param>
/// <param name="Couplings">Whose they are, and the coupling loss in dB that comes of it.</param>
public sealed record AntennaStep(
    string Transmitter, bool IsOwn, double Metres, IReadOnlyList<(string From, double Db)> Couplings)
    : TransmitterStep(Transmitter, IsOwn)
{
    /// <inheritdoc/>
    public override CureActor Actor => CureActor.SiteOwner;

    /// <inheritdoc/>
    public override CureEffort Effort => CureEffort.SomebodyElse;

    /// <inheritdoc/>
    public override string Subject => "antenna of " + Transmitter;
}

/// <summary>Our own transmitter's power lowered.</summary>
/// <param name="Transmitter">Its name.</param>
/// <param name="ByDb">By how much, in dB.</param>
public sealed record PowerStep(string Transmitter, double ByDb) : TransmitterStep(Transmitter, true)
{
    /// <inheritdoc/>
    public override CureEffort Effort => CureEffort.Minutes;

    /// <inheritdoc/>
    public override string Subject => "power of " + Transmitter;
}

/// <summary>The receiver, and the transmitter that follows it, moved to another channel.</summary>
/// <param name="FrequencyHz">The receiver's new frequency in hertz.</param>
/// <param name="ShiftHz">By how much both move, in hertz.</param>
public sealed record ChannelStep(long FrequencyHz, long ShiftHz) : CureStep
{
    /// <inheritdoc/>
    public override CureActor Actor => CureActor.Coordinator;

    /// <inheritdoc/>
    public override CureEffort Effort => CureEffort.SomebodyElse;

    /// <inheritdoc/>
    public override string Subject => "channel";
}

/// <summary>A tone squelch: keeps the repeater silent, and does not make it hear. It changes nothing that is computed.</summary>
public sealed record ToneSquelchStep : CureStep
{
    /// <inheritdoc/>
    public override CureEffort Effort => CureEffort.Minutes;

    /// <inheritdoc/>
    public override string Subject => "squelch";
}
