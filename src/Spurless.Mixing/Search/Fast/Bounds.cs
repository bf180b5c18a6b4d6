using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Search.Fast;

/// <summary>What factorials take from a level, and the least that they can take.</summary>
internal static class Bounds
{
    /// <summary>20 lg(j!) in micro-dB.</summary>
    private static readonly int[] Penalties =
    [
        .. Enumerable.Range(0, Multinomial.MaxOrder + 1).Select(Multinomial.FactorialVoltageMicroDb),
    ];

    /// <summary>Least sum of penalties when m orders are shared by at most s emitters: as evenly as can be.</summary>
    private static readonly long[,] Least = ComputeLeast();

    /// <summary>20 lg(j!) in micro-dB by j.</summary>
    public static ReadOnlySpan<int> Penalty => Penalties;

    /// <summary>Least sum of penalties when m orders are shared by at most s emitters.</summary>
    public static long LeastPenalty(int m, int s) => Least[m, Math.Min(s, m)];

    /// <summary>Most that m orders on at most s emitters of this strength or less can contribute.</summary>
    public static long Most(int m, int s, long strength) => (m * strength) - Least[m, Math.Min(s, m)];

    private static long[,] ComputeLeast()
    {
        const int Max = Multinomial.MaxOrder;
        long[,] least = new long[Max + 1, Max + 1];
        for (int m = 1; m <= Max; m++)
        {
            for (int s = 1; s <= m; s++)
            {
                // The logarithm of the factorial is convex: the even share is the least.
                int more = m % s;
                least[m, s] = ((long)(s - more) * Penalties[m / s]) + (more == 0 ? 0 : (long)more * Penalties[(m / s) + 1]);
            }
        }

        return least;
    }
}
