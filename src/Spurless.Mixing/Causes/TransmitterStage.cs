namespace Spurless.Mixing.Causes;

/// <summary>The output stage of one transmitter, as a place where mixing happens.</summary>
/// <remarks>
/// The stage is large-signal and periodic with its own carrier, and linear in weak signals that come in from outside: each of those taken
/// once costs its level below the own power, the own carrier taken any number of times costs nothing but the turn-round loss of the order.
/// So a product made here contains A itself at least once, and at least one other. (Products of others alone are one more incoming level,
/// usually 20 dB and more, under those with A and are not computed; harmonics of A alone are a cause of their own.)
/// </remarks>
public sealed record TransmitterStage
{
    /// <summary>
    /// Below this distance between the own power and an incoming signal the law of weak signals is not trusted, in dB (our choice).
    /// </summary>
    public const double WeakSignalDb = 10;

    /// <summary>The transmitter's name.</summary>
    public required string Name { get; init; }

    /// <summary>Its index among the emitters.</summary>
    public required int Emitter { get; init; }

    /// <summary>Output power P_A in dBm; null where unknown.</summary>
    public required double? PowerDbm { get; init; }

    /// <summary>Turn-round loss by order; null where not stated: every level is then unknown.</summary>
    public required TurnRoundLoss? TurnRound { get; init; }

    /// <summary>What arrives from each emitter, by its index; the entry of A itself is not looked at.</summary>
    public required IReadOnlyList<TransmitterArrival?> Arrivals { get; init; }

    /// <summary>How far an emitter's carrier arrives under the own power.</summary>
    /// <param name="emitter">Index of the emitter.</param>
    /// <returns><c>P_A - P_i,A</c> in dB; 0 for A itself; null where unknown.</returns>
    public double? UnderPowerDb(int emitter) => emitter == Emitter ? 0 : PowerDbm - Arrivals[emitter]?.LevelDbm;
}
