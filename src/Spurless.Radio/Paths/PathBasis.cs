namespace Spurless.Radio.Paths;

/// <summary>What a predicted loss rests on: the model and its figures. Equal where the figures are.</summary>
public abstract record PathBasis
{
    /// <summary>Free space.</summary>
    /// <param name="DistanceM">Distance in metres.</param>
    public sealed record InFreeSpace(double DistanceM) : PathBasis;

    /// <summary>Plane earth beyond its break point.</summary>
    /// <param name="DistanceM">Distance in metres.</param>
    /// <param name="TransmitterM">Height of the transmitting antenna over the ground that reflects, in metres.</param>
    /// <param name="ReceiverM">Height of the receiving one.</param>
    /// <param name="BreakPointM">The break point in metres.</param>
    public sealed record OverPlaneEarth(double DistanceM, double TransmitterM, double ReceiverM, double BreakPointM) : PathBasis;

    /// <summary>Plane earth was asked nearer than its break point; free space was taken.</summary>
    /// <param name="BreakPointM">The break point in metres.</param>
    /// <param name="DistanceM">Distance in metres.</param>
    public sealed record WithinBreakPoint(double BreakPointM, double DistanceM) : PathBasis;

    /// <summary>Okumura-Hata.</summary>
    /// <param name="Model">Its name with the surroundings.</param>
    /// <param name="DistanceM">Distance in metres.</param>
    /// <param name="HigherM">Height of the higher antenna in metres.</param>
    /// <param name="LowerM">Height of the lower one.</param>
    public sealed record ByHata(string Model, double DistanceM, double HigherM, double LowerM) : PathBasis;

    /// <summary>Free space and one knife edge.</summary>
    /// <param name="DistanceM">Distance in metres.</param>
    /// <param name="EdgeLossDb">Loss of the edge in dB.</param>
    /// <param name="V">Its diffraction parameter.</param>
    public sealed record OverOneEdge(double DistanceM, double EdgeLossDb, double V) : PathBasis;

    /// <summary>Isolation of antennas on one structure.</summary>
    /// <param name="VerticalM">Vertical spacing in metres.</param>
    /// <param name="HorizontalM">Horizontal spacing in metres.</param>
    public sealed record OnOneStructure(double VerticalM, double HorizontalM) : PathBasis;
}

/// <summary>Why a path model was taken.</summary>
public enum PathChoice
{
    /// <summary>The model was asked by itself.</summary>
    None,

    /// <summary>The user named it.</summary>
    AsGiven,

    /// <summary>The ground between is known.</summary>
    GroundBetweenKnown,

    /// <summary>Free space: a height or a ground of the two ends is not known.</summary>
    HeightsAndGroundsNotKnown,

    /// <summary>Free space: both heights are known, a ground of the two ends is not.</summary>
    GroundsNotKnown,

    /// <summary>Plane earth: heights and grounds are known, and the path is longer than its break point.</summary>
    EndsKnown,

    /// <summary>Free space: the path is shorter than the break point of plane earth.</summary>
    WithinBreakPoint,
}
