using CsCheck;
using Spurless.Radio.Noise;

namespace Spurless.Radio.Tests.Noise;

public sealed class ReceiverNoiseTests
{
    /// <summary>Defaults fixed by the project's physics page, section 1 (common practice).</summary>
    [Theory]
    [InlineData(6_250, 7.5, 3_875)]
    [InlineData(12_500, 7.5, 8_000)]
    [InlineData(20_000, 5.5, 12_600)]
    [InlineData(25_000, 5.5, 12_600)]
    [InlineData(50_000, 5.5, 31_000)]
    [InlineData(1, 7.5, 1)]
    public void Defaults_follow_the_raster(long channel, double carrierToNoise, long bandwidth)
    {
        Assert.Equal(carrierToNoise, ReceiverNoise.DefaultCarrierToNoiseDb(channel));
        Assert.Equal(bandwidth, ReceiverNoise.DefaultBandwidthHz(channel));
    }

    [Fact]
    public void DefaultBandwidthHz_of_no_raster_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ReceiverNoise.DefaultBandwidthHz(0));

    /// <summary>
    /// Source: docs/checks.md 1.6, computed: 12 dB SINAD at -119 dBm with a noise figure of 6 dB in 12 kHz is a C/N of 8.18 dB.
    /// </summary>
    [Fact]
    public void FromSensitivity_and_back_is_the_noise_figure()
    {
        ReceiverNoise noise = ReceiverNoise.FromSensitivity(-119, 8.18, 12_000);
        Assert.Equal(6, noise.NoiseFigureDb, 0.006);
        Assert.Equal(-127.18, noise.NoiseDbm, 1e-9);
        Assert.Equal(-119, ReceiverNoise.SensitivityDbm(noise.NoiseDbm, 8.18), 1e-9);
        Assert.Equal((-119.0, 8.18, true), (noise.FromSensitivityDbm, noise.CarrierToNoiseDb, noise.IsPossible));
    }

    [Fact]
    public void FromSensitivity_better_than_thermal_noise_is_marked()
    {
        ReceiverNoise noise = ReceiverNoise.FromSensitivity(-130, 7.5, 8_000);
        Assert.True(noise.NoiseFigureDb < 0);
        Assert.False(noise.IsPossible);
    }

    [Fact]
    public void FromNoiseFigure_assumes_nothing()
    {
        ReceiverNoise noise = ReceiverNoise.FromNoiseFigure(6, 8_000);
        Assert.Equal(-128.94, noise.NoiseDbm, 0.006); // docs/checks.md 9
        Assert.Equal((null, null, true), (noise.FromSensitivityDbm, noise.CarrierToNoiseDb, noise.IsPossible));
        Assert.Equal(noise.NoiseDbm, noise.WithExternalDbm(null, -3, 8_000));
    }

    /// <summary>
    /// Second derivation, in watts: P = k T0 B (F + fa / L). At 146 MHz in a city (fa 16.85 dB by ITU-R P.372) behind 3 dB of loss.
    /// </summary>
    [Fact]
    public void WithExternalDbm_loses_the_antennas_noise_in_the_chain()
    {
        double watts = 1.380649e-23 * 290 * 8_000 * (Math.Pow(10, 0.6) + Math.Pow(10, 1.685) / Math.Pow(10, 0.3));
        Assert.Equal(10 * Math.Log10(watts) + 30, ReceiverNoise.FromNoiseFigure(6, 8_000).WithExternalDbm(16.85, -3, 8_000), 1e-9);
    }

    /// <summary>
    /// What an attenuator costs: with strong external noise the signal to noise ratio hardly falls, without any it falls dB for dB.
    /// </summary>
    [Fact]
    public void WithExternalDbm_decides_what_an_attenuator_costs()
    {
        ReceiverNoise own = ReceiverNoise.FromNoiseFigure(3, 8_000);
        double Lost(double? external) => own.WithExternalDbm(external, -6, 8_000) + 6 - own.WithExternalDbm(external, 0, 8_000);
        Assert.Equal(6, Lost(null), 1e-9);
        Assert.InRange(Lost(30), 0, 0.1);
        Gen.Double[-10, 40].Sample(external => Assert.InRange(Lost(external), 0, 6));
    }
}
