using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Measurements;

/// <summary>
/// The law of a product's level turned round: the intercept of the stage that made it, from the levels of its tones and its own.
/// </summary>
/// <remarks>
/// <c>IIP_n = (sum |k_i| P_i - P_k + 20 lg(C_k/C_ref)) / (n - 1)</c>, the converse of <see cref="ProductLevel"/>: lowest-degree term,
/// levels referred to that stage's input. Two tones of -30 dBm with 2A-B read as -90 dBm: IIP3 = 0 dBm. Derivation in docs/method.
/// </remarks>
public static class InterceptLaw
{
    /// <summary>The intercept.</summary>
    /// <param name="coefficients">k_i of the tones, none 0; order 2 to 9.</param>
    /// <param name="levels">Each tone's level in dBm. Tones set together share a source of error.</param>
    /// <param name="product">The product's level in dBm.</param>
    /// <returns>dBm; its sigma is that of the readings times their weights over n - 1.</returns>
    public static MeasuredFigure Intercept(
        IReadOnlyList<int> coefficients, IReadOnlyList<MeasuredFigure> levels, MeasuredFigure product) =>
        Tones(coefficients, levels).Plus(product, -1).Times(1.0 / (Order(coefficients) - 1));

    /// <summary>What the circuits in front of the stage take from the tones of a product together, once its intercept is known.</summary>
    /// <param name="coefficients">k_i of the tones, none 0; order 2 to 9.</param>
    /// <param name="levels">Each tone's level in dBm in front of those circuits.</param>
    /// <param name="product">The product's level in dBm, as a signal on the channel in front of them.</param>
    /// <param name="intercept">The intercept for tones that lose no more than the channel does, in dBm.</param>
    /// <returns><c>sum |k_i| L_i</c> in dB, L_i a tone's loss over that on the channel.</returns>
    public static MeasuredFigure LossOfTones(
        IReadOnlyList<int> coefficients, IReadOnlyList<MeasuredFigure> levels, MeasuredFigure product, MeasuredFigure intercept) =>
        Tones(coefficients, levels).Plus(product, -1).Plus(intercept, 1 - Order(coefficients));

    /// <summary>Order of a product: the sum of its coefficients' magnitudes.</summary>
    public static int Order(IReadOnlyList<int> coefficients)
    {
        ArgumentNullException.ThrowIfNull(coefficients);
        return coefficients.Sum(Math.Abs);
    }

    /// <summary>20 lg(C_k/C_ref): what a product has over the two-tone product of its order that defines the intercept.</summary>
    /// <param name="coefficients">k_i; order 2 to 9.</param>
    /// <returns>dB: 0 for 2A-B, 6.02 for A+B-C, -3.52 for 3A-B.</returns>
    public static double FactorDb(IReadOnlyList<int> coefficients) => 20 * Math.Log10(
        (double)Multinomial.Coefficient([.. coefficients]) / Multinomial.Reference(Order(coefficients)));

    private static MeasuredFigure Tones(IReadOnlyList<int> coefficients, IReadOnlyList<MeasuredFigure> levels)
    {
        ArgumentNullException.ThrowIfNull(levels);
        MeasuredFigure sum = MeasuredFigure.Exact(FactorDb(coefficients));
        for (int i = 0; i < levels.Count; i++)
        {
            sum = sum.Plus(levels[i], Math.Abs(coefficients[i]));
        }

        return sum;
    }
}
