using CsCheck;
using Spurless.Radio.Terrain;

namespace Spurless.Radio.Tests.Terrain;

/// <summary>Laws of the path-specific model and its parts that hold whatever the ground is (ITU-R P.1812).</summary>
public sealed class TerrainLawsTests
{
    private static readonly Gen<TerrainProfile> _profiles = Gen.Select(
        Gen.Double[0, 300].Array[12, 40], Gen.Double[1, 300], Gen.Int[0, 2]).Select(static (h, km, zone) => Shapes.Even(
            km * 1000, h.Length, d => h[(int)Math.Round(d / (km * 1000) * (h.Length - 1))], (RadioZone)zone));

    private static readonly Gen<TerrainConditions> _conditions = Gen.Select(
        Gen.Double[30e6, 3e9], Gen.Double[2, 200], Gen.Double[2, 200], Gen.Double[-70, 70]).Select(static (hz, ht, hr, latitude) =>
            Shapes.Usual with { FrequencyHz = hz, TransmitterHeightM = ht, ReceiverHeightM = hr, LatitudeDegrees = latitude });

    /// <summary>What is exceeded for a smaller share of time is a stronger field, never a weaker one.</summary>
    [Fact]
    public void Predict_for_a_smaller_share_of_time_loses_no_more() =>
        Gen.Select(_profiles, _conditions).Sample(static (profile, conditions) =>
    {
        double last = double.NegativeInfinity;
        foreach (double percent in new[] { 1, 2, 5, 10, 20, 35, 50.0 })
        {
            double loss = Shapes.LossDb(profile, conditions with { TimePercent = percent });
            Assert.True(loss >= last - 1e-6, $"{loss} at {percent} % after {last}");
            last = loss;
        }
    });

    /// <summary>
    /// Places: a normal distribution about the median, so that p and 100 - p lie evenly about it, and 1 % and 99 % 2.326 standard
    /// deviations away (table of the normal distribution), where free space does not cut it off.
    /// </summary>
    [Fact]
    public void Predict_for_a_share_of_places_is_normal_about_the_median() =>
        Gen.Select(_profiles, _conditions, Gen.Double[1, 49]).Sample(static (profile, conditions, percent) =>
        {
            TerrainLoss median = PathSpecificModel.Predict(profile, conditions);
            double better = Shapes.LossDb(profile, conditions with { LocationPercent = percent });
            double worse = Shapes.LossDb(profile, conditions with { LocationPercent = 100 - percent });
            Assert.True(better <= median.BasicLossDb + 1e-3 && worse >= median.BasicLossDb - 1e-3);
            double free = median.Steps!.FreeSpaceForTimeDb;
            if (better > free + 1e-6)
            {
                Assert.Equal(2 * median.BasicLossDb, better + worse, 1e-6);
                double sigma = LocationVariability.SigmaDb(conditions.FrequencyHz, conditions.AreaM, conditions.ReceiverHeightM, 0);
                double extreme = Shapes.LossDb(profile, conditions with { LocationPercent = 99 });
                Assert.Equal(2.326 * sigma, extreme - median.BasicLossDb, (0.002 * sigma) + 1e-6);
            }
        });

    /// <summary>
    /// A more refracting atmosphere flattens the earth: the diffraction loss of the median does not grow with the gradient.
    /// </summary>
    [Fact]
    public void Median_radius_grows_with_the_gradient() => Gen.Select(_profiles, _conditions, Gen.Double[20, 60]).Sample(
        static (profile, conditions, gradient) =>
        {
            TerrainLoss less = PathSpecificModel.Predict(profile, conditions with { Gradient = gradient });
            TerrainLoss more = PathSpecificModel.Predict(profile, conditions with { Gradient = gradient + 20 });

            // k = 157/(157 - dN): 4/3 at 39 N/km (textbook).
            Assert.Equal(6371 * 157 / (157 - gradient), less.MedianRadiusKm, 1);
            Assert.True(more.MedianRadiusKm > less.MedianRadiusKm);
        });

    /// <summary>
    /// Fixed points of the table of the normal distribution; the printed approximation is good to 4.5e-4 (Abramowitz and Stegun 26.2.23).
    /// </summary>
    [Theory]
    [InlineData(0.5, 0)]
    [InlineData(0.1, 1.281552)]
    [InlineData(0.05, 1.644854)]
    [InlineData(0.025, 1.959964)]
    [InlineData(0.01, 2.326348)]
    [InlineData(0.001, 3.090232)]
    [InlineData(0.0001, 3.719016)]
    public void NormalQuantile_is_the_table_s(double share, double deviations)
    {
        Assert.Equal(deviations, NormalQuantile.Exceeded(share), 5.4e-4);
        Assert.Equal(-deviations, NormalQuantile.Exceeded(1 - share), 5.4e-4);
    }

    private static readonly Gen<(double Km, double Ht, double Hr, double Ghz)> _spheres =
        Gen.Select(Gen.Double[5, 200], Gen.Double[3, 300], Gen.Double[3, 300], Gen.Double[0.03, 3]);

    /// <summary>A sphere has two like ends, and more of it stands further in the way.</summary>
    [Fact]
    public void SphericalEarth_is_the_same_from_both_ends_and_loses_more_further_away() => _spheres.Sample(static (km, ht, hr, ghz) =>
    {
        double Loss(double at, double one, double other) => SphericalEarth.LossDb(at, one, other, 8_500, ghz, 0, Polarisation.Horizontal);
        Assert.Equal(Loss(km, ht, hr), Loss(km, hr, ht), 1e-6);
        Assert.True(Loss(km, ht, hr) >= 0);
        double horizon = Math.Sqrt(2 * 8_500 * ht / 1000) + Math.Sqrt(2 * 8_500 * hr / 1000);
        double beyond = horizon * 1.3;
        Assert.True(Loss(beyond * 1.1, ht, hr) > Loss(beyond, ht, hr));
        Assert.True(Loss(beyond, ht, hr) > Loss(beyond, ht * 1.2, hr));
    });

    /// <summary>
    /// Sea and land mix by their shares; above 300 MHz over land the polarisation no longer tells (P.526 says so of beta).
    /// </summary>
    [Fact]
    public void SphericalEarth_mixes_sea_and_land_by_their_shares() => Gen.Select(_spheres, Gen.Double[0, 1]).Sample(static (path, sea) =>
    {
        double beyond = 1.2 * (Math.Sqrt(17 * path.Ht) + Math.Sqrt(17 * path.Hr));
        double Loss(double share, Polarisation p) => SphericalEarth.LossDb(beyond, path.Ht, path.Hr, 8_500, path.Ghz, share, p);
        double mixed = (sea * Loss(1, Polarisation.Vertical)) + ((1 - sea) * Loss(0, Polarisation.Vertical));
        Assert.Equal(mixed, Loss(sea, Polarisation.Vertical), 1e-9);
        if (path.Ghz > 0.3)
        {
            Assert.Equal(Loss(0, Polarisation.Horizontal), Loss(0, Polarisation.Vertical), 1.5);
        }
    });

    /// <summary>
    /// Eq. 44 term by term, as differences of two losses: distance, angle, refractivity, and nothing at half of the time.
    /// </summary>
    [Fact]
    public void Troposcatter_goes_by_its_terms() =>
        Gen.Select(Gen.Double[20, 900], Gen.Double[0.03, 6], Gen.Double[1, 80], Gen.Double[250, 400]).Sample(static (km, ghz, mrad, n) =>
        {
            double one = Troposcatter.LossDb(km, ghz, mrad, n, 50);
            Assert.Equal(20 * Math.Log10(2), Troposcatter.LossDb(2 * km, ghz, mrad, n, 50) - one, 1e-9);
            Assert.Equal(5.73, Troposcatter.LossDb(km, ghz, mrad + 10, n, 50) - one, 1e-9);
            Assert.Equal(-1.5, Troposcatter.LossDb(km, ghz, mrad, n + 10, 50) - one, 1e-9);
            Assert.Equal(-10.125 * Math.Pow(Math.Log10(5), 0.7), Troposcatter.LossDb(km, ghz, mrad, n, 10) - one, 1e-9);
        });

    /// <summary>
    /// A share of the ground's own error moves the prediction the more, the more of it there is; the three parts add in squares.
    /// </summary>
    [Fact]
    public void TerrainSigma_has_three_parts_that_add_in_squares() => Gen.Select(_profiles, _conditions, Gen.Double[0, 20]).Sample(
        static (profile, conditions, error) =>
        {
            TerrainSigma sigma = TerrainSigma.Of(profile, conditions, PathSpecificModel.Predict(profile, conditions), error);
            Assert.True(sigma is { LocationDb: >= 0, DataDb: >= 0, ModelDb: >= 3 and <= 8 });
            Assert.Equal(
                (sigma.LocationDb * sigma.LocationDb) + (sigma.DataDb * sigma.DataDb) + (sigma.ModelDb * sigma.ModelDb),
                sigma.TotalDb * sigma.TotalDb,
                1e-9);
        }, iter: 40);
}
