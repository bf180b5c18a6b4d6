namespace Spurless.Sites.Positions;

/// <summary>From one emitter to another: how far, and in which direction from each.</summary>
/// <param name="DistanceM">Distance in metres, above 0.</param>
/// <param name="BearingDegrees">Bearing from the first to the second.</param>
/// <param name="BackDegrees">Bearing from the second to the first.</param>
internal readonly record struct DistanceAndBearing(double DistanceM, double BearingDegrees, double BackDegrees);
