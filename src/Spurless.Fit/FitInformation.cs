using Spurless.Numerics;

namespace Spurless.Fit;

/// <summary>Small symmetric matrices of information and what follows from them.</summary>
internal static class FitInformation
{
    /// <summary>The inverse of a symmetric matrix that is not negative, by its eigenvalues after scaling its diagonal to ones.</summary>
    /// <remarks>Directions without any information become very wide instead of infinite.</remarks>
    public static double[] Inverse(ReadOnlySpan<double> a, int n)
    {
        double[] root = new double[n], scaled = new double[n * n];
        for (int i = 0; i < n; i++)
        {
            root[i] = Math.Sqrt(Math.Max(a[(i * n) + i], 1e-12));
        }

        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                scaled[(i * n) + j] = a[(i * n) + j] / (root[i] * root[j]);
            }
        }

        (double[] values, double[] vectors) = SymmetricEigen.Of(scaled, n);
        double[] inverse = new double[n * n];
        for (int k = 0; k < n; k++)
        {
            double reciprocal = 1 / Math.Max(values[k], 1e-15);
            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j < n; j++)
                {
                    inverse[(i * n) + j] += reciprocal * vectors[(i * n) + k] * vectors[(j * n) + k] / (root[i] * root[j]);
                }
            }
        }

        return inverse;
    }

    /// <summary>What the first unknowns' information is when the others are not known: <c>A - B D^-1 B^T</c>.</summary>
    /// <param name="a">Information of all, row by row.</param>
    /// <param name="n">How many.</param>
    /// <param name="first">How many are kept.</param>
    public static double[] Marginal(ReadOnlySpan<double> a, int n, int first)
    {
        int rest = n - first;
        double[] kept = new double[first * first];
        double[] d = new double[rest * rest];
        for (int i = 0; i < rest; i++)
        {
            for (int j = 0; j < rest; j++)
            {
                d[(i * rest) + j] = a[((first + i) * n) + first + j];
            }
        }

        double[] inverse = rest > 0 ? Inverse(d, rest) : [];
        double[] row = new double[rest];
        for (int i = 0; i < first; i++)
        {
            for (int k = 0; k < rest; k++)
            {
                row[k] = 0;
                for (int l = 0; l < rest; l++)
                {
                    row[k] += a[(i * n) + first + l] * inverse[(l * rest) + k];
                }
            }

            for (int j = 0; j < first; j++)
            {
                double sum = a[(i * n) + j];
                for (int k = 0; k < rest; k++)
                {
                    sum -= row[k] * a[(j * n) + first + k];
                }

                kept[(i * first) + j] = sum;
            }
        }

        return kept;
    }

    /// <summary>
    /// Information about the unknowns asked for, what is known beforehand of them not counted; parasitics and instrument are as unknown as
    /// they are.
    /// </summary>
    public static double[] OfSweep(FitModel model, double[] x, FitWorkspace w)
    {
        int n = model.Count;
        double[] a = new double[n * n], g = new double[n];
        model.Normal(x, w, a, g, beforehand: false);
        return Marginal(a, n, model.Sought);
    }

    /// <summary>Adds what is known beforehand of the parts, a range counting as an even spread over it.</summary>
    public static double[] WithBeforehand(double[] information, IReadOnlyList<FitUnknown> unknowns)
    {
        double[] a = [.. information];
        int n = unknowns.Count;
        for (int i = 0; i < n; i++)
        {
            a[(i * n) + i] += 1 / (unknowns[i].SpreadBefore * unknowns[i].SpreadBefore);
        }

        return a;
    }

    /// <summary>One sigma of each unknown.</summary>
    public static double[] Sigmas(double[] information, int n)
    {
        double[] covariance = Inverse(information, n);
        return [.. Enumerable.Range(0, n).Select(i => Math.Sqrt(Math.Max(0, covariance[(i * n) + i])))];
    }
}
