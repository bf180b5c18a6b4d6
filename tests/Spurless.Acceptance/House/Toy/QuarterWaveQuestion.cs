namespace Spurless.Acceptance.House.Toy;

/// <summary>How long is a quarter wave in a cable?</summary>
public sealed record QuarterWaveQuestion
{
    /// <summary>Frequency in hertz, above 0.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>Velocity over that of light, above 0 and at most 1; solid polyethylene's where nothing is said.</summary>
    public double Velocity { get; init; } = 0.66;
}
