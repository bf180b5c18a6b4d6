using Spurless.Circuits.Parts;
using Spurless.Circuits.Requirements;
using Spurless.Circuits.Sensitivity;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tolerance;

namespace Spurless.Sites.Tolerances;

/// <summary>What becomes of a circuit when it is built.</summary>
public sealed record ToleranceAnswer
{
    /// <summary>What was asked.</summary>
    public required ToleranceQuestion Question { get; init; }

    /// <summary>The circuit with the tolerances in force.</summary>
    public required Circuit Circuit { get; init; }

    /// <summary>The same as a two-port at its values as drawn.</summary>
    public required CircuitTwoPort Network { get; init; }

    /// <summary>Bands, yield and ranking.</summary>
    public required ToleranceResult Result { get; init; }

    /// <summary>How the circuit with its values as drawn stands to each demand of the requirement; empty without one.</summary>
    public IReadOnlyList<MaskFinding> Mask { get; init; } = [];

    /// <summary>What making one part tunable would do; null where it was not tried.</summary>
    public TuningFinding? Tuning { get; init; }

    /// <summary>
    /// What one per cent of each number of each part moves, at the frequency that matters most; null where it was not asked.
    /// </summary>
    public SensitivityResult? Sensitivity { get; init; }

    /// <summary>The parts that state no tolerance and got that of <see cref="ToleranceQuestion.Others"/>.</summary>
    public IReadOnlyList<string> OtherParts { get; init; } = [];
}
