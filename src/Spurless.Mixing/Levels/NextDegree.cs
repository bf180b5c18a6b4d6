namespace Spurless.Mixing.Levels;

/// <summary>
/// What the term of the next degree (n+2) adds to a product of order n: the measure of how far the lowest-degree level can be trusted.
/// </summary>
public static class NextDegree
{
    /// <summary>Above this a level is called not trustworthy, in dB (our choice, docs/method).</summary>
    public const double TrustLimitDb = 3;

    /// <summary>Highest order it is defined for: it needs the intercept of order n+2, and there is none above 9.</summary>
    public const int MaxOrder = Multinomial.MaxOrder - 2;

    /// <summary>
    /// Ratio of the (n+2)-th degree's share to the n-th degree's, in amplitude:
    /// <c>delta = (a_{n+2}/a_n) (n+2)(n+1)/4 sum_j A_j^2 / (|k_j|+1)</c> over all carriers j, with a_n from the intercepts. The sum is that
    /// of all powers less a correction for the few in the product.
    /// </summary>
    /// <param name="order">n, 2 to 7.</param>
    /// <param name="weightedPowerMw">sum over all carriers of P_j / (|k_j|+1), P_j in milliwatts.</param>
    /// <param name="interceptDbm">IIP_n in dBm.</param>
    /// <param name="nextInterceptDbm">IIP_{n+2} in dBm.</param>
    /// <returns>delta, at least 0 (the sign of a_{n+2}/a_n is not known). Two tones at -20 dBm, IIP3 = IIP5 = 0 dBm, 2A-B: 0.05.</returns>
    /// <remarks>Exact for a power series of degrees n and n+2. Source: multinomial expansion, derivation in docs/method.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">Order under 2 or over 7.</exception>
    public static double Ratio(int order, double weightedPowerMw, double interceptDbm, double nextInterceptDbm)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(order, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(order, MaxOrder);
        // a_{n+2}/a_n = 4 (C_ref,n / C_ref,n+2) A_n^(n-1) / A_{n+2}^(n+1), A^2 proportional to power.
        double coefficients = (double)Multinomial.Reference(order) / Multinomial.Reference(order + 2) * (order + 2) * (order + 1);
        double dB = ((order - 1) / 2.0 * interceptDbm) - ((order + 1) / 2.0 * nextInterceptDbm);
        return coefficients * weightedPowerMw * Math.Pow(10, dB / 10);
    }

    /// <summary>The ratio as the plus-minus in decibels that stands beside a level.</summary>
    /// <param name="ratio">delta, at least 0.</param>
    /// <returns>20 lg(1 + delta) in dB.</returns>
    public static double ErrorDb(double ratio) => 20 * Math.Log10(1 + ratio);
}
