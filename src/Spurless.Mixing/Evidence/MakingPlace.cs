namespace Spurless.Mixing.Evidence;

/// <summary>Where what is heard is made, as far as evidence can tell.</summary>
public enum MakingPlace
{
    /// <summary>In an active stage of the receive chain.</summary>
    Receiver,

    /// <summary>In the output stage of one of its emitters.</summary>
    Transmitter,

    /// <summary>In a joint, a fence or a clamp.</summary>
    Outside,

    /// <summary>Something on the channel that no product explains.</summary>
    Other,
}

/// <summary>A place that can make a product, and how strong the product of that place alone would be read.</summary>
public sealed record EvidencePlace
{
    /// <summary>What kind of place it is; never <see cref="MakingPlace.Other"/>.</summary>
    public required MakingPlace Kind { get; init; }

    /// <summary>Index of the active stage, antenna first, or of the emitter; -1 outside.</summary>
    public int Index { get; init; } = -1;

    /// <summary>Predicted level in the channel over noise, in dB; null where nothing predicts it.</summary>
    public double? OverNoiseDb { get; init; }

    /// <summary>One sigma of it in dB.</summary>
    public double SigmaDb { get; init; }
}
