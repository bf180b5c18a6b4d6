using Spurless.Sites.Sources;

namespace Spurless.Sites.Receivers;

/// <summary>What do a receiver's own measurements say of its noise, intercepts and selectivity?</summary>
public sealed record ReceiverQuestion
{
    /// <summary>The measurements with the files that they name.</summary>
    public required LoadedMeasurements Measurements { get; init; }

    /// <summary>
    /// Tones within this share of the channel's frequency lose no more in front of the first active stage than the channel itself (our
    /// choice: 1.5 MHz at 145 MHz, well inside what usual input circuits let through).
    /// </summary>
    public double CloseShare { get; init; } = 0.01;
}
