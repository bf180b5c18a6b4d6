using System.Numerics;
using CsCheck;

namespace Spurless.Numerics.Tests;

/// <summary>Three ways: the sum of its definition, energy (Parseval), and a general library.</summary>
public sealed class FourierTests
{
    private static readonly Gen<Complex[]> Blocks = Gen.Int[0, 9].SelectMany(static bits =>
        Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1], static (re, im) => new Complex(re, im)).Array[1 << bits]);

    [Fact]
    public void Transform_is_the_sum_of_its_definition() => Blocks.Sample(
        static x =>
        {
            Complex[] y = [.. x];
            Fourier.Transform(y);
            for (int m = 0; m < x.Length; m++)
            {
                Complex sum = Complex.Zero;
                for (int t = 0; t < x.Length; t++)
                {
                    double angle = -2 * Math.PI * ((long)m * t % x.Length) / x.Length;
                    sum += x[t] * new Complex(Math.Cos(angle), Math.Sin(angle));
                }

                Assert.True((sum - y[m]).Magnitude < 1e-12 * x.Length, $"{m} of {x.Length}: {sum} and {y[m]}");
            }
        },
        iter: 60);

    [Fact]
    public void Transform_keeps_the_energy() => Blocks.Sample(
        static x =>
        {
            Complex[] y = [.. x];
            Fourier.Transform(y);
            double before = x.Sum(static v => (v.Real * v.Real) + (v.Imaginary * v.Imaginary));
            double after = y.Sum(static v => (v.Real * v.Real) + (v.Imaginary * v.Imaginary)) / x.Length;
            Assert.Equal(before, after, 1e-12 * (1 + before));
        });

    // Outside: MathNet.Numerics.
    [Fact]
    public void Transform_agrees_with_a_general_library() => Blocks.Sample(
        static x =>
        {
            Complex[] own = [.. x], theirs = [.. x];
            Fourier.Transform(own);
            MathNet.Numerics.IntegralTransforms.Fourier.Forward(
                theirs, MathNet.Numerics.IntegralTransforms.FourierOptions.NoScaling);
            for (int m = 0; m < x.Length; m++)
            {
                Assert.True((own[m] - theirs[m]).Magnitude < 1e-12 * x.Length);
            }
        });
}
