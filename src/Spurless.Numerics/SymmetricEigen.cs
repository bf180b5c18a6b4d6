namespace Spurless.Numerics;

/// <summary>Eigenvalues and vectors of a small symmetric matrix by Jacobi's rotations (1846; from memory), accurate to rounding.</summary>
/// <remarks>Own, so that the tests can hold it to a library; the matrices are of some ten rows, where Jacobi is as quick as any.</remarks>
public static class SymmetricEigen
{
    /// <summary>Decomposes a matrix.</summary>
    /// <param name="a">The matrix, row by row; not changed.</param>
    /// <param name="n">Its size.</param>
    /// <returns>Eigenvalues, rising, and the vectors: that of value k in column k, row by row.</returns>
    public static (double[] Values, double[] Vectors) Of(ReadOnlySpan<double> a, int n)
    {
        double[] m = a[..(n * n)].ToArray(), v = new double[n * n];
        for (int i = 0; i < n; i++)
        {
            v[(i * n) + i] = 1;
        }

        for (int sweep = 0; sweep < 60; sweep++)
        {
            bool turned = false;
            for (int p = 0; p < n; p++)
            {
                for (int q = p + 1; q < n; q++)
                {
                    turned |= Rotate(m, v, n, p, q);
                }
            }

            if (!turned)
            {
                break;
            }
        }

        int[] order = [.. Enumerable.Range(0, n).OrderBy(i => m[(i * n) + i])];
        double[] vectors = new double[n * n];
        for (int i = 0; i < n; i++)
        {
            for (int k = 0; k < n; k++)
            {
                vectors[(i * n) + k] = v[(i * n) + order[k]];
            }
        }

        return ([.. order.Select(i => m[(i * n) + i])], vectors);
    }

    private static bool Rotate(double[] m, double[] v, int n, int p, int q)
    {
        double off = m[(p * n) + q], dp = m[(p * n) + p], dq = m[(q * n) + q];
        if (off == 0 || Math.Abs(off) <= 1e-17 * Math.Sqrt(Math.Abs(dp * dq)) || Math.Abs(off) < 1e-300)
        {
            return false;
        }

        double theta = (dq - dp) / (2 * off);
        double t = (theta >= 0 ? 1 : -1) / (Math.Abs(theta) + Math.Sqrt((theta * theta) + 1));
        double c = 1 / Math.Sqrt((t * t) + 1), s = t * c;
        for (int k = 0; k < n; k++)
        {
            double kp = m[(k * n) + p], kq = m[(k * n) + q];
            m[(k * n) + p] = (c * kp) - (s * kq);
            m[(k * n) + q] = (s * kp) + (c * kq);
        }

        for (int k = 0; k < n; k++)
        {
            double pk = m[(p * n) + k], qk = m[(q * n) + k];
            m[(p * n) + k] = (c * pk) - (s * qk);
            m[(q * n) + k] = (s * pk) + (c * qk);
            (double vp, double vq) = (v[(k * n) + p], v[(k * n) + q]);
            v[(k * n) + p] = (c * vp) - (s * vq);
            v[(k * n) + q] = (s * vp) + (c * vq);
        }

        m[(p * n) + q] = m[(q * n) + p] = 0;
        return true;
    }
}
