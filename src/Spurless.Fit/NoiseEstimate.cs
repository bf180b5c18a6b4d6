namespace Spurless.Fit;

/// <summary>
/// Noise of one trace: a part that is the same everywhere and a part that grows with the signal, as variances of the complex value.
/// </summary>
/// <param name="Floor">Variance that is the same everywhere; of magnitudes in dB squared.</param>
/// <param name="Share">Variance by |S| squared; of magnitudes: in dB squared by one over |S| squared, which is what a floor makes
/// there.</param>
internal readonly record struct TraceNoise(double Floor, double Share);

/// <summary>
/// Estimates a trace's noise from itself, by third differences: what is smooth over four points drops out of them, and white noise of
/// variance v leaves them with 20 v on an even grid. On an uneven one the third divided difference is taken, scaled likewise.
/// </summary>
/// <remarks>
/// The two parts are the most likely ones for exponentially (complex) or chi-squared (real) distributed squares, found by multiplicative
/// steps that never make the likelihood less (from memory: the rule for the Itakura-Saito distance); squares beyond 12 times their
/// expectation are left out as wild.
/// </remarks>
internal static class NoiseEstimate
{
    private const int Steps = 80;
    private const double Wild = 12;

    /// <summary>Estimates the noise.</summary>
    /// <param name="frequenciesHz">Frequencies in hertz.</param>
    /// <param name="re">Real parts of the trace, or of what a fit leaves of it.</param>
    /// <param name="im">Imaginary parts; zeros for magnitudes.</param>
    /// <param name="growth">By what the second part of the variance grows, at each point.</param>
    /// <param name="used">Whether a point counts.</param>
    public static TraceNoise Of(
        ReadOnlySpan<double> frequenciesHz,
        ReadOnlySpan<double> re,
        ReadOnlySpan<double> im,
        ReadOnlySpan<double> growth,
        ReadOnlySpan<bool> used)
    {
        List<(double Square, double Growth)> all = [];
        Span<double> c = stackalloc double[4];
        for (int i = 0; i + 3 < frequenciesHz.Length; i++)
        {
            if (!used[i] || !used[i + 1] || !used[i + 2] || !used[i + 3])
            {
                continue;
            }

            double norm = 0;
            for (int k = 0; k < 4; k++)
            {
                double product = 1;
                for (int j = 0; j < 4; j++)
                {
                    product *= j == k ? 1 : (frequenciesHz[i + k] - frequenciesHz[i + j]) / (frequenciesHz[i + 3] - frequenciesHz[i]);
                }

                c[k] = 1 / product;
                norm += c[k] * c[k];
            }

            double r = 0, m = 0, grown = 0;
            for (int k = 0; k < 4; k++)
            {
                r += c[k] * re[i + k];
                m += c[k] * im[i + k];
                grown += c[k] * c[k] / norm * growth[i + k];
            }

            all.Add((((r * r) + (m * m)) / norm, grown));
        }

        return all.Count < 8 ? default : Likeliest(all);
    }

    private static TraceNoise Likeliest(List<(double Square, double Growth)> all)
    {
        double[] squares = [.. all.Select(static a => a.Square).Order()];
        double typical = Math.Max(squares[squares.Length / 2] / Math.Log(2), 1e-300), growth = all.Average(static a => a.Growth);
        double floor = typical / 2, share = growth > 0 ? typical / (2 * growth) : 0;
        for (int step = 0; step < Steps; step++)
        {
            double n0 = 0, d0 = 0, n1 = 0, d1 = 0;
            foreach ((double square, double grown) in all)
            {
                double v = floor + (share * grown);
                if (!(v > 0) || (square > Wild * v && step > 10))
                {
                    continue;
                }

                double limited = Math.Min(square, Wild * v);
                n0 += limited / (v * v);
                d0 += 1 / v;
                n1 += grown * limited / (v * v);
                d1 += grown / v;
            }

            floor *= d0 > 0 ? Math.Sqrt(n0 / d0) : 0;
            share *= d1 > 0 ? Math.Sqrt(n1 / d1) : 0;
        }

        return new TraceNoise(floor, share);
    }
}
