using MathNet.Numerics.Integration;
using Spurless.Design.Layout;

namespace Spurless.Design.Tests.Layout;

/// <summary>Closed forms against Neumann's double integral, mu0/(4 pi) of dl1 dl2/r, by a general library's quadrature.</summary>
public class MutualInductanceTests
{
    private const double Mu0 = 4e-7 * Math.PI;

    [Theory]
    [InlineData(4e-3, 4e-3, 3e-3)]
    [InlineData(4e-3, 6e-3, 1e-3)]
    [InlineData(3e-3, 9e-3, 20e-3)]
    public void CoaxialLoops_is_Neumanns_integral(double a, double b, double d)
    {
        // For circles on one axis one angle is free.
        double integral = GaussLegendreRule.Integrate(t => Math.Cos(t) / Math.Sqrt(
            (a * a) + (b * b) + (d * d) - (2 * a * b * Math.Cos(t))), 0, 2 * Math.PI, 256);
        Assert.Equal(1, MutualInductance.CoaxialLoops(a, b, d) / (Mu0 / 2 * a * b * integral), 1e-9);
    }

    // Side by side, four and five turns of 8 mm, 6 mm long: the dipoles' figure within a tenth at three diameters, within 3 % at six.
    [Theory]
    [InlineData(24e-3, 0.1)]
    [InlineData(48e-3, 0.03)]
    public void ParallelCoils_is_near_Neumanns_integral_from_three_diameters_on(double distance, double tolerance)
    {
        (int, double, double) first = (4, 8e-3, 6e-3), second = (5, 8e-3, 6e-3);
        double sum = 0;
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j < 5; j++)
            {
                sum += Loops(4e-3, distance, (6e-3 * (((i + 0.5) / 4) - 0.5)) - (6e-3 * (((j + 0.5) / 5) - 0.5)));
            }
        }

        Assert.True(sum < 0);
        Assert.Equal(1, MutualInductance.ParallelCoils(first, second, distance) / sum, tolerance);
    }

    // Two turns on one axis are two loops.
    [Fact]
    public void CoaxialCoils_of_one_turn_is_CoaxialLoops() => Assert.Equal(
        MutualInductance.CoaxialLoops(4e-3, 5e-3, 7e-3), MutualInductance.CoaxialCoils((1, 8e-3, 1e-3), (1, 10e-3, 1e-3), 7e-3), 1e-20);

    private static double Loops(double r, double aside, double along)
    {
        const int n = 180;
        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            double t = 2 * Math.PI * i / n;
            for (int j = 0; j < n; j++)
            {
                double u = 2 * Math.PI * j / n, x = aside + (r * (Math.Cos(u) - Math.Cos(t))), y = r * (Math.Sin(u) - Math.Sin(t));
                sum += Math.Cos(t - u) / Math.Sqrt((x * x) + (y * y) + (along * along));
            }
        }

        return Mu0 / (4 * Math.PI) * r * r * sum * (2 * Math.PI / n) * (2 * Math.PI / n);
    }
}
