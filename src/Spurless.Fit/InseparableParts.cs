using System.Collections.Immutable;

namespace Spurless.Fit;

/// <summary>Why a sweep cannot tell parts apart.</summary>
public enum InseparableKind
{
    /// <summary>They stand side by side: their sum alone is seen.</summary>
    SideBySide,

    /// <summary>They follow each other with nothing between: their sum alone is seen.</summary>
    InSeries,

    /// <summary>The impedance level of an inner node is not seen from the ports.</summary>
    ImpedanceLevel,

    /// <summary>Two values are seen by their ratio only: both may be larger, or smaller.</summary>
    Ratio,

    /// <summary>Two values are seen together only: one may be larger where the other is smaller.</summary>
    Together,

    /// <summary>Several can change together with no change that the sweep shows.</summary>
    Combination,
}

/// <summary>Parts that the sweep cannot tell apart.</summary>
/// <param name="Parts">Their names, the most moved first.</param>
/// <param name="Kind">Why.</param>
public sealed record InseparableParts(ImmutableArray<string> Parts, InseparableKind Kind)
{
    /// <summary>The node of an impedance level; null for other kinds.</summary>
    public string? Node { get; init; }

    /// <summary>Of an impedance level, the parts whose stated values hold it; empty where nothing does.</summary>
    public ImmutableArray<string> HeldBy { get; init; } = [];
}
