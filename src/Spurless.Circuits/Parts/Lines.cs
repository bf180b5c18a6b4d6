namespace Spurless.Circuits.Parts;

/// <summary>The loss of a transmission line per metre, <c>k1 sqrt f + k2 f</c>: conductor and dielectric.</summary>
/// <param name="RootTerm">k1 in dB per metre and square root of a hertz, not negative.</param>
/// <param name="LinearTerm">k2 in dB per metre and hertz, not negative.</param>
public readonly record struct LineLoss(double RootTerm, double LinearTerm)
{
    /// <summary>A loss known at one frequency: all of it is taken for the conductors'.</summary>
    /// <param name="dbPerMetre">Loss in dB per metre, not negative.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    public static LineLoss At(double dbPerMetre, double frequencyHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(dbPerMetre);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(frequencyHz);
        return new LineLoss(dbPerMetre / Math.Sqrt(frequencyHz), 0);
    }

    /// <summary>The loss at a frequency, in dB per metre.</summary>
    /// <param name="frequencyHz">Frequency in hertz, not negative.</param>
    public double DbPerMetre(double frequencyHz) => (RootTerm * Math.Sqrt(frequencyHz)) + (LinearTerm * frequencyHz);
}

/// <summary>What is at the far end of a stub.</summary>
public enum StubEnd
{
    /// <summary>Nothing.</summary>
    Open,

    /// <summary>A short circuit.</summary>
    Short,
}

/// <summary>
/// A length of transmission line with real characteristic impedance, in one mode: its two ends are ports, joined by nothing else.
/// </summary>
public sealed record Line : Part
{
    /// <summary>Characteristic impedance in ohms, above 0.</summary>
    public required double ImpedanceOhm { get; init; }

    /// <summary>Length in metres, above 0.</summary>
    public required PartValue Length { get; init; }

    /// <summary>Velocity as a fraction of that of light, above 0, at most 1.</summary>
    public double Velocity { get; init; } = 1;

    /// <summary>Loss; the default is none.</summary>
    public LineLoss Loss { get; init; }

    /// <summary>Inner conductor at the near end.</summary>
    public required string From { get; init; }

    /// <summary>Inner conductor at the far end.</summary>
    public required string To { get; init; }

    /// <summary>Return conductor at the near end.</summary>
    public string FromReturn { get; init; } = Circuit.Ground;

    /// <summary>Return conductor at the far end.</summary>
    public string ToReturn { get; init; } = Circuit.Ground;

    /// <inheritdoc/>
    public override IReadOnlyList<string> Nodes => [From, FromReturn, To, ToReturn];

    /// <inheritdoc/>
    public override bool HasUnknown => !Length.IsKnown;
}

/// <summary>A length of transmission line that is open or shorted at its far end, between two nodes.</summary>
public sealed record Stub : TwoTerminalPart
{
    /// <summary>Characteristic impedance in ohms, above 0.</summary>
    public required double ImpedanceOhm { get; init; }

    /// <summary>Length in metres, above 0.</summary>
    public required PartValue Length { get; init; }

    /// <summary>Velocity as a fraction of that of light, above 0, at most 1.</summary>
    public double Velocity { get; init; } = 1;

    /// <summary>Loss; the default is none.</summary>
    public LineLoss Loss { get; init; }

    /// <summary>What is at its far end.</summary>
    public required StubEnd End { get; init; }

    /// <inheritdoc/>
    public override bool HasUnknown => !Length.IsKnown;
}
