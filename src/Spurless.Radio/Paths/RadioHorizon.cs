namespace Spurless.Radio.Paths;

/// <summary>How far two antennas see each other over a smooth earth with normal refraction.</summary>
public static class RadioHorizon
{
    /// <summary>The earth's radius with 4/3 for normal refraction, in metres (common practice).</summary>
    private const double EffectiveRadiusM = 6_371_000 * 4 / 3.0;

    /// <summary>Distance to the common horizon.</summary>
    /// <param name="height1M">One antenna's height in metres, 0 or more.</param>
    /// <param name="height2M">The other's.</param>
    /// <returns>Metres: sqrt(2 a h1) + sqrt(2 a h2), a = 4/3 of 6371 km. 30 m and 2 m see each other over 28.4 km.</returns>
    public static double DistanceM(double height1M, double height2M) =>
        Math.Sqrt(2 * EffectiveRadiusM * Quantities.QuantityText.NotNegative(height1M, nameof(height1M)))
        + Math.Sqrt(2 * EffectiveRadiusM * Quantities.QuantityText.NotNegative(height2M, nameof(height2M)));

    /// <summary>The remark that a path goes beyond the horizon, or null.</summary>
    internal static PathRemark? Beyond(PathGeometry geometry)
    {
        if (geometry is not { DistanceM: { } distance, OverReflectingGround: var (h1, h2) })
        {
            return null;
        }

        double horizon = DistanceM(h1, h2);
        return distance <= horizon ? null : new PathRemark.BeyondHorizon(distance, horizon);
    }
}
