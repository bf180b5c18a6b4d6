using CsCheck;
using Spurless.Radio.Paths;

namespace Spurless.Radio.Tests.Paths;

public sealed class KnifeEdgeTests
{
    /// <summary>
    /// Source: docs/checks.md 2.5: the approximation of ITU-R P.526 (seen quoted as P.526-14 eq. 31) and the exact Fresnel integral, both
    /// computed.
    /// </summary>
    [Theory]
    [InlineData(-0.5, 1.859, 1.959)]
    [InlineData(0, 6.0206, 6.033)]
    [InlineData(0.5, 10.234, 10.288)]
    [InlineData(1, 13.864, 13.926)]
    [InlineData(1.5, 16.777, 16.784)]
    [InlineData(2, 19.091, 19.043)]
    [InlineData(2.4, 20.618, 20.539)]
    [InlineData(3, 22.522, 22.416)]
    [InlineData(5, 26.936, 26.814)]
    [InlineData(10, 32.954, 32.855)]
    public void LossDb_is_the_approximation_within_0_13_dB_of_the_integral(double v, double exact, double approximate)
    {
        Assert.Equal(approximate, KnifeEdge.LossDb(v), 0.001);
        Assert.Equal(exact, ByIntegral(v), 0.001);
        Assert.Equal(ByIntegral(v), KnifeEdge.LossDb(v), 0.13);
    }

    [Fact]
    public void LossDb_below_the_line_is_nothing_and_the_step_there_is_under_0_01_dB()
    {
        Assert.Equal(0, KnifeEdge.LossDb(-0.78));
        Assert.Equal(0, KnifeEdge.LossDb(-5));
        Assert.InRange(KnifeEdge.LossDb(-0.779999), 0, 0.01); // 0.004 dB, docs/checks.md 2.5
        Gen
            .Select(Gen.Double[-2, 20], Gen.Double[0, 5])
            .Sample(static (v, more) => Assert.True(KnifeEdge.LossDb(v + more) >= KnifeEdge.LossDb(v)));
    }

    /// <summary>
    /// Source: docs/checks.md 2.5, computed; the Fresnel radius there also by P.526-8 eq. (3), seen, with the rounded constant 550 (71.97
    /// m).
    /// </summary>
    [Fact]
    public void Parameter_and_Fresnel_radius_of_the_worked_path()
    {
        double v = KnifeEdge.Parameter(20, 5000, 5000, 146e6);
        Assert.Equal(0.39477, v, 0.00001);
        Assert.Equal(9.425, KnifeEdge.LossDb(v), 0.001);
        double radius = KnifeEdge.FirstFresnelRadiusM(5000, 5000, 146e6);
        Assert.Equal(71.65, radius, 0.01);
        Assert.Equal(71.97, radius, 0.35);

        // v = sqrt 2 at the edge of the first zone, by both definitions.
        Assert.Equal(Math.Sqrt(2), KnifeEdge.Parameter(radius, 5000, 5000, 146e6), 1e-9);
    }

    [Fact]
    public void Predict_adds_the_edge_to_free_space()
    {
        PathResult result = KnifeEdge.Over(20, 5000).Predict(new PathGeometry { FrequencyHz = 146e6, DistanceM = 10_000 });
        Assert.Equal(FreeSpace.LossDb(10_000, 146e6) + 9.425, result.BasicLossDb!.Value, 0.001);
        PathBasis.OverOneEdge basis = Assert.IsType<PathBasis.OverOneEdge>(result.Basis);
        Assert.Equal(10_000, basis.DistanceM);
        Assert.Equal(9.42, basis.EdgeLossDb, 0.01);
        Assert.Equal(0.39477, basis.V, 1e-5);
    }

    [Theory]
    [InlineData(10_000)]
    [InlineData(12_000)]
    [InlineData(1)]
    public void Predict_with_the_obstacle_not_between_is_refused(double from) => Assert.StartsWith(
        "the obstacle does not stand between the antennas",
        KnifeEdge.Over(20, from).Predict(new PathGeometry { FrequencyHz = 146e6, DistanceM = 10_000 }).Refused,
        StringComparison.Ordinal);

    /// <summary>Independent: diffraction at a half plane by the Fresnel integrals, by Simpson's rule.</summary>
    private static double ByIntegral(double v)
    {
        const int steps = 40_000;
        double c = 0;
        double s = 0;
        double h = v / steps;
        for (int i = 0; i <= steps; i++)
        {
            double weight = i is 0 or steps ? 1 : i % 2 == 1 ? 4 : 2;
            double t = i * h;
            (double sin, double cos) = Math.SinCos(Math.PI / 2 * t * t);
            c += weight * cos;
            s += weight * sin;
        }

        c *= h / 3;
        s *= h / 3;
        return -20 * Math.Log10(Math.Sqrt((1 - c - s) * (1 - c - s) + (c - s) * (c - s)) / 2);
    }
}
