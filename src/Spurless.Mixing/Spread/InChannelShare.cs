using Spurless.Mixing.Levels;
using Spurless.Numerics;

namespace Spurless.Mixing.Spread;

/// <summary>Which part of a product's power falls into the receiver's noise bandwidth.</summary>
public static class InChannelShare
{
    /// <summary>
    /// A smaller share counts as this one: so much a transmitter itself puts into its neighbours' channels (common practice).
    /// </summary>
    public const double Floor = 1e-7;

    // Where the Gaussian falls under -35 dB, it does not hold for modulation any more: the nearer edge then is so many sigmas off.
    private const double TailFromSigmas = 3.4173;

    // 14 dB for each width of the modulating signal, in nepers of power: what clipping and pauses leave. Ours, fitted to simulated FM.
    private const double TailSlope = 14 / 4.342944819032518;

    /// <summary>
    /// Share of a product's power inside <c>+-ifBandwidth/2</c> of the receiver; the product's frequency is <c>f_k + sum k_i X_i</c>, X_i
    /// the emitters' spreads.
    /// </summary>
    /// <param name="offsetHz">Product less receiver frequency, in hertz.</param>
    /// <param name="ifBandwidthHz">Noise bandwidth of the receiver in hertz, above 0.</param>
    /// <param name="coefficients">k_i of the emitters in the product.</param>
    /// <param name="spreads">Their spreads, one per coefficient.</param>
    /// <returns>1e-7 to 1; a line exactly on the edge counts half.</returns>
    /// <remarks>
    /// Independent emitters: variances k_i^2 sigma_i^2 add, lines multiply out. Beyond -35 dB an exponential takes over (from where the
    /// Gaussian falls as steeply, if that is later): 14 dB for each width of the modulating signal, the widest of the emitters'.
    /// Source: docs/method/product-levels.md; held to simulated FM by a test.
    /// </remarks>
    public static double Of(double offsetHz, double ifBandwidthHz, ReadOnlySpan<int> coefficients, ReadOnlySpan<EmitterSpread> spreads)
    {
        double variance = 0;
        Span<double> shifts = stackalloc double[Multinomial.MaxOrder];
        int pairs = 0;
        double modulation = 0;
        for (int i = 0; i < coefficients.Length; i++)
        {
            double k = coefficients[i];
            modulation = k == 0 ? modulation : Math.Max(modulation, spreads[i].ModulationHz);
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

            sum += OfLine(Math.Abs(line), half, sigma, modulation);
        }

        return Math.Clamp(sum / (1 << pairs), Floor, 1);
    }

    /// <summary>What the share depends on, beside the offset, where no emitter has two lines.</summary>
    /// <returns>False where one has.</returns>
    internal static bool IsOneLine(
        ReadOnlySpan<int> coefficients, ReadOnlySpan<EmitterSpread> spreads, out double variance, out double modulation)
    {
        (variance, modulation) = (0, 0);
        for (int i = 0; i < coefficients.Length; i++)
        {
            double k = coefficients[i];
            if (k != 0 && spreads[i].ShiftHz != 0)
            {
                return false;
            }

            modulation = k == 0 ? modulation : Math.Max(modulation, spreads[i].ModulationHz);
            variance += k * k * spreads[i].SigmaHz * spreads[i].SigmaHz;
        }

        return true;
    }

    /// <summary>The share where <see cref="IsOneLine"/> is true: the same figure as <see cref="Of"/>.</summary>
    internal static double OfOneLine(double offsetHz, double ifBandwidthHz, double variance, double modulation) =>
        Math.Clamp(OfLine(Math.Abs(offsetHz), ifBandwidthHz / 2, Math.Sqrt(variance), modulation), Floor, 1);

    private static double OfLine(double distance, double half, double sigma, double modulation)
    {
        if (sigma <= 0)
        {
            return distance < half ? 1 : distance == half ? 0.5 : 0;
        }

        double from = half + (TailFromSigmas * sigma);
        if (modulation <= 0 || distance <= from)
        {
            return Gaussian(distance, half, sigma);
        }

        // The Gaussian's own slope is z + 1/z - ... per sigma, z sigmas out.
        double slope = TailSlope / modulation;
        double steep = slope * sigma;
        from = Math.Max(from, half + ((steep - (1 / steep)) * sigma));
        return distance <= from ? Gaussian(distance, half, sigma) : Gaussian(from, half, sigma) * Math.Exp(-slope * (distance - from));
    }

    private static double Gaussian(double distance, double half, double sigma) =>
        NormalDistribution.Between((-half - distance) / sigma, (half - distance) / sigma);
}
