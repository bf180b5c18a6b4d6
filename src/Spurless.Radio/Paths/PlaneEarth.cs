using Spurless.Numerics;

namespace Spurless.Radio.Paths;

/// <summary>
/// Plane earth: <c>L = 40 lg d - 20 lg h1 - 20 lg h2</c>, the direct ray and its reflection at grazing incidence over level ground, beyond
/// the break point <c>4 pi h1 h2 / lambda</c>, where it equals free space. Nearer than that the two rays beat and the free-space loss is
/// taken (the model stays continuous). Heights are those over the ground that reflects, <see cref="PathGeometry.OverReflectingGround"/>.
/// Formula from memory. Accuracy some 6 to 10 dB over real ground (common practice).
/// </summary>
public sealed class PlaneEarth : IPathModel
{
    /// <summary>The one instance.</summary>
    public static readonly PlaneEarth Model = new();

    private PlaneEarth()
    {
    }

    /// <inheritdoc/>
    public string Name => "plane earth";

    /// <summary>Basic transmission loss over a plane earth beyond the break point.</summary>
    /// <param name="distanceM">Distance in metres, above 0.</param>
    /// <param name="height1M">One antenna's height over ground in metres, above 0.</param>
    /// <param name="height2M">The other's.</param>
    /// <returns>Loss in dB; 84.437 dB over 1 km with 30 m and 2 m.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number above 0.</exception>
    public static double LossDb(double distanceM, double height1M, double height2M) =>
        40 * Math.Log10(Quantities.QuantityText.AboveZero(distanceM, nameof(distanceM)))
        - 20 * Math.Log10(Quantities.QuantityText.AboveZero(height1M, nameof(height1M)))
        - 20 * Math.Log10(Quantities.QuantityText.AboveZero(height2M, nameof(height2M)));

    /// <summary>The distance at which plane earth and free space lose the same.</summary>
    /// <param name="height1M">One antenna's height over ground in metres.</param>
    /// <param name="height2M">The other's.</param>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <returns>4 pi h1 h2 / lambda in metres; 367.2 m for 30 m and 2 m at 146 MHz.</returns>
    public static double BreakPointM(double height1M, double height2M, double frequencyHz) =>
        4 * Math.PI * height1M * height2M * Quantities.QuantityText.AboveZero(frequencyHz, nameof(frequencyHz))
            / PhysicalConstants.SpeedOfLight;

    /// <inheritdoc/>
    public PathResult Predict(PathGeometry geometry)
    {
        ArgumentNullException.ThrowIfNull(geometry);
        if (FreeSpace.Refusal(geometry) is { } refused)
        {
            return PathResult.None(Name, refused);
        }

        if (geometry is not { TransmitterHeightM: > 0, ReceiverHeightM: > 0 })
        {
            return PathResult.None(Name, "plane earth needs the heights of both antennas above 0; give height: 20 m with each antenna");
        }

        double distance = geometry.DistanceM!.Value;
        (double h1, double h2) = geometry.OverReflectingGround!.Value;
        double breakPoint = BreakPointM(h1, h2, geometry.FrequencyHz);
        IReadOnlyList<PathRemark> remarks = FreeSpace.Remarks(geometry);
        if (distance >= breakPoint)
        {
            return PathResult.Basic(
                Name, new PathBasis.OverPlaneEarth(distance, h1, h2, breakPoint), geometry, LossDb(distance, h1, h2), remarks);
        }

        return PathResult.Basic(
            Name,
            new PathBasis.WithinBreakPoint(breakPoint, distance),
            geometry,
            FreeSpace.LossDb(distance, geometry.FrequencyHz),
            [.. remarks, new PathRemark.WithinBreakPoint(breakPoint, distance)]);
    }
}
