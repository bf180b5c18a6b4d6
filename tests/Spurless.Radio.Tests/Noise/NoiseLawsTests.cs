using CsCheck;
using Spurless.Radio.Noise;

namespace Spurless.Radio.Tests.Noise;

/// <summary>Noise of antennas and receivers: orders, slopes and sums that hold at every frequency and level.</summary>
public sealed class NoiseLawsTests
{
    private static readonly NoiseSurroundings[] _quietFirst =
        [NoiseSurroundings.QuietRural, NoiseSurroundings.Rural, NoiseSurroundings.Residential, NoiseSurroundings.City];

    /// <summary>
    /// A city is louder than a village at every frequency of ITU-R P.372's curves, and all fall with frequency as they are drawn.
    /// </summary>
    [Fact]
    public void OverKt0Db_rises_with_the_houses_and_falls_with_frequency() => Gen.Double[0.3e6, 250e6].Sample(static hertz =>
    {
        double last = double.NegativeInfinity;
        foreach (NoiseSurroundings surroundings in _quietFirst)
        {
            ExternalNoise noise = ExternalNoise.Of(surroundings);
            double here = noise.OverKt0Db(hertz)!.Value;
            Assert.True(here > last);
            last = here;

            // 27.7 dB a decade, and 28.6 dB in the quiet country (P.372, man-made noise, from memory).
            double slope = noise.OverKt0Db(10 * hertz)!.Value - here;
            Assert.Equal(surroundings == NoiseSurroundings.QuietRural ? -28.6 : -27.7, slope, 1e-9);
            Assert.False(noise.IsExtrapolatedAt(hertz));
            Assert.True(noise.IsExtrapolatedAt(hertz * 1_000));
            Assert.Equal(noise, ExternalNoise.Parse(noise.ToString()));
        }
    });

    [Fact]
    public void A_figure_that_is_given_counts_at_every_frequency() => Gen.Select(Gen.Double[-30, 60], Gen.Double[1e5, 3e9]).Sample(
        static (db, hertz) =>
        {
            ExternalNoise given = ExternalNoise.FromDecibels(db);
            Assert.Equal(db, given.OverKt0Db(hertz));
            Assert.False(given.IsExtrapolatedAt(hertz));
            Assert.Equal(given, ExternalNoise.Parse(given.ToString()));
        });

    /// <summary>
    /// With an antenna's noise: the sum of both powers, never under either; a pad of a dB takes a dB off the antenna's share alone, and an
    /// antenna at kT0 through no loss doubles what a receiver without noise of its own would have.
    /// </summary>
    [Fact]
    public void WithExternalDbm_adds_the_antennas_power() =>
        Gen.Select(Gen.Double[0, 15], Gen.Double[-20, 50], Gen.Double[-40, 30], Gen.Double[1e3, 1e6]).Sample(
            static (figure, external, gain, bandwidth) =>
            {
                ReceiverNoise receiver = ReceiverNoise.FromNoiseFigure(figure, bandwidth);
                double antenna = ThermalNoise.FloorDbm(bandwidth, external) + gain,
                    with = receiver.WithExternalDbm(external, gain, bandwidth);
                Assert.True(with >= Math.Max(receiver.NoiseDbm, antenna) - 1e-9);
                Assert.Equal(
                    Math.Pow(10, receiver.NoiseDbm / 10) + Math.Pow(10, antenna / 10), Math.Pow(10, with / 10),
                        1e-9 * Math.Pow(10, with / 10));
                double padded = receiver.WithExternalDbm(external, gain - 10, bandwidth);
                Assert.True(padded < with && padded >= with - 10 - 1e-9);
                Assert.Equal(with + 10, ReceiverNoise.FromNoiseFigure(figure, 10 * bandwidth).WithExternalDbm(external, gain,
                    10 * bandwidth), 1e-9);
            });

    /// <summary>
    /// A sensitivity and a carrier to noise ratio are a noise figure, and a noise figure is a sensitivity: there and back.
    /// </summary>
    [Fact]
    public void Sensitivity_and_noise_figure_go_into_each_other() =>
        Gen.Select(Gen.Double[0, 20], Gen.Double[3, 15], Gen.Double[1e3, 3e5]).Sample(static (figure, ratio, bandwidth) =>
        {
            ReceiverNoise one = ReceiverNoise.FromNoiseFigure(figure, bandwidth);
            ReceiverNoise back = ReceiverNoise.FromSensitivity(ReceiverNoise.SensitivityDbm(one.NoiseDbm, ratio), ratio, bandwidth);
            Assert.Equal(figure, back.NoiseFigureDb, 1e-9);
            Assert.Equal(one.NoiseDbm, back.NoiseDbm, 1e-9);
            Assert.Equal(figure >= 0, back.NoiseFigureDb >= -1e-9);
        });

    /// <summary>
    /// Of a raster that is not one of the usual the bandwidth is 62 % of it (common practice); a wider one never has less.
    /// </summary>
    [Fact]
    public void DefaultBandwidthHz_grows_with_the_raster() =>
        Gen.Select(Gen.Long[1, 200_000], Gen.Long[0, 50_000]).Sample(static (raster, more) =>
    {
        long one = ReceiverNoise.DefaultBandwidthHz(raster);
        Assert.InRange(one, 1, raster);
        Assert.True(raster < 10 || Math.Abs((one / (double)raster) - 0.62) < 0.06, $"{one} of {raster}");
        Assert.True(ReceiverNoise.DefaultCarrierToNoiseDb(raster + more) <= ReceiverNoise.DefaultCarrierToNoiseDb(raster));
    });
}
