using System.Numerics;
using Spurless.Mixing.Forecast;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;
using Spurless.Numerics;

namespace Spurless.Mixing.Tests.Forecast;

public class SpectralForecastTests
{
    private const long Raster = 12_500;

    // On the raster: 5 carriers, 9 emitters per product allowed, so 'any number'.
    private static readonly long[] Carriers = [11, 13, 13, 20, 37];
    private static readonly double[] Levels = [-30, -20, -45, -33, -27];

    // Oracle: the plain search listing every product of every bin.
    [Theory]
    [InlineData(5)]
    [InlineData(8)]
    public void Count_of_every_bin_is_that_of_the_list(int maxOrder)
    {
        SpectralForecast forecast = SpectralForecast.Count([.. Carriers.Select(static c => c * Raster)], Raster, maxOrder);
        Dictionary<(int Order, long Bin), double> listed = List(maxOrder, static _ => 1);
        double fullest = listed.Values.Max();
        for (int n = 2; n <= maxOrder; n++)
        {
            for (long bin = 1; bin <= maxOrder * 37; bin++)
            {
                Assert.Equal(listed.GetValueOrDefault((n, bin)), forecast.At(n, bin * Raster), 1e-11 * fullest);
            }

            Assert.Equal(0, forecast.At(n, (maxOrder * 37 * Raster) + Raster));
        }
    }

    [Fact]
    public void Power_of_every_bin_is_the_sum_of_the_list()
    {
        const int MaxOrder = 7;
        Intercepts intercepts = Intercepts.Complete(-7);
        SpectralForecast forecast = SpectralForecast.Power(
            [.. Carriers.Select(static c => c * Raster)], Levels, intercepts, Raster, MaxOrder);
        Dictionary<(int Order, long Bin), double> listed = List(
            MaxOrder, static p => Math.Pow(10, MicroDb.ToDecibels(p.LevelMicroDbm) / 10), intercepts);
        for (int n = 2; n <= MaxOrder; n++)
        {
            // The strongest bin may be that of 0 Hz, which is no product but limits the floor as any other.
            double strongest = Math.Max(forecast.At(n, 0), listed.Where(l => l.Key.Order == n).Max(static l => l.Value));
            for (long bin = 1; bin <= MaxOrder * 37; bin++)
            {
                double expected = listed.GetValueOrDefault((n, bin));
                // To the rounding of micro-dB in the list, and a floor 100 dB under the strongest bin (107 dB here).
                Assert.True(
                    Math.Abs(expected - forecast.At(n, bin * Raster)) <= (1e-5 * expected) + (1e-10 * strongest),
                    $"order {n}, bin {bin}: {forecast.At(n, bin * Raster)}, listed {expected}, strongest {strongest}");
            }
        }
    }

    [Fact]
    public void Within_takes_bins_in_part()
    {
        SpectralForecast forecast = SpectralForecast.Count([10 * Raster, 13 * Raster], Raster, 3);
        // 2 x 13 - 10 = 16: alone there.
        Assert.Equal(1, forecast.Within(3, 16 * Raster, Raster / 2.0), 1e-9);
        Assert.Equal(0.5, forecast.Within(3, 16 * Raster, Raster / 4.0), 1e-9);
        Assert.Equal(1, forecast.Within(3, 15 * Raster, 1.5 * Raster), 1e-9);
        Assert.Equal(0.5, forecast.Within(3, 15 * Raster, Raster), 1e-9);
    }

    [Fact]
    public void Count_on_too_fine_a_raster_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SpectralForecast.Count([1_000_000_000], 1, 9));

    // Oracle: the FFT of a general numerics library.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(64)]
    [InlineData(32_768)]
    public void Transform_is_that_of_a_numerics_library(int length)
    {
        Random random = new(3);
        Complex[] data = [.. Enumerable.Range(0, length).Select(_ => new Complex(random.NextDouble() - 0.5, random.NextDouble() - 0.5))];
        Complex[] expected = [.. data];
        MathNet.Numerics.IntegralTransforms.Fourier.Forward(expected, MathNet.Numerics.IntegralTransforms.FourierOptions.AsymmetricScaling);
        Fourier.Transform(data);
        double scale = expected.Max(static c => c.Magnitude);
        Assert.All(data.Zip(expected), pair => Assert.True((pair.First - pair.Second).Magnitude < 1e-13 * scale));
    }

    private static Dictionary<(int Order, long Bin), double> List(
        int maxOrder, Func<ProductRecord, double> value, Intercepts? intercepts = null)
    {
        intercepts ??= Intercepts.Complete(0);
        SearchProblem problem = new()
        {
            Emitters = [.. Carriers.Select(static c => new SearchEmitter(c * Raster, 0))],
            Receivers = [.. Enumerable.Range(1, maxOrder * 37).Select(bin => new SearchReceiver
            {
                FrequencyHz = bin * Raster,
                ChannelHz = 1,
                Stages =
                [
                    new SearchStage
                    {
                        LevelMicroDbm = [.. Levels.Select(MicroDb.FromDecibels)],
                        InterceptMicroDbm = [0, 0, .. Enumerable.Range(2, 8).Select(intercepts.MicroDbm)],
                    },
                ],
            })],
            MaxOrder = maxOrder,
            MaxSignals = 9,
        };
        ProductList list = new();
        new PlainSearch().Run(problem, list);
        return list.Products.GroupBy(p => (p.Order, p.FrequencyHz(problem) / Raster)).ToDictionary(static g => g.Key, g => g.Sum(value));
    }
}
