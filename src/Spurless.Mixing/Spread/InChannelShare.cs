using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Spread;

/// <summary>Which part of a product's power falls into the receiver's noise bandwidth.</summary>
public static class InChannelShare
{
    /// <summary>A smaller share counts as this one.</summary>
    public const double Floor = 1e-10;

    /// <summary>Share of a product's power inside <c>+-ifBandwidth/2</c> of the receiver; the product's frequency is <c>f_k + sum k_i X_i</c>, X_i the emitters' spreads.</summary>
    /// <param name="offsetHz">Product less receiver frequency, in hertz.</param>
    /// <param name="ifBandwidthHz">Noise bandwidth of the receiver in hertz, above 0.</param>
    /// <param name="coefficients">k_i of the emitters in the product.</param>
    /// <param name="spreads">Their spreads, one per coefficient.</param>
    /// <returns>1e-10 to 1; a line exactly on the edge counts half.</returns>
    /// <remarks>Independent emitters: variances k_i^2 sigma_i^2 add, lines multiply out. Source: docs/method; held to simulated FM by a test.</remarks>
    public static double Of(double offsetHz, double ifBandwidthHz, ReadOnlySpan<int> coefficients, ReadOnlySpan<EmitterSpread> spreads)
    {
        double variance = 0;
        Span<double> shifts = stackalloc double[Multinomial.MaxOrder];
        int pairs = 0;
        for (int i = 0; i < coefficients.Length; i++)
        {
            double k = coefficients[i];
            variance += k * k * spreads[i].SigmaHz * spreads[i].SigmaHz;
            if (k != 0 && spreads[i].ShiftHz != 0)
            {
                shifts[pairs++] = k * spreads[i].ShiftHz;
            }
        }

        double sigma = Math.Sqrt(variance);
        double half = ifBandwidthHz / 2;
        double sum = 0;
        for (int combination = 0; combination < 1 << pairs; combination++)
        {
            double line = offsetHz;
            for (int pair = 0; pair < pairs; pair++)
            {
                line += (combination >> pair & 1) == 0 ? shifts[pair] : -shifts[pair];
            }

            sum += OfLine(line, half, sigma);
        }

        return Math.Clamp(sum / (1 << pairs), Floor, 1);
    }

    private static double OfLine(double line, double half, double sigma)
    {
        if (sigma > 0)
        {
            return Gaussian.Between((-half - line) / sigma, (half - line) / sigma);
        }

        double distance = Math.Abs(line);
        return distance < half ? 1 : distance == half ? 0.5 : 0;
    }
}
