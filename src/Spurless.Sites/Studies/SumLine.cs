namespace Spurless.Sites.Studies;

/// <summary>What a line of the sum is.</summary>
public enum SumLineKind
{
    /// <summary>Added to what stands above.</summary>
    Part,

    /// <summary>The sum so far: a level in dBm.</summary>
    Subtotal,

    /// <summary>A level that is compared with, not added.</summary>
    Reference,

    /// <summary>What comes out: in dB over noise.</summary>
    Result,
}

/// <summary>Which figure a line of the sum is.</summary>
public enum SumPart
{
    /// <summary>A carrier at the stage that makes the product, as many times as it takes part.</summary>
    CarrierAtStage,

    /// <summary>The intercept of the product's order, taken away order - 1 times.</summary>
    Intercept,

    /// <summary>The combinatorial factor against two equal carriers.</summary>
    Factor,

    /// <summary>What noise-like carriers and further stages add.</summary>
    NoiseLikeAndFurtherStages,

    /// <summary>What the stage cannot deliver of it, noise-like carriers and further stages counted in.</summary>
    Saturation,

    /// <summary>Gain from the stage to the receiver's input.</summary>
    GainToReceiverInput,

    /// <summary>Output power of the emitter that arrives strongest at the transmitter.</summary>
    OutputPower,

    /// <summary>Loss from its output to the transmitter's.</summary>
    Coupling,

    /// <summary>The transmitter's output filter, inward.</summary>
    OutputFilterInward,

    /// <summary>The transmitter's isolator, backward.</summary>
    Isolator,

    /// <summary>What arrives at the output stage.</summary>
    ArrivesAtStage,

    /// <summary>How far another carrier arrives under the transmitter's own power.</summary>
    UnderPower,

    /// <summary>The same for each further time the strongest takes part.</summary>
    UnderPowerAgain,

    /// <summary>Turn-round loss of the order.</summary>
    TurnRoundLoss,

    /// <summary>The transmitter's output filter, outward on the channel.</summary>
    OutputFilterOutward,

    /// <summary>What leaves the transmitter.</summary>
    LeavesTransmitter,

    /// <summary>Path to the antenna connector.</summary>
    Path,

    /// <summary>Level at the antenna connector.</summary>
    AtAntenna,

    /// <summary>Gain of the chain up to the receiver.</summary>
    Chain,

    /// <summary>Level at the receiver's input.</summary>
    AtReceiverInput,

    /// <summary>The part of it that falls into the channel.</summary>
    ShareInChannel,

    /// <summary>Level in the channel.</summary>
    InChannel,

    /// <summary>The noise floor.</summary>
    NoiseFloor,

    /// <summary>What printing with one decimal left over.</summary>
    LeftOver,

    /// <summary>Level in the channel less noise floor.</summary>
    OverNoise,
}

/// <summary>One line of the sum that leads to a product's level.</summary>
/// <param name="Part">Which figure it is.</param>
/// <param name="Value">In dB or dBm.</param>
/// <param name="Kind">What it is to the sum.</param>
public sealed record SumLine(SumPart Part, double Value, SumLineKind Kind)
{
    /// <summary>The emitter or transmitter that it concerns; null for none.</summary>
    public string? Name { get; init; }

    /// <summary>How many times <see cref="Each"/> counts; 1 for most.</summary>
    public int Times { get; init; } = 1;

    /// <summary>The figure that counts <see cref="Times"/> times, in dB or dBm; 0 where the value is all there is.</summary>
    public double Each { get; init; }
}
