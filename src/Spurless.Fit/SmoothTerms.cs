namespace Spurless.Fit;

/// <summary>
/// Functions of frequency that a slowly turning residual is made of: Legendre polynomials over the sweep, each with the share that a
/// reflection
/// at a delay up to <see cref="InstrumentErrors.MostDelayS"/> has of it.
/// </summary>
/// <remarks>
/// <c>e^{-j theta u} = sum (2k + 1) (-j)^k j_k(theta) P_k(u)</c>, u from -1 to 1 over the sweep, theta = pi times span times delay
/// (Abramowitz and
/// Stegun 10.1.47, from memory); the share is the rms of <c>(2k + 1) j_k</c> over all delays. The integrals are midpoint sums.
/// </remarks>
internal sealed class SmoothTerms
{
    private const double LeastShare = 0.05;
    private const int MostOrders = 6;
    private const int Delays = 24;
    private const int Places = 200;

    /// <param name="frequenciesHz">The sweep's frequencies in hertz, rising.</param>
    /// <param name="padded">Length of the arrays made, at least their number.</param>
    public SmoothTerms(ReadOnlySpan<double> frequenciesHz, int padded)
    {
        double from = frequenciesHz[0], span = Math.Max(frequenciesHz[^1] - from, 1e-3);
        Shares = [.. AllShares(Math.PI * span * InstrumentErrors.MostDelayS).Select((share, k) => (share, k))
            .TakeWhile(static s => s.k == 0 || s.share > LeastShare).Select(static s => s.share)];
        Functions = [.. Shares.Select(_ => new double[padded])];
        Span<double> p = stackalloc double[MostOrders];
        for (int i = 0; i < frequenciesHz.Length; i++)
        {
            Polynomials((2 * (frequenciesHz[i] - from) / span) - 1, p);
            for (int k = 0; k < Shares.Length; k++)
            {
                Functions[k][i] = p[k];
            }
        }
    }

    /// <summary>Share of each polynomial, the constant first.</summary>
    public double[] Shares { get; }

    /// <summary>The polynomials at the sweep's frequencies.</summary>
    public double[][] Functions { get; }

    private static void Polynomials(double u, Span<double> p)
    {
        p[0] = 1;
        p[1] = u;
        for (int k = 2; k < p.Length; k++)
        {
            p[k] = ((((2 * k) - 1) * u * p[k - 1]) - ((k - 1) * p[k - 2])) / k;
        }
    }

    private static double[] AllShares(double mostTheta)
    {
        double[] squares = new double[MostOrders];
        Span<double> p = stackalloc double[MostOrders], re = stackalloc double[MostOrders], im = stackalloc double[MostOrders];
        for (int d = 0; d < Delays; d++)
        {
            double theta = mostTheta * (d + 0.5) / Delays;
            re.Clear();
            im.Clear();
            for (int i = 0; i < Places; i++)
            {
                double u = (2 * (i + 0.5) / Places) - 1;
                Polynomials(u, p);
                (double sin, double cos) = Math.SinCos(theta * u);
                for (int k = 0; k < MostOrders; k++)
                {
                    re[k] += p[k] * cos / Places;
                    im[k] -= p[k] * sin / Places;
                }
            }

            for (int k = 0; k < MostOrders; k++)
            {
                double scale = (2 * k) + 1;
                squares[k] += scale * scale * ((re[k] * re[k]) + (im[k] * im[k])) / Delays;
            }
        }

        return [.. squares.Select(Math.Sqrt)];
    }
}
