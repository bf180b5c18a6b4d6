namespace Spurless.Circuits.Parts;

/// <summary>A resistor.</summary>
public sealed record Resistor : TwoTerminalPart
{
    /// <summary>Resistance in ohms, not negative.</summary>
    public required PartValue Resistance { get; init; }

    /// <inheritdoc/>
    public override bool HasUnknown => !Resistance.IsKnown;
}

/// <summary>An inductor: inductance with a series loss, and its self-capacitance across both.</summary>
public sealed record Inductor : TwoTerminalPart
{
    /// <summary>Inductance in henries, not negative.</summary>
    public required PartValue Inductance { get; init; }

    /// <summary>Its loss; null for a lossless one.</summary>
    public PartLoss? Loss { get; init; }

    /// <summary>Self-capacitance in farads, in parallel; 0 for none.</summary>
    public double SelfCapacitanceF { get; init; }

    /// <inheritdoc/>
    public override bool HasUnknown => !Inductance.IsKnown || Loss?.Q is { IsKnown: false };
}

/// <summary>A capacitor: capacitance with a series loss and a series inductance.</summary>
public sealed record Capacitor : TwoTerminalPart
{
    /// <summary>Capacitance in farads, not negative.</summary>
    public required PartValue Capacitance { get; init; }

    /// <summary>Its loss; null for a lossless one.</summary>
    public PartLoss? Loss { get; init; }

    /// <summary>Series inductance in henries; 0 for none.</summary>
    public double SeriesInductanceH { get; init; }

    /// <inheritdoc/>
    public override bool HasUnknown => !Capacitance.IsKnown || Loss?.Q is { IsKnown: false };
}

/// <summary>
/// A magnetic coupling between two inductors or coils. The sense is that of their nodes: with a positive coefficient a current from the
/// first node to the second in one aids the other's.
/// </summary>
public sealed record Coupling : Part
{
    /// <summary>Coupling coefficient, above -1 and below 1.</summary>
    public required PartValue Coefficient { get; init; }

    /// <summary>Name of the first inductor.</summary>
    public required string First { get; init; }

    /// <summary>Name of the second inductor.</summary>
    public required string Second { get; init; }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Nodes => [];

    /// <inheritdoc/>
    public override bool HasUnknown => !Coefficient.IsKnown;
}

/// <summary>An ideal transformer: the voltages of both windings are as their turns, the powers add to nothing.</summary>
public sealed record Transformer : Part
{
    /// <summary>Turns of the first winding, above 0.</summary>
    public required double FirstTurns { get; init; }

    /// <summary>Turns of the second winding, above 0.</summary>
    public required double SecondTurns { get; init; }

    /// <summary>First node of the first winding.</summary>
    public required string FirstFrom { get; init; }

    /// <summary>Second node of the first winding.</summary>
    public required string FirstTo { get; init; }

    /// <summary>First node of the second winding, of the same polarity as <see cref="FirstFrom"/>.</summary>
    public required string SecondFrom { get; init; }

    /// <summary>Second node of the second winding.</summary>
    public required string SecondTo { get; init; }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Nodes => [FirstFrom, FirstTo, SecondFrom, SecondTo];

    /// <inheritdoc/>
    public override bool HasUnknown => false;
}
