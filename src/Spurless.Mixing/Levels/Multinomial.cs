namespace Spurless.Mixing.Levels;

/// <summary>
/// How often a product occurs in the expansion of the n-th power of a sum of carriers, and what that makes in decibels against the two-tone
/// product an intercept is defined by.
/// </summary>
public static class Multinomial
{
    /// <summary>Highest order that is computed.</summary>
    public const int MaxOrder = 9;

    // 0! .. 9!
    private static readonly int[] Factorials = [1, 1, 2, 6, 24, 120, 720, 5_040, 40_320, 362_880];

    private static readonly int[] PowerMicroDb = Round(10);
    private static readonly int[] VoltageMicroDb = Round(20);
    private static readonly int[] ReferenceMicroDb =
        [
            .. Enumerable.Range(0, MaxOrder + 1).Select(
                static n => MicroDb.FromDecibels(20 * Math.Log10((double)Factorials[n] / Reference(n)))),
        ];

    /// <summary>n! for 0 to 9.</summary>
    /// <param name="n">0 to 9.</param>
    /// <returns>n factorial.</returns>
    public static int Factorial(int n) => Factorials[n];

    /// <summary>Multinomial coefficient C_k = n! / prod |k_i|! of a product, n = sum |k_i|.</summary>
    /// <param name="coefficients">Integer coefficients k; zeros are allowed; order at most 9.</param>
    /// <returns>C_k: 3 for 2A-B, 6 for A+B-C, 1 for 3A.</returns>
    /// <remarks>Exact. Source: multinomial expansion; docs/method holds the derivation.</remarks>
    public static int Coefficient(ReadOnlySpan<int> coefficients)
    {
        int order = 0;
        int divisor = 1;
        foreach (int k in coefficients)
        {
            order += Math.Abs(k);
            divisor *= Factorials[Math.Abs(k)];
        }

        return Factorials[order] / divisor;
    }

    /// <summary>C_ref of the two-tone product that the intercept of order n is defined by (A-B, 2A-B, 2A-2B, 3A-2B ...).</summary>
    /// <param name="order">0 to 9; the intercepts are those of 2 to 9.</param>
    /// <returns>2, 3, 6, 10, 20, 35, 70, 126 for orders 2 to 9.</returns>
    public static int Reference(int order) => Factorials[order] / (Factorials[(order + 1) / 2] * Factorials[order / 2]);

    /// <summary>
    /// 10 lg(j!) in micro-dB: what a noise-like carrier taken j times makes more than a constant one of the same mean power.
    /// </summary>
    /// <param name="j">0 to 9.</param>
    /// <returns>Micro-dB, rounded once.</returns>
    public static int FactorialPowerMicroDb(int j) => PowerMicroDb[j];

    /// <summary>20 lg(j!) in micro-dB.</summary>
    /// <param name="j">0 to 9.</param>
    /// <returns>Micro-dB, rounded once.</returns>
    public static int FactorialVoltageMicroDb(int j) => VoltageMicroDb[j];

    /// <summary>20 lg(n! / C_ref) in micro-dB; less <see cref="FactorialVoltageMicroDb"/> of each |k_i| it is 20 lg(C_k / C_ref).</summary>
    /// <param name="order">0 to 9.</param>
    /// <returns>Micro-dB, rounded once.</returns>
    public static int OrderMicroDb(int order) => ReferenceMicroDb[order];

    private static int[] Round(int factor) => [.. Factorials.Select(f => MicroDb.FromDecibels(factor * Math.Log10(f)))];
}
