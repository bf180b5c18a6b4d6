namespace Spurless.Mixing.Cures;

/// <summary>A product that must fall, for <see cref="LeastAttenuation"/>.</summary>
/// <param name="Carriers">Indices of its carriers, each once.</param>
/// <param name="Times">How many times each takes part, <c>|k_i|</c>, 1 or more.</param>
/// <param name="FallDb">By how much it must fall, in dB; nothing is needed where it is not above 0.</param>
public readonly record struct FallNeeded(IReadOnlyList<int> Carriers, IReadOnlyList<int> Times, double FallDb);

/// <summary>
/// The least attenuations of carriers with which every product falls far enough: a product falls by <c>sum |k_i| a_i</c> dB, so that they
/// are a linear program in dB, <c>sum |k_i| a_i &gt;= b, a &gt;= 0</c>.
/// </summary>
/// <remarks>
/// Of the many solutions that cannot be lowered any more the one is taken that asks least of a filter: with <c>w_i</c> what a filter of a
/// given kind does at carrier i, the greatest of <c>a_i / w_i</c> is as small as can be, then the next greatest, and so on. For this order
/// the program has a solution in closed form. Let r be the greatest of <c>(b - what is fixed) / sum |k_i| w_i</c> over the products, the
/// sum over carriers not yet fixed. No solution has a greatest ratio under r, for that product would fall too little; and every carrier of
/// that product must have just r, for if one had less another would need more. So its carriers are fixed at <c>r w_i</c>, and the rest is
/// the same question again. Each carrier ends in a product that falls exactly as far as it must, so that none can be lowered alone.
/// </remarks>
public static class LeastAttenuation
{
    /// <summary>Solves it.</summary>
    /// <param name="products">The products.</param>
    /// <param name="ease">By carrier: what the filter does there, in dB, above 0; only the ratios count.</param>
    /// <returns>By carrier: attenuation in dB, 0 where nothing is needed.</returns>
    public static double[] Of(IReadOnlyList<FallNeeded> products, IReadOnlyList<double> ease)
    {
        ArgumentNullException.ThrowIfNull(products);
        ArgumentNullException.ThrowIfNull(ease);
        double[] needed = new double[ease.Count];
        bool[] fixedAt = new bool[ease.Count];
        bool[] done = [.. products.Select(static p => p.FallDb <= 0)];
        while (true)
        {
            double greatest = 0;
            int worst = -1;
            for (int p = 0; p < done.Length; p++)
            {
                if (!done[p] && Ratio(products[p], ease, needed, fixedAt) is { } ratio)
                {
                    if (ratio > greatest)
                    {
                        (greatest, worst) = (ratio, p);
                    }
                }
                else
                {
                    done[p] = true;
                }
            }

            if (worst < 0)
            {
                return needed;
            }

            done[worst] = true;
            foreach (int i in products[worst].Carriers)
            {
                if (!fixedAt[i])
                {
                    fixedAt[i] = true;
                    needed[i] = greatest * ease[i];
                }
            }
        }
    }

    // What its free carriers must have over what the filter does there; null where none is free.
    private static double? Ratio(in FallNeeded product, IReadOnlyList<double> ease, double[] needed, bool[] fixedAt)
    {
        double left = product.FallDb, share = 0;
        for (int t = 0; t < product.Carriers.Count; t++)
        {
            int i = product.Carriers[t];
            left -= product.Times[t] * needed[i];
            share += fixedAt[i] ? 0 : product.Times[t] * ease[i];
        }

        return share > 0 ? left / share : null;
    }
}
