using Spurless.Numerics;

namespace Spurless.Radio.Noise;

/// <summary>Thermal noise and sums of powers. All levels in dBm, all frequencies and bandwidths in hertz.</summary>
public static class ThermalNoise
{
    /// <summary>The reference temperature of noise figures, in kelvins (IEEE definition of noise figure: common practice).</summary>
    public const double ReferenceKelvin = 290;

    /// <summary>Available thermal noise at <see cref="ReferenceKelvin"/> in 1 Hz: 10 lg(k T0 / 1 mW) = -173.975 dBm.</summary>
    public static double DensityDbmPerHz { get; } = 10 * Math.Log10(PhysicalConstants.Boltzmann * ReferenceKelvin * 1000);

    /// <summary>The noise of a receiver referred to its input.</summary>
    /// <param name="bandwidthHz">Equivalent noise bandwidth in hertz, above 0; not the raster of the channels.</param>
    /// <param name="noiseFigureDb">Noise figure in dB.</param>
    /// <returns>Level in dBm.</returns>
    /// <remarks>N = -173.975 + 10 lg B + NF, exact for k and T0 as above. 12 kHz and 6 dB give -127.18 dBm.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The bandwidth is not above 0, or a value is not finite.</exception>
    public static double FloorDbm(double bandwidthHz, double noiseFigureDb) =>
        DensityDbmPerHz
        + 10 * Math.Log10(Quantities.QuantityText.AboveZero(bandwidthHz, nameof(bandwidthHz)))
        + Quantities.QuantityText.Finite(noiseFigureDb, nameof(noiseFigureDb));

    /// <summary>The sum of levels in power.</summary>
    /// <param name="levelsDbm">Levels in dBm; minus infinity counts as nothing.</param>
    /// <returns>Level in dBm; minus infinity for none.</returns>
    /// <remarks>
    /// 10 lg sum 10^(P/10), taken relative to the largest so that nothing overflows. -90, -90 and -93 dBm give -86.02 dBm.
    /// </remarks>
    public static double SumDbm(params ReadOnlySpan<double> levelsDbm)
    {
        double largest = double.NegativeInfinity;
        foreach (double level in levelsDbm)
        {
            largest = Math.Max(largest, level);
        }

        if (double.IsInfinity(largest) || double.IsNaN(largest))
        {
            return largest;
        }

        double sum = 0;
        foreach (double level in levelsDbm)
        {
            sum += Math.Pow(10, (level - largest) / 10);
        }

        return largest + 10 * Math.Log10(sum);
    }

    /// <summary>How far something that adds itself to the noise raises it.</summary>
    /// <param name="overNoiseDb">Its level over the noise, in dB; minus infinity for nothing.</param>
    /// <returns>The rise in dB, above 0.</returns>
    /// <remarks>10 lg(1 + 10^(x/10)): 0.973, 3.010 and 6.973 dB for -6, 0 and +6 dB.</remarks>
    public static double RiseDb(double overNoiseDb)
    {
        // Written so that neither very large nor very small arguments lose digits.
        double ratio = Math.Pow(10, -Math.Abs(overNoiseDb) / 10);
        double sum = 1 + ratio;

        // ln(1 + r) as r ln(s) / (s - 1) with the rounded s: the rounding cancels (W. Kahan's form, from memory).
        double ln = sum == 1 ? ratio : ratio * Math.Log(sum) / (sum - 1);
        return Math.Max(overNoiseDb, 0) + 10 / Math.Log(10) * ln;
    }
}
