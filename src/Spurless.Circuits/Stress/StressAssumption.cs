using System.Collections.Immutable;

namespace Spurless.Circuits.Stress;

/// <summary>What is taken for want of a figure.</summary>
public enum StressAssumptionKind
{
    /// <summary>Capacitors that state no rating: 50 V and 0.25 W (common practice).</summary>
    SmallCapacitors,

    /// <summary>Resistors that state no rating: 0.25 W (common practice).</summary>
    SmallResistors,

    /// <summary>Inductors and coils that state no rating: 1 W (common practice).</summary>
    SmallCoils,

    /// <summary>Parts that state no rating and have no usual one: not judged.</summary>
    NotJudged,

    /// <summary>Parts that state no loss: counted as lossless.</summary>
    Lossless,
}

/// <summary>What was taken of parts for want of a figure.</summary>
/// <param name="Parts">Their names, at least one.</param>
/// <param name="Kind">What.</param>
public sealed record StressAssumption(ImmutableArray<string> Parts, StressAssumptionKind Kind);
