namespace Spurless.Numerics;

/// <summary>Natural logarithms of factorials, and of the beta function of whole numbers.</summary>
public static class LogFactorial
{
    private static readonly double[] _small = Small();

    /// <summary><c>ln n!</c>.</summary>
    /// <param name="n">A whole number, 0 or more.</param>
    /// <returns>Relative accuracy about 1e-15: summed to 255, beyond it Stirling's series to the fifth power (from memory).</returns>
    public static double Of(int n)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(n);
        if (n < _small.Length)
        {
            return _small[n];
        }

        double x = n;
        double square = x * x;
        return ((x + 0.5) * Math.Log(x)) - x + 0.918938533204672742 // ln(2 pi) / 2
            + ((1 / 12.0) - (((1 / 360.0) - (1 / (1260.0 * square))) / square)) / x;
    }

    /// <summary><c>ln B(a, b)</c>, B the beta function.</summary>
    /// <param name="a">A whole number, 1 or more.</param>
    /// <param name="b">A whole number, 1 or more.</param>
    public static double Beta(int a, int b) => Of(a - 1) + Of(b - 1) - Of(a + b - 1);

    private static double[] Small()
    {
        double[] all = new double[256];
        for (int n = 2; n < all.Length; n++)
        {
            all[n] = all[n - 1] + Math.Log(n);
        }

        return all;
    }
}
