namespace Spurless.Mixing.Search;

/// <summary>How many vectors a search has to go through.</summary>
public static class VectorCount
{
    /// <summary>Number of canonical vectors (one of each mirror pair): <c>sum over m, n of C(N,m) 2^(m-1) C(n-1,m-1)</c>.</summary>
    /// <param name="emitters">N, at least 0.</param>
    /// <param name="minOrder">Lowest order, at least 1.</param>
    /// <param name="maxOrder">Highest order.</param>
    /// <param name="maxSignals">Most emitters in one vector.</param>
    /// <returns>The number, to double precision. 200 emitters, order 3, 3 signals: 5,333,400.</returns>
    public static double Canonical(int emitters, int minOrder, int maxOrder, int maxSignals)
    {
        double total = 0;
        for (int m = 1; m <= maxSignals; m++)
        {
            for (int n = Math.Max(m, minOrder); n <= maxOrder; n++)
            {
                total += Binomial(emitters, m) * Math.Pow(2, m - 1) * Binomial(n - 1, m - 1);
            }
        }

        return total;
    }

    /// <summary>n over k.</summary>
    internal static double Binomial(int n, int k)
    {
        if (k > n)
        {
            return 0;
        }

        double value = 1;
        for (int i = 0; i < k; i++)
        {
            value = value * (n - i) / (i + 1);
        }

        return value;
    }
}
