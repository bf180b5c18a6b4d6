namespace Spurless.Mixing.Levels;

/// <summary>One stage of a cascade.</summary>
/// <param name="GainDb">Available gain in dB.</param>
/// <param name="NoiseFigureDb">Noise figure in dB; of a passive stage at 290 K its loss.</param>
/// <param name="InterceptDbm">Third-order input intercept in dBm; positive infinity for a linear stage.</param>
public readonly record struct CascadeStage(double GainDb, double NoiseFigureDb, double InterceptDbm);

/// <summary>Gain, noise figure and intercept of stages one behind the other.</summary>
public static class Cascade
{
    /// <summary>The stages taken together, referred to the first one's input.</summary>
    /// <param name="stages">From the antenna on.</param>
    /// <returns>
    /// Sum of gains; Friis' noise figure <c>F = F1 + sum (F_k - 1)/G_1..k-1</c>; <c>1/IIP3 = sum G_1..k-1 / IIP3_k</c> in milliwatts
    /// (products in phase, the worst case). No stage: 0 dB, 0 dB, infinity.
    /// </returns>
    /// <remarks>Double precision. Source: H. T. Friis, Proc. IRE 1944 (from memory); intercepts: common practice.</remarks>
    public static CascadeStage Total(ReadOnlySpan<CascadeStage> stages)
    {
        double gainDb = 0;
        double noise = 1;
        double inverse = 0;
        foreach (CascadeStage stage in stages)
        {
            double gain = FromDb(gainDb);
            noise += (FromDb(stage.NoiseFigureDb) - 1) / gain;
            inverse += gain / FromDb(stage.InterceptDbm);
            gainDb += stage.GainDb;
        }

        return new CascadeStage(gainDb, 10 * Math.Log10(noise), -10 * Math.Log10(inverse));
    }

    private static double FromDb(double dB) => Math.Pow(10, dB / 10);
}
