using Spurless.Circuits.Parts;

namespace Spurless.Fit;

/// <summary>What differs between a tracing and another that is tried.</summary>
public enum TracingChange
{
    /// <summary>The ports are the other way round.</summary>
    PortsExchanged,

    /// <summary>A part is left out.</summary>
    PartLeftOut,

    /// <summary>A part stands there twice, side by side.</summary>
    PartTwice,

    /// <summary>One end of a part lies on another node.</summary>
    EndMoved,

    /// <summary>A capacitor stands where none was traced.</summary>
    CapacitorAdded,
}

/// <summary>Another tracing that would explain the sweep better.</summary>
/// <param name="Change">What is changed.</param>
/// <param name="Part">The part as it was traced; null where none is changed.</param>
/// <param name="From">Of an end moved or a capacitor added, the node where the part begins then; else null.</param>
/// <param name="To">The node where it ends then; else null.</param>
public sealed record TracingFinding(TracingChange Change, Part? Part, string? From, string? To)
{
    /// <summary>Rms residual with it over that of the tracing as it stands.</summary>
    public required double ResidualRatio { get; init; }

    /// <summary>The changed circuit with its fitted values.</summary>
    public required Circuit Circuit { get; init; }
}
