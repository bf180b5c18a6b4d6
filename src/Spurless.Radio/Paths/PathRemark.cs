namespace Spurless.Radio.Paths;

/// <summary>What must stand beside a predicted loss: what lies outside a model's range, or had to be assumed. Equal where the figures are.
/// </summary>
public abstract record PathRemark
{
    /// <summary>The antennas' sizes are not known, and a long one may not be in the far field this near.</summary>
    public sealed record SizesNotKnown : PathRemark;

    /// <summary>The path goes beyond the radio horizon over level ground.</summary>
    /// <param name="DistanceM">Its length in metres.</param>
    /// <param name="HorizonM">The horizon in metres.</param>
    public sealed record BeyondHorizon(double DistanceM, double HorizonM) : PathRemark;

    /// <summary>Plane earth does not hold this near; free space was taken.</summary>
    /// <param name="BreakPointM">From where it holds, in metres.</param>
    /// <param name="DistanceM">The path's length in metres.</param>
    public sealed record WithinBreakPoint(double BreakPointM, double DistanceM) : PathRemark;

    /// <summary>A value outside the range that a model was fitted to; it was computed all the same.</summary>
    /// <param name="Model">The model's name.</param>
    /// <param name="Figure">Which value.</param>
    /// <param name="Value">The value, in hertz or metres.</param>
    /// <param name="From">Where the range begins.</param>
    /// <param name="To">Where it ends.</param>
    public sealed record OutsideFit(string Model, PathFigure Figure, double Value, double From, double To) : PathRemark;

    /// <summary>A model gave less than free space, which was taken.</summary>
    /// <param name="Model">The model's name.</param>
    public sealed record LessThanFreeSpace(string Model) : PathRemark;

    /// <summary>Isolation on one structure is approximate.</summary>
    public sealed record IsolationApproximate : PathRemark;

    /// <summary>A spacing under one wavelength, for which the formula of one structure does not hold.</summary>
    /// <param name="SpacingM">The spacing in metres.</param>
    /// <param name="WavelengthM">The wavelength in metres.</param>
    public sealed record SpacingUnderWavelength(double SpacingM, double WavelengthM) : PathRemark;

    /// <summary>Gain antennas beside each other, nearer than <see cref="SameStructure.GainAntennasFromM"/>.</summary>
    public sealed record GainAntennasNear : PathRemark;

    /// <summary>Isolation on one structure was capped at <see cref="SameStructure.CapDb"/>.</summary>
    public sealed record IsolationCapped : PathRemark;

    /// <summary>What must be known of the ground is not: in free space the level is the most that it can be.</summary>
    /// <param name="HeightsKnown">Whether both antennas' heights are, and only a ground is not.</param>
    public sealed record GroundNotKnown(bool HeightsKnown) : PathRemark;
}

/// <summary>A value that a path model has a range of.</summary>
public enum PathFigure
{
    /// <summary>The frequency, in hertz.</summary>
    Frequency,

    /// <summary>The distance, in metres.</summary>
    Distance,

    /// <summary>The height of the higher antenna, in metres.</summary>
    HigherAntenna,

    /// <summary>The height of the lower antenna, in metres.</summary>
    LowerAntenna,
}
