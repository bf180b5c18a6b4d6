using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Causes;

/// <summary>Power sum of carriers with its uncertainty.</summary>
internal static class PowerSum
{
    /// <summary>One sigma of a power sum of independent levels.</summary>
    /// <param name="levelsDbm">Levels in dBm, at least one finite.</param>
    /// <param name="sigmasDb">Their sigmas in dB, as many.</param>
    /// <returns>Sigma in dB, to first order: each level's sigma weighs as its share of the power.</returns>
    public static double SigmaDb(ReadOnlySpan<double> levelsDbm, ReadOnlySpan<double> sigmasDb)
    {
        double total = LevelSum.PowerDbm(levelsDbm);
        double variance = 0;
        for (int i = 0; i < levelsDbm.Length; i++)
        {
            double part = Math.Pow(10, (levelsDbm[i] - total) / 10) * sigmasDb[i];
            variance += part * part;
        }

        return Math.Sqrt(variance);
    }
}
