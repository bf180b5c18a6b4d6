namespace Spurless.Sites.Studies;

/// <summary>Where a product is made.</summary>
public enum Mechanism
{
    /// <summary>In the receiver or an amplifier of its chain.</summary>
    Receiver,

    /// <summary>In the output stage of an emitter.</summary>
    Transmitter,

    /// <summary>In a joint, a fence or a clamp: on no plan, and at no level that can be predicted.</summary>
    Outside,
}

/// <summary>
/// One place that can make a product, and the level at which the product of that place alone stands at the receiver's input.
/// </summary>
public sealed record MixingPlace
{
    /// <summary>What kind of place it is.</summary>
    public required Mechanism Mechanism { get; init; }

    /// <summary>Index into <see cref="Chains.ReceiveChain.ActiveStages"/>; null but for a stage of the receiver.</summary>
    public int? Stage { get; init; }

    /// <summary>
    /// Index of the emitter whose transmitter it is, as in <see cref="ReceiverFindings.Carriers"/>; null but for a transmitter.
    /// </summary>
    public int? Emitter { get; init; }

    /// <summary>The receiver's name, <c>amplifier 1</c>, or the emitter's name: to be read, not to be found by. Null outside.</summary>
    public required string? Name { get; init; }

    /// <summary>Level referred to the receiver's input, in dBm; null where unknown.</summary>
    public double? LevelDbm { get; init; }

    /// <summary>One sigma of it in dB; null where the level is unknown.</summary>
    public double? SigmaDb { get; init; }
}
