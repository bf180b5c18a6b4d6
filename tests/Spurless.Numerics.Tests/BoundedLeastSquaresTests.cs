using CsCheck;

namespace Spurless.Numerics.Tests;

public sealed class BoundedLeastSquaresTests
{
    /// <summary>
    /// Misra1a of the NIST Statistical Reference Datasets (nonlinear regression, lower difficulty): y = b1 (1 - exp(-b2 x)), data and
    /// certified values from memory; the certified residual sum of squares, which no other data would give, holds the memory to the set.
    /// </summary>
    [Theory]
    [InlineData(500, 1e-4)]
    [InlineData(250, 5e-4)]
    public void Run_finds_the_certified_values_of_Misra1a(double b1, double b2)
    {
        double[] y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78];
        double[] x = [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0];
        // Unknowns in units of 100 and 1e-4, so that steps of 1 are steps of sense.
        Curve curve = new(x, y, static (b, at) => b[0] * 100 * (1 - Math.Exp(-b[1] * 1e-4 * at)), 2);
        double[] b = [b1 / 100, b2 / 1e-4];
        Descent end = BoundedLeastSquares.Run(curve, b, 400, 1e-14);
        Assert.Equal(238.94212918, b[0] * 100, 1e-5);
        Assert.Equal(5.5015643181e-4, b[1] * 1e-4, 1e-11);
        Assert.Equal(0.12455138894, end.Cost, 1e-9);
    }

    [Fact]
    public void Run_of_a_straight_line_gives_the_closed_form() =>
        Gen.Select(Gen.Double[-5, 5].Array[8], Gen.Double[-2, 2], Gen.Double[-2, 2]).Sample(
        static (noise, slope, start) =>
        {
            double[] x = [.. Enumerable.Range(0, noise.Length).Select(static i => (double)i)];
            double[] y = [.. x.Select((v, i) => (slope * v) + noise[i])];
            double mx = x.Average(), my = y.Average();
            double best = x.Zip(y, (a, b) => (a - mx) * (b - my)).Sum() / x.Sum(a => (a - mx) * (a - mx));
            double[] b = [start, 0];
            BoundedLeastSquares.Run(new Curve(x, y, static (p, at) => (p[0] * at) + p[1], 2), b, 200, 1e-14);
            Assert.Equal(best, b[0], 1e-5);
            Assert.Equal(my - (best * mx), b[1], 1e-4);
        },
        iter: 200);

    // (x - 3)^2 + (y - 4)^2 within x at most 1: the least is at (1, 4), by hand.
    [Fact]
    public void Run_stays_within_the_bounds_and_finds_the_least_on_them()
    {
        double[] b = [0, 0];
        Curve curve = new([0, 1], [3, 4], static (p, at) => at == 0 ? p[0] : p[1], 2) { Upper = [1, 9] };
        BoundedLeastSquares.Run(curve, b, 100, 1e-12);
        Assert.Equal(1, b[0], 1e-12);
        Assert.Equal(4, b[1], 1e-6);
    }

    [Fact]
    public void Run_stopped_keeps_the_best_so_far()
    {
        using CancellationTokenSource stop = new();
        stop.Cancel();
        double[] b = [0.5, 0.5];
        Curve curve = new([0, 1], [3, 4], static (p, at) => at == 0 ? p[0] : p[1], 2);
        Descent end = BoundedLeastSquares.Run(curve, b, 100, 1e-12, stop.Token);
        Assert.False(end.Converged);
        Assert.Equal([0.5, 0.5], b);
    }

    private sealed class Curve(double[] x, double[] y, Func<double[], double, double> value, int unknowns) : ILeastSquares
    {
        public double[] Lower { get; init; } = [.. Enumerable.Repeat(double.NegativeInfinity, unknowns)];

        public double[] Upper { get; init; } = [.. Enumerable.Repeat(double.PositiveInfinity, unknowns)];

        public int Count => unknowns;

        public int Scaled => unknowns;

        public ReadOnlySpan<double> Low => Lower;

        public ReadOnlySpan<double> High => Upper;

        public double Cost(ReadOnlySpan<double> b)
        {
            double[] at = b.ToArray();
            return x.Zip(y, (v, w) => Math.Pow(value(at, v) - w, 2)).Sum();
        }

        public double Normal(ReadOnlySpan<double> b, double[] normal, double[] gradient)
        {
            Array.Clear(normal);
            Array.Clear(gradient);
            double[] at = b.ToArray();
            for (int i = 0; i < x.Length; i++)
            {
                double r = value(at, x[i]) - y[i];
                double[] slope = new double[unknowns];
                for (int k = 0; k < unknowns; k++)
                {
                    double h = 1e-6 * (1 + Math.Abs(at[k]));
                    double[] up = [.. at], down = [.. at];
                    up[k] += h;
                    down[k] -= h;
                    slope[k] = (value(up, x[i]) - value(down, x[i])) / (2 * h);
                }

                for (int k = 0; k < unknowns; k++)
                {
                    gradient[k] += slope[k] * r;
                    for (int m = 0; m < unknowns; m++)
                    {
                        normal[(k * unknowns) + m] += slope[k] * slope[m];
                    }
                }
            }

            return Cost(b);
        }
    }
}
