namespace Spurless.Drawing.Plotting;

/// <summary>A hop of the number line.</summary>
/// <param name="From">Where it begins, in hertz.</param>
/// <param name="To">Where it lands, in hertz.</param>
/// <param name="Term">Index of the term it adds or takes away.</param>
public readonly record struct Hop(long From, long To, int Term);

/// <summary>
/// The arithmetic of a mixture as a walk on the frequency axis: it rises from the first carrier, each further term is a hop of its own
/// length, and the last lands on the product.
/// </summary>
public static class NumberLine
{
    /// <summary>Of all orders of the terms, the one that stays on the axis, then turns least, then is shortest in reach.</summary>
    /// <param name="frequencies">Of each term, in hertz.</param>
    /// <param name="coefficients">How many times each takes part, with sign; at least one above 0.</param>
    /// <param name="lowest">Lower end of the axis, in hertz.</param>
    /// <param name="highest">Upper end of the axis, in hertz.</param>
    /// <returns>The index of the first carrier and the hops; sum of coefficients' magnitudes less one of them.</returns>
    public static (int First, IReadOnlyList<Hop> Hops) Walk(
        IReadOnlyList<long> frequencies, IReadOnlyList<int> coefficients, double lowest, double highest)
    {
        int steps = coefficients.Sum(Math.Abs);
        int[] left = [.. coefficients.Select(Math.Abs)];
        int[] order = new int[steps];
        int[]? best = null;
        (int Off, int Turns, double Reach) bestCost = (int.MaxValue, int.MaxValue, double.MaxValue);
        Try(0, 0, 0, (0, 0, 0));
        if (best is null)
        {
            throw new ArgumentException("A mixture needs a term that is added.", nameof(coefficients));
        }

        List<Hop> hops = [];
        long at = frequencies[best[0]];
        foreach (int term in best.AsSpan(1))
        {
            long to = at + (Math.Sign(coefficients[term]) * frequencies[term]);
            hops.Add(new Hop(at, to, term));
            at = to;
        }

        return (best[0], hops);

        void Try(int depth, long position, int direction, (int Off, int Turns, double Reach) cost)
        {
            if (cost.CompareTo(bestCost) >= 0)
            {
                return;
            }

            if (depth == steps)
            {
                (best, bestCost) = ([.. order], cost);
                return;
            }

            for (int term = 0; term < left.Length; term++)
            {
                int sign = Math.Sign(coefficients[term]);
                if (left[term] == 0 || (depth == 0 && sign < 0))
                {
                    continue;
                }

                long next = position + (sign * frequencies[term]);
                bool off = next < lowest || next > highest;
                bool turns = depth > 1 && sign != direction;
                left[term]--;
                order[depth] = term;
                Try(
                    depth + 1,
                    next,
                    depth == 0 ? 0 : sign,
                    (cost.Off + (off ? 1 : 0), cost.Turns + (turns ? 1 : 0), cost.Reach + (off ? Math.Abs((double)next) : 0)));
                left[term]++;
            }
        }
    }
}
