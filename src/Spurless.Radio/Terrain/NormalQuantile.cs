namespace Spurless.Radio.Terrain;

/// <summary>
/// The inverse of the complementary cumulative normal distribution by the rational approximation that ITU-R P.1812 and P.1546 print
/// (coefficients from memory; the printed intermediate figures of the reference results hold them). Within 0.00054.
/// </summary>
internal static class NormalQuantile
{
    /// <summary>How many standard deviations are exceeded with this probability.</summary>
    /// <param name="share">Probability, 1e-6 to 1 - 1e-6.</param>
    /// <returns>Standard deviations; 1.2817 for 0.1, and not exactly 0 for 0.5.</returns>
    internal static double Exceeded(double share) => share > 0.5 ? -Upper(1 - share) : Upper(share);

    private static double Upper(double share)
    {
        double t = Math.Sqrt(-2 * Math.Log(share));
        double above = (0.010328 * t + 0.802853) * t + 2.515516698;
        double below = ((0.001308 * t + 0.189269) * t + 1.432788) * t + 1;
        return t - above / below;
    }
}
