using Spurless.Numerics;

namespace Spurless.Mixing.Levels;

/// <summary>How sure a product's level is.</summary>
public static class LevelUncertainty
{
    /// <summary>One sigma of a level measured at the site, dB (common practice).</summary>
    public const double MeasuredDb = 2;

    /// <summary>One sigma of a predicted level, dB (common practice).</summary>
    public const double PredictedDb = 8;

    /// <summary>One sigma of a product's level: <c>s_k^2 = sum k_i^2 s_i^2 + n^2 s_common^2 + (n-1)^2 s_IIP^2</c>.</summary>
    /// <param name="coefficients">k_i, zeros allowed.</param>
    /// <param name="sigmasDb">s_i of the emitters' levels in dB, one per coefficient.</param>
    /// <param name="commonDb">Sigma that all levels share (one wrong measuring set-up), dB.</param>
    /// <param name="interceptDb">Sigma of the intercept of the product's order, dB.</param>
    /// <returns>dB.</returns>
    public static double SigmaDb(ReadOnlySpan<int> coefficients, ReadOnlySpan<double> sigmasDb, double commonDb, double interceptDb)
    {
        int order = 0;
        double variance = 0;
        for (int i = 0; i < coefficients.Length; i++)
        {
            order += Math.Abs(coefficients[i]);
            variance += Square(coefficients[i] * sigmasDb[i]);
        }

        return Math.Sqrt(variance + Square(order * commonDb) + Square((order - 1) * interceptDb));
    }

    /// <summary>Chance that a level known with a Gaussian error in dB reaches a threshold.</summary>
    /// <param name="levelDbm">Level in dBm.</param>
    /// <param name="sigmaDb">One sigma in dB, at least 0.</param>
    /// <param name="thresholdDbm">Threshold in dBm.</param>
    /// <returns>0 to 1.</returns>
    public static double Chance(double levelDbm, double sigmaDb, double thresholdDbm) =>
        sigmaDb > 0 ? NormalDistribution.Above((thresholdDbm - levelDbm) / sigmaDb) : levelDbm >= thresholdDbm ? 1 : 0;

    private static double Square(double x) => x * x;
}
