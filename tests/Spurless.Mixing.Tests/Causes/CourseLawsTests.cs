using CsCheck;
using Spurless.Mixing.Causes;

namespace Spurless.Mixing.Tests.Causes;

/// <summary>
/// Courses over frequency and offset: between their points by hand, integrals against plain sums, and in what order they are given.
/// </summary>
public sealed class CourseLawsTests
{
    private static readonly Gen<FrequencyResponsePoint[]> _courses = Gen.Select(Gen.Long[1_000, 1_000_000_000],
        Gen.Double[0.1, 120]).Array[1, 7]
        .Select(static p => p.DistinctBy(static x => x.Item1).Select(static x => new FrequencyResponsePoint(x.Item1, x.Item2)).ToArray());

    // Straight in dB over the logarithm, the end values held: from the two points round it.
    private static double Plain(FrequencyResponsePoint[] points, double at)
    {
        FrequencyResponsePoint[] p = [.. points.OrderBy(static x => x.FrequencyHz)];
        if (at <= p[0].FrequencyHz || at >= p[^1].FrequencyHz)
        {
            return at <= p[0].FrequencyHz ? p[0].Db : p[^1].Db;
        }

        int i = Array.FindIndex(p, x => x.FrequencyHz > at);
        double part = Math.Log10(at / p[i - 1].FrequencyHz) / Math.Log10((double)p[i].FrequencyHz / p[i - 1].FrequencyHz);
        return p[i - 1].Db + (part * (p[i].Db - p[i - 1].Db));
    }

    [Fact]
    public void Responses_and_selectivities_run_straight_between_their_points() =>
        Gen.Select(_courses, Gen.Long[500, 2_000_000_000]).Sample(
        static (points, at) =>
        {
            double expected = Plain(points, at);
            Assert.Equal(expected, FrequencyResponse.FromPoints(points).At(at), 1e-9);
            Assert.Equal(expected, AdjacentSelectivity.FromPoints(points).AtDb(at), 1e-9);
            Assert.Equal(expected, AdjacentSelectivity.FromPoints(points).AtDb(-at), 1e-9);
            Array.Reverse(points);
            Assert.Equal(expected, FrequencyResponse.FromPoints(points).At(at), 1e-9);
            Assert.All(points, p => Assert.Equal(p.Db, FrequencyResponse.FromPoints(points).At(p.FrequencyHz), 1e-9));

            // What lies within the points is known; beyond them it is held from the end, and said where that is far.
            long? held = FrequencyResponse.FromPoints(points).HeldFromHz(at);
            (long first, long last) = (points.Min(static p => p.FrequencyHz), points.Max(static p => p.FrequencyHz));
            Assert.True(held is null || held == (at < first ? first : last));
            Assert.Equal(at < first * 0.97 || at > last * 1.03, held is not null);
        });

    private static readonly Gen<SidebandNoise> _noises = Gen.Select(Gen.Double[3, 8], Gen.Double[-170, -70]).Array[1, 6].Select(static p =>
        SidebandNoise.FromPoints([.. p.DistinctBy(static x => x.Item1).Select(static x =>
            new NoisePoint(Math.Pow(10, x.Item1), x.Item2))]));

    /// <summary>The power in a band is the sum over thin slices; two halves of a band are the band; the other side is the same.</summary>
    [Fact]
    public void IntegratedDbc_is_the_sum_of_its_slices() => Gen.Select(_noises, Gen.Double[-2e6, 2e6], Gen.Double[1e3, 3e4]).Sample(
        static (noise, offset, width) =>
        {
            double sum = 0;
            const int slices = 4_000;
            for (int i = 0; i < slices; i++)
            {
                double at = offset - (width / 2) + (width * (i + 0.5) / slices);
                sum += Math.Pow(10, noise.DensityDbcPerHz(Math.Max(Math.Abs(at), 1e-3)) / 10) * width / slices;
            }

            double whole = noise.IntegratedDbc(offset, width);
            Assert.Equal(10 * Math.Log10(sum), whole, 0.02);
            Assert.Equal(whole, noise.IntegratedDbc(-offset, width), 1e-9);
            double left = noise.IntegratedDbc(offset - (width / 4), width / 2),
                right = noise.IntegratedDbc(offset + (width / 4), width / 2);
            Assert.Equal(whole, 10 * Math.Log10(Math.Pow(10, left / 10) + Math.Pow(10, right / 10)), 1e-6);
            Assert.True(noise.AtMostDbc(offset, width) >= whole - 1e-9);
        });

    /// <summary>
    /// The convolution of two flat spectra is a triangle: tiles side by side share it out whole, and one of them is its area.
    /// </summary>
    [Fact]
    public void TriangleShare_of_tiles_is_one_in_all() => Gen.Select(Gen.Double[1e3, 50e3], Gen.Double[1e3, 50e3], Gen.Double[0, 1]).Sample(
        static (band, width, shift) =>
        {
            double all = 0;
            for (int i = -200; i <= 200; i++)
            {
                all += CrossModulation.TriangleShare((i + shift) * band, band, width);
            }

            Assert.Equal(1, all, 1e-9);
            double area = 0, offset = shift * width;
            const int slices = 2_000;
            for (int i = 0; i < slices; i++)
            {
                double at = (offset - (band / 2) + (band * (i + 0.5) / slices)) / width;
                area += Math.Max(0, 1 - Math.Abs(at)) * band / slices / width;
            }

            Assert.Equal(area, CrossModulation.TriangleShare(offset, band, width), 1e-3);
            Assert.Equal(CrossModulation.TriangleShare(offset, band, width), CrossModulation.TriangleShare(-offset, band, width), 1e-12);
        });

    /// <summary>Of an order that is not stated the next lower stated one counts, and that is said; below all of them the lowest.</summary>
    [Fact]
    public void Turn_round_loss_of_an_order_is_that_of_the_nearest_lower_one() =>
        Gen.Select(Gen.Int[2, 9], Gen.Double[0, 40]).Array[1, 5].Sample(static drawn =>
        {
            TurnRoundPoint[] points = [.. drawn.DistinctBy(static p => p.Item1).Select(static p => new TurnRoundPoint(p.Item1, p.Item2))];
            TurnRoundLoss loss = TurnRoundLoss.ByOrder(points);
            for (int order = 2; order <= 9; order++)
            {
                TurnRoundPoint[] lower = [.. points.Where(p => p.Order <= order)];
                TurnRoundPoint expected = lower.Length > 0 ? lower.MaxBy(static p => p.Order) : points.MinBy(static p => p.Order);
                Assert.Equal(expected.LossDb, loss.At(order));
                Assert.Equal(expected.Order != order, loss.AssumedAt(order) is not null);
                Assert.Equal(expected.Order == order ? 3 : 5, loss.SigmaDb(order));
            }
        });

    /// <summary>
    /// Isolation that a duplexer needs, and what it is needed for: with just that much the cause stands the margin under the noise.
    /// </summary>
    [Fact]
    public void ForProduct_is_the_carrier_that_brings_it_under_the_margin() =>
        Gen.Select(Gen.Int[1, 5], Gen.Double[-60, 30], Gen.Double[-20, 60]).Sample(static (times, carrier, over) =>
        {
            OwnCarrierLimit limit = OwnTransmitter.ForProduct("p", -times, carrier, over);
            Assert.Equal(-OwnTransmitter.MarginDb, over + (times * (limit.CarrierDbm - carrier)), 1e-9);
        });
}
