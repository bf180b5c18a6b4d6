using CsCheck;
using MathNet.Numerics.LinearAlgebra;

namespace Spurless.Numerics.Tests;

public sealed class SymmetricEigenTests
{
    private static readonly Gen<(int N, double[] A)> Matrices = Gen.Int[1, 12].SelectMany(static n =>
        Gen.Double[-3, 3].Array[n * n].Select(raw =>
        {
            double[] a = new double[n * n];
            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j < n; j++)
                {
                    a[(i * n) + j] = raw[(i * n) + j] + raw[(j * n) + i];
                }
            }

            return (n, a);
        }));

    [Fact]
    public void Of_gives_vectors_that_the_matrix_only_stretches() => Matrices.Sample(static m =>
    {
        (double[] values, double[] vectors) = SymmetricEigen.Of(m.A, m.N);
        for (int k = 0; k < m.N; k++)
        {
            for (int i = 0; i < m.N; i++)
            {
                double sum = 0;
                for (int j = 0; j < m.N; j++)
                {
                    sum += m.A[(i * m.N) + j] * vectors[(j * m.N) + k];
                }

                Assert.Equal(values[k] * vectors[(i * m.N) + k], sum, 1e-11 * (1 + Math.Abs(values[k])) * m.N);
            }
        }
    });

    // Outside: MathNet.Numerics.
    [Fact]
    public void Of_gives_the_values_of_a_general_library() => Matrices.Sample(static m =>
    {
        double[] own = SymmetricEigen.Of(m.A, m.N).Values;
        Matrix<double> matrix = Matrix<double>.Build.Dense(m.N, m.N, m.A);
        double[] theirs = [.. matrix.Evd(Symmetricity.Symmetric).EigenValues.Select(static v => v.Real).Order()];
        for (int k = 0; k < m.N; k++)
        {
            Assert.Equal(theirs[k], own[k], 1e-10 * m.N);
        }
    });

    // By hand: [2 1; 1 2] has 1 and 3.
    [Fact]
    public void Of_a_matrix_of_two_gives_the_values_by_hand()
    {
        double[] values = SymmetricEigen.Of([2, 1, 1, 2], 2).Values;
        Assert.Equal(1, values[0], 1e-15);
        Assert.Equal(3, values[1], 1e-15);
    }
}
