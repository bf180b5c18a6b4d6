using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using Spurless.Circuits.Solving;

namespace Spurless.Fit.Tests;

/// <summary>Small matrices of information against the general library and against what they mean.</summary>
public sealed class FitInformationTests
{
    // Positive matrices whose diagonals lie up to eight decades apart, as a length in metres and a quality factor do.
    private static readonly Gen<(Matrix<double> A, int First)> Any =
        from n in Gen.Int[1, 6]
        from first in Gen.Int[1, n]
        from b in Gen.Double[-1, 1].Array[n * n]
        from scale in Gen.Double[-4, 4].Array[n]
        select (Make(n, b, scale), first);

    [Fact]
    public void Inverse_is_that_of_the_general_library() => Any.Sample(static one =>
    {
        int n = one.A.RowCount;
        Matrix<double> own = Square(FitInformation.Inverse(one.A.ToRowMajorArray(), n), n), theirs = one.A.Inverse();
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                double size = Math.Sqrt(theirs[i, i] * theirs[j, j]);
                Assert.InRange((own[i, j] - theirs[i, j]) / size, -1e-6, 1e-6);
            }
        }
    });

    // What the first are worth when the rest is not known is the inverse of their block of the inverse (Schur's complement).
    [Fact]
    public void Marginal_is_the_information_that_their_own_scatter_has() => Any.Sample(static one =>
    {
        (Matrix<double> a, int first) = one;
        Matrix<double> own = Square(FitInformation.Marginal(a.ToRowMajorArray(), a.RowCount, first), first);
        Matrix<double> theirs = a.Inverse().SubMatrix(0, first, 0, first).Inverse();
        for (int i = 0; i < first; i++)
        {
            for (int j = 0; j < first; j++)
            {
                Assert.InRange((own[i, j] - theirs[i, j]) / Math.Sqrt(a[i, i] * a[j, j]), -1e-6, 1e-6);
            }

            // Not knowing the others never makes one more sure.
            Assert.True(own[i, i] <= a[i, i] * (1 + 1e-9));
        }
    });

    [Fact]
    public void Sigmas_shrink_with_every_witness_and_never_lie_under_the_one_with_all_others_known() =>
        Gen.Select(Any, Gen.Double[0.01, 100]).Sample(static (one, precision) =>
        {
            int n = one.A.RowCount;
            double[] before = FitInformation.Sigmas(one.A.ToRowMajorArray(), n);
            Matrix<double> more = one.A.Clone();
            more[0, 0] += precision * one.A[0, 0];
            double[] after = FitInformation.Sigmas(more.ToRowMajorArray(), n);
            for (int i = 0; i < n; i++)
            {
                Assert.True(after[i] <= before[i] * (1 + 1e-6), $"{before[i]} to {after[i]}");
                Assert.True(before[i] >= (1 - 1e-6) / Math.Sqrt(one.A[i, i]));
            }
        });

    // A direction of which nothing is known becomes very wide, not infinite and not a fault.
    [Fact]
    public void A_sum_that_alone_is_seen_leaves_its_parts_wide_open()
    {
        double[] sigmas = FitInformation.Sigmas([100, 100, 0, 100, 100, 0, 0, 0, 4], 3);

        Assert.True(sigmas[0] > 1e4 && sigmas[1] > 1e4 && double.IsFinite(sigmas[0]));
        Assert.Equal(0.5, sigmas[2], 1e-9);
    }

    // A range from a to b taken as an even spread has the sigma ln(b/a) / sqrt 12 (of the continuous uniform distribution).
    [Fact]
    public void Beforehand_counts_a_range_as_an_even_spread_over_it_and_an_estimate_as_it_says()
    {
        (_, _, IReadOnlyList<FitUnknown> unknowns, _) = FitUnknown.Of(DemoFilter.Read("""
            spurless_circuit: 1
            ports: { in: a, out: b }
            parts:
              C1: { capacitor: unknown, range: [1 pF, 100 pF], between: [a, b] }
              L1: { inductor: 80 nH, between: [b, gnd], about: 10 % }
            """));
        Assert.Equal([CircuitQuantity.CapacitanceF, CircuitQuantity.InductanceH], unknowns.Select(static u => u.Quantity));

        double[] a = FitInformation.WithBeforehand([2, 1, 1, 3], unknowns);

        double spread = Math.Log(100) / Math.Sqrt(12);
        Assert.Equal(2 + (1 / (spread * spread)), a[0], 1e-9);
        Assert.Equal((1.0, 1.0), (a[1], a[2]));
        Assert.Equal(3 + (1 / (unknowns[1].Sigma * unknowns[1].Sigma)), a[3], 1e-9);
        Assert.InRange(unknowns[1].Sigma, 0.09, 0.11);
    }

    private static Matrix<double> Make(int n, double[] b, double[] scale)
    {
        Matrix<double> root = Matrix<double>.Build.Dense(n, n, b);
        Matrix<double> whole = (root * root.Transpose()) + (0.05 * Matrix<double>.Build.DenseIdentity(n));
        Matrix<double> d = Matrix<double>.Build.DenseDiagonal(n, n, i => Math.Pow(10, scale[i]));
        return d * whole * d;
    }

    private static Matrix<double> Square(double[] rowByRow, int n) => Matrix<double>.Build.Dense(n, n, (i, j) => rowByRow[(i * n) + j]);
}
