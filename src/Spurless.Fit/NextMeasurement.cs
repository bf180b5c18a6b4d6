using System.Collections.Immutable;
using Spurless.Circuits.Solving;

namespace Spurless.Fit;

/// <summary>Kinds of further measurement.</summary>
public enum MeasurementKind
{
    /// <summary>A part is lifted out and measured by itself, to 2 %.</summary>
    PartAlone,

    /// <summary>A line's length is measured, to 2 %.</summary>
    Length,

    /// <summary>A node is shorted to ground and the sweep made once more.</summary>
    ShortedNode,

    /// <summary>An S-parameter is swept that the sweep doesn't have.</summary>
    FurtherParameter,
}

/// <summary>A further measurement, and what it would do to the intervals.</summary>
/// <param name="Kind">What is done.</param>
/// <param name="Of">The part or the node; of a further S-parameter null.</param>
/// <param name="Parameter">The further S-parameter; of other kinds null.</param>
public sealed record NextMeasurement(MeasurementKind Kind, string? Of, SweepParameter? Parameter)
{
    /// <summary>Parts between a node that is shorted and ground.</summary>
    public ImmutableArray<string> AcrossNode { get; init; } = [];

    /// <summary>The intervals that it narrows most, at most three, the most first.</summary>
    public ImmutableArray<NarrowedInterval> Narrows { get; init; } = [];

    /// <summary>By how much it shrinks the intervals on the whole: the sum of the logarithms of their ratios.</summary>
    public double Gain { get; init; }
}

/// <summary>An interval before and after a further measurement.</summary>
/// <param name="Part">Name of the part.</param>
/// <param name="Quantity">Which of its numbers.</param>
/// <param name="SigmaBefore">One sigma of the number's logarithm as things are.</param>
/// <param name="SigmaAfter">The same with the measurement.</param>
public readonly record struct NarrowedInterval(string Part, CircuitQuantity Quantity, double SigmaBefore, double SigmaAfter);
