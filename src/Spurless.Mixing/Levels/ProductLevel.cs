namespace Spurless.Mixing.Levels;

/// <summary>
/// Level of a mixing product made in one memoryless stage, referred to that stage's input, as a sum of whole micro-dB:
/// <c>P_k = sum |k_i| P_i - (n-1) IIP_n + 20 lg(C_k / C_ref) + sum over noise-like i of 10 lg(|k_i|!)</c>.
/// </summary>
/// <remarks>
/// Lowest-degree term only; <see cref="NextDegree"/> says how far that holds. A = B = -30 dBm with IIP3 = 0 dBm: 2A-B at -90.00 dBm.
/// Accuracy: half a micro-dB for each part. Source: multinomial expansion of a power series, intercepts as defined in docs/method;
/// ITU-R SM.1134 3.2 has this shape (from memory).
/// </remarks>
public static class ProductLevel
{
    /// <summary>
    /// Part of a product's level that one emitter contributes, in micro-dB; the parts and <see cref="OrderMicroDb"/> add up to the level.
    /// </summary>
    /// <param name="times">|k_i|, 1 to 9.</param>
    /// <param name="levelMicroDbm">P_i at the stage's input, in micro-dBm.</param>
    /// <param name="noiseLike">Whether the emitter is noise-like.</param>
    /// <returns>|k_i| P_i - 20 lg(|k_i|!) [+ 10 lg(|k_i|!)] in micro-dB.</returns>
    public static long EmitterMicroDb(int times, int levelMicroDbm, bool noiseLike) =>
        ((long)times * levelMicroDbm) - Multinomial.FactorialVoltageMicroDb(times)
        + (noiseLike ? Multinomial.FactorialPowerMicroDb(times) : 0);

    /// <summary>Part of a product's level that depends on its order alone, in micro-dB.</summary>
    /// <param name="order">n, 2 to 9.</param>
    /// <param name="interceptMicroDbm">IIP_n in micro-dBm.</param>
    /// <param name="referralMicroDb">Gain from the stage's input to where the level is wanted, in micro-dB.</param>
    /// <returns>-(n-1) IIP_n + 20 lg(n! / C_ref) + referral in micro-dB.</returns>
    public static long OrderMicroDb(int order, int interceptMicroDbm, int referralMicroDb) =>
        (-(order - 1L) * interceptMicroDbm) + Multinomial.OrderMicroDb(order) + referralMicroDb;
}
