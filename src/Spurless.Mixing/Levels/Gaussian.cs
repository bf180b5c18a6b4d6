namespace Spurless.Mixing.Levels;

/// <summary>The normal distribution of mean 0 and variance 1.</summary>
internal static class Gaussian
{
    /// <summary>Probability of a value above x, without loss of digits in the tail.</summary>
    /// <param name="x">Any number; infinities allowed.</param>
    /// <returns>Q(x), relative accuracy about 1e-13.</returns>
    /// <remarks>Maclaurin series of the error function to |x| = 3, beyond it the continued fraction of the tail (both textbook forms, from memory).</remarks>
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
}
