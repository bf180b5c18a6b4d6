using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Tests.Oracles;

/// <summary>Levels by the method's formulas as written, in double precision: the search's sums of micro-dB are held to them.</summary>
internal static class PlainLevel
{
    /// <summary>
    /// Level of a product from the levels at the stage's input and the stage's intercept of the product's order:
    /// <c>P_k = sum |k_i| P_i - (n-1) IIP_n + 20 lg(C_k / C_ref) + sum over noise-like i of 10 lg(|k_i|!)</c>.
    /// </summary>
    /// <param name="coefficients">k_i, zeros allowed, order 2 to 9.</param>
    /// <param name="levelsDbm">P_i in dBm at the stage's input, one per coefficient.</param>
    /// <param name="noiseLike">Whether carrier i is noise-like, one per coefficient; empty for none.</param>
    /// <param name="interceptDbm">IIP_n in dBm at the stage's input, n the product's order.</param>
    /// <returns>Level in dBm at the stage's input. A = B = -30 dBm with IIP3 = 0 dBm: 2A-B at -90.00 dBm.</returns>
    /// <remarks>
    /// Lowest-degree term only; <see cref="NextDegree"/> says how far that holds. Accuracy: double precision. Source: multinomial
    /// expansion of a power series, intercepts as defined in docs/method; ITU-R SM.1134 3.2 has this shape (from memory).
    /// </remarks>
    public static double Dbm(
        ReadOnlySpan<int> coefficients, ReadOnlySpan<double> levelsDbm, ReadOnlySpan<bool> noiseLike, double interceptDbm)
    {
        int order = 0;
        double sum = 0;
        for (int i = 0; i < coefficients.Length; i++)
        {
            int k = Math.Abs(coefficients[i]);
            if (k == 0)
            {
                continue;
            }

            order += k;
            sum += k * levelsDbm[i];
            if (!noiseLike.IsEmpty && noiseLike[i])
            {
                sum += 10 * Math.Log10(Multinomial.Factorial(k));
            }
        }

        double ratio = (double)Multinomial.Coefficient(coefficients) / Multinomial.Reference(order);
        return sum - ((order - 1) * interceptDbm) + (20 * Math.Log10(ratio));
    }

    /// <summary>
    /// Ratio of the (n+2)-th degree's share to the n-th degree's, in amplitude:
    /// <c>delta = (a_{n+2}/a_n) (n+2)(n+1)/4 sum_j A_j^2 / (|k_j|+1)</c> over all carriers j, with a_n from the intercepts.
    /// </summary>
    /// <param name="coefficients">k_j of every carrier present, zero for those not in the product; order 2 to 7.</param>
    /// <param name="levelsDbm">P_j in dBm of every carrier at the stage's input.</param>
    /// <param name="interceptDbm">IIP_n in dBm.</param>
    /// <param name="nextInterceptDbm">IIP_{n+2} in dBm.</param>
    /// <returns>delta, at least 0 (the sign of a_{n+2}/a_n is not known). Two tones at -20 dBm, IIP3 = IIP5 = 0 dBm, 2A-B: 0.05.</returns>
    /// <remarks>Exact for a power series of degrees n and n+2. Source: multinomial expansion, derivation in docs/method.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">Order under 2 or over 7.</exception>
    public static double NextDegreeRatio(
        ReadOnlySpan<int> coefficients, ReadOnlySpan<double> levelsDbm, double interceptDbm, double nextInterceptDbm)
    {
        int n = 0;
        double sum = 0;
        for (int j = 0; j < coefficients.Length; j++)
        {
            int k = Math.Abs(coefficients[j]);
            n += k;
            sum += Math.Pow(10, levelsDbm[j] / 10) / (k + 1);
        }

        return NextDegree.Ratio(n, sum, interceptDbm, nextInterceptDbm);
    }
}
