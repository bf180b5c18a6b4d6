namespace Spurless.Numerics;

/// <summary>The normal distribution of mean 0 and variance 1.</summary>
public static class NormalDistribution
{
    /// <summary>Probability of a value above x, without loss of digits in the tail.</summary>
    /// <param name="x">Any number; infinities allowed.</param>
    /// <returns>Q(x), relative accuracy about 1e-13.</returns>
    /// <remarks>
    /// Maclaurin series of the error function to |x| = 3, beyond it the continued fraction of the tail (both textbook forms, from memory).
    /// </remarks>
    public static double Above(double x)
    {
        if (x < 0)
        {
            return 1 - Above(-x);
        }

        if (x < 3)
        {
            // Phi(x) - 1/2 = phi(x) (x + x^3/3 + x^5/15 + ...): all terms positive, no cancellation.
            double term = x;
            double sum = x;
            for (int i = 3; term > sum * 1e-17; i += 2)
            {
                term *= x * x / i;
                sum += term;
            }

            return 0.5 - (sum * Density(x));
        }

        if (x > 40)
        {
            return 0;
        }

        // Q(x) = phi(x) / (x + 1/(x + 2/(x + 3/(x + ...)))), evaluated backwards. With n levels the error goes as
        // exp(-2 x sqrt(2 n)) (from memory): n = 300/x^2 + 10 leaves less than 1e-21, and far out few are needed.
        double fraction = x;
        for (int i = (int)(300 / (x * x)) + 10; i >= 1; i--)
        {
            fraction = x + (i / fraction);
        }

        return Density(x) / fraction;
    }

    /// <summary>Probability of a value between two bounds.</summary>
    /// <param name="low">Lower bound.</param>
    /// <param name="high">Upper bound, at least <paramref name="low"/>.</param>
    public static double Between(double low, double high) =>
        low >= 0 ? Above(low) - Above(high) : high <= 0 ? Above(-high) - Above(-low) : 1 - Above(-low) - Above(high);

    private static double Density(double x) => Math.Exp(-0.5 * x * x) * 0.398942280401432678; // 1/sqrt(2 pi)

    /// <summary>The standard normal deviate below which a share of the distribution lies.</summary>
    /// <param name="p">The share, above 0 and below 1.</param>
    /// <returns>Deviate; relative error below 1.2e-9 (Acklam's rational approximation, from memory; held to a general library by a
    /// test).</returns>
    public static double Quantile(double p)
    {
        if (p < 0.02425)
        {
            return Tail(Math.Sqrt(-2 * Math.Log(p)));
        }

        if (p > 1 - 0.02425)
        {
            return -Tail(Math.Sqrt(-2 * Math.Log(1 - p)));
        }

        double x = p - 0.5, r = x * x;
        double above = (((((((((-39.69683028665376 * r) + 220.9460984245205) * r) - 275.9285104469687) * r) + 138.3577518672690) * r)
            - 30.66479806614716) * r) + 2.506628277459239;
        double below = (((((((((-54.47609879822406 * r) + 161.5858368580409) * r) - 155.6989798598866) * r) + 66.80131188771972) * r)
            - 13.28068155288572) * r) + 1;
        return above * x / below;
    }

    private static double Tail(double q) =>
        ((((((((((-0.007784894002430293 * q) - 0.3223964580411365) * q) - 2.400758277161838) * q) - 2.549732539343734) * q)
            + 4.374664141464968) * q) + 2.938163982698783)
        / ((((((((0.007784695709041462 * q) + 0.3224671290700398) * q) + 2.445134137142996) * q) + 3.754408661907416) * q) + 1);
}
