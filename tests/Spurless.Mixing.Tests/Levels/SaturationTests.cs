using System.Numerics;

using MathNet.Numerics.IntegralTransforms;

using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Tests.Levels;

/// <summary>The most that a stage delivers, against stages that saturate, driven far beyond their intercept.</summary>
public class SaturationTests
{
    [Fact]
    public void CompressionUnderIntercept_is_that_of_the_cubic()
    {
        // 1 - (3/4) a3 A^2 = 10^(-1/20), a3 = 4/(3 A_IIP3^2): A^2/A_IIP3^2 = 1 - 10^(-0.05).
        Assert.Equal(Saturation.CompressionUnderInterceptDb, -10 * Math.Log10(1 - Math.Pow(10, -0.05)), 0.005);
    }

    [Fact]
    public void MostDbm_is_the_lower_of_what_comes_in_and_the_compression_point()
    {
        Assert.Equal(-19.64, Saturation.MostDbm(2, -10), 9);
        Assert.Equal(-30, Saturation.MostDbm(0.001, 10), 9);
    }

    /// <summary>
    /// A differential pair (tanh), a soft limiter (x over the root of 1 + x^2) and the arcus tangens: third-order intercepts from their
    /// cubic terms.
    /// </summary>
    [Theory]
    [InlineData("tanh", 3.0)] // tanh x = x - x^3/3: a3/a1 = 1/3
    [InlineData("root", 2.0)] // x - x^3/2
    [InlineData("arctan", 3.0)] // x - x^3/3
    public void No_product_of_a_saturating_stage_exceeds_it(string law, double overCubic)
    {
        // A_IIP3^2 = (4/3) a1/|a3|.
        double iip3 = 10 * Math.Log10(4.0 / 3 * overCubic);
        Func<double, double> stage = law switch
        {
            "tanh" => Math.Tanh,
            "root" => static x => x / Math.Sqrt(1 + (x * x)),
            _ => Math.Atan,
        };
        foreach (double first in (double[])[-20, -6, 0, 6, 20, 40])
        {
            foreach (double under in (double[])[0, 3, 10])
            {
                const int Bins = 1 << 14;
                double a = Math.Pow(10, first / 20);
                double b = Math.Pow(10, (first - under) / 20);
                Complex[] output = [.. Enumerable.Range(0, Bins).Select(t =>
                    new Complex(stage((a * Math.Cos(2 * Math.PI * 401 * t / Bins)) + (b * Math.Cos(2 * Math.PI * 463 * t / Bins))), 0))];
                Fourier.Forward(output, FourierOptions.NoScaling);
                double most = Saturation.MostDbm((a * a) + (b * b), iip3);
                foreach (int bin in (int[])[(2 * 401) - 463, (2 * 463) - 401, 3 * 401, (3 * 401) - (2 * 463), 2 * 401 + 463])
                {
                    Assert.True(20 * Math.Log10(output[bin].Magnitude * 2 / Bins) <= most, $"{law} at {first} dB, {under} dB, line {bin}");
                }
            }
        }
    }
}
