namespace Spurless.Sites.Studies;

/// <summary>How far a study looked at one receiver, and what stands right behind the limits.</summary>
public sealed record SearchLimits
{
    /// <summary>Lowest and highest order.</summary>
    public required (int Lowest, int Highest) Orders { get; init; }

    /// <summary>Most emitters in one mixture.</summary>
    public required int Signals { get; init; }

    /// <summary>What arrives in the channel under this level is not listed, in dBm; null for no floor.</summary>
    public required double? FloorDbm { get; init; }

    /// <summary>Whether what the receiver takes away before its first active stage was stated; otherwise nothing is counted.</summary>
    public required bool SelectivityStated { get; init; }

    /// <summary>What one emitter more in a mixture would add; null where that was not looked at.</summary>
    public MoreSignals? More { get; init; }
}

/// <summary>Harmful mixtures of one emitter more than was asked for.</summary>
/// <param name="Signals">How many emitters each has.</param>
/// <param name="HighestOrder">Highest order looked at.</param>
/// <param name="Harmful">How many are harmful.</param>
/// <param name="WorstOverNoiseDb">The worst over the noise, in dB; null for none.</param>
public sealed record MoreSignals(int Signals, int HighestOrder, long Harmful, double? WorstOverNoiseDb);
