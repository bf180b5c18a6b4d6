using CsCheck;
using Spurless.Radio.Paths;
using Spurless.Radio.Terrain;

namespace Spurless.Radio.Tests.Terrain;

/// <summary>What is taken from a profile, against plain geometry and the definitions.</summary>
public sealed class ProfileAnalysisTests
{
    private const double RadiusKm = 8_500;

    private static readonly Gen<(double[] Heights, double Km, double Ht, double Hr)> _paths =
        Gen.Select(Gen.Double[0, 500].Array[12, 60], Gen.Double[2, 150], Gen.Double[2, 200], Gen.Double[2, 200]);

    private static TerrainProfile Profile(double[] h, double km) =>
        Shapes.Even(km * 1000, h.Length, d => h[(int)Math.Round(d / (km * 1000) * (h.Length - 1))]);

    private static PathAnalysis Analyse(TerrainProfile profile, double ht, double hr) => PathAnalysis.Of(
        profile, Shapes.Usual with { TransmitterHeightM = ht, ReceiverHeightM = hr }, RadiusKm);

    /// <summary>
    /// The smooth earth is the line with the least square of its distance to the ground, that ground taken straight between its points:
    /// found here by the normal equations over 40 places in each step.
    /// </summary>
    [Fact]
    public void Fit_is_the_line_of_least_squares_through_the_ground() => _paths.Sample(static (heights, km, ht, hr) =>
    {
        double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
        for (int i = 0; i + 1 < heights.Length; i++)
        {
            for (int k = 0; k < 40; k++)
            {
                double part = (k + 0.5) / 40, x = (i + part) / (heights.Length - 1),
                    y = heights[i] + ((heights[i + 1] - heights[i]) * part);
                n++;
                sx += x;
                sy += y;
                sxx += x * x;
                sxy += x * y;
            }
        }

        double slope = ((n * sxy) - (sx * sy)) / ((n * sxx) - (sx * sx)), start = (sy - (slope * sx)) / n;
        PathAnalysis path = Analyse(Profile(heights, km), ht, hr);
        Assert.Equal(start, path.FittedTransmitterM, 0.5);
        Assert.Equal(start + slope, path.FittedReceiverM, 0.5);
        Assert.Equal(Math.Min(path.FittedTransmitterM, heights[0]), path.SmoothTransmitterM, 1e-9);
        Assert.Equal(Math.Min(path.FittedReceiverM, heights[^1]), path.SmoothReceiverM, 1e-9);
    }, iter: 50);

    /// <summary>Over a plane the fit is the plane and nothing is rough.</summary>
    [Fact]
    public void Fit_of_a_slope_is_the_slope() => Gen.Select(Gen.Double[0, 400], Gen.Double[0, 400], Gen.Double[2, 100]).Sample(
        static (first, last, km) =>
        {
            PathAnalysis path = Analyse(Shapes.Even(km * 1000, 51, d => first + ((last - first) * d / (km * 1000))), 30, 10);
            Assert.Equal(first, path.FittedTransmitterM, 1e-6);
            Assert.Equal(last, path.FittedReceiverM, 1e-6);
            Assert.Equal(0, path.RoughnessM, 1e-6);
            Assert.Equal(30, path.EffectiveTransmitterM, 1e-6);
            Assert.Equal(10, path.EffectiveReceiverM, 1e-6);
        });

    /// <summary>
    /// The horizon by circles and straight lines in the plane: of all points the one that stands highest to the eye. Elevations are
    /// compared with the model's, which takes the earth's bulge as a parabola: 0.02 mrad and two parts in ten thousand, and the same point.
    /// </summary>
    [Fact]
    public void Horizon_is_the_point_that_stands_highest_to_the_eye() => _paths.Sample(static (heights, km, ht, hr) =>
    {
        TerrainProfile profile = Profile(heights, km);
        PathAnalysis path = Analyse(profile, ht, hr);
        double[] d = profile.DistanceKm.ToArray();
        double[] up = [.. Enumerable.Range(1, heights.Length - 2).Select(i => Elevation(heights[0] + ht, heights[i], d[i]))];
        double[] back = [.. Enumerable.Range(1, heights.Length - 2).Select(i => Elevation(heights[^1] + hr, heights[i], km - d[i]))];
        double direct = Elevation(heights[0] + ht, heights[^1] + hr, km);
        if (Math.Abs(up.Max() - direct) < 0.05)
        {
            return;
        }

        Assert.Equal(up.Max() > direct, path.BeyondHorizon);
        if (path.BeyondHorizon)
        {
            double near = 0.02 + (2e-4 * (Math.Abs(up.Max()) + Math.Abs(back.Max())));
            Assert.Equal(up.Max(), path.TransmitterElevationMrad, near);
            Assert.Equal(back.Max(), path.ReceiverElevationMrad, near);
            Assert.Equal(up.Max(), up[Array.FindIndex(d, x => Math.Abs(x - path.TransmitterHorizonKm) < 1e-9) - 1], near);

            // The angle at which both rays cross: along the earth, plus both elevations.
            Assert.Equal((km / RadiusKm * 1000) + up.Max() + back.Max(), path.AngularDistanceMrad, 2 * near);
            Assert.True(path.AngularDistanceMrad > 0);
        }
    });

    private static double Elevation(double eyeM, double topM, double km)
    {
        double angle = km / RadiusKm, r1 = RadiusKm + (eyeM / 1000), r2 = RadiusKm + (topM / 1000);
        double x = r2 * Math.Sin(angle), y = (r2 * Math.Cos(angle)) - r1;
        return 1000 * Math.Atan2(y, x);
    }

    /// <summary>Seen from the other end everything changes sides, and nothing else.</summary>
    [Fact]
    public void Of_the_path_turned_round_has_its_ends_exchanged() => _paths.Sample(static (heights, km, ht, hr) =>
    {
        TerrainProfile profile = Profile(heights, km);
        PathAnalysis there = Analyse(profile, ht, hr), back = Analyse(profile.Reversed(), hr, ht);
        Assert.Equal(there.BeyondHorizon, back.BeyondHorizon);
        Assert.Equal(there.TransmitterElevationMrad, back.ReceiverElevationMrad, 1e-9);
        Assert.Equal(there.AngularDistanceMrad, back.AngularDistanceMrad, 1e-9);
        Assert.Equal(there.FittedTransmitterM, back.FittedReceiverM, 1e-6);
        Assert.Equal(there.DiffractionTransmitterM, back.DiffractionReceiverM, 1e-6);
        Assert.Equal(there.EffectiveReceiverM, back.EffectiveTransmitterM, 1e-6);
        Assert.Equal(there.RoughnessM, back.RoughnessM, 1e-6);
    });

    /// <summary>The whole path lifted: heights over the sea rise with it, heights over the ground and all angles stay.</summary>
    [Fact]
    public void Of_the_path_lifted_keeps_all_that_is_over_the_ground() =>
        Gen.Select(_paths, Gen.Double[1, 2_000]).Sample(static (way, lift) =>
    {
        PathAnalysis low = Analyse(Profile(way.Heights, way.Km), way.Ht, way.Hr);
        PathAnalysis high = Analyse(Profile([.. way.Heights.Select(h => h + lift)], way.Km), way.Ht, way.Hr);
        Assert.Equal(low.TransmitterM + lift, high.TransmitterM, 1e-9);
        Assert.Equal(low.FittedReceiverM + lift, high.FittedReceiverM, 1e-6);
        Assert.Equal(low.AngularDistanceMrad, high.AngularDistanceMrad, 1e-9);
        Assert.Equal(low.RoughnessM, high.RoughnessM, 1e-6);
        Assert.Equal(low.DiffractionHeightTransmitterM, high.DiffractionHeightTransmitterM, 1e-6);
        Assert.Equal(low.DiffractionHeightReceiverM, high.DiffractionHeightReceiverM, 1e-6);
    });

    /// <summary>The obstacle that is named is the point with the greatest v, each by P.526's formula for itself.</summary>
    [Fact]
    public void SightLine_names_the_point_with_the_greatest_parameter() => _paths.Sample(static (heights, km, ht, hr) =>
    {
        TerrainProfile profile = Profile(heights, km);
        SightLine sight = SightLine.Of(profile, ht, hr, 145e6, RadiusKm);
        double greatest = double.NegativeInfinity;
        for (int i = 1; i + 1 < heights.Length; i++)
        {
            double a = profile.DistanceKm[i] * 1000, b = (km * 1000) - a;
            double bulge = a * b / (2 * RadiusKm * 1000);
            double line = (((heights[0] + ht) * b) + ((heights[^1] + hr) * a)) / (a + b);
            greatest = Math.Max(greatest, KnifeEdge.Parameter(heights[i] + bulge - line, a, b, 145e6));
        }

        Assert.Equal(greatest, sight.Worst.V, 1e-6 * (1 + Math.Abs(greatest)));
        Assert.Equal(greatest <= 0, sight.IsClear);

        // v and the Fresnel zone are one thing: v = sqrt 2 times the height in radii.
        Assert.Equal(-sight.Worst.V / Math.Sqrt(2), sight.Worst.ClearanceInRadii, 1e-6 * (1 + Math.Abs(greatest)));
        Assert.InRange(sight.Edges.Count, greatest > -0.78 ? 1 : 0, 3);
        Assert.True(sight.EdgesLossDb >= sight.Worst.EdgeLossDb - 1e-9);
    });

    /// <summary>Twice the frequency: zones narrower by sqrt 2, the parameter sqrt 2 times as great, at the same point.</summary>
    [Fact]
    public void SightLine_at_twice_the_frequency_has_sqrt_2_times_the_parameter() => _paths.Sample(static (heights, km, ht, hr) =>
    {
        SightLine low = SightLine.Of(Profile(heights, km), ht, hr, 145e6, RadiusKm),
            high = SightLine.Of(Profile(heights, km), ht, hr, 290e6, RadiusKm);
        Assert.Equal(low.Worst.Index, high.Worst.Index);
        Assert.Equal(low.Worst.V * Math.Sqrt(2), high.Worst.V, 1e-9 * (1 + Math.Abs(low.Worst.V)));
        Assert.Equal(low.Worst.FresnelRadiusM / Math.Sqrt(2), high.Worst.FresnelRadiusM, 1e-9);
        Assert.Equal(low.IsClear, high.IsClear);
    });
}
